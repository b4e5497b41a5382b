#include "shop/app/demo.h"

#include <filesystem>

#include <fmt/format.h>

#include "shop/files/embedded.h"
#include "shop/files/file_io.h"
#include "shop/files/written_json.h"

namespace fallaway::app {

CommandOutput demo_command(const std::string& folder, bool json) {
    if (const auto made = files::make_folder(folder); !made) return bad_input(folder, {made.error()}, json);
    // Somebody may have worked on a demo file: nothing that differs is written over.
    std::vector<Error> changed;
    for (const std::string_view path : files::embedded_paths("demo/")) {
        const auto target = std::filesystem::path(folder) / std::filesystem::path(path).filename();
        if (!std::filesystem::exists(target)) continue;
        const auto there = files::read_file(target);
        if (there && *there == *files::embedded(path)) continue;
        changed.push_back(
            {"file", target.string(), "is there already and differs; move it away or name another folder"});
    }
    if (!changed.empty()) return bad_input(folder, changed, json);
    std::vector<std::string> written;
    for (const std::string_view path : files::embedded_paths("demo/")) {
        const auto target = std::filesystem::path(folder) / std::filesystem::path(path).filename();
        const auto result = files::write_file(target, *files::embedded(path));
        if (!result) return bad_input(target.string(), {result.error()}, json);
        written.push_back(target.string());
    }
    CommandOutput output;
    if (json) {
        output.out = files::written_files_json(written);
        return output;
    }
    output.out = "Invented instruments, makers, people and values, to try things on:\n";
    for (const auto& path : written) output.out += fmt::format("  {}\n", path);
    if (!written.empty()) output.out += fmt::format("Next: fallaway assess {}\n", written.front());
    return output;
}

}  // namespace fallaway::app
