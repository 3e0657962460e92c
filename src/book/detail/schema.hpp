// The tables of the garden file, and how an older file becomes a newer one.
#pragma once

#include <SQLiteCpp/SQLiteCpp.h>

#include <cstdint>
#include <vector>

namespace sowtide::book::detail {

/// Marks a file as a garden of ours ("SwTd").
inline constexpr std::int32_t kApplicationId = 0x53775464;

/// One step: SQL that turns a file of the version before into `to_version`.
struct Migration {
  int to_version = 0;
  const char* sql = "";
};

/// All steps from an empty file on, in order. Steps that were released are never edited.
[[nodiscard]] const std::vector<Migration>& migrations();

/// The version that this program writes.
[[nodiscard]] int current_version();

/// Brings a file forward by the steps above its own version, in one transaction. Throws SQLite::Exception.
void migrate(SQLite::Database& database, const std::vector<Migration>& steps);

}  // namespace sowtide::book::detail
