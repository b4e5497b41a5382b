// What a function answers when it may fail for a reason that the user can mend.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include <tl/expected.hpp>

namespace fallaway {

// One complaint about an input. `path` says where (a JSON pointer such as "/readings/3/value", or the
// name of an argument); `message` quotes what stood there and says what was expected.
struct Error {
    std::string code;     // one word for programs: "syntax", "unit", "range", "unknown", "missing", ...
    std::string path;     // "" when the whole input is meant
    std::string message;  // for a person

    friend bool operator==(const Error&, const Error&) = default;
};

template <class T>
using Result = tl::expected<T, Error>;

// For inputs that are read to the end so that every fault is told at once.
template <class T>
using ResultAll = tl::expected<T, std::vector<Error>>;

inline tl::unexpected<Error> fail(std::string code, std::string path, std::string message) {
    return tl::unexpected<Error>(Error{std::move(code), std::move(path), std::move(message)});
}

}  // namespace fallaway
