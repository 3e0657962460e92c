#include "climate/degree_days.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <utility>

namespace sowtide::climate {
namespace {

using std::numbers::pi;

constexpr std::array<std::pair<DegreeDayMethod, std::string_view>, 7> kMethods{{
    {DegreeDayMethod::average, "average"},
    {DegreeDayMethod::adjusted_average, "adjusted-average"},
    {DegreeDayMethod::meteorological, "meteorological"},
    {DegreeDayMethod::single_triangle, "single-triangle"},
    {DegreeDayMethod::double_triangle, "double-triangle"},
    {DegreeDayMethod::single_sine, "single-sine"},
    {DegreeDayMethod::double_sine, "double-sine"},
}};

constexpr std::array<std::pair<UpperCutoff, std::string_view>, 3> kCutoffs{{
    {UpperCutoff::horizontal, "horizontal"},
    {UpperCutoff::intermediate, "intermediate"},
    {UpperCutoff::vertical, "vertical"},
}};

/// Part of a day's curve above a threshold: the area in degree-days and the share of the time.
struct Above {
  double area = 0.0;
  double share = 0.0;
};

Above sine_above(double low, double high, double threshold) {
  const double mean = 0.5 * (low + high);
  if (low >= threshold) return {mean - threshold, 1.0};
  if (high <= threshold) return {};
  const double swing = 0.5 * (high - low);
  const double angle = std::asin((threshold - mean) / swing);
  return {((mean - threshold) * (0.5 * pi - angle) + swing * std::cos(angle)) / pi, (0.5 * pi - angle) / pi};
}

Above triangle_above(double low, double high, double threshold) {
  if (low >= threshold) return {0.5 * (low + high) - threshold, 1.0};
  if (high <= threshold) return {};
  const double over = high - threshold;
  return {over * over / (2.0 * (high - low)), over / (high - low)};
}

using AboveFunction = Above (*)(double, double, double);

/// Every cut-off is made of the same two areas: that above the base and that above the upper threshold.
double curve_degree_days(AboveFunction above, double low, double high, const DegreeDayRule& rule) {
  const double from_base = above(low, high, rule.base_c).area;
  if (!rule.upper_c) return from_base;
  const Above top = above(low, high, *rule.upper_c);
  switch (rule.cutoff) {
    case UpperCutoff::horizontal:
      return from_base - top.area;
    case UpperCutoff::intermediate:
      return std::max(0.0, from_base - 2.0 * top.area);
    case UpperCutoff::vertical:
      return std::max(0.0, from_base - top.area - (*rule.upper_c - rule.base_c) * top.share);
  }
  return 0.0;
}

double double_curve(AboveFunction above, const DayExtremes& day, const DegreeDayRule& rule) {
  // The night after may be warmer than the afternoon before: the second half-day then simply has its ends
  // swapped.
  const auto [low, high] = std::minmax(day.next_tmin_c, day.tmax_c);
  return 0.5 *
         (curve_degree_days(above, day.tmin_c, day.tmax_c, rule) + curve_degree_days(above, low, high, rule));
}

double capped(double temp_c, const DegreeDayRule& rule) {
  const double raised = std::max(temp_c, rule.base_c);
  return rule.upper_c ? std::min(raised, *rule.upper_c) : raised;
}

double meteorological(const DayExtremes& day, double base) {
  const double mean = 0.5 * (day.tmin_c + day.tmax_c);
  if (day.tmin_c >= base) return mean - base;
  if (day.tmax_c <= base) return 0.0;
  if (mean >= base) return 0.5 * (day.tmax_c - base) - 0.25 * (base - day.tmin_c);
  return 0.25 * (day.tmax_c - base);
}

double utah_weight(double temp_c) {
  constexpr std::array<std::pair<double, double>, 6> kSteps{
      {{1.4, 0.0}, {2.4, 0.5}, {9.1, 1.0}, {12.4, 0.5}, {15.9, 0.0}, {18.0, -0.5}}};
  for (const auto& [up_to, weight] : kSteps) {
    if (temp_c <= up_to) return weight;
  }
  return -1.0;
}

}  // namespace

std::string_view degree_day_method_text(DegreeDayMethod method) noexcept {
  for (const auto& [value, text] : kMethods) {
    if (value == method) return text;
  }
  return "";
}

std::optional<DegreeDayMethod> degree_day_method_from(std::string_view text) noexcept {
  for (const auto& [value, name] : kMethods) {
    if (name == text) return value;
  }
  return std::nullopt;
}

std::string_view upper_cutoff_text(UpperCutoff cutoff) noexcept {
  for (const auto& [value, text] : kCutoffs) {
    if (value == cutoff) return text;
  }
  return "";
}

std::optional<UpperCutoff> upper_cutoff_from(std::string_view text) noexcept {
  for (const auto& [value, name] : kCutoffs) {
    if (name == text) return value;
  }
  return std::nullopt;
}

double degree_days(const DayExtremes& day, const DegreeDayRule& rule) {
  switch (rule.method) {
    case DegreeDayMethod::average:
      return capped(0.5 * (day.tmin_c + day.tmax_c), rule) - rule.base_c;
    case DegreeDayMethod::adjusted_average:
      return 0.5 * (capped(day.tmin_c, rule) + capped(day.tmax_c, rule)) - rule.base_c;
    case DegreeDayMethod::meteorological:
      return meteorological(day, rule.base_c);
    case DegreeDayMethod::single_triangle:
      return curve_degree_days(triangle_above, day.tmin_c, day.tmax_c, rule);
    case DegreeDayMethod::double_triangle:
      return double_curve(triangle_above, day, rule);
    case DegreeDayMethod::single_sine:
      return curve_degree_days(sine_above, day.tmin_c, day.tmax_c, rule);
    case DegreeDayMethod::double_sine:
      return double_curve(sine_above, day, rule);
  }
  return 0.0;
}

double triangular_thermal_time_cd(std::span<const double> hours_c, double base_c, double optimum_c,
                                  double ceiling_c) {
  double sum = 0.0;
  for (const double temp_c : hours_c) {
    if (temp_c <= base_c || temp_c >= ceiling_c) continue;
    sum += temp_c <= optimum_c ? temp_c - base_c
                               : (optimum_c - base_c) * (ceiling_c - temp_c) / (ceiling_c - optimum_c);
  }
  return sum / 24.0;
}

double chilling_hours(std::span<const double> hours_c) {
  return static_cast<double>(
      std::count_if(hours_c.begin(), hours_c.end(), [](double t) { return t >= 0.0 && t <= 7.2; }));
}

double utah_chill_units(std::span<const double> hours_c) {
  double sum = 0.0;
  for (const double temp_c : hours_c) sum += utah_weight(temp_c);
  return sum;
}

double growing_degree_hours(std::span<const double> hours_c, double base_c, double optimum_c,
                            double ceiling_c) {
  const double rise = optimum_c - base_c;
  double sum = 0.0;
  for (const double temp_c : hours_c) {
    if (temp_c <= base_c || temp_c >= ceiling_c) continue;
    if (temp_c <= optimum_c) {
      sum += 0.5 * rise * (1.0 + std::cos(pi + pi * (temp_c - base_c) / rise));
    } else {
      sum += rise * (1.0 + std::cos(0.5 * pi + 0.5 * pi * (temp_c - optimum_c) / (ceiling_c - optimum_c)));
    }
  }
  return sum;
}

void ChillPortions::add_hour(double temp_c) {
  // Constants of Fishman et al. 1987: activation energies in K, rates per hour.
  constexpr double kFormEnergyK = 4153.5;
  constexpr double kBreakEnergyK = 12888.8;
  constexpr double kFormRate = 139500.0;
  constexpr double kBreakRate = 2.567e18;
  constexpr double kTransitionSlope = 1.6;
  constexpr double kTransitionK = 277.0;
  if (!started_) {
    started_ = true;
    return;
  }
  const double kelvin = temp_c + 273.0;
  const double settled = kFormRate / kBreakRate * std::exp((kBreakEnergyK - kFormEnergyK) / kelvin);
  const double rate = kBreakRate * std::exp(-kBreakEnergyK / kelvin);
  intermediate_ = settled - (settled - intermediate_) * std::exp(-rate);
  if (intermediate_ < 1.0) return;
  const double odds = std::exp(kTransitionSlope * kTransitionK * (kelvin - kTransitionK) / kelvin);
  const double fixed = intermediate_ * odds / (1.0 + odds);
  portions_ += fixed;
  intermediate_ -= fixed;
}

}  // namespace sowtide::climate
