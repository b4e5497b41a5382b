#include "shop/files/error_json.h"

#include <nlohmann/json.hpp>

namespace fallaway::files {

std::string error_json(const std::vector<Error>& errors) {
    using Json = nlohmann::ordered_json;
    const auto one = [](const Error& error) {
        return Json{{"code", error.code}, {"path", error.path}, {"message", error.message}};
    };
    Json answer = {{"error", one(errors.empty() ? Error{"fault", "", "no error was given"} : errors.front())}};
    if (errors.size() > 1) {
        answer["errors"] = Json::array();
        for (const Error& error : errors) answer["errors"].push_back(one(error));
    }
    return answer.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace fallaway::files
