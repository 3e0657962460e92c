// Proof: published figures against computed ones, row by row, through the same `figure` engine that a person can call.
//
// The rows are data (proof/*.csv, compiled in): a figure's name, its inputs, the published value or range, the tolerance
// that the source's own rounding or spread allows, and the source. The table of days to emergence is judged crop by crop:
// the median error over the temperatures inside the crop's working range.
#pragma once

#include <string>
#include <vector>

#include "base/problem.hpp"

namespace sowtide::desk {

struct ProofRow {
  std::string group;            ///< "sun", "emergence", "beet" …: the name of the data file
  std::string what;             ///< "beet at 10 °C"
  std::string figure;           ///< figure called
  std::string inputs;           ///< as typed
  double published_low = 0.0;   ///< equal to high for a single value
  double published_high = 0.0;
  std::string unit;
  double tolerance = 0.0;       ///< absolute, in `unit`; from the printed digits or the source's spread
  double computed = 0.0;        ///< not a number where the figure says that nothing is to be had
  double difference = 0.0;      ///< distance outside the published value or range; signed
  bool judged = true;           ///< false: shown for information, a summary row of the group is judged instead
  bool pass = false;
  bool known_miss = false;      ///< outside when the row was written down; docs/models tells why
  std::string use;              ///< "set": a figure of the model was set on it; "held out"; empty where this is not told
  std::string source;
  std::string mark;             ///< "seen", "memory", "common practice"
};

/// Runs the rows of a group, or all. not_found for a group that does not exist; a broken row is an `internal` problem.
[[nodiscard]] base::Result<std::vector<ProofRow>> prove(const std::string& group = {});

[[nodiscard]] std::string proof_text(const std::vector<ProofRow>& rows);
/// {"rows":[{…}],"judged":n,"passed":n,"known_misses":n}
[[nodiscard]] std::string proof_json(const std::vector<ProofRow>& rows);

}  // namespace sowtide::desk
