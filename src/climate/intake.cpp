#include "climate/intake.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "climate/quality.hpp"

namespace sowtide::climate {
namespace {

/// Whether the value that a finding speaks of came with `addition` and stands in `merged`.
bool came_with(const WeatherRecord& addition, const WeatherRecord& merged, const QualityFinding& finding) {
  if (finding.date < addition.first || finding.date > addition.last()) return false;
  const auto value_on = [&finding](const WeatherRecord& record) {
    return record.values(finding.variable)[static_cast<std::size_t>((finding.date - record.first).count())];
  };
  return value_on(addition) == value_on(merged);  // never so where either is missing
}

/// Quality control among all years; takes out what came with `addition` and fails.
void check_among_years(const WeatherRecord& addition, Intake& intake) {
  for (QualityFinding& finding : control_quality(intake.record).findings) {
    if (finding.action != "removed" || !came_with(addition, intake.record, finding)) continue;
    intake.record.set(finding.variable, finding.date, std::numeric_limits<double>::quiet_NaN(), ValueOrigin::missing);
    intake.findings.push_back(std::move(finding));
  }
}

void append(std::vector<QualityFinding>& to, const std::vector<QualityFinding>& more) {
  to.insert(to.end(), more.begin(), more.end());
}

/// Mean over the days of how far their middle temperature lies above the month's; NaN where none is known.
double mean_excess_c(const WeatherRecord& record, const MonthlyNormals& expected, double scale, double shift) {
  double sum_c = 0.0;
  std::size_t count = 0;
  for (std::size_t i = 0; i < record.day_count(); ++i) {
    const double middle = 0.5 * (record.values(Variable::tmin)[i] + record.values(Variable::tmax)[i]);
    if (std::isnan(middle)) continue;
    const auto month = static_cast<std::size_t>(base::month_of(record.date_at(i)) - 1);
    sum_c += middle * scale + shift - 0.5 * (expected.tmin_c[month] + expected.tmax_c[month]);
    ++count;
  }
  return count == 0 ? std::nan("") : sum_c / static_cast<double>(count);
}

}  // namespace

Intake take_in(const WeatherRecord& base, WeatherImport import, Precedence precedence) {
  Intake intake;
  intake.findings = std::move(import.findings);
  if (import.typical_year) {
    intake.findings.push_back({import.record.first, Variable::tmin, std::numeric_limits<double>::quiet_NaN(),
                               "typical-year", "kept",
                               "twelve months put together from several years: no year that was, and no climate"});
  }
  const QualityOutcome checked = control_quality(std::move(import.record));
  append(intake.findings, checked.findings);
  intake.site = checked.record.site;
  intake.first = checked.record.first;
  intake.last = checked.record.last();
  MergeOutcome merged = merge(base, checked.record, precedence);
  append(intake.findings, merged.findings);
  intake.record = std::move(merged.record);
  intake.added = merged.added;
  intake.replaced = merged.replaced;
  intake.kept = merged.kept;
  if (base.day_count() > 0) check_among_years(checked.record, intake);
  return intake;
}

std::optional<base::Problem> unlikely_unit(const WeatherImport& import, const MonthlyNormals& expected) {
  // Ours: no spell of days lies this far above its months, and any lies this near to them.
  constexpr double kFar_k = 12.0, kNear_k = 8.0;
  if (!import.celsius_assumed) return std::nullopt;
  const double as_celsius = mean_excess_c(import.record, expected, 1.0, 0.0);
  const double as_fahrenheit = mean_excess_c(import.record, expected, 5.0 / 9.0, -160.0 / 9.0);
  if (!(as_celsius > kFar_k) || !(std::abs(as_fahrenheit) < kNear_k)) return std::nullopt;
  base::Problem problem;
  problem.code = base::ProblemCode::wrong_unit;
  problem.what = fmt::format(
      "the temperatures name no unit and lie {:.0f} °C above what is usual at the garden in these months; in degrees "
      "Fahrenheit they would fit",
      as_celsius);
  problem.where.field = "tmax";
  problem.remedy = "Say --unit temperature=F, or --unit temperature=C if they are right";
  return problem;
}

}  // namespace sowtide::climate
