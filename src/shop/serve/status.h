// Error codes as HTTP statuses (RFC 9110; 429 after RFC 6585).
#pragma once

#include <string_view>

namespace fallaway::serve {

int status_of(std::string_view error_code);

}  // namespace fallaway::serve
