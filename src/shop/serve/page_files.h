// The page as it lies in the binary. Nothing of a request ever reaches the file system: a path is looked up in a
// table, and what is not in the table is not there.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "shop/net/server.h"

namespace fallaway::serve {

class PageFiles {
public:
    // Of "index.html", "assets/main-3fk2.js": bytes, with their gzip and their tag made ahead.
    explicit PageFiles(const std::vector<std::pair<std::string_view, std::string_view>>& files);
    // The files that were built into this program; none with -DWEB=OFF.
    static PageFiles of_this_program();

    // The file of that path, the index for every path of the page itself, 404 for an unknown file of assets/ or
    // one with an ending. Without any files: how to build the page.
    net::Response answer(const std::vector<std::string>& path) const;

private:
    std::map<std::string, net::Response, std::less<>> files_;
};

}  // namespace fallaway::serve
