#include "shop/files/embedded.h"

#include "embedded_symbols.inc"

namespace fallaway::files {
namespace {

struct Entry {
    std::string_view path;
    const char* begin;
    const char* end;
};

const Entry kEntries[] = {
#include "embedded_table.inc"
};

}  // namespace

std::optional<std::string_view> embedded(std::string_view path) {
    for (const Entry& entry : kEntries) {
        if (entry.path == path) return std::string_view(entry.begin, entry.end);
    }
    return std::nullopt;
}

std::vector<std::string_view> embedded_paths(std::string_view prefix) {
    std::vector<std::string_view> paths;
    for (const Entry& entry : kEntries) {
        if (entry.path.starts_with(prefix)) paths.push_back(entry.path);
    }
    return paths;
}

}  // namespace fallaway::files
