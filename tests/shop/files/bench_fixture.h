// Files of the tests, and the small catalogue that they are read with.
#pragma once

#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>

#include "bench/evidence/catalogue.h"
#include "shop/files/bench_codec.h"
#include "shop/files/catalogue_codec.h"

namespace fallaway::files {

inline std::string read_file(const std::string& below_root) {
    std::ifstream in(std::string(FALLAWAY_SOURCE_DIR) + "/" + below_root, std::ios::binary);
    if (!in) throw std::runtime_error("cannot read " + below_root);
    std::ostringstream out;
    out << in.rdbuf();
    return out.str();
}

inline std::string told(const std::vector<Error>& errors) {
    std::string out;
    for (const Error& error : errors) out += error.path + ": " + error.message + " [" + error.code + "]\n";
    return out;
}

template <class T>
T good(ResultAll<T> result) {
    if (!result) throw std::runtime_error(told(result.error()));
    return std::move(*result);
}

inline const evidence::Catalogue& test_catalogue() {
    static const evidence::Catalogue kCatalogue{
        good(decode_procedure(read_file("tests/catalogue/procedure.json"))),
        good(decode_claim_kinds(read_file("tests/catalogue/claims.json"))),
        good(decode_tool_kinds(read_file("tests/catalogue/tools.json")))};
    return kCatalogue;
}

inline const std::vector<std::string>& good_files() {
    static const std::vector<std::string> kNames{"minimal", "full",   "bass",         "fretless",
                                                 "fanned",  "twelve", "own_procedure"};
    return kNames;
}

inline evidence::Bench good_bench(const std::string& name) {
    return good(decode_bench(read_file("tests/good/" + name + ".json"), test_catalogue()));
}

}  // namespace fallaway::files
