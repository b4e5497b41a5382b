#include "shop/serve/page_files.h"

#include <array>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "science/base/quote.h"
#include "shop/files/digest.h"
#include "shop/net/answer.h"
#include "shop/serve/plain_page.h"

#include "page_symbols.inc"

namespace fallaway::serve {
namespace {

struct Built {
    std::string_view path;
    const char* begin;
    const char* end;
};

const std::vector<Built> kBuilt = {
#include "page_table.inc"
};

constexpr std::string_view kIndex = "index.html";
constexpr std::string_view kForEver = "assets/";  // their names hold a hash of their bytes
constexpr std::size_t kTagDigits = 32;

std::string_view type_of(std::string_view path) {
    constexpr std::array<std::pair<std::string_view, std::string_view>, 10> kTypes = {{
        {".html", "text/html"},
        {".js", "text/javascript"},
        {".css", "text/css"},
        {".svg", "image/svg+xml"},
        {".png", "image/png"},
        {".ico", "image/x-icon"},
        {".woff2", "font/woff2"},
        {".webmanifest", "application/manifest+json"},
        {".json", "application/json"},
        {".txt", "text/plain"},
    }};
    for (const auto& [ending, type] : kTypes) {
        if (path.ends_with(ending)) return type;
    }
    return "application/octet-stream";
}

net::Response how_to_build() {
    return plain_page("Fallaway without its page",
                      "<p>This program was built without the page. Its API and all commands work.</p>\n"
                      "<p>To have the page, install Node 18 or newer with npm, then build again:</p>\n"
                      "<pre>./dev setup web\n./dev build</pre>\n"
                      "<p>By hand: <code>cmake --preset release -DWEB=ON</code>, then "
                      "<code>cmake --build build/release --target fallaway</code>.</p>\n");
}

}  // namespace

PageFiles::PageFiles(const std::vector<std::pair<std::string_view, std::string_view>>& files) {
    for (const auto& [path, bytes] : files) {
        net::Response response;
        response.type = type_of(path);
        response.body = bytes;
        response.gzip = path.ends_with(".woff2") || path.ends_with(".png") ? "" : net::gzip(bytes);
        response.etag = files::sha256_hex(bytes).substr(0, kTagDigits);
        response.cache_for_ever = path.starts_with(kForEver);
        files_.emplace(path, std::move(response));
    }
}

PageFiles PageFiles::of_this_program() {
    std::vector<std::pair<std::string_view, std::string_view>> files;
    for (const Built& file : kBuilt) files.emplace_back(file.path, std::string_view(file.begin, file.end));
    return PageFiles(files);
}

net::Response PageFiles::answer(const std::vector<std::string>& path) const {
    const std::string name = fmt::format("{}", fmt::join(path, "/"));
    if (const auto file = files_.find(name); file != files_.end()) return file->second;
    const bool names_a_file =
        !path.empty() && (path.front() == "assets" || path.back().find('.') != std::string::npos);
    if (names_a_file)
        return net::refusal(404, {"not found", "", fmt::format("{}: no such file", quote("/" + name))});
    const auto index = files_.find(kIndex);
    return index == files_.end() ? how_to_build() : index->second;
}

}  // namespace fallaway::serve
