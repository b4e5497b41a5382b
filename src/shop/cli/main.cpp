// The command line: parses words, calls one use case, prints what it answers.
#include <cstdio>
#include <exception>

#include <CLI/CLI.hpp>

#include "shop/cli/command.h"

namespace {

using fallaway::app::CommandOutput;

constexpr const char* kAbout =
    "Fallaway, a workbench for the guitar technician: readings and judgements of one instrument go in,\n"
    "findings, decisions and one verdict with reasons come out.";

constexpr const char* kHowToBegin =
    "To begin:\n"
    "  fallaway demo bench                        invented instruments, to see what a bench file holds\n"
    "  fallaway assess bench/heron.json           what is wrong with it, and how we know\n"
    "  fallaway assess bench/heron.json --report heron.html    the same as a page for the owner\n"
    "  fallaway serve --demo                      the same instruments as a page in the browser\n"
    "  fallaway sums --list                       the small calculations of the bench\n"
    "  fallaway sums fret-places scale=\"635 mm\" frets=22\n"
    "\n"
    "A bench file is JSON, written by hand: only the kind of instrument is required, every quantity is text\n"
    "with a unit (\"1.60 mm\", \"4/64 in\", \"8.42 kohm\", \"1.60 mm +/- 0.05\"). docs/bench-file.md explains "
    "it.\n"
    "Exit codes: 0 done, 1 gate not passed, 2 bad input or no way to write the answer, 3 a fault of ours.";

// Help on its own goes to stdout with 0; a slip of the pen goes to stderr with 2.
int explain(const CLI::App& app, const CLI::ParseError& error) {
    if (error.get_exit_code() == 0) return app.exit(error);
    std::fprintf(stderr, "fallaway: %s\n", error.what());
    std::fputs("Try: fallaway --help\n", stderr);
    return fallaway::app::kBadInput;
}

int print(const CommandOutput& output) {
    std::fputs(output.err.c_str(), stderr);
    const bool written = std::fwrite(output.out.data(), 1, output.out.size(), stdout) == output.out.size();
    if (!written || std::fflush(stdout) != 0) {
        std::fputs("fallaway: the answer could not be written\n", stderr);
        return fallaway::app::kBadInput;
    }
    return output.exit_code;
}

int run(int argc, char** argv) {
    CLI::App app{kAbout, "fallaway"};
    app.footer(kHowToBegin);
    app.set_version_flag("--version", "fallaway " FALLAWAY_VERSION);
    app.require_subcommand(1);
    app.option_defaults()->always_capture_default(false);
    fallaway::cli::Chosen chosen;

    using namespace fallaway::cli;
    for (const auto add :
         {add_assess, add_sums, add_demo, add_serve, add_export, add_import, add_backup, add_restore, add_check}) {
        add(app, chosen);
    }

    try {
        app.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
        return explain(app, error);
    }
    return print(chosen());
}

}  // namespace

int main(int argc, char** argv) {
    try {
        return run(argc, argv);
    } catch (const std::exception& fault) {
        std::fprintf(stderr, "fallaway: a fault of ours: %s\n", fault.what());
        return fallaway::app::kOurFault;
    }
}
