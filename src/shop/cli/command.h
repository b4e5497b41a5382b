// One function a command: tells CLI11 its words and flags, and leaves in `chosen` what to run when it is named.
#pragma once

#include <functional>
#include <string>

#include "shop/app/command_output.h"

namespace CLI {
class App;
}

namespace fallaway::cli {

using Chosen = std::function<app::CommandOutput()>;

void add_assess(CLI::App& app, Chosen& chosen);
void add_sums(CLI::App& app, Chosen& chosen);
void add_demo(CLI::App& app, Chosen& chosen);
void add_serve(CLI::App& app, Chosen& chosen);
void add_export(CLI::App& app, Chosen& chosen);
void add_import(CLI::App& app, Chosen& chosen);
void add_backup(CLI::App& app, Chosen& chosen);
void add_restore(CLI::App& app, Chosen& chosen);
void add_check(CLI::App& app, Chosen& chosen);

// $XDG_DATA_HOME/fallaway, else .local/share/fallaway of the home folder.
std::string usual_shop();

}  // namespace fallaway::cli
