#include "shop/files/written_json.h"

#include "shop/files/json_text.h"

namespace fallaway::files {

std::string written_files_json(const std::vector<std::string>& paths) {
    Json written = Json::list();
    for (const std::string& path : paths) written.items.push_back(Json::of(path));
    return write_json(Json::record({{"schema", Json::of("fallaway/written/1")}, {"written", std::move(written)}}));
}

}  // namespace fallaway::files
