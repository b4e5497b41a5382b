// The main job: a bench file becomes a verdict.
#pragma once

#include <optional>
#include <string>

#include "shop/app/command_output.h"

namespace fallaway::app {

struct AssessOptions {
    std::string bench_path;
    std::optional<std::string> report_path;  // an HTML report is written there
    bool json = false;
    bool gate = false;  // exit code 1 unless the verdict is *ready*
    bool colour = false;
};

CommandOutput assess_command(const AssessOptions& options, std::string_view version);

}  // namespace fallaway::app
