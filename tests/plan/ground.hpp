// The ground of a bed through time, painted by stands.
#pragma once

#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

namespace sowtide::plan {

/// Ground through time, a field for every millimetre and week: painted twice is an overlap. Knows nothing of
/// how the planner looks for room.
class Ground {
 public:
  Ground(int length_mm, int weeks) : length_mm_(length_mm), weeks_(weeks), painted_(size(), false) {}

  void paint(int from_mm, int to_mm, int first_week, int last_week, const std::string& what) {
    ASSERT_GE(from_mm, 0) << what;
    ASSERT_LE(to_mm, length_mm_) << what;
    for (int mm = from_mm; mm < to_mm; ++mm) {
      for (int week = std::max(0, first_week); week <= std::min(last_week, weeks_ - 1); ++week) {
        auto field = painted_[static_cast<std::size_t>(mm) * static_cast<std::size_t>(weeks_) +
                              static_cast<std::size_t>(week)];
        ASSERT_FALSE(field) << what << " at " << mm << " mm in week " << week;
        field = true;
      }
    }
  }

 private:
  [[nodiscard]] std::size_t size() const {
    return static_cast<std::size_t>(length_mm_) * static_cast<std::size_t>(weeks_);
  }
  int length_mm_, weeks_;
  std::vector<bool> painted_;
};

}  // namespace sowtide::plan
