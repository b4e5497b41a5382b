#include <memory>

#include <CLI/CLI.hpp>

#include "shop/app/upkeep.h"
#include "shop/cli/command.h"
#include "shop/cli/progress.h"

namespace fallaway::cli {

void add_export(CLI::App& app, Chosen& chosen) {
    const auto options = std::make_shared<app::ExportOptions>();
    options->shop = usual_shop();
    auto* command = app.add_subcommand("export", "Write visits of the shop as bench files, with their photos");
    command->add_option("target", options->target, "a folder, or for one visit a name that ends in .json")
        ->required()
        ->type_name("DIR_OR_FILE");
    command->add_option("--shop", options->shop, "the shop's folder")->type_name("DIR");
    auto* visit = command->add_option("--visit", options->visit, "this visit alone")->type_name("ID");
    command->add_flag("--all", options->all, "every visit, one file each")->excludes(visit);
    command->add_flag("--json", options->json, "answer as JSON");
    command->footer(
        "Photos and recordings go beside the file, in <name>_media. Nothing that differs is written over.");
    command->callback([options, &chosen] {
        chosen = [options] {
            return app::export_command(*options, FALLAWAY_VERSION, progress("export", options->json));
        };
    });
}

}  // namespace fallaway::cli
