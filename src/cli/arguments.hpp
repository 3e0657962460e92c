// Reads the command line and runs the verb it names.
#pragma once

#include "cli/verbs.hpp"

namespace sowtide::cli {

inline constexpr int kExitDone = 0;
inline constexpr int kExitProblem = 1;
inline constexpr int kExitUsage = 2;

/// Parses `argv`, runs the verb, writes problems to `output.err` (as JSON with --json). `today` is the system's day, used
/// where no --date is given. Returns the exit code.
int run(int argc, const char* const* argv, base::Date today, Output output);

}  // namespace sowtide::cli
