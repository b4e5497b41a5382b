// The bench file: one instrument, one stay, as JSON that is written to be edited by hand (docs/bench-file.md).
#pragma once

#include <string>
#include <string_view>

#include "bench/evidence/bench.h"
#include "bench/evidence/catalogue.h"
#include "science/base/result.h"
#include "shop/files/json_text.h"

namespace fallaway::files {

// Reads and checks a bench file. Every fault is told, up to 50, each with its JSON pointer: first those of the
// form; when there are none, those of evidence::validate(). A file that is no JSON gives its one syntax fault.
// Kinds of claim and tool, checkpoints and scopes are those of `catalogue`.
ResultAll<evidence::Bench> decode_bench(std::string_view text, const evidence::Catalogue& catalogue);
ResultAll<evidence::Bench> decode_bench(std::string_view text);  // with built_in_catalogue()
// The same of a file already read.
ResultAll<evidence::Bench> decode_bench(const Json& file, const evidence::Catalogue& catalogue);

// The file of a bench. Typed texts come back unchanged, what was not stated stays out, keys stand in the order of
// the documentation: equal benches give equal bytes, and decode_bench(encode_bench(b)) is b.
std::string encode_bench(const evidence::Bench& bench);
Json bench_json(const evidence::Bench& bench);  // what encode_bench() writes

std::string bench_schema();         // JSON schema, draft 2020-12: schema/bench.schema.json
std::string bench_documentation();  // Markdown tables of every record: part of docs/bench-file.md

}  // namespace fallaway::files
