#include "shop/app/assess.h"

#include <unistd.h>

#include <memory>

#include <CLI/CLI.hpp>

#include "shop/cli/command.h"

namespace fallaway::cli {

void add_assess(CLI::App& app, Chosen& chosen) {
    const auto options = std::make_shared<app::AssessOptions>();
    auto* command = app.add_subcommand("assess", "Findings, decisions and the verdict of a bench file");
    command->add_option("bench", options->bench_path, "the bench file")->required()->type_name("BENCH");
    command->add_option("--report", options->report_path, "also write the report as one HTML file")
        ->type_name("OUT.html");
    command->add_flag("--json", options->json, "answer as JSON");
    command->add_flag("--gate", options->gate, "exit with 1 unless the verdict is ready");
    command->callback([options, &chosen] {
        options->colour = ::isatty(STDOUT_FILENO) != 0;
        chosen = [options] { return app::assess_command(*options, FALLAWAY_VERSION); };
    });
}

}  // namespace fallaway::cli
