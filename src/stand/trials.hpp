// Time courses of field trials, each with its own weather (proof/trials/*.csv, compiled in), and how the
// stand agrees with them.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/date.hpp"
#include "base/problem.hpp"

namespace sowtide::stand {

/// Dry weight of the harvested organ on a day, g a m², and what the trial's plots or treatments span.
struct CoursePoint {
  base::Date date{};
  double dry_g_m2 = 0.0, low_g_m2 = 0.0, high_g_m2 = 0.0;
};

struct TrialCourse {
  std::string name;  ///< "Paterson 1992 potato"
  std::string crop;
  double latitude_deg = 0.0, plants_per_m2 = 0.0;
  base::Date sown{};
  std::optional<base::Date> set_out;
  std::optional<double> transplant_dry_g;  ///< whole plant when it was set out; `sown` is that day then
  bool used_for_setting = false;  ///< the crop's growth was set on it; else it is held out
  std::string source;
  std::vector<CoursePoint> points;
};

/// Every trial, in the order of the file.
[[nodiscard]] const std::vector<TrialCourse>& trial_courses();

/// Computed against observed, from the day on which the organ has a twentieth of its greatest weight.
struct CourseAgreement {
  base::Date sown{};  ///< the day from which it was lived
  std::vector<CoursePoint> observed;
  std::vector<double> computed_g_m2;
  double level = 0.0;  ///< computed over observed, mean of the logarithms
  double shape = 0.0;  ///< median departure of that ratio from the level, as a share of it
  /// What the trial's own plots span over their mean, median of the dates with more than one plot; none where
  /// only means are known.
  std::optional<double> spread_low, spread_high;
};

/// Lives the trial: its weather, its plants on the square, fed and watered (all of the crop's light use) and
/// untouched by frost.
[[nodiscard]] CourseAgreement agreement_with(const TrialCourse& course);

}  // namespace sowtide::stand
