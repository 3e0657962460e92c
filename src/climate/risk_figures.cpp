#include "climate/risk_figures.hpp"

#include <fmt/format.h>

#include <cmath>

#include "climate/detail/figure_reader.hpp"
#include "climate/places.hpp"

namespace sowtide::climate {
namespace {

using base::Explanation;

constexpr double kLowestProbability = 0.01;
constexpr double kHighestProbability = 0.99;

struct FrostQuestion {
  double threshold_c = 0.0;
  double probability = 0.5;
};

/// Mean minimum of the three months from `first_month` on; the calendar wraps.
double quarter_mean_c(const WeatherRecord& record, int first_month) {
  double sum_c = 0.0;
  int count = 0;
  for (std::size_t i = 0; i < record.day_count(); ++i) {
    const double tmin_c = record.values(Variable::tmin)[i];
    const int months_on = (base::month_of(record.date_at(i)) - first_month + 12) % 12;
    if (months_on >= 3 || std::isnan(tmin_c)) continue;
    sum_c += tmin_c;
    ++count;
  }
  return count > 0 ? sum_c / count : std::nan("");
}

/// The record with a latitude whose sign can be trusted: the one given, else the file's own, else (most plain
/// tables do not say where they are) that of the hemisphere whose winter the record shows. `how` says which.
WeatherRecord placed(WeatherRecord record, std::optional<double> latitude_deg, std::string& how) {
  constexpr double kAnyNorthernDeg = 45.0;  // only its sign is used
  const bool stated = record.site.latitude_deg != 0.0 || record.site.longitude_deg != 0.0;
  if (latitude_deg) {
    record.site.latitude_deg = *latitude_deg;
    how = fmt::format("latitude {:g}°, as given", *latitude_deg);
  } else if (stated) {
    how = fmt::format("latitude {:g}°, as the file states", record.site.latitude_deg);
  } else {
    const bool southern = quarter_mean_c(record, 6) < quarter_mean_c(record, 12);
    record.site.latitude_deg = southern ? -kAnyNorthernDeg : kAnyNorthernDeg;
    how =
        fmt::format("{} hemisphere, as {} is the colder quarter of the record; lat= says it outright",
                    southern ? "southern" : "northern", southern ? "June to August" : "December to February");
  }
  return record;
}

/// Unit of a date in the result; "never" and "always" have none.
std::string unit_of(const RiskDate& date) {
  return date.kind == RiskDate::Kind::on_date ? "MM-DD" : "";
}

FrostQuestion read_question(detail::FigureReader& reader) {
  FrostQuestion question;
  question.threshold_c = reader.number_or("threshold_c", -30.0, 20.0, question.threshold_c);
  question.probability =
      reader.number_or("probability", kLowestProbability, kHighestProbability, question.probability);
  return question;
}

Explanation explain(Explanation explanation, const FrostQuestion& question, const FreezeDates& dates) {
  const double p = question.probability;
  const RiskDate last = dates.last(p);
  const RiskDate first = dates.first(p);
  const double share = dates.share_with_freeze();
  const auto winters = dates.winters().size();
  explanation.result = {{"last_frost", to_text(last), unit_of(last)},
                        {"first_frost", to_text(first), unit_of(first)},
                        {"frost_free_days", static_cast<double>(dates.frost_free_days(p)), "d"},
                        {"share_of_winters_with_frost", share, ""},
                        {"winters", static_cast<double>(winters), ""}};
  const char* split = dates.southern() ? "1 February" : "1 August";
  explanation.working = {
      fmt::format("winters from {} to the day before the next: {}", split, winters),
      fmt::format("winters with a minimum at or below {:g} °C: {:.0f} of {}", question.threshold_c,
                  share * static_cast<double>(winters), winters),
      share > p ? fmt::format("a date missed in a share {:g} of all winters is missed in {:g}/{:.3f} = "
                              "{:.3f} of those with frost",
                              p, p, share, p / share)
                : fmt::format("frost comes in a share {:.3f} of winters, not above the {:g} asked for: never",
                              share, p),
      fmt::format("last frost: on or after {} in a share {:g} of winters (0.1 is late and careful)",
                  to_text(last), p),
      fmt::format("first frost: on or before {} in a share {:g} of winters (0.1 is early and careful)",
                  to_text(first), p),
      fmt::format("frost-free days: reached or passed in a share {:g} of summers (0.9 is short and careful)",
                  p)};
  explanation.source = {
      "A. Arguez and others 2012, NOAA's 1981-2010 U.S. Climate Normals, Bull. Am. Meteorol. Soc. 93:1687 "
      "(freeze dates)",
      "H. C. S. Thom 1959, The distribution of freeze-date and freeze-free period for climatological series "
      "with "
      "freezeless years, Mon. Weather Rev. 87:136"};
  return explanation;
}

Explanation explain_place(Explanation explanation, const FrostQuestion& question, const PlaceNormals& place) {
  explanation = explain(std::move(explanation), question, freeze_dates(place, question.threshold_c));
  explanation.working.insert(
      explanation.working.begin(),
      fmt::format("no record: {} winters generated from the monthly normals of {}", 300, place.site.name));
  explanation.working.emplace_back(
      "median dates made so are off by 3 to 4 days on average at 26 stations of the United States (15 at "
      "worst)");
  explanation.source.emplace_back("normals: " + place.normals.source);
  return explanation;
}

}  // namespace

std::vector<base::FigureDescription> risk_figures() {
  return {{"frost-dates",
           "Last and first frost at a threshold, passed in a share of years",
           {{"weather", "", false, "A weather file to count in"},
            {"place", "", false, "Or a built-in place, whose normals stand in for a record"},
            {"threshold_c", "°C", false, "A day with a minimum at or below this has frost; 0 unless given"},
            {"probability", "", false,
             "Share of years with frost later (last) or earlier (first); 0.5 unless given"},
            {"lat", "°", false,
             "Latitude of the file, for its hemisphere; told by its seasons where neither says it"}},
           "place=\"Olympia WA\" threshold_c=0 probability=0.1"}};
}

base::Result<Explanation> explain_frost_dates(const base::FigureInputs& inputs,
                                              const WeatherRecord* weather) {
  detail::FigureReader reader(detail::described("frost-dates"), inputs);
  const std::string file = reader.text_or("weather", "");
  const std::string name = reader.text_or("place", "");
  const FrostQuestion question = read_question(reader);
  const auto latitude_deg = reader.maybe("lat", -detail::kDegreesLatitude, detail::kDegreesLatitude);
  if (!reader.problem() && weather != nullptr && !name.empty()) {
    reader.refuse(base::ProblemCode::contradiction, "place", "both weather and place are given",
                  "Give one of them.");
  }
  if (!reader.problem() && weather == nullptr && name.empty()) {
    reader.refuse(base::ProblemCode::missing_field, "weather", "needs weather or place",
                  "Give weather=FILE, or place=NAME of a built-in place.");
  }
  if (!reader.problem() && weather == nullptr && latitude_deg) {
    reader.refuse(base::ProblemCode::contradiction, "lat", "a built-in place has its own latitude",
                  "Leave lat out, or give weather=FILE.");
  }
  if (reader.problem()) return reader.failure();
  if (weather == nullptr) {
    const auto place = find_place(name);
    if (!place) return tl::unexpected(place.error());
    return explain_place(reader.explanation(), question, *place);
  }
  std::string how;
  WeatherRecord record = placed(*weather, latitude_deg, how);
  if (record.site.name.empty()) record.site.name = file;
  const auto dates = freeze_dates(record, question.threshold_c);
  if (!dates) return tl::unexpected(dates.error());
  Explanation explanation = explain(reader.explanation(), question, *dates);
  explanation.working.insert(explanation.working.begin(), how);
  return explanation;
}

base::Result<Explanation> explain_frost_dates(const base::FigureInputs& inputs, const PlaceNormals& place) {
  detail::FigureReader reader(detail::described("frost-dates"), inputs);
  (void)reader.text_or("weather", "");
  (void)reader.text_or("place", "");
  const FrostQuestion question = read_question(reader);
  (void)reader.maybe("lat", -detail::kDegreesLatitude, detail::kDegreesLatitude);
  if (reader.problem()) return reader.failure();
  return explain_place(reader.explanation(), question, place);
}

}  // namespace sowtide::climate
