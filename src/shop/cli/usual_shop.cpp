#include <cstdlib>
#include <filesystem>

#include "shop/cli/command.h"

namespace fallaway::cli {

std::string usual_shop() {
    // Relative paths there are to be ignored (XDG base directory specification 0.8).
    if (const char* data = std::getenv("XDG_DATA_HOME"); data != nullptr && data[0] == '/') {
        return (std::filesystem::path(data) / "fallaway").string();
    }
    const char* home = std::getenv("HOME");
    return (std::filesystem::path(home == nullptr ? "." : home) / ".local/share/fallaway").string();
}

}  // namespace fallaway::cli
