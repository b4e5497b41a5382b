#include <memory>

#include <CLI/CLI.hpp>

#include "shop/app/upkeep.h"
#include "shop/cli/command.h"
#include "shop/cli/progress.h"

namespace fallaway::cli {

void add_check(CLI::App& app, Chosen& chosen) {
    struct Options {
        std::string shop = usual_shop();
        bool json = false;
    };
    const auto options = std::make_shared<Options>();
    auto* command = app.add_subcommand("check", "Read the whole shop and hold it against what was written");
    command->add_option("--shop", options->shop, "the shop's folder")->type_name("DIR");
    command->add_flag("--json", options->json, "answer as JSON");
    command->footer("Exit code 2 with a list when something is not as it was written.");
    command->callback([options, &chosen] {
        chosen = [options] {
            return app::check_command(options->shop, options->json, FALLAWAY_VERSION,
                                      progress("check", options->json));
        };
    });
}

}  // namespace fallaway::cli
