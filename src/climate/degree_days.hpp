// Degree-days by the methods in use, and chill and heat sums over hours. A thermal time printed without its
// method is uncertain by a tenth or more, since the methods part on days that cross the base, that is in
// early spring.
//
// Sine and triangle: F. G. Zalom, P. B. Goodell, L. T. Wilson, W. W. Barnett and W. J. Bentley 1983,
// Degree-days: the calculation and use of heat units in pest management, University of California. Averages:
// G. S. McMaster and W. W. Wilhelm 1997, Agric. For. Meteorol. 87:291. Temperatures and thresholds in °C (or
// all in °F: then °F days).
#pragma once

#include <optional>
#include <span>
#include <string_view>

#include "base/problem.hpp"

namespace sowtide::climate {

enum class DegreeDayMethod {
  average,  ///< (tmin + tmax)/2 held between base and upper, less base (McMaster and Wilhelm, method 1)
  adjusted_average,  ///< tmin and tmax held between base and upper first (method 2)
  meteorological,  ///< quarter rules for days that cross the base (Met Éireann's notes); no upper threshold
  single_triangle,
  double_triangle,  ///< second half-day towards the next minimum
  single_sine,
  double_sine
};

/// What heat above the upper threshold does.
enum class UpperCutoff {
  horizontal,    ///< counts as the upper threshold
  intermediate,  ///< takes away as much as it exceeds
  vertical       ///< counts nothing
};

/// The stable words, "single-sine" and so on; nothing for a word that names no method.
[[nodiscard]] std::string_view degree_day_method_text(DegreeDayMethod method) noexcept;
[[nodiscard]] std::optional<DegreeDayMethod> degree_day_method_from(std::string_view text) noexcept;
[[nodiscard]] std::string_view upper_cutoff_text(UpperCutoff cutoff) noexcept;
[[nodiscard]] std::optional<UpperCutoff> upper_cutoff_from(std::string_view text) noexcept;

/// One day: its extremes, and the minimum of the night after (for the double methods).
struct DayExtremes {
  double tmin_c = 0.0;
  double tmax_c = 0.0;
  double next_tmin_c = 0.0;
};

struct DegreeDayRule {
  DegreeDayMethod method = DegreeDayMethod::single_sine;
  double base_c = 0.0;
  std::optional<double> upper_c;
  UpperCutoff cutoff = UpperCutoff::horizontal;  ///< for sine and triangle; averages always cap
};

/// Degree-days of one day, never below 0. tmin must be at most tmax and base at most upper.
[[nodiscard]] double degree_days(const DayExtremes& day, const DegreeDayRule& rule);

/// Thermal time of one day, °C d, from hourly temperatures and a rate that rises from base to optimum as T -
/// base and falls in a straight line to 0 at the ceiling.
[[nodiscard]] double triangular_thermal_time_cd(std::span<const double> hours_c, double base_c,
                                                double optimum_c, double ceiling_c);

/// Hours between 0 and 7.2 °C (32 to 45 °F): the plain chilling hours.
[[nodiscard]] double chilling_hours(std::span<const double> hours_c);

/// Chill units of the Utah model (E. A. Richardson, S. D. Seeley and D. R. Walker 1974, HortScience 9:331):
/// hours weighted 0 to 1, and taken away above 15.9 °C.
[[nodiscard]] double utah_chill_units(std::span<const double> hours_c);

/// Growing-degree-hours of J. L. Anderson, E. A. Richardson and C. D. Kesner 1986, Acta Hort. 184:71: a
/// cosine rise from base to optimum and a cosine fall to the ceiling.
[[nodiscard]] double growing_degree_hours(std::span<const double> hours_c, double base_c = 4.0,
                                          double optimum_c = 25.0, double ceiling_c = 36.0);

/// Chill portions of the dynamic model (S. Fishman, A. Erez and G. A. Couvillon 1987, J. Theor. Biol.
/// 124:473): a first product is made and unmade by temperature; what reaches 1 is fixed for good. Carries its
/// state from hour to hour.
class ChillPortions {
 public:
  void add_hour(double temp_c);
  [[nodiscard]] double portions() const { return portions_; }

 private:
  double intermediate_ = 0.0;
  double portions_ = 0.0;
  bool started_ = false;
};

}  // namespace sowtide::climate
