#include "climate/risk_figures.hpp"

#include <fmt/format.h>

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
  explanation.result = {{"last_frost", to_text(last), "MM-DD"},
                        {"first_frost", to_text(first), "MM-DD"},
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
                  to_text(first), p)};
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
             "Share of years with frost later (last) or earlier (first); 0.5 unless given"}},
           "place=\"Olympia WA\" threshold_c=0 probability=0.1"}};
}

base::Result<Explanation> explain_frost_dates(const base::FigureInputs& inputs,
                                              const WeatherRecord* weather) {
  detail::FigureReader reader(detail::described("frost-dates"), inputs);
  const std::string file = reader.text_or("weather", "");
  const std::string name = reader.text_or("place", "");
  const FrostQuestion question = read_question(reader);
  if (!reader.problem() && weather != nullptr && !name.empty()) {
    reader.refuse(base::ProblemCode::contradiction, "place", "both weather and place are given",
                  "Give one of them.");
  }
  if (!reader.problem() && weather == nullptr && name.empty()) {
    reader.refuse(base::ProblemCode::missing_field, "weather", "needs weather or place",
                  "Give weather=FILE, or place=NAME of a built-in place.");
  }
  if (reader.problem()) return reader.failure();
  if (weather == nullptr) {
    const auto place = find_place(name);
    if (!place) return tl::unexpected(place.error());
    return explain_place(reader.explanation(), question, *place);
  }
  const auto dates = freeze_dates(*weather, question.threshold_c);
  if (!dates) return tl::unexpected(dates.error());
  return explain(reader.explanation(), question, *dates);
}

base::Result<Explanation> explain_frost_dates(const base::FigureInputs& inputs, const PlaceNormals& place) {
  detail::FigureReader reader(detail::described("frost-dates"), inputs);
  (void)reader.text_or("weather", "");
  (void)reader.text_or("place", "");
  const FrostQuestion question = read_question(reader);
  if (reader.problem()) return reader.failure();
  return explain_place(reader.explanation(), question, place);
}

}  // namespace sowtide::climate
