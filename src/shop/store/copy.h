// Copies of a shop's files, and the care a folder needs so that they are there after a power cut.
#pragma once

#include <filesystem>
#include <functional>
#include <string_view>
#include <vector>

#include "shop/store/connection.h"

namespace fallaway::store {

using Progress = std::function<bool(double)>;  // fraction 0..1 done; false stops

inline constexpr std::string_view kDatabase = "shop.sqlite";
inline constexpr std::string_view kMedia = "media";

// Puts on the disk which files a folder holds.
Result<void> sync_folder(const std::filesystem::path& folder);

// Holds a shop's folder against being exchanged or migrated (shared) or against every other use (alone), also by
// other programs, until it goes. Where the file system knows no such locks, it holds nothing.
class FolderLock {
public:
    static Result<FolderLock> shared(const std::filesystem::path& folder);
    FolderLock(FolderLock&& other) noexcept;
    FolderLock& operator=(FolderLock&& other) noexcept;
    ~FolderLock();
    Result<void> alone();  // "busy" when another program has the shop open
    Result<void> shared_again();

private:
    FolderLock(int fd, std::filesystem::path folder) : fd_(fd), folder_(std::move(folder)) {}
    int fd_ = -1;
    std::filesystem::path folder_;
};

// Copies the database behind `from`, as it stands at the beginning, to the new file `to`, in steps, while others
// go on writing. `from` must be in no transaction that writes. On failure `to` may be left half made.
Result<void> copy_database(Connection& from, const std::filesystem::path& to, const Progress& progress);

// The same by way of a file aside, so that `to` is there whole or not at all. Replaces a file at `to`.
Result<void> copy_database_into_place(Connection& from, const std::filesystem::path& to);

// Copies the shop (database behind `from`, media of its `folder`) to `target`, which must not be there or be
// empty, and must not lie in the shop: made aside and renamed into place. Whatever the version of the store.
Result<void> copy_shop(Connection& from, const std::filesystem::path& folder, const std::filesystem::path& target,
                       const Progress& progress);

// The media files below a shop's folder.
std::vector<std::filesystem::path> media_files(const std::filesystem::path& folder);

}  // namespace fallaway::store
