#include <memory>

#include <CLI/CLI.hpp>

#include "shop/app/upkeep.h"
#include "shop/cli/command.h"

namespace fallaway::cli {

void add_restore(CLI::App& app, Chosen& chosen) {
    struct Options {
        std::string backup;
        std::string shop = usual_shop();
        bool json = false;
    };
    const auto options = std::make_shared<Options>();
    auto* command =
        app.add_subcommand("restore", "Put a backup in the place of the shop, which is kept beside it");
    command->add_option("backup", options->backup, "the folder of a backup")->required()->type_name("BACKUP");
    command->add_option("--shop", options->shop, "the shop's folder, made when it is not there")->type_name("DIR");
    command->add_flag("--json", options->json, "answer as JSON");
    command->footer(
        "The backup is checked first. A shop that is being served is left alone: stop it, then restore.");
    command->callback([options, &chosen] {
        chosen = [options] { return app::restore_command(options->backup, options->shop, options->json); };
    });
}

}  // namespace fallaway::cli
