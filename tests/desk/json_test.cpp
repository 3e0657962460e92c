#include "desk/json.hpp"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "desk/told_json.hpp"

namespace sowtide::desk {
namespace {

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
