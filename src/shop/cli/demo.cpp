#include "shop/app/demo.h"

#include <memory>

#include <CLI/CLI.hpp>

#include "shop/cli/command.h"

namespace fallaway::cli {

void add_demo(CLI::App& app, Chosen& chosen) {
    struct Options {
        std::string folder;
        bool json = false;
    };
    const auto options = std::make_shared<Options>();
    auto* command = app.add_subcommand("demo", "Write the invented demo instruments as bench files");
    command->add_option("folder", options->folder, "made when it is not there")->required()->type_name("DIR");
    command->add_flag("--json", options->json, "answer as JSON");
    command->callback(
        [options, &chosen] { chosen = [options] { return app::demo_command(options->folder, options->json); }; });
}

}  // namespace fallaway::cli
