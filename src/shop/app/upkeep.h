// The shop's files for the command line: to and from bench files, backup, restore, check. Each leaves what it was
// to make whole or not at all, also when it is stopped on the way.
#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "shop/app/command_output.h"

namespace fallaway::app {

// Told a fraction 0..1; false stops.
using GoOn = std::function<bool(double)>;

// "Ostrel Heron" becomes "ostrel_heron": a name for any file system; "visit" where nothing is left.
std::string plain_name(std::string_view title);

struct ExportOptions {
    std::string target;  // a file of one visit, or a folder; made when it is not there
    std::string shop;
    std::string visit;  // id; "" the only visit there is, unless `all`
    bool all = false;
    bool json = false;
};
// Bench files, the media that they name beside them in <name>_media/. Nothing that differs is written over.
CommandOutput export_command(const ExportOptions& options, std::string_view version, const GoOn& go_on);

struct ImportOptions {
    std::vector<std::string> files;
    std::string shop;
    bool json = false;
};
// Every file is read and checked, media included, before the first goes in. A file that is in the shop already,
// byte for byte, is passed over.
CommandOutput import_command(const ImportOptions& options, std::string_view version, const GoOn& go_on);

CommandOutput backup_command(const std::string& target, const std::string& shop, bool json,
                             std::string_view version, const GoOn& go_on);
CommandOutput restore_command(const std::string& backup, const std::string& shop, bool json);
// Exit code 2 with a list when something is not as it should be.
CommandOutput check_command(const std::string& shop, bool json, std::string_view version, const GoOn& go_on);

}  // namespace fallaway::app
