// The command line: parses words, calls one use case, prints what it answers.
#include <unistd.h>

#include <cstdio>
#include <exception>
#include <functional>
#include <string>
#include <vector>

#include <CLI/CLI.hpp>

#include "shop/app/assess.h"
#include "shop/app/demo.h"
#include "shop/app/sums.h"

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
    "  fallaway sums --list                       the small calculations of the bench\n"
    "  fallaway sums fret-places scale=\"635 mm\" frets=22\n"
    "\n"
    "A bench file is JSON, written by hand: only the kind of instrument is required, every quantity is text\n"
    "with a unit (\"1.60 mm\", \"4/64 in\", \"8.42 kohm\", \"1.60 mm +/- 0.05\"). docs/bench-file.md explains "
    "it.\n"
    "Exit codes: 0 done, 1 gate not passed, 2 bad input, 3 a fault of ours.";

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
        return fallaway::app::kOurFault;
    }
    return output.exit_code;
}

int run(int argc, char** argv) {
    CLI::App app{kAbout, "fallaway"};
    app.footer(kHowToBegin);
    app.set_version_flag("--version", "fallaway " FALLAWAY_VERSION);
    app.require_subcommand(1);
    app.option_defaults()->always_capture_default(false);
    std::function<CommandOutput()> chosen;

    fallaway::app::AssessOptions assess;
    auto* assess_command = app.add_subcommand("assess", "Findings, decisions and the verdict of a bench file");
    assess_command->add_option("bench", assess.bench_path, "the bench file")->required()->type_name("BENCH");
    assess_command->add_option("--report", assess.report_path, "also write the report as one HTML file")
        ->type_name("OUT.html");
    assess_command->add_flag("--json", assess.json, "answer as JSON");
    assess_command->add_flag("--gate", assess.gate, "exit with 1 unless the verdict is ready");
    assess_command->callback([&] {
        assess.colour = ::isatty(STDOUT_FILENO) != 0;
        chosen = [&] { return fallaway::app::assess_command(assess, FALLAWAY_VERSION); };
    });

    std::vector<std::string> words;
    bool list = false;
    bool json = false;
    auto* sums_command = app.add_subcommand("sums", "The small calculations of the bench, units checked");
    sums_command->add_option("words", words, "a sum's name, then its inputs as key=value")
        ->type_name("NAME key=value ...");
    sums_command->add_flag("--list", list, "the names of all sums; NAME alone tells its inputs");
    sums_command->add_flag("--json", json, "answer as JSON");
    sums_command->callback([&] { chosen = [&] { return fallaway::app::sums_command(words, list, json); }; });

    std::string folder;
    auto* demo_command = app.add_subcommand("demo", "Write the invented demo instruments as bench files");
    demo_command->add_option("folder", folder, "made when it is not there")->required()->type_name("DIR");
    demo_command->add_flag("--json", json, "answer as JSON");
    demo_command->callback([&] { chosen = [&] { return fallaway::app::demo_command(folder, json); }; });

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
