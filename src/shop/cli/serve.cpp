#include "shop/serve/serve.h"

#include <cstdio>
#include <memory>

#include <CLI/CLI.hpp>

#include "shop/cli/command.h"

namespace fallaway::cli {
namespace {

app::CommandOutput run(const serve::ServeOptions& options) {
    const auto say = [](const std::string& line) {
        std::puts(line.c_str());
        std::fflush(stdout);  // whoever started us waits for the address
    };
    const auto served = serve::serve(options, say);
    if (served) return {};
    app::CommandOutput output = app::bad_input("serve", {served.error()}, options.json);
    if (served.error().code == "fault") output.exit_code = app::kOurFault;
    return output;
}

}  // namespace

void add_serve(CLI::App& app, Chosen& chosen) {
    const auto options = std::make_shared<serve::ServeOptions>();
    options->folder = usual_shop();
    options->version = FALLAWAY_VERSION;
    auto* command =
        app.add_subcommand("serve", "The shop as a page: visits, readings, verdicts, for one bench or ten");
    command->add_option("--port", options->port, "0 takes any free one; 4117 when nothing is said")
        ->type_name("N");
    command->add_option("--shop", options->folder, "the shop's folder, made when it is not there")
        ->type_name("DIR");
    command
        ->add_option("--open-to", options->open_to,
                     "also answer at this address of the machine, encrypted, for devices that were paired")
        ->type_name("ADDRESS");
    command->add_flag("--demo", options->demo, "fill an empty shop with the invented demo visits");
    command->add_flag("--json", options->json, "tell the address as one line of JSON");
    command->footer(
        "Without --open-to nobody but this machine can reach the page. Every entry is on the disk before it is\n"
        "acknowledged; stop the program when you like, with ctrl-C.");
    command->callback([options, &chosen] { chosen = [options] { return run(*options); }; });
}

}  // namespace fallaway::cli
