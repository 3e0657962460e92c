#include "desk/json.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>

#include "desk/json_number.hpp"
#include "desk/told_json.hpp"

namespace sowtide::desk {
namespace {

TEST(JsonNumber, HasTheDigitsThatAreMeantAndNoOthers) {
  EXPECT_EQ(json_number(0.1 + 0.2).dump(), "0.3");
  EXPECT_EQ(json_number(12.3, 1).dump(), "12.3");
  EXPECT_EQ(json_number(5.7 * 1.1, 2).dump(), "6.27");
  EXPECT_EQ(json_number(-1e-9).dump(), "0.0") << "no zero below nothing";
  EXPECT_EQ(json_number(1234.6, 0).dump(), "1235.0");
  EXPECT_EQ(json_number(std::nan("")).dump(), "null");
  // Multiplying by the step, 0.01, would write many of these with stray digits.
  for (int hundredths = 0; hundredths < 10000; ++hundredths)
    ASSERT_LE(json_number(hundredths / 100.0, 2).dump().size(), 5U) << hundredths;
}

TEST(EventsJson, ReadsWhatItWrites) {
  book::Event event;
  event.id = "p-1";
  event.date = base::date_of(2026, 7, 14);
  event.kind = book::EventKind::picked;
  event.stand = "s3";
  event.grams = 850.5;
  event.text = "the \"big\" ones, 8 °C";
  const auto read = read_events(nlohmann::json::parse(events_json({event})));
  ASSERT_TRUE(read) << base::to_text(read.error());
  ASSERT_EQ(read->size(), 1U);
  EXPECT_EQ(read->front().id, event.id);
  EXPECT_EQ(read->front().date, event.date);
  EXPECT_EQ(read->front().kind, event.kind);
  EXPECT_EQ(read->front().grams, event.grams);
  EXPECT_EQ(read->front().text, event.text);
  EXPECT_FALSE(read->front().count);
}

TEST(EventsJson, RefusesWhatIsNotAListOfEvents) {
  for (const char* text : {"3", "\"x\"", "{\"a\":1}", "[1]", "[{\"id\":1}]",
                           "[{\"id\":\"a\",\"date\":\"2026-02-30\",\"kind\":\"noted\"}]",
                           "[{\"id\":\"a\",\"date\":\"2026-02-03\",\"kind\":\"sang\"}]",
                           "[{\"id\":\"a\",\"date\":\"2026-02-03\",\"kind\":\"noted\",\"colour\":\"red\"}]",
                           "[{\"id\":\"a\",\"date\":\"2026-02-03\",\"kind\":\"noted\",\"grams\":\"5\"}]"}) {
    const auto read = read_events(nlohmann::json::parse(text));
    EXPECT_FALSE(read) << text;
    if (!read) {
      EXPECT_NE(read.error().where.field.find("events"), std::string::npos) << text;
    }
  }
}

TEST(ProblemJson, CarriesCodePlaceAndRemedy) {
  const auto json = nlohmann::json::parse(problem_json(
      {base::ProblemCode::out_of_range, "is -1", {.file = "a.toml", .line = 3, .column = 2, .field = "beds[0].length_m"}, "Give metres"}));
  EXPECT_EQ(json["error"]["code"], "out-of-range");
  EXPECT_EQ(json["error"]["where"]["line"], 3);
  EXPECT_EQ(json["error"]["where"]["field"], "beds[0].length_m");
  EXPECT_EQ(json["error"]["remedy"], "Give metres");
}

TEST(JsonText, SurvivesBytesThatAreNotUtf8) { EXPECT_NO_THROW(static_cast<void>(json_text("\xff\xfe"))); }

}  // namespace
}  // namespace sowtide::desk
