#include <memory>

#include <CLI/CLI.hpp>

#include "shop/app/upkeep.h"
#include "shop/cli/command.h"
#include "shop/cli/progress.h"

namespace fallaway::cli {

void add_import(CLI::App& app, Chosen& chosen) {
    const auto options = std::make_shared<app::ImportOptions>();
    options->shop = usual_shop();
    auto* command = app.add_subcommand("import", "Take bench files into the shop, with the photos they name");
    command->add_option("files", options->files, "bench files")->required()->type_name("FILE ...");
    command->add_option("--shop", options->shop, "the shop's folder, made when it is not there")->type_name("DIR");
    command->add_flag("--json", options->json, "answer as JSON");
    command->footer(
        "All files are checked before the first goes in. A file that is in the shop already is passed over.\n"
        "Photos and recordings must stand beside the file or below; other paths are refused.");
    command->callback([options, &chosen] {
        chosen = [options] {
            return app::import_command(*options, FALLAWAY_VERSION, progress("import", options->json));
        };
    });
}

}  // namespace fallaway::cli
