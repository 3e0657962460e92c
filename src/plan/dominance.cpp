#include <algorithm>
#include <utility>
#include <vector>

#include "plan/candidates.hpp"

namespace sowtide::plan {
namespace {

/// Whether `a` is at least as good as `b` in room, tray, work and every week of every weather year, in the
/// same beds.
bool at_least_as_good(const Candidate& a, const Candidate& b) {
  if (a.sun != b.sun) return false;
  if (a.spacing_mm > b.spacing_mm || a.bed_first_week < b.bed_first_week || a.bed_last_week > b.bed_last_week)
    return false;
  if (a.sow_hours + a.bed_hours > b.sow_hours + b.bed_hours || a.seeds > b.seeds) return false;
  if (a.tray >= 0) {
    if (a.mat_last_week > b.mat_last_week) return false;
    if (a.tray != b.tray || a.tray_first_week < b.tray_first_week || a.tray_last_week > b.tray_last_week)
      return false;
  }
  return std::equal(a.servings.begin(), a.servings.end(), b.servings.begin(), b.servings.end(),
                    [](double x, double y) { return x >= y; });
}

}  // namespace

std::size_t drop_dominated(std::vector<Candidate>& candidates) {
  std::vector<bool> dropped(candidates.size(), false);
  for (std::size_t b = 0; b < candidates.size(); ++b) {
    for (std::size_t a = 0; a < candidates.size() && !dropped[b]; ++a) {
      if (a == b || dropped[a] || candidates[a].product != candidates[b].product) continue;
      dropped[b] = at_least_as_good(candidates[a], candidates[b]);
    }
  }
  std::vector<Candidate> kept;
  for (std::size_t c = 0; c < candidates.size(); ++c) {
    if (!dropped[c]) kept.push_back(std::move(candidates[c]));
  }
  const std::size_t count = candidates.size() - kept.size();
  candidates = std::move(kept);
  return count;
}

}  // namespace sowtide::plan
