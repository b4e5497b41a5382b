#include "shop/serve/status.h"

#include <array>
#include <utility>

namespace fallaway::serve {

int status_of(std::string_view error_code) {
    constexpr std::array<std::pair<std::string_view, int>, 12> kStatus = {{
        {"login", 401},
        {"forbidden", 403},
        {"not found", 404},
        {"method", 405},
        {"conflict", 409},
        {"size", 413},
        {"many", 429},
        {"fault", 500},
        {"damaged", 500},
        {"busy", 503},
        {"full", 507},
        {"read only", 507},
    }};
    for (const auto& [code, status] : kStatus) {
        if (code == error_code) return status;
    }
    return 400;  // whatever else is wrong, the request is
}

}  // namespace fallaway::serve
