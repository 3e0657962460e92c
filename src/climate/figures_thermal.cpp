#include <fmt/format.h>

#include <array>

#include "climate/degree_days.hpp"
#include "climate/detail/figure_reader.hpp"
#include "climate/figures.hpp"
#include "climate/hourly.hpp"

namespace sowtide::climate {
namespace {

using base::Explanation;
using base::FigureInputs;
using base::ProblemCode;
using base::Result;
using detail::FigureReader;

double temperature(FigureReader& in, const std::string& key) {
  return in.number(key, detail::kColdestC, detail::kHottestC);
}

void refuse_unless(bool holds, FigureReader& in, const std::string& key, std::string what) {
  if (!in.problem() && !holds) in.refuse(ProblemCode::contradiction, key, std::move(what));
}

DegreeDayRule read_rule(FigureReader& in) {
  DegreeDayRule rule;
  const auto method = degree_day_method_from(in.text_or("method", "single-sine"));
  if (!method) {
    in.refuse(
        ProblemCode::not_found, "method", "is not a method known here",
        "Use average, adjusted-average, meteorological, single-triangle, double-triangle, single-sine or "
        "double-sine");
  }
  rule.method = method.value_or(rule.method);
  rule.base_c = temperature(in, "base_c");
  rule.upper_c = in.maybe("upper_c", detail::kColdestC, detail::kHottestC);
  refuse_unless(!rule.upper_c || *rule.upper_c > rule.base_c, in, "upper_c", "must be above base_c");
  if (in.has("cutoff")) {
    const auto cutoff = upper_cutoff_from(in.text_or("cutoff", ""));
    if (!cutoff) {
      in.refuse(ProblemCode::not_found, "cutoff", "is not a cut-off known here",
                "Use horizontal, intermediate or vertical");
    }
    rule.cutoff = cutoff.value_or(rule.cutoff);
  }
  return rule;
}

std::string source_of(DegreeDayMethod method) {
  switch (method) {
    case DegreeDayMethod::average:
    case DegreeDayMethod::adjusted_average:
      return "G. S. McMaster and W. W. Wilhelm 1997, Growing degree-days: one equation, two interpretations, "
             "Agric. For. "
             "Meteorol. 87:291-300";
    case DegreeDayMethod::meteorological:
      return "Met Éireann, notes on degree-days: quarter rules for days that cross the base";
    default:
      return "F. G. Zalom, P. B. Goodell, L. T. Wilson, W. W. Barnett and W. J. Bentley 1983, Degree-days: "
             "the "
             "calculation and use of heat units in pest management, University of California";
  }
}

}  // namespace

Result<Explanation> explain_growing_degree_days(const FigureInputs& inputs) {
  FigureReader in(detail::described("growing-degree-days"), inputs);
  const DegreeDayRule rule = read_rule(in);
  DayExtremes day;
  day.tmin_c = temperature(in, "tmin_c");
  day.tmax_c = temperature(in, "tmax_c");
  day.next_tmin_c = in.number_or("next_tmin_c", detail::kColdestC, detail::kHottestC, day.tmin_c);
  refuse_unless(day.tmin_c <= day.tmax_c, in, "tmin_c", "is above tmax_c");
  if (in.problem()) return in.failure();
  Explanation out = in.explanation();
  const double sum = degree_days(day, rule);
  out.result = {{"degree_days_cd", sum, "°C d"}};
  out.working = {
      fmt::format("M = {:.2f} °C, A = {:.2f} °C", 0.5 * (day.tmin_c + day.tmax_c),
                  0.5 * (day.tmax_c - day.tmin_c)),
      fmt::format("{} above {} °C{} = {:.3f} °C d", degree_day_method_text(rule.method), rule.base_c,
                  rule.upper_c
                      ? fmt::format(", {} cut-off at {} °C", upper_cutoff_text(rule.cutoff), *rule.upper_c)
                      : std::string{},
                  sum)};
  out.source = {source_of(rule.method)};
  return out;
}

Result<Explanation> explain_thermal_time(const FigureInputs& inputs) {
  FigureReader in(detail::described("thermal-time"), inputs);
  const double base_c = temperature(in, "base_c");
  const double optimum_c = temperature(in, "optimum_c");
  const double ceiling_c = temperature(in, "ceiling_c");
  const double tmin_c = temperature(in, "tmin_c");
  const double tmax_c = temperature(in, "tmax_c");
  const double day_length_h = in.number_or("day_length_h", 0.0, 24.0, 12.0);
  refuse_unless(base_c < optimum_c, in, "optimum_c", "must be above base_c");
  refuse_unless(optimum_c < ceiling_c, in, "ceiling_c", "must be above optimum_c");
  refuse_unless(tmin_c <= tmax_c, in, "tmin_c", "is above tmax_c");
  if (in.problem()) return in.failure();
  const HourlyTemperatures hours = hourly_temperatures(tmin_c, tmax_c, tmax_c, tmin_c, day_length_h);
  const double sum = triangular_thermal_time_cd(hours, base_c, optimum_c, ceiling_c);
  Explanation out = in.explanation();
  out.result = {{"thermal_time_cd", sum, "°C d"},
                {"hours_c", std::vector<double>(hours.begin(), hours.end()), "°C"}};
  out.working = {"24 temperatures at half hours: a sine by day, an exponential fall by night",
                 fmt::format("each hour adds T - {0} up to {1} °C, falling in a straight line to 0 at {2} °C",
                             base_c, optimum_c, ceiling_c),
                 fmt::format("sum over 24 hours / 24 = {:.4f} °C d", sum)};
  out.source = {
      "W. J. Parton and J. A. Logan 1981, A model for diurnal variation in soil and air temperature, Agric. "
      "Meteorol. 23:205-216",
      "Rate in straight lines between cardinal temperatures: common practice"};
  return out;
}

}  // namespace sowtide::climate
