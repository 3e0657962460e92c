// The figures of the room: their keys, their answers, their problems.
#include "crop/figures.hpp"

#include <gtest/gtest.h>

#include <sstream>

namespace sowtide::crop {
namespace {

base::FigureInputs inputs_of(const std::string& text) {
  base::FigureInputs inputs;
  std::istringstream words(text);
  for (std::string word; words >> word;) {
    const std::size_t at = word.find('=');
    inputs[word.substr(0, at)] = word.substr(at + 1);
  }
  return inputs;
}

base::Result<base::Explanation> figure(const std::string& name, const std::string& text) {
  return crop_figure(name, inputs_of(text), built_in_library());
}

double result(const base::Explanation& answer, const std::string& name) {
  for (const auto& field : answer.result) {
    if (field.name == name) return std::get<double>(field.value);
  }
  ADD_FAILURE() << "no result " << name;
  return 0.0;
}

TEST(CropFigures, EveryExampleWorksAndExplainsItself) {
  for (const auto& description : crop_figures()) {
    const auto answer = figure(description.name, description.example);
    ASSERT_TRUE(answer.has_value()) << description.name << ": " << base::to_text(answer.error());
    EXPECT_EQ(answer->name, description.name);
    EXPECT_FALSE(answer->inputs.empty()) << description.name;
    EXPECT_FALSE(answer->result.empty()) << description.name;
    EXPECT_FALSE(answer->working.empty()) << description.name;
    EXPECT_FALSE(answer->source.empty()) << description.name;
  }
}

TEST(CropFigures, TheNamesThatOthersCallAreThere) {
  for (const std::string name : {"emergence", "final-emergence", "cells", "seedlings-per-cell",
                                 "seed-viability", "transplant-ready", "root-weight"}) {
    bool found = false;
    for (const auto& description : crop_figures()) found = found || description.name == name;
    EXPECT_TRUE(found) << name;
  }
}

TEST(CropFigures, EmergenceGivesDaysAndPercent) {
  const auto answer = figure("emergence", "crop=beet temp_c=20");
  ASSERT_TRUE(answer.has_value());
  EXPECT_EQ(answer->result.front().name, "days");
  EXPECT_LT(result(*answer, "p10"), result(*answer, "days"));
  EXPECT_GT(result(*answer, "p90"), result(*answer, "days"));
  EXPECT_GT(result(*answer, "final_pct"), 50.0);
  const auto deep = figure("emergence", "crop=beet temp_c=20 depth_mm=40 germination_pct=50");
  ASSERT_TRUE(deep.has_value());
  EXPECT_GT(result(*deep, "days"), result(*answer, "days"));
  EXPECT_LT(result(*deep, "final_pct"), 50.0);
}

TEST(CropFigures, ALongRootHasItsUsualLengthWhereNoneIsTold) {
  const auto usual = figure("root-weight", "crop=carrot diameter_mm=38");
  ASSERT_TRUE(usual.has_value());
  EXPECT_NEAR(result(*usual, "weight_g"), 61.0, 1.0) << "a medium carrot (USDA SR 26)";
  const auto told = figure("root-weight", "crop=carrot diameter_mm=38 length_mm=150");
  EXPECT_LT(result(*told, "weight_g"), result(*usual, "weight_g"));
}

TEST(CropFigures, ProblemsNameTheKey) {
  const std::pair<const char*, const char*> wrong[] = {
      {"emergence", "crop=beet"},
      {"emergence", "crop=beatnik temp_c=20"},
      {"emergence", "crop=beet temp_c=warm"},
      {"emergence", "crop=beet temp_c=20 colour=red"},
      {"emergence", "crop=beet temp_c=-5"},
      {"cells", "crop=beet good_clumps=2.5 service=0.9 germination_pct=80"},
      {"cells", "crop=beet good_clumps=24 service=1 germination_pct=80"},
      {"seed-viability", "temp_c=20 moisture_pct=8 years=2 initial_pct=90"},
      {"seed-viability", "crop=carrot temp_c=20 moisture_pct=8 years=2 initial_pct=90"},
      {"seed-viability", "crop=onion temp_c=20 years=2 initial_pct=90"},
      {"transplant-ready", "crop=carrot temp_c=18"},
      {"root-weight", "crop=kale diameter_mm=50"},
      {"root-weight", "crop=carrot diameter_mm=30 length_mm=0"},
      {"tray-outcome", "crop=beet cells=10 germination_pct=80 policy=sing"}};
  for (const auto& [name, text] : wrong) {
    const auto answer = figure(name, text);
    ASSERT_FALSE(answer.has_value()) << name << " " << text;
    EXPECT_FALSE(answer.error().where.field.empty()) << name << " " << text;
    EXPECT_FALSE(answer.error().what.empty());
  }
}

TEST(CropFigures, AnUnknownNameIsNotFound) {
  const auto answer = figure("moon-phase", "");
  ASSERT_FALSE(answer.has_value());
  EXPECT_EQ(answer.error().code, base::ProblemCode::not_found);
}

TEST(CropFigures, ViabilityTakesConstantsOrHumidity) {
  const auto typed =
      figure("seed-viability",
             "ke=8.242 cw=4.345 ch=0.0307 cq=0.000501 temp_c=5 moisture_pct=10 years=1 initial_pct=98");
  ASSERT_TRUE(typed.has_value()) << base::to_text(typed.error());
  const auto humid = figure("seed-viability",
                            "crop=lettuce temp_c=20 humidity_pct=50 oil_fraction=0.4 years=2 initial_pct=90");
  ASSERT_TRUE(humid.has_value()) << base::to_text(humid.error());
  EXPECT_GT(result(*humid, "alive_pct"), 0.0);
}

}  // namespace
}  // namespace sowtide::crop
