// Whole files in and out, for the outer rooms (book, desk, cli, serve) and tests. Domain rooms take text.
#pragma once

#include <string>
#include <string_view>

#include "base/problem.hpp"

namespace sowtide::base {

/// The bytes of a file. Problems: file_missing, file_unreadable (a directory), too_large. A name ending in .gz
/// is unpacked, with the limit applied to the unpacked size.
[[nodiscard]] Result<std::string> read_file(const std::string& path, std::size_t max_bytes = 512U << 20U);

/// Who may read a file that is written.
enum class Readers {
  umask,  ///< as the umask of this machine says
  owner   ///< its owner alone, who alone may write it: for keys and what lets devices in
};

/// Writes a file whole or not at all: to a new temporary beside it, then renamed, so that a file of that name and its
/// mode are replaced.
[[nodiscard]] Result<void> write_file(const std::string& path, std::string_view bytes,
                                      Readers readers = Readers::umask);

}  // namespace sowtide::base
