// Files that only their owner can read.
#pragma once

#include <string>
#include <string_view>

#include "base/problem.hpp"

namespace sowtide::serve::detail {

/// Writes a file of mode 0600, whole or not at all: to a temporary beside it, then renamed. `what` begins the
/// sentence of the problem (storage), "the paired devices".
[[nodiscard]] base::Result<void> write_secret_file(const std::string& file, std::string_view text,
                                                   std::string_view what);

}  // namespace sowtide::serve::detail
