#include "stand/figures.hpp"

#include <gtest/gtest.h>

#include <algorithm>

namespace sowtide::stand {
namespace {

const crop::CropLibrary& library() {
  return crop::built_in_library();
}

TEST(StandFigures, ExamplesWork) {
  for (const auto& figure : stand_figures()) {
    base::FigureInputs inputs;
    std::string rest = figure.example;
    while (!rest.empty()) {
      const auto equals = rest.find('=');
      ASSERT_NE(equals, std::string::npos) << figure.example;
      const std::string key = rest.substr(0, equals);
      rest = rest.substr(equals + 1);
      const bool quoted = !rest.empty() && rest.front() == '"';
      const auto end = rest.find(quoted ? "\"" : " ", quoted ? 1 : 0);
      inputs[key] = quoted ? rest.substr(1, end - 1) : rest.substr(0, end);
      rest = end == std::string::npos ? "" : rest.substr(std::min(rest.size(), end + (quoted ? 2 : 1)));
    }
    const auto answer = stand_figure(figure.name, inputs, library());
    ASSERT_TRUE(answer) << figure.name << ": " << (answer ? "" : base::to_text(answer.error()));
    EXPECT_FALSE(answer->result.empty());
    EXPECT_FALSE(answer->working.empty());
    EXPECT_FALSE(answer->source.empty());
  }
}

TEST(StandFigures, NameWhatIsWrong) {
  EXPECT_EQ(stand_figure("growth", {{"crop", "beet"}}, library()).error().code,
            base::ProblemCode::missing_field);
  EXPECT_EQ(stand_figure("no-such", {}, library()).error().code, base::ProblemCode::not_found);
}

TEST(StandFigures, GrowthTellsTheDayAskedFor) {
  base::FigureInputs inputs{{"crop", "beet"}, {"place", "Trier"}, {"date", "2026-05-10"}, {"days", "70"}};
  const auto answer = stand_figure("growth", inputs, library());
  ASSERT_TRUE(answer);
  const auto result = [&](std::string_view name) {
    const auto found = std::find_if(answer->result.begin(), answer->result.end(),
                                    [&](const auto& field) { return field.name == name; });
    return found->value;
  };
  // Every seventh day stands in the series, so the tenth week stands in both.
  EXPECT_DOUBLE_EQ(std::get<double>(result("weight_then_g")),
                   std::get<std::vector<double>>(result("weight_g")).at(10));
  inputs["days"] = "4000";
  EXPECT_EQ(stand_figure("growth", inputs, library()).error().code, base::ProblemCode::out_of_range);
}

// Growth takes the worse of the two, not their product (Shibu et al. 2010, Eur. J. Agron. 32:255-271).
TEST(StandFigures, GrowthIsHeldBackByTheWorseOfWaterAndNitrogen) {
  const auto weight = [](base::FigureInputs inputs) {
    inputs.insert({{"crop", "beet"}, {"place", "Trier"}, {"date", "2026-05-10"}, {"days", "90"}});
    const auto answer = stand_figure("growth", inputs, library());
    EXPECT_TRUE(answer) << (answer ? "" : base::to_text(answer.error()));
    for (const auto& field : answer->result)
      if (field.name == "weight_then_g") return std::get<double>(field.value);
    return -1.0;
  };
  const double free = weight({}), dry = weight({{"water", "0.6"}});
  EXPECT_LT(dry, free);
  EXPECT_DOUBLE_EQ(weight({{"water", "0.6"}, {"nitrogen", "0.8"}}), dry);
  EXPECT_DOUBLE_EQ(weight({{"nitrogen", "0.6"}}), dry);
  EXPECT_DOUBLE_EQ(weight({{"water", "1"}, {"nitrogen", "1"}}), free);
  EXPECT_EQ(
      stand_figure("growth", {{"crop", "beet"}, {"place", "Trier"}, {"date", "2026-05-10"}, {"water", "60"}},
                   library())
          .error()
          .code,
      base::ProblemCode::out_of_range);
}

TEST(StandFigures, SaysWhereNoTrialIsKnownForSoOpenAStand) {
  const auto said = [](const std::string& plants_per_m2) {
    const auto answer =
        stand_figure("yield-density", {{"crop", "carrot"}, {"plants_per_m2", plants_per_m2}}, library());
    EXPECT_TRUE(answer);
    return std::any_of(answer->working.begin(), answer->working.end(), [](const std::string& line) {
      return line.find("no trial is known") != std::string::npos;
    });
  };
  EXPECT_TRUE(said("0.5"));
  EXPECT_FALSE(said("100"));
}

TEST(StandFigures, YieldAtADensityNeedsNoPlaceAndNoDay) {
  const auto usual = stand_figure("yield-density", {{"crop", "onion"}, {"plants_per_m2", "50"}}, library());
  ASSERT_TRUE(usual);
  const auto crowded =
      stand_figure("yield-density", {{"crop", "onion"}, {"plants_per_m2", "150"}}, library());
  ASSERT_TRUE(crowded);
  const auto of = [](const base::Explanation& answer, std::size_t field) {
    return std::get<double>(answer.result.at(field).value);
  };
  EXPECT_GT(of(*usual, 0), 1.0);              // kg/m²: full-grown, not seedlings
  EXPECT_GT(of(*crowded, 0), of(*usual, 0));  // more from the ground
  EXPECT_LT(of(*crowded, 1), of(*usual, 1));  // of smaller bulbs
}

// Six years of the same days, once mild and once colder: beets grow in the record that is given.
TEST(StandFigures, GrowthLivesTheYearsOfARecord) {
  const auto record_of = [](double mean_c) {
    climate::WeatherRecord record;
    record.site.latitude_deg = 47.0;
    const base::Date first = base::date_of(2010, 1, 1), last = base::date_of(2015, 12, 31);
    record.resize(first, last);
    for (base::Date date = first; date <= last; date += base::Days{1}) {
      constexpr auto kObserved = climate::ValueOrigin::observed;
      record.set(climate::Variable::tmin, date, mean_c - 5.0, kObserved);
      record.set(climate::Variable::tmax, date, mean_c + 5.0, kObserved);
      record.set(climate::Variable::rain, date, 2.0, kObserved);
      record.set(climate::Variable::radiation, date, 18.0, kObserved);
    }
    return record;
  };
  const base::FigureInputs inputs{{"crop", "beet"}, {"date", "2026-05-01"}, {"days", "80"}};
  const auto weight = [&](const climate::WeatherRecord& record) {
    const auto answer = stand_figure("growth", inputs, library(), &record);
    EXPECT_TRUE(answer) << (answer ? "" : base::to_text(answer.error()));
    for (const auto& field : answer->result)
      if (field.name == "weight_then_g") return std::get<double>(field.value);
    return 0.0;
  };
  EXPECT_GT(weight(record_of(18.0)), 1.2 * weight(record_of(12.0)));
  auto both = inputs;
  both["place"] = "Trier";
  const auto record = record_of(15.0);
  EXPECT_EQ(stand_figure("growth", both, library(), &record).error().code, base::ProblemCode::contradiction);
}

}  // namespace
}  // namespace sowtide::stand
