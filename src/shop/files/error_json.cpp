#include "shop/files/error_json.h"

#include "shop/files/api_tables.h"

namespace fallaway::files {
namespace {

using namespace wire;

Codec<Error> problem_codec() {
    return codec_of(
        Record<Error>("problem", "What was refused, or went wrong")
            .tells("code", "for programs: \"unit\", \"conflict\", ...", &Error::code, any_text())
            .tells("path", "JSON pointer into what was sent; \"\" for all of it", &Error::path, any_text())
            .tells("message", "for people: what stood there and what was expected", &Error::message, any_text()));
}

}  // namespace

Codec<std::vector<Error>> api::refusal_codec() {
    using E = std::vector<Error>;
    return codec_of(Record<E>("refusal", "What an answer with status 400 and above holds")
                        .tells(
                            "error", "the first", [](const E& all) { return all.front(); }, problem_codec())
                        .tells(
                            "errors", "all, where there is more than one",
                            [](const E& all) { return all.size() > 1 ? std::optional(all) : std::nullopt; },
                            list_of(problem_codec())));
}

std::string error_json(const std::vector<Error>& errors) {
    static const auto kCodec = api::refusal_codec();
    if (errors.empty()) return error_json({{"fault", "", "no error was given"}});
    return write_json(kCodec.encode(errors));
}

}  // namespace fallaway::files
