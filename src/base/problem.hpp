// What went wrong, where, and what to do about it: the one error value of every room.
//
// Recoverable failures are returned, never thrown:  Result<WeatherRecord> r = read_dly(text, "a.dly");
// Inner rooms never print, never exit and never read a clock.
#pragma once

#include <string>
#include <string_view>
#include <tl/expected.hpp>

namespace sowtide::base {

/// Stable names of the kinds of problem; `problem_code_text` gives the word used in `--json`.
enum class ProblemCode {
  file_missing,      ///< the file is not there or cannot be opened
  file_unreadable,   ///< reading or writing failed part-way
  empty,             ///< there is a file, but nothing in it
  syntax,            ///< the text does not follow its format
  unknown_field,     ///< a field or option that nothing here reads
  missing_field,     ///< a field that must be there is not
  wrong_type,        ///< a field holds another kind of value than it must
  wrong_unit,        ///< a unit that is unknown or does not fit the quantity
  out_of_range,      ///< a value that cannot be true
  contradiction,     ///< two values that cannot both be true
  ambiguous,         ///< two readings are possible and guessing would be wrong
  not_found,         ///< a name (crop, bed, stand, figure …) that does not exist here
  already_exists,    ///< making this would overwrite something
  too_large,         ///< larger than the stated limit
  insufficient_data, ///< too little to compute from
  wrong_version,     ///< written by a newer program, or not ours
  storage,           ///< the garden file could not be read or written
  infeasible,        ///< no answer can satisfy what is asked
  cancelled,         ///< stopped on request
  usage,             ///< the command was called in a way it does not know
  internal           ///< a broken invariant: a defect of this program
};

/// The stable word for a code, for example "out-of-range".
[[nodiscard]] std::string_view problem_code_text(ProblemCode code) noexcept;

/// Where a problem lies. Empty strings and zeros mean "not known".
struct Place {
  std::string file;   ///< file name as the person gave it
  int line = 0;       ///< 1-based
  int column = 0;     ///< 1-based, in the person's own text
  std::string field;  ///< dotted name of a field, option or argument
};

/// One clear problem: what, where, and what to do.
struct Problem {
  ProblemCode code = ProblemCode::internal;
  std::string what;
  Place where;
  std::string remedy;
};

template <class T>
using Result = tl::expected<T, Problem>;

/// Shorthand for returning a failure: `return fail(ProblemCode::empty, "…", {file}, "…");`
[[nodiscard]] tl::unexpected<Problem> fail(ProblemCode code, std::string what, Place where = {},
                                           std::string remedy = {});

/// "garden.toml:12:3: beds[2].length_m: is -1, must be above 0. Give the length in metres."
[[nodiscard]] std::string to_text(const Problem& problem);

}  // namespace sowtide::base
