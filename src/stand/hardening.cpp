#include "stand/hardening.hpp"

#include <algorithm>
#include <cmath>

namespace sowtide::stand {
namespace {

constexpr double kNoneFromC = 15.0;
constexpr double kFullToC = 4.0;
constexpr double kHardeningDays = 3.0;
constexpr double kSofteningDays = 1.5;
constexpr double kHardensFromC = -2.0;  // of the figure for grown plants

}  // namespace

double hardening_at(double mean_c) noexcept {
  return std::clamp((kNoneFromC - mean_c) / (kNoneFromC - kFullToC), 0.0, 1.0);
}

double hardening_after(double hardening, double mean_c) noexcept {
  const double end = hardening_at(mean_c);
  static const double harden_step = 1.0 - std::exp(-1.0 / kHardeningDays);
  static const double soften_step = 1.0 - std::exp(-1.0 / kSofteningDays);
  return hardening + (end > hardening ? harden_step : soften_step) * (end - hardening);
}

double half_killed_c(const crop::Limits& limits, double grown, double hardening) noexcept {
  const double young_c = limits.kill_seedling_c;
  const bool hardens = limits.kill_mature_c <= kHardensFromC;
  return young_c + grown * (hardens ? hardening : 1.0) * (limits.kill_mature_c - young_c);
}

}  // namespace sowtide::stand
