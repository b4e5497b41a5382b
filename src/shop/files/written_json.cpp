#include "shop/files/written_json.h"

#include <nlohmann/json.hpp>

namespace fallaway::files {

std::string written_files_json(const std::vector<std::string>& paths) {
    const nlohmann::ordered_json answer = {{"schema", "fallaway/written/1"}, {"written", paths}};
    return answer.dump(2, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + "\n";
}

}  // namespace fallaway::files
