#include "desk/weather_report.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <nlohmann/json.hpp>

#include "base/csv.hpp"
#include "base/quantity.hpp"
#include "climate/gaps.hpp"
#include "climate/normals.hpp"
#include "climate/places.hpp"
#include "climate/quality.hpp"
#include "climate/risk.hpp"
#include "climate/told_quantity.hpp"
#include "desk/site.hpp"

namespace sowtide::desk {
namespace {

using Json = nlohmann::ordered_json;

/// Farther than this, the garden's nights and rain are no longer the station's: our judgement, said to the person.
constexpr double kFarStation_km = 30.0;
/// Differences of height above this are worth a word: 0.65 °C per 100 m in the standard lapse rate.
constexpr double kHighStation_m = 100.0;
/// Nearer than this, two positions are those of one station written with fewer digits (0.05° is up to 5.6 km).
constexpr double kOtherStation_km = 6.0;
constexpr std::size_t kFindingsShown = 12;

double distance_km(const climate::Site& a, const climate::Site& b) {
  return climate::distance_km(a.latitude_deg, a.longitude_deg, b.latitude_deg, b.longitude_deg);
}

std::string distance_text(double km, Units units) {
  constexpr double kKilometresPerMile = 1.609344;  // the international mile of 1959, exactly
  return units == Units::us ? fmt::format("{:.0f} miles", km / kKilometresPerMile)
                            : fmt::format("{:.0f} km", km);
}

std::string height_text(double metres, Units units) {
  return units == Units::us ? fmt::format("{:.0f} ft", metres / base::kMetresPerFoot)
                            : fmt::format("{:.0f} m", metres);
}

std::string rain_text(double millimetres, Units units) {
  return units == Units::us ? fmt::format("{:.1f} in", millimetres / base::kMillimetresPerInch)
                            : fmt::format("{:.0f} mm", millimetres);
}

/// The unit in which a variable is told; radiation and the rest as they are kept.
std::string_view unit_text(std::string_view kept, Units units) {
  if (units == Units::us && kept == "°C") return "°F";
  if (units == Units::us && kept == "mm") return "in";
  if (units == Units::us && kept == "m/s") return "mph";
  return kept;
}

/// The detail of a finding, with its quantities in the garden's units.
std::string detail_text(const std::string& detail, Units units) {
  constexpr double kFahrenheitPerKelvin = 1.8;
  return climate::tell_quantities(detail, [units](double value, climate::ToldUnit unit) {
    const bool us = units == Units::us;
    switch (unit) {
      case climate::ToldUnit::celsius:
        return us ? fmt::format("{:.1f} °F", value * kFahrenheitPerKelvin + 32.0) : fmt::format("{:.1f} °C", value);
      case climate::ToldUnit::kelvin:
        return us ? fmt::format("{:.3g} °F", value * kFahrenheitPerKelvin) : fmt::format("{:.3g} °C", value);
      case climate::ToldUnit::millimetres:
        break;
    }
    return us ? fmt::format("{:.2f} in", value / base::kMillimetresPerInch) : fmt::format("{} mm", base::number_text(value));
  });
}

/// What the person should know of where the station stands; empty when it is near.
std::string station_text(const climate::Site& station, const climate::Site& garden, Units units) {
  const double km = distance_km(station, garden);
  const double metres = station.elevation_m - garden.elevation_m;
  std::string text;
  if (km > kFarStation_km)
    text += fmt::format("the station lies {} from the garden", distance_text(km, units));
  if (std::abs(metres) > kHighStation_m) {
    text += fmt::format("{}the station lies {} {} than the garden", text.empty() ? "" : "; ",
                        height_text(std::abs(metres), units), metres > 0.0 ? "higher" : "lower");
  }
  return text;
}

/// A word of warning where a second station took the place of values of another; empty where it did not.
std::string laid_over_text(const ImportReport& report, Units units) {
  if (!report.site || !report.laid_over) return {};
  const double km = distance_km(*report.site, *report.laid_over);
  if (km <= kOtherStation_km) return {};
  return fmt::format("{} of {} gave way to a station {} from it; with --only-missing {}",
                     counted(static_cast<std::int64_t>(report.values_replaced), "value"),
                     report.laid_over->name.empty() ? "the record there" : report.laid_over->name,
                     distance_text(km, units), report.values_replaced == 1 ? "it stands" : "they stand");
}

std::string finding_text(const climate::QualityFinding& finding, Units units) {
  return fmt::format("    {} {:<9} {:<18} {:<8} {}\n", base::to_iso(finding.date),
                     climate::variable_text(finding.variable), finding.check, finding.action,
                     detail_text(finding.detail, units));
}

}  // namespace

std::string findings_text(const std::vector<climate::QualityFinding>& findings, Units units) {
  if (findings.empty()) return "    nothing found\n";
  std::string text;
  for (const climate::FindingCount& count : climate::count_findings(findings)) {
    text += fmt::format("    {} x {} ({})\n", count.count, count.check, count.action);
  }
  for (std::size_t i = 0; i < std::min(findings.size(), kFindingsShown); ++i)
    text += finding_text(findings[i], units);
  if (findings.size() > kFindingsShown) {
    text += fmt::format("    … and {} more; --json lists them all\n", findings.size() - kFindingsShown);
  }
  return text;
}

namespace {

Json finding_json(const climate::QualityFinding& finding) {
  return {{"date", base::to_iso(finding.date)},
          {"variable", climate::variable_text(finding.variable)},
          {"value", std::isfinite(finding.value) ? Json(finding.value) : Json(nullptr)},
          {"check", finding.check},
          {"action", finding.action},
          {"detail", detail_text(finding.detail, Units::metric)}};
}

Json findings_json(const std::vector<climate::QualityFinding>& findings) {
  Json list = Json::array();
  for (const climate::QualityFinding& finding : findings) list.push_back(finding_json(finding));
  return list;
}

Json site_json(const climate::Site& site) {
  return {{"name", site.name},
          {"latitude_deg", site.latitude_deg},
          {"longitude_deg", site.longitude_deg},
          {"elevation_m", site.elevation_m}};
}

/// A spell is this many days of heat or more (common practice).
constexpr int kSpellDays = 3;
/// Years made where there are only normals: the chances come out within a few per cent.
constexpr int kMadeYears = 200;
/// Shares of winters for which the chill is told.
constexpr std::array<double, 3> kChillShares{0.1, 0.5, 0.9};

/// Frost, and what tender crops stand badly.
constexpr std::array<double, 2> kHoursBelowC{0.0, 10.0};

void add_risks(const climate::WeatherRecord& record, WeatherSummary& summary) {
  for (const double threshold_c : kHoursBelowC) {
    if (const auto hours = climate::monthly_hours_below(record, threshold_c))
      summary.hours_below.push_back({threshold_c, *hours});
  }
  if (auto chill = climate::winter_chill(record)) summary.chill = std::move(*chill);
  if (auto heat = climate::heat_spells(record, kHeatC, kSpellDays)) summary.heat = *heat;
}

std::string chill_and_heat_text(const WeatherSummary& summary, Units units) {
  std::string text;
  if (summary.chill) {
    text += fmt::format("Winter chill (hours from {} to {}): {:.0f} in 9 winters of 10, {:.0f} in every second, {:.0f} in one of 10\n",
                        temperature_text(0.0, units), temperature_text(7.2, units), summary.chill->reached(kChillShares[2]),
                        summary.chill->reached(kChillShares[1]), summary.chill->reached(kChillShares[0]));
  }
  if (summary.heat) {
    text += fmt::format("Heat spells ({} days or more of {}): {:.1f} a year, in {:.0f} % of years; the longest {} days\n",
                        summary.heat->least_days, temperature_text(summary.heat->threshold_c, units), summary.heat->per_year,
                        100.0 * summary.heat->share_of_years, summary.heat->longest_days);
  }
  if (text.empty()) return text;
  return fmt::format("\nOver the years{}\n\n{}", summary.normals_given ? fmt::format(" ({} made from the normals)", kMadeYears) : " of the record",
                     text);
}

Json chill_json(const WeatherSummary& summary) {
  if (!summary.chill) return nullptr;
  Json reached = Json::array();
  for (const double share : kChillShares) reached.push_back({{"share_of_winters", share}, {"hours", summary.chill->reached(share)}});
  return {{"from_made_years", summary.normals_given}, {"winters", summary.chill->hours.size()}, {"reached", reached}};
}

Json hours_below_json(const WeatherSummary& summary) {
  Json all = Json::array();
  for (const HoursBelow& hours : summary.hours_below)
    all.push_back({{"threshold_c", hours.threshold_c}, {"by_month", hours.by_month}});
  return all;
}

Json heat_json(const WeatherSummary& summary) {
  if (!summary.heat) return nullptr;
  const climate::HeatSpells& heat = *summary.heat;
  return {{"from_made_years", summary.normals_given}, {"threshold_c", heat.threshold_c}, {"least_days", heat.least_days},
          {"years", heat.years}, {"spells_per_year", heat.per_year}, {"share_of_years", heat.share_of_years},
          {"days_per_year", heat.days_per_year}, {"longest_days", heat.longest_days}};
}

/// What quality control finds in the record as it stands. Nothing is taken out of it here: a value that it would
/// remove is doubtful, and the days that would then be missing are not.
void add_doubtful(const climate::WeatherRecord& record, WeatherSummary& summary) {
  for (climate::QualityFinding& finding : climate::control_quality(record).findings) {
    const auto day = static_cast<std::size_t>((finding.date - record.first).count());
    const bool stands = !std::isnan(record.values(finding.variable)[day]);
    if (finding.check == "missing-days" && stands) continue;
    if (finding.action == "removed") finding.action = "doubtful";
    summary.findings.push_back(std::move(finding));
  }
}

VariableSummary count_variable(const climate::WeatherRecord& record, climate::Variable variable) {
  VariableSummary summary;
  summary.name = climate::variable_text(variable);
  summary.unit = climate::variable_unit(variable);
  for (const climate::ValueOrigin origin : record.of(variable).origin) {
    switch (origin) {
      case climate::ValueOrigin::missing: ++summary.missing; break;
      case climate::ValueOrigin::observed: ++summary.observed; break;
      case climate::ValueOrigin::filled: ++summary.filled; break;
      case climate::ValueOrigin::estimated: ++summary.estimated; break;
      case climate::ValueOrigin::forecast: ++summary.forecast; break;
    }
  }
  return summary;
}

std::string normals_text(const WeatherSummary& summary, Units units) {
  using Align = TextTable::Align;
  const climate::MonthlyNormals& normals = *summary.normals;
  std::vector<std::string> heading{"month", "warmest of day", "coldest of night", "rain", "record high", "record low"};
  for (const HoursBelow& hours : summary.hours_below)
    heading.push_back("hours below " + temperature_text(hours.threshold_c, units));
  std::vector<Align> align(heading.size(), Align::right);
  align.front() = Align::left;
  TextTable table(heading, align);
  const auto record_text = [units](const std::optional<std::array<double, 12>>& values, std::size_t month) {
    return values ? temperature_text((*values)[month], units) : std::string("-");
  };
  static constexpr std::array<const char*, 12> kMonths{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                       "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
  for (std::size_t m = 0; m < 12; ++m) {
    std::vector<std::string> row{kMonths[m],
                                 temperature_text(normals.tmax_c[m], units),
                                 temperature_text(normals.tmin_c[m], units),
                                 rain_text(normals.precip_mm[m], units),
                                 record_text(summary.record_high_c, m),
                                 record_text(summary.record_low_c, m)};
    for (const HoursBelow& hours : summary.hours_below) row.push_back(fmt::format("{:.0f}", hours.by_month[m]));
    table.add(row);
  }
  return table.text();
}

}  // namespace

std::string import_text(const std::vector<ImportReport>& reports,
                        const std::vector<climate::QualityFinding>& filled, const climate::Site& garden,
                        Units units) {
  std::string text;
  for (const ImportReport& report : reports) {
    text +=
        fmt::format("{}: {}, {} to {}; {} taken in, {} replaced", report.file, report.format,
                    base::to_iso(report.first), base::to_iso(report.last),
                    counted(static_cast<std::int64_t>(report.values_added), "value"), report.values_replaced);
    text += report.values_kept > 0 ? fmt::format(", {} left as they were\n", report.values_kept) : "\n";
    for (const std::string& note : report.notes) text += "    note: " + note + "\n";
    if (report.site) {
      const std::string where = station_text(*report.site, garden, units);
      if (!where.empty()) text += "    note: " + where + "\n";
      const std::string over = laid_over_text(report, units);
      if (!over.empty()) text += "    note: " + over + "\n";
    }
    text += "  quality control\n" + findings_text(report.findings, units);
  }
  if (!filled.empty()) text += "  gaps\n" + findings_text(filled, units);
  return text;
}

std::string import_json(const std::vector<ImportReport>& reports, const std::vector<climate::QualityFinding>& filled,
                        const climate::Site& garden) {
  Json files = Json::array();
  for (const ImportReport& report : reports) {
    files.push_back({{"file", report.file},
                     {"format", report.format},
                     {"first", base::to_iso(report.first)},
                     {"last", base::to_iso(report.last)},
                     {"values_added", report.values_added},
                     {"values_replaced", report.values_replaced},
                     {"values_kept", report.values_kept},
                     {"station", report.site ? site_json(*report.site) : Json(nullptr)},
                     {"station_distance_km", report.site ? Json(distance_km(*report.site, garden)) : Json(nullptr)},
                     {"notes", report.notes},
                     {"findings", findings_json(report.findings)}});
  }
  return Json{{"files", files}, {"filled", findings_json(filled)}}.dump(2);
}

WeatherSummary summarise_weather(const book::GardenDescription& garden) {
  WeatherSummary summary;
  summary.garden = garden.name;
  summary.site = garden.site;
  const climate::WeatherRecord& record = garden.weather;
  summary.days = record.day_count();
  summary.found_at_import = garden.weather_findings;
  if (summary.days > 0) {
    summary.first = record.first;
    summary.last = record.last();
    for (std::size_t v = 0; v < climate::kVariableCount; ++v) {
      summary.variables.push_back(count_variable(record, static_cast<climate::Variable>(v)));
    }
    for (climate::QualityFinding& finding : climate::fill_gaps(record).findings) {
      if (finding.action != "filled") summary.findings.push_back(std::move(finding));
    }
    summary.station = record.site;
    add_doubtful(record, summary);
    auto normals = climate::normals_from_record(record);
    if (normals) {
      summary.normals = std::move(normals->place.normals);
      summary.record_high_c = normals->record_high_c;
      summary.record_low_c = normals->record_low_c;
      add_risks(record, summary);
      return summary;
    }
    summary.note = base::to_text(normals.error());
  }
  if (garden.normals) {
    summary.normals = garden.normals;
    summary.normals_given = true;
    add_risks(climate::generated_record({.site = garden.site, .normals = *garden.normals}, kMadeYears), summary);
  }
  return summary;
}

std::string weather_text(const WeatherSummary& summary, Units units) {
  std::string text = fmt::format("{} ({:.2f}°, {:.2f}°, {})\n", summary.garden, summary.site.latitude_deg,
                                 summary.site.longitude_deg, height_text(summary.site.elevation_m, units));
  if (summary.days == 0) {
    text += "No weather record yet. Next: sowtide weather GARDEN add FILE\n";
  } else {
    text += fmt::format("Record {} to {}, {}", base::to_iso(summary.first), base::to_iso(summary.last),
                        counted(static_cast<std::int64_t>(summary.days), "day"));
    if (summary.station && !summary.station->name.empty()) text += ", of " + summary.station->name;
    const std::string where =
        summary.station ? station_text(*summary.station, summary.site, units) : std::string();
    text += (where.empty() ? "" : "; " + where) + "\n\n";
    using Align = TextTable::Align;
    TextTable table({"variable", "unit", "observed", "filled", "estimated", "forecast", "missing"},
                    {Align::left, Align::left, Align::right, Align::right, Align::right, Align::right, Align::right});
    for (const VariableSummary& v : summary.variables) {
      table.add({v.name, std::string(unit_text(v.unit, units)), std::to_string(v.observed),
                 std::to_string(v.filled), std::to_string(v.estimated), std::to_string(v.forecast),
                 std::to_string(v.missing)});
    }
    text += table.text() + "\n  gaps that remain, and what is doubtful in it now though it stands\n" +
            findings_text(summary.findings, units);
    text += "  what was found when it came in\n" + findings_text(summary.found_at_import, units);
  }
  if (!summary.note.empty()) text += "\n" + summary.note + "\n";
  if (summary.normals) {
    text += fmt::format("\nMonthly normals {}\n\n", summary.normals_given ? "as given with the garden" : "of this record");
    text += normals_text(summary, units);
  }
  return text + chill_and_heat_text(summary, units);
}

std::string weather_json(const WeatherSummary& summary) {
  Json variables = Json::array();
  for (const VariableSummary& v : summary.variables) {
    variables.push_back({{"name", v.name},
                         {"unit", v.unit},
                         {"observed", v.observed},
                         {"filled", v.filled},
                         {"estimated", v.estimated},
                         {"forecast", v.forecast},
                         {"missing", v.missing}});
  }
  Json normals = nullptr;
  if (summary.normals) {
    normals = {{"given", summary.normals_given},
               {"tmax_c", summary.normals->tmax_c},
               {"tmin_c", summary.normals->tmin_c},
               {"precip_mm", summary.normals->precip_mm},
               {"wet_days", summary.normals->wet_days ? Json(*summary.normals->wet_days) : Json(nullptr)},
               {"record_high_c", summary.record_high_c ? Json(*summary.record_high_c) : Json(nullptr)},
               {"record_low_c", summary.record_low_c ? Json(*summary.record_low_c) : Json(nullptr)},
               {"source", summary.normals->source}};
  }
  const bool any = summary.days > 0;
  return Json{{"garden", summary.garden},
              {"site", site_json(summary.site)},
              {"station", summary.station ? site_json(*summary.station) : Json(nullptr)},
              {"station_distance_km", summary.station ? Json(distance_km(*summary.station, summary.site)) : Json(nullptr)},
              {"first", any ? Json(base::to_iso(summary.first)) : Json(nullptr)},
              {"last", any ? Json(base::to_iso(summary.last)) : Json(nullptr)},
              {"days", summary.days},
              {"variables", variables},
              {"findings", findings_json(summary.findings)},
              {"found_at_import", findings_json(summary.found_at_import)},
              {"normals", normals},
              {"chill", chill_json(summary)},
              {"heat", heat_json(summary)},
              {"hours_below", hours_below_json(summary)},
              {"note", summary.note}}
      .dump(2);
}

}  // namespace sowtide::desk
