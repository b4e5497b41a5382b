#include "shop/app/sums.h"

#include <memory>

#include <CLI/CLI.hpp>

#include "shop/cli/command.h"

namespace fallaway::cli {

void add_sums(CLI::App& app, Chosen& chosen) {
    struct Options {
        std::vector<std::string> words;
        bool list = false;
        bool json = false;
    };
    const auto options = std::make_shared<Options>();
    auto* command = app.add_subcommand("sums", "The small calculations of the bench, units checked");
    command->add_option("words", options->words, "a sum's name, then its inputs as key=value")
        ->type_name("NAME key=value ...");
    command->add_flag("--list", options->list, "the names of all sums; NAME alone tells its inputs");
    command->add_flag("--json", options->json, "answer as JSON");
    command->callback([options, &chosen] {
        chosen = [options] { return app::sums_command(options->words, options->list, options->json); };
    });
}

}  // namespace fallaway::cli
