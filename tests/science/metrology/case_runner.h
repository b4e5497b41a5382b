// Runs every case of a tier in tests/cases/*.json and says what is wrong with each.
#pragma once

#include <filesystem>

#include "case_functions.h"

namespace fallaway::cases {

struct CaseReport {
    std::string id;
    std::vector<std::string> faults;
};

// The complaint about one case; empty when it holds.
inline std::vector<std::string> faults_of(const Json& item) {
    static const std::set<std::string> known{"id",    "title",  "source",    "tier", "function",
                                             "given", "expect", "tolerance", "note"};
    std::vector<std::string> faults;
    for (const auto& [key, value] : item.items()) {
        if (!known.contains(key)) faults.push_back("unknown key \"" + key + "\" in the case");
    }
    for (const char* key : {"id", "source", "function", "given", "expect", "tolerance"}) {
        if (!item.contains(key)) faults.push_back(std::string("the case lacks \"") + key + "\"");
    }
    if (!faults.empty()) return faults;
    const auto function = functions().find(item["function"].get<std::string>());
    if (function == functions().end()) return {"unknown function " + item["function"].dump()};
    try {
        Given given(item["given"]);
        const Outputs outputs = function->second(given);
        given.complain_of_unread();
        return check_expectation(item["expect"], item["tolerance"], outputs);
    } catch (const std::exception& wrong) {
        return {wrong.what()};
    }
}

inline std::vector<CaseReport> run_cases(const std::filesystem::path& folder, const std::string& tier) {
    std::vector<std::filesystem::path> files;
    for (const auto& entry : std::filesystem::directory_iterator(folder)) {
        if (entry.path().extension() == ".json") files.push_back(entry.path());
    }
    std::sort(files.begin(), files.end());
    std::vector<CaseReport> reports;
    std::set<std::string> seen;
    for (const auto& file : files) {
        std::ifstream in(file);
        const Json document = Json::parse(in, nullptr, false);
        const std::string name = file.filename().string();
        if (document.is_discarded() || !document.contains("cases")) {
            reports.push_back({name, {"not JSON with a list \"cases\""}});
            continue;
        }
        for (const Json& item : document["cases"]) {
            const std::string id = name + ": " + item.value("id", "(no id)");
            const std::string of_tier = item.value("tier", "fast");
            if (of_tier != "fast" && of_tier != "full") reports.push_back({id, {"tier is \"fast\" or \"full\""}});
            if (!seen.insert(item.value("id", "")).second) reports.push_back({id, {"this id is used twice"}});
            if (of_tier == tier) reports.push_back({id, faults_of(item)});
        }
    }
    return reports;
}

}  // namespace fallaway::cases
