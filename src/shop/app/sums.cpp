#include "shop/app/sums.h"

#include <vector>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "bench/sums/page.h"
#include "bench/sums/registry.h"
#include "science/base/quote.h"
#include "shop/files/sums_json.h"

namespace fallaway::app {
namespace {

Error unknown_sum(const std::string& name) {
    const auto near = sums::near_names(name);
    const std::string advice = near.empty() ? "`fallaway sums --list` names them all"
                                            : fmt::format("did you mean {}?", fmt::join(near, ", "));
    return {"unknown", "", fmt::format("no sum is named {}; {}", quote(name), advice)};
}

Result<std::vector<sums::Argument>> arguments_of(std::span<const std::string> words) {
    std::vector<sums::Argument> arguments;
    for (const std::string& word : words) {
        const std::size_t equals = word.find('=');
        if (equals == std::string::npos || equals == 0) {
            return fail("syntax", "", fmt::format("{}: expected key=value such as scale=\"635 mm\"", quote(word)));
        }
        arguments.push_back({word.substr(0, equals), word.substr(equals + 1)});
    }
    return arguments;
}

CommandOutput listed(std::span<const std::string> names, bool json) {
    CommandOutput output;
    if (names.empty() || json) {
        output.out = json ? files::sums_list_json() : sums::list_text();
        return output;
    }
    for (const std::string& name : names) {
        const sums::Sum* sum = sums::find(name);
        if (sum == nullptr) return bad_input("sums", {unknown_sum(name)}, json);
        output.out += fmt::format("{}: {}\n{}", sum->name, sum->title, sums::usage_text(*sum));
    }
    return output;
}

}  // namespace

CommandOutput sums_command(std::span<const std::string> arguments, bool list, bool json) {
    if (list) return listed(arguments, json);
    if (arguments.empty()) {
        return bad_input("sums", {{"missing", "", "name a sum; `fallaway sums --list` names them all"}}, json);
    }
    const sums::Sum* sum = sums::find(arguments.front());
    if (sum == nullptr) return bad_input("sums", {unknown_sum(arguments.front())}, json);
    const std::string subject = "sums " + sum->name;
    const auto given = arguments_of(arguments.subspan(1));
    if (!given) return bad_input(subject, {given.error()}, json);
    const auto answer = sums::run(*sum, *given);
    if (!answer) {
        CommandOutput output = bad_input(subject, {answer.error()}, json);
        if (!json && answer.error().code == "missing") output.err += sums::usage_text(*sum);
        return output;
    }
    CommandOutput output;
    output.out = json ? files::sums_answer_json(*sum, *answer) : sums::answer_text(*sum, *answer);
    return output;
}

}  // namespace fallaway::app
