// Whole files in and out, for the outer rooms (book, desk, cli, serve) and tests. Domain rooms take text.
#pragma once

#include <string>
#include <string_view>

#include "base/problem.hpp"

namespace sowtide::base {

/// The bytes of a file. Problems: file_missing, file_unreadable (a directory), too_large. A name ending in .gz
/// is unpacked, with the limit applied to the unpacked size.
[[nodiscard]] Result<std::string> read_file(const std::string& path, std::size_t max_bytes = 512U << 20U);

/// Writes a file whole or not at all: to a temporary beside it, then renamed.
[[nodiscard]] Result<void> write_file(const std::string& path, std::string_view bytes);

}  // namespace sowtide::base
