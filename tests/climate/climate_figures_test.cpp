#include <gtest/gtest.h>

#include <sstream>

#include "climate/figures.hpp"

namespace {

using namespace sowtide;
using base::FigureInputs;
using base::ProblemCode;
using climate::climate_figure;

FigureInputs inputs_of(const std::string& text) {
  FigureInputs inputs;
  std::istringstream words(text);
  for (std::string word; words >> word;)
    inputs[word.substr(0, word.find('='))] = word.substr(word.find('=') + 1);
  return inputs;
}

bool wants_a_record(const base::FigureDescription& figure) {
  return std::any_of(figure.keys.begin(), figure.keys.end(),
                     [](const auto& key) { return key.name == "weather"; });
}

TEST(ClimateFigures, WorkOutTheirOwnExamples) {
  for (const base::FigureDescription& figure : climate::climate_figures()) {
    if (wants_a_record(figure)) continue;
    const auto explanation = climate_figure(figure.name, inputs_of(figure.example));
    ASSERT_TRUE(explanation) << figure.name << ": " << base::to_text(explanation.error());
    EXPECT_EQ(explanation->name, figure.name);
    EXPECT_FALSE(explanation->result.empty());
    EXPECT_FALSE(explanation->working.empty());
    EXPECT_FALSE(explanation->source.empty());
  }
}

TEST(ClimateFigures, RefuseAnUnknownNameAndKey) {
  EXPECT_EQ(climate_figure("moonlight", {}).error().code, ProblemCode::not_found);
  const auto unknown = climate_figure("daylight", inputs_of("lat=10 date=2026-01-01 colour=red"));
  EXPECT_EQ(unknown.error().code, ProblemCode::unknown_field);
  EXPECT_EQ(unknown.error().where.field, "colour");
}

TEST(ClimateFigures, RefuseEachRequiredKeyLeftOut) {
  for (const base::FigureDescription& figure : climate::climate_figures()) {
    if (wants_a_record(figure)) continue;
    for (const base::FigureKey& key : figure.keys) {
      if (!key.required) continue;
      FigureInputs inputs = inputs_of(figure.example);
      inputs.erase(inputs.find(key.name));
      const auto answer = climate_figure(figure.name, inputs);
      ASSERT_FALSE(answer) << figure.name << " without " << key.name;
      EXPECT_EQ(answer.error().code, ProblemCode::missing_field);
      EXPECT_EQ(answer.error().where.field, key.name);
    }
  }
}

TEST(ClimateFigures, RefuseTextAndNonsenseUnderEachKey) {
  for (const base::FigureDescription& figure : climate::climate_figures()) {
    if (wants_a_record(figure)) continue;
    for (const auto& [name, text] : inputs_of(figure.example)) {
      for (const char* bad : {"", "abc", "1e999", "nan", "-99999", "12,5", "2026-02-30"}) {
        FigureInputs inputs = inputs_of(figure.example);
        inputs[name] = bad;
        const auto answer = climate_figure(figure.name, inputs);
        ASSERT_FALSE(answer) << figure.name << " " << name << "=" << bad;
        EXPECT_EQ(answer.error().where.field, name) << figure.name << " " << name << "=" << bad;
      }
    }
  }
}

struct Refusal {
  const char* figure;
  const char* inputs;
  ProblemCode code;
  const char* field;
};

TEST(ClimateFigures, RefuseContradictions) {
  const char* et0 = "date=2026-07-06 lat=50.8 elevation_m=100 ";
  const Refusal refusals[] = {
      {"et0", "tmin_c=22 tmax_c=21", ProblemCode::contradiction, "tmin_c"},
      {"et0", "tmin_c=12 tmax_c=21 rh_min_pct=80 rh_max_pct=60", ProblemCode::contradiction, "rh_min_pct"},
      {"et0", "tmin_c=12 tmax_c=21 wind_2m_ms=2 wind_ms=3 wind_height_m=10", ProblemCode::contradiction,
       "wind_ms"},
      {"et0", "tmin_c=12 tmax_c=21 wind_ms=3", ProblemCode::missing_field, "wind_height_m"},
      {"et0", "tmin_c=12 tmax_c=21 wind_ms=3 wind_height_m=0.2", ProblemCode::out_of_range, "wind_height_m"},
      {"et0", "tmin_c=12 tmax_c=21 sunshine_h=20", ProblemCode::out_of_range, "sunshine_h"},
  };
  for (const Refusal& refusal : refusals) {
    const auto answer = climate_figure(refusal.figure, inputs_of(std::string(et0) + refusal.inputs));
    ASSERT_FALSE(answer) << refusal.inputs;
    EXPECT_EQ(answer.error().code, refusal.code) << refusal.inputs;
    EXPECT_EQ(answer.error().where.field, refusal.field) << refusal.inputs;
  }
  const auto thresholds =
      climate_figure("thermal-time", inputs_of("base_c=10 optimum_c=9 ceiling_c=30 tmin_c=5 tmax_c=20"));
  EXPECT_EQ(thresholds.error().where.field, "optimum_c");
}

TEST(ClimateFigures, ReadTheSeasonRightInTheSouth) {
  const auto june = climate_figure("daylight", inputs_of("lat=-40 date=2026-06-21"));
  const auto december = climate_figure("daylight", inputs_of("lat=-40 date=2026-12-21"));
  EXPECT_LT(std::get<double>(june->result.front().value), 9.3);
  EXPECT_GT(std::get<double>(december->result.front().value), 14.7);
}

}  // namespace
