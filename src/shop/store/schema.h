// The tables of the store, version by version, and the way from an older version to this one.
#pragma once

#include <filesystem>
#include <span>
#include <string_view>

#include "shop/store/connection.h"

namespace fallaway::store {

// SQL that leads from version n (its place in the list, from 0: nothing at all) to version n + 1.
using Step = std::string_view;
std::span<const Step> steps();

// The version of the database behind `connection`. Errors: "damaged" (no SQLite, not ours), "newer" than `known`.
Result<int> version_of(Connection& connection, const std::filesystem::path& file, int known);

// Is every table, index and trigger as the steps made them? Otherwise "damaged".
Result<void> check_schema(Connection& connection, const std::filesystem::path& file, std::span<const Step> steps);

// Makes an empty database at `file`, whole or not at all; fine when somebody else made it meanwhile.
Result<void> create_database(const std::filesystem::path& file, std::span<const Step> steps);

// Takes the database over all steps it lacks, in one transaction, after it was copied to
// shop.before-<new version>.sqlite beside it. Nobody else may have it open. What fails leaves it as it was.
Result<void> migrate(Connection& connection, const std::filesystem::path& file, std::span<const Step> steps);

}  // namespace fallaway::store
