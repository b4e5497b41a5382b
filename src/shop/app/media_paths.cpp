#include "shop/app/media_paths.h"

#include <fmt/format.h>

namespace fallaway::app {
namespace {

using files::Json;
using Visit = std::function<void(std::string&, const std::string&)>;

// Records with a "path", or paths as they are.
void visit_list(Json& list, const std::string& where, const Visit& visit) {
    for (std::size_t i = 0; i < list.items.size(); ++i) {
        Json& item = list.items[i];
        Json* path = item.kind == Json::Kind::record ? item.find("path") : &item;
        if (path == nullptr || path->kind != Json::Kind::text) continue;
        visit(path->text, fmt::format("{}/{}{}", where, i, path == &item ? "" : "/path"));
    }
}

}  // namespace

void for_each_media_path(Json& bench, const Visit& visit) {
    for (const char* name : {"photos", "recordings"}) {
        if (Json* list = bench.find(name)) visit_list(*list, fmt::format("/{}", name), visit);
    }
    Json* ratings = bench.find("ratings");
    if (ratings == nullptr) return;
    for (std::size_t i = 0; i < ratings->items.size(); ++i) {
        Json* photos = ratings->items[i].find("photos");
        if (photos != nullptr) visit_list(*photos, fmt::format("/ratings/{}/photos", i), visit);
    }
}

}  // namespace fallaway::app
