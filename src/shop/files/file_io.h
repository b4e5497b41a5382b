// Whole files in and out. A file is either written completely or left as it was.
#pragma once

#include <cstddef>
#include <filesystem>
#include <string>
#include <string_view>

#include "science/base/result.h"

namespace fallaway::files {

inline constexpr std::size_t kLargestFile = 32u << 20;  // bytes; a bench file is far smaller

// Errors (code "file"): not there, a folder, not readable, larger than `most`.
Result<std::string> read_file(const std::filesystem::path& path, std::size_t most = kLargestFile);

// Written aside, synced and renamed into place. Errors: "full" (no room on the disk), "read only" (a disk that
// cannot be written), "file" (no folder, no permission).
Result<void> write_file(const std::filesystem::path& path, std::string_view bytes);

// Do two paths lead to one file that is there? (Also by links.)
bool same_file(const std::filesystem::path& a, const std::filesystem::path& b);

// Makes a folder and its parents; fine when it is there already. Errors as for write_file.
Result<void> make_folder(const std::filesystem::path& path);

}  // namespace fallaway::files
