// Where a bench file names photos and recordings.
#pragma once

#include <functional>
#include <string>

#include "shop/files/json_text.h"

namespace fallaway::app {

// Calls `visit` with every path, which it may change, and with where it stands ("/photos/0/path").
void for_each_media_path(files::Json& bench, const std::function<void(std::string&, const std::string&)>& visit);

}  // namespace fallaway::app
