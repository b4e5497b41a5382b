#include "shop/app/command_output.h"

#include <fmt/format.h>

#include "shop/files/error_json.h"

namespace fallaway::app {

CommandOutput bad_input(std::string_view subject, const std::vector<Error>& errors, bool json) {
    CommandOutput output;
    output.exit_code = kBadInput;
    if (json) {
        output.err = files::error_json(errors);
        return output;
    }
    for (const Error& error : errors) {
        std::string where(subject);
        // An error about the file itself names it already.
        if (!error.path.empty() && error.path != subject) where += ": " + error.path;
        output.err += fmt::format("{}: {}\n", where, error.message);
    }
    return output;
}

}  // namespace fallaway::app
