#include <memory>

#include <CLI/CLI.hpp>

#include "shop/app/upkeep.h"
#include "shop/cli/command.h"
#include "shop/cli/progress.h"

namespace fallaway::cli {

void add_backup(CLI::App& app, Chosen& chosen) {
    struct Options {
        std::string target;
        std::string shop = usual_shop();
        bool json = false;
    };
    const auto options = std::make_shared<Options>();
    auto* command = app.add_subcommand("backup", "Copy the whole shop, while others go on working in it");
    command->add_option("target", options->target, "a folder that is not there yet, or empty")
        ->required()
        ->type_name("TARGET");
    command->add_option("--shop", options->shop, "the shop's folder")->type_name("DIR");
    command->add_flag("--json", options->json, "answer as JSON");
    command->footer("The keys of an opened shop stay behind: after a restore elsewhere, devices are paired anew.");
    command->callback([options, &chosen] {
        chosen = [options] {
            return app::backup_command(options->target, options->shop, options->json, FALLAWAY_VERSION,
                                       progress("backup", options->json));
        };
    });
}

}  // namespace fallaway::cli
