// weather add, weather show.
#include <fmt/format.h>
#include <fmt/ostream.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <ostream>
#include <utility>

#include "base/file.hpp"
#include "base/parallel.hpp"
#include "cli/open.hpp"
#include "cli/verbs.hpp"
#include "climate/gaps.hpp"
#include "climate/intake.hpp"
#include "climate/merge.hpp"
#include "climate/normals.hpp"
#include "climate/places.hpp"
#include "climate/quality.hpp"
#include "climate/readers.hpp"
#include "desk/present.hpp"
#include "desk/weather_report.hpp"

namespace sowtide::cli {
namespace {

tl::unexpected<base::Problem> bad_option(const std::string& field, const std::string& value, std::string remedy) {
  return base::fail(base::ProblemCode::syntax, fmt::format("\"{}\" is not understood", value), {.field = field},
                    std::move(remedy));
}

/// "tmin=Low (F)" → field tmin is the column "Low (F)".
base::Result<climate::ColumnChoice> column_choice(const std::string& text) {
  const std::size_t equals = text.find('=');
  if (equals == std::string::npos || equals == 0 || equals + 1 == text.size()) {
    return bad_option("--column", text, "Write FIELD=HEADING, for example tmin=\"Low (F)\"");
  }
  return climate::ColumnChoice{text.substr(equals + 1), text.substr(0, equals), ""};
}

/// "temperature=F" stands for both extremes; other fields by their own name.
base::Result<std::vector<climate::UnitChoice>> unit_choices(const std::string& text) {
  const std::size_t equals = text.find('=');
  if (equals == std::string::npos || equals == 0 || equals + 1 == text.size()) {
    return bad_option("--unit", text, "Write FIELD=UNIT, for example temperature=F or rain=in");
  }
  const std::string field = text.substr(0, equals);
  const std::string unit = text.substr(equals + 1);
  if (field == "temperature") return std::vector<climate::UnitChoice>{{"tmin", unit}, {"tmax", unit}, {"temperature", unit}};
  return std::vector<climate::UnitChoice>{{field, unit}};
}

base::Result<climate::ReadOptions> read_options(const WeatherAddOptions& options) {
  climate::ReadOptions read;
  read.station = options.station;
  if (options.forecast) read.origin = climate::ValueOrigin::forecast;
  for (const std::string& text : options.columns) {
    auto choice = column_choice(text);
    if (!choice) return tl::make_unexpected(choice.error());
    read.columns.push_back(std::move(*choice));
  }
  for (const std::string& text : options.units) {
    auto choices = unit_choices(text);
    if (!choices) return tl::make_unexpected(choices.error());
    read.units.insert(read.units.end(), choices->begin(), choices->end());
  }
  static const std::map<std::string, climate::DateForm> forms{{"", climate::DateForm::automatic},
                                                              {"ymd", climate::DateForm::year_month_day},
                                                              {"dmy", climate::DateForm::day_month_year},
                                                              {"mdy", climate::DateForm::month_day_year}};
  const auto form = forms.find(options.date_form);
  if (form == forms.end()) return bad_option("--date-form", options.date_form, "Choose ymd, dmy or mdy");
  read.date_form = form->second;
  read.wind_height_m = options.wind_height_m;
  read.format = options.format;
  read.typical_year = options.typical_year;
  read.keep_flagged = options.keep_flagged;
  if (options.decimal_comma) read.decimal_comma = true;
  return read;
}

/// The months to be expected at the garden: its normals, else those of its record, else those of the nearest
/// built-in place.
climate::MonthlyNormals expected_months(const book::GardenDescription& garden) {
  if (garden.normals) return *garden.normals;
  if (garden.weather.day_count() > 0) {
    if (auto own = climate::normals_from_record(garden.weather)) return std::move(own->place.normals);
  }
  return climate::nearest_place(garden.site.latitude_deg, garden.site.longitude_deg, garden.site.elevation_m).place.normals;
}

/// What a person should know of a file beside what its reader says.
std::vector<std::string> notes_of(const climate::WeatherImport& import, const WeatherAddOptions& asked) {
  std::vector<std::string> notes = import.notes;
  std::string beside;
  for (const climate::ExtraSeries& extra : import.extra) beside += (beside.empty() ? "" : ", ") + extra.name;
  if (!beside.empty()) notes.push_back("Read beside, but a garden does not keep it: " + beside + ".");
  const base::Date useful = asked.today + desk::kForecastReach;
  if (asked.forecast && import.record.last() > useful)
    notes.push_back(fmt::format("A forecast is used up to {} days ahead: what lies after {} is not.",
                                desk::kForecastReach.count(), base::to_iso(useful)));
  return notes;
}

/// One file read, checked and merged into `record`.
base::Result<desk::ImportReport> take_in(const std::string& path, const climate::ReadOptions& options,
                                         const WeatherAddOptions& asked, const climate::MonthlyNormals& expected,
                                         climate::WeatherRecord& record) {
  auto bytes = base::read_file(path);
  if (!bytes) return tl::make_unexpected(bytes.error());
  auto read = climate::read_weather(*bytes, path, options);
  if (!read) return tl::make_unexpected(read.error());
  if (options.origin != climate::ValueOrigin::forecast) {
    if (auto past = check_past(read->record, path, asked.today); !past) return tl::make_unexpected(past.error());
  }
  if (auto unit = climate::unlikely_unit(*read, expected)) {
    unit->where.file = path;
    return tl::make_unexpected(*unit);
  }
  desk::ImportReport report;
  report.file = path;
  report.format = read->format;
  report.notes = notes_of(*read, asked);
  const bool site_stated = read->site_stated;
  const auto precedence = asked.only_missing ? climate::Precedence::base : climate::Precedence::addition;
  climate::Intake intake = climate::take_in(record, std::move(*read), precedence);
  report.findings = std::move(intake.findings);
  report.first = intake.first;
  report.last = intake.last;
  if (site_stated) report.site = intake.site;
  report.values_added = intake.added;
  report.values_replaced = intake.replaced;
  report.values_kept = intake.kept;
  if (intake.replaced > 0 && site_stated) report.laid_over = record.site;
  record = std::move(intake.record);
  return report;
}

/// Where the first file that says so was measured.
std::optional<climate::Site> station_of(const std::vector<desk::ImportReport>& reports) {
  for (const desk::ImportReport& report : reports) {
    if (report.site) return report.site;
  }
  return std::nullopt;
}

/// What the garden's weather must have and has not; empty where nothing lacks.
std::string lacking_text(const climate::WeatherRecord& record) {
  std::string names;
  for (const auto& [variable, name] : {std::pair{climate::Variable::tmin, "minimum temperature"},
                                       std::pair{climate::Variable::tmax, "maximum temperature"},
                                       std::pair{climate::Variable::rain, "rain"}}) {
    const std::vector<double>& values = record.values(variable);
    const bool none = std::all_of(values.begin(), values.end(), [](double value) { return std::isnan(value); });
    if (none) names += (names.empty() ? "" : ", ") + std::string(name);
  }
  if (names.empty()) return {};
  return "The garden's weather has no " + names +
         " yet: this record cannot be planned with. Add one that has them, or give monthly normals.";
}

}  // namespace

base::Result<void> run_weather_add(const WeatherAddOptions& options, Output& output) {
  const auto read = read_options(options);
  if (!read) return tl::make_unexpected(read.error());
  auto opened = open_garden(options.garden);
  if (!opened) return tl::make_unexpected(opened.error());
  if (auto told = book::need_place(opened->garden); !told) return told;
  const climate::MonthlyNormals expected = expected_months(opened->garden);
  climate::WeatherRecord record = options.forecast ? climate::without_forecast(std::move(opened->garden.weather))
                                                   : std::move(opened->garden.weather);
  const bool was_empty = record.day_count() == 0;
  std::vector<desk::ImportReport> reports;
  for (const std::string& path : options.files) {
    auto report = take_in(path, *read, options, expected, record);
    if (!report) return tl::make_unexpected(report.error());
    reports.push_back(std::move(*report));
  }
  climate::GapOutcome filled = climate::fill_gaps(std::move(record));
  if (was_empty) filled.record.site = station_of(reports).value_or(opened->garden.site);
  const std::string lack = opened->garden.normals ? std::string() : lacking_text(filled.record);
  if (!lack.empty()) reports.back().notes.push_back(lack);
  std::vector<climate::QualityFinding> findings = std::move(opened->garden.weather_findings);
  if (!options.forecast) {
    for (const desk::ImportReport& report : reports) climate::add_findings(findings, report.findings);
    climate::add_findings(findings, filled.findings);
  }
  if (auto kept = opened->file.set_weather(filled.record, findings); !kept) return kept;
  output.out << (output.json ? desk::import_json(reports, filled.findings, opened->garden.site)
                             : desk::import_text(reports, filled.findings, opened->garden.site,
                                                 desk::units_of(opened->garden.units)));
  if (output.json) output.out << "\n";
  return {};
}

base::Result<void> run_weather_show(const WeatherShowOptions& options, Output& output) {
  auto opened = open_garden(options.garden);
  if (!opened) return tl::make_unexpected(opened.error());
  if (auto told = book::need_place(opened->garden); !told) return told;
  const desk::WeatherSummary summary = desk::summarise_weather(opened->garden);
  if (output.json) {
    output.out << desk::weather_json(summary) << "\n";
  } else {
    output.out << desk::weather_text(summary, desk::units_of(opened->garden.units));
  }
  return {};
}

}  // namespace sowtide::cli
