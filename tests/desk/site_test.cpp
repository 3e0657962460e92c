#include "desk/site.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <nlohmann/json.hpp>
#include <numbers>

#include "base/parallel.hpp"
#include "made_up_places.hpp"

namespace sowtide::desk {
namespace {

using base::date_of;
using Json = nlohmann::json;

/// Monthly normals rounded from NOAA U.S. Climate Normals 1991-2020 (public domain) for Seattle-Tacoma
/// (USW00024233).
book::GardenDescription normals_only() {
  climate::MonthlyNormals normals;
  normals.tmax_c = {8.6, 10.0, 12.4, 15.3, 19.3, 21.9, 25.9, 26.0, 22.2, 15.9, 11.0, 8.3};
  normals.tmin_c = {3.1, 2.9, 4.2, 6.0, 9.2, 11.8, 14.2, 14.4, 12.0, 8.3, 4.9, 2.9};
  normals.precip_mm = {147, 95, 106, 81, 49, 37, 15, 25, 41, 99, 160, 145};
  return garden_at("Test", {"Test", 47.4, -122.3, 113.0}, normals);
}

/// The same half a year away, on the other half of the globe.
book::GardenDescription southern() {
  book::GardenDescription garden = normals_only();
  garden.site.latitude_deg = -garden.site.latitude_deg;
  for (auto* values : {&garden.normals->tmax_c, &garden.normals->tmin_c, &garden.normals->precip_mm}) {
    std::rotate(values->begin(), values->begin() + 6, values->end());
  }
  return garden;
}

/// A place without winter.
book::GardenDescription tropical() {
  book::GardenDescription garden = normals_only();
  garden.site.latitude_deg = 4.7;
  garden.normals->tmax_c.fill(31.0);
  garden.normals->tmin_c.fill(23.0);
  return garden;
}

constexpr int kFirstYear = 2001;
constexpr int kYears = 25;

/// 25 years of a made record: a smooth course, the same in every year but for `night` (added to tmin of one
/// date, in the years it is called for), so that every count is known beforehand.
template <typename Night>
book::GardenDescription with_record(Night night, base::Date last = date_of(kFirstYear + kYears - 1, 12, 31)) {
  book::GardenDescription garden = normals_only();
  climate::WeatherRecord& record = garden.weather;
  record.site = garden.site;
  record.resize(date_of(kFirstYear, 1, 1), last);
  for (std::size_t i = 0; i < record.day_count(); ++i) {
    const base::Date date = record.date_at(i);
    const double wave = -std::cos(2.0 * std::numbers::pi * (base::climatological_day(date) - 20) / 365.0);
    record.set(climate::Variable::tmin, date, 9.0 + 7.0 * wave + night(date), climate::ValueOrigin::observed);
    record.set(climate::Variable::tmax, date, 17.0 + 8.0 * wave, climate::ValueOrigin::observed);
    record.set(climate::Variable::rain, date, i % 4 == 0 ? 6.0 : 0.0, climate::ValueOrigin::observed);
  }
  return garden;
}

Season season_on(const book::GardenDescription& garden, base::Date today) {
  auto season = make_season(crop::built_in_library(), garden, {}, today);
  EXPECT_TRUE(season) << (season ? "" : base::to_text(season.error()));
  return season ? std::move(*season) : Season{};
}

SiteYear year_on(const book::GardenDescription& garden, base::Date today) {
  auto year = site_year(season_on(garden, today));
  EXPECT_TRUE(year) << (year ? "" : base::to_text(year.error()));
  return year ? std::move(*year) : SiteYear{};
}

void expect_band(const YearBand& band, int days) {
  ASSERT_EQ(band.p50.size(), static_cast<std::size_t>(days));
  ASSERT_EQ(band.p10.size(), band.p50.size());
  ASSERT_EQ(band.p90.size(), band.p50.size());
  for (std::size_t i = 0; i < band.p50.size(); ++i) {
    ASSERT_LE(band.p10[i], band.p50[i]) << i;
    ASSERT_LE(band.p50[i], band.p90[i]) << i;
  }
}

const RiskWeek& week_of(const SiteYear& year, base::Date date) {
  const auto found = std::find_if(year.weeks.begin(), year.weeks.end(), [date](const RiskWeek& week) {
    return week.from <= date && date <= week.to;
  });
  return found == year.weeks.end() ? year.weeks.front() : *found;
}

std::size_t day(const SiteYear& year, int month, int day_of_month) {
  return static_cast<std::size_t>(base::day_of_year(date_of(base::year_of(year.today), month, day_of_month)) -
                                  1);
}

TEST(SiteYear, HasAnEntryForEachDayOfCommonAndLeapYears) {
  for (const int calendar_year : {2027, 2028}) {
    const SiteYear year = year_on(normals_only(), date_of(calendar_year, 4, 20));
    const int days = base::days_in_year(calendar_year);
    EXPECT_EQ(year.days, days);
    for (const YearBand* band : {&year.tmin_c, &year.tmax_c, &year.radiation_mj_m2}) expect_band(*band, days);
    for (const SoilDepth& depth : year.soil) expect_band(depth.mean_c, days);
    EXPECT_EQ(year.day_length_h.size(), static_cast<std::size_t>(days));
    EXPECT_EQ(year.clear_sky_mj_m2.size(), static_cast<std::size_t>(days));
    ASSERT_EQ(year.weeks.size(), 52U);
    EXPECT_EQ(year.weeks.front().from, date_of(calendar_year, 1, 1));
    EXPECT_EQ(year.weeks.back().to, date_of(calendar_year, 12, 31));
    for (std::size_t i = 1; i < year.weeks.size(); ++i) {
      EXPECT_EQ(year.weeks[i].from, year.weeks[i - 1].to + base::Days{1});
    }
  }
}

TEST(SiteYear, LeapDayRepeatsTheDayBefore) {
  const SiteYear year = year_on(normals_only(), date_of(2028, 2, 29));
  const std::size_t leap_day = day(year, 2, 29);
  EXPECT_EQ(year.tmin_c.p50[leap_day], year.tmin_c.p50[leap_day - 1]);
  EXPECT_EQ(year.soil[0].mean_c.p10[leap_day], year.soil[0].mean_c.p10[leap_day - 1]);
}

// The middle of a month lies near its published normal: within the sampling error of 30 years of the
// generator (a month's mean varies by about 1.3 K between years in such a place) and what a median differs
// from a mean.
TEST(SiteYear, MiddleOfTheBandsIsNearTheNormalsItIsMadeFrom) {
  const book::GardenDescription garden = normals_only();
  const SiteYear year = year_on(garden, date_of(2027, 4, 20));
  for (int month = 1; month <= 12; ++month) {
    const auto at = static_cast<std::size_t>(month - 1);
    EXPECT_NEAR(year.tmax_c.p50[day(year, month, 15)], garden.normals->tmax_c[at], 1.5) << month;
    EXPECT_NEAR(year.tmin_c.p50[day(year, month, 15)], garden.normals->tmin_c[at], 1.5) << month;
  }
}

TEST(SiteYear, SouthernSummerLiesAtTheEndsOfTheAxis) {
  const SiteYear year = year_on(southern(), date_of(2027, 4, 20));
  EXPECT_GT(year.tmax_c.p50[day(year, 1, 15)], year.tmax_c.p50[day(year, 7, 15)] + 12.0);
  EXPECT_GT(year.day_length_h[day(year, 12, 21)], 15.5);
  EXPECT_LT(year.day_length_h[day(year, 6, 21)], 8.8);
  const climate::RiskDate last = year.freezes[0].last.p50;
  ASSERT_EQ(last.kind, climate::RiskDate::Kind::on_date);
  EXPECT_TRUE(last.date.month >= 8 && last.date.month <= 11) << climate::to_text(last);
  const climate::RiskDate first = year.freezes[0].first.p50;
  ASSERT_EQ(first.kind, climate::RiskDate::Kind::on_date);
  EXPECT_TRUE(first.date.month >= 4 && first.date.month <= 6) << climate::to_text(first);
  const CropWarmth& bean = *std::find_if(year.crops.begin(), year.crops.end(),
                                         [](const CropWarmth& crop) { return crop.id == "bush-bean"; });
  const WarmSpan span = bean.depths[0].half;
  ASSERT_EQ(span.kind, WarmSpan::Kind::span);
  EXPECT_GT(span.from.month, span.until.month) << "the warm part wraps the new year";
}

TEST(SiteYear, WithoutWinterThereIsNeverAFreezeAndTheSoilIsAlwaysWarm) {
  const SiteYear year = year_on(tropical(), date_of(2027, 4, 20));
  for (const FreezeSeason& freeze : year.freezes) {
    EXPECT_EQ(freeze.share_with_freeze, 0.0);
    for (const climate::RiskDate& date :
         {freeze.last.p10, freeze.last.p50, freeze.last.p90, freeze.first.p10}) {
      EXPECT_EQ(date.kind, climate::RiskDate::Kind::never);
    }
  }
  for (const RiskWeek& week : year.weeks) EXPECT_EQ(week.frost, 0.0);
  EXPECT_GT(year.hot_days.p50, 150.0);
  for (const CropWarmth& crop : year.crops) {
    EXPECT_EQ(crop.depths[0].nine_of_ten.kind, WarmSpan::Kind::always) << crop.id;
  }
}

TEST(SiteYear, ChancesCountTheYearsOfTheRecord) {
  // One frost night on 10 May, in 10 of the 25 years; 5 of them below -2 °C.
  const auto garden = with_record([](base::Date date) {
    const int year = base::year_of(date);
    if (base::month_day_of(date) != base::MonthDay{5, 10} || year >= kFirstYear + 10) return 0.0;
    return year < kFirstYear + 5 ? -15.0 : -13.0;
  });
  const double undisturbed = 9.0 - 7.0 * std::cos(2.0 * std::numbers::pi * (130 - 20) / 365.0);
  ASSERT_GT(undisturbed - 13.0, kHardFrostC);
  ASSERT_LE(undisturbed - 13.0, kFrostC);
  ASSERT_LE(undisturbed - 15.0, kHardFrostC);
  const SiteYear year = year_on(garden, date_of(2027, 6, 1));
  EXPECT_EQ(year.weather.years, 25U);
  EXPECT_EQ(year.weather.made_years, 0U);
  const RiskWeek& week = week_of(year, date_of(2027, 5, 10));
  EXPECT_DOUBLE_EQ(week.frost, 10.0 / 25.0);
  EXPECT_DOUBLE_EQ(week.hard_frost, 5.0 / 25.0);
  EXPECT_EQ(week_of(year, date_of(2027, 5, 20)).frost, 0.0);
  EXPECT_EQ(year.hot_days.p90, 0.0);
  // No other frost in this record: in 6 of 10 years there is none at all, in 4 of 10 the last one is on 10
  // May.
  EXPECT_DOUBLE_EQ(year.freezes[0].share_with_freeze, 10.0 / 25.0);
  EXPECT_EQ(year.freezes[0].last.p50.kind, climate::RiskDate::Kind::never);
  EXPECT_EQ(climate::to_text(year.freezes[0].last.p90), "05-10");
}

TEST(SiteYear, TheLastWeekStandsAmongTheSameDaysOfOtherYears) {
  // Years grow warmer by 0.1 K each; the week before today is as warm as the 20th year and a bit.
  const base::Date today = date_of(2026, 5, 31);
  const auto garden = with_record(
      [](base::Date date) {
        const int year = base::year_of(date);
        return year == 2026 ? 1.95 : 0.1 * (year - kFirstYear);
      },
      today);
  const SiteYear year = year_on(garden, today);
  ASSERT_TRUE(year.last_days);
  EXPECT_EQ(year.last_days->to, today);
  EXPECT_EQ(year.last_days->from, date_of(2026, 5, 25));
  EXPECT_DOUBLE_EQ(year.last_days->tmin_share_colder, 20.0 / 25.0);
  ASSERT_TRUE(year.observed);
  EXPECT_EQ(year.observed->first, today - base::Days{59});
  EXPECT_EQ(year.observed->tmin_c.size(), 60U);
}

TEST(SiteYear, WhatComesAfterTodayIsNotKnown) {
  const auto garden = with_record([](base::Date) { return 0.0; });
  const SiteYear year = year_on(garden, date_of(2025, 3, 1));
  ASSERT_TRUE(year.weather.last);
  EXPECT_EQ(*year.weather.last, date_of(2025, 3, 1));
  ASSERT_TRUE(year.observed);
  EXPECT_EQ(year.observed->first + base::Days{static_cast<int>(year.observed->tmin_c.size()) - 1},
            date_of(2025, 3, 1));
}

// A forecast over New Year reaches into the year that the bands are of; they are the climate's all the same.
TEST(SiteYear, AForecastOverNewYearIsNotTheClimate) {
  const base::Date today = date_of(2025, 12, 20);
  book::GardenDescription garden = with_record([](base::Date) { return 0.0; }, today);
  const SiteYear plain = year_on(garden, today);
  climate::WeatherRecord& record = garden.weather;
  record.resize(record.first, today + base::Days{28});
  for (base::Date day = today + base::Days{1}; day <= record.last(); day += base::Days{1}) {
    record.set(climate::Variable::tmin, day, -12.0, climate::ValueOrigin::forecast);
    record.set(climate::Variable::tmax, day, -6.0, climate::ValueOrigin::forecast);
    record.set(climate::Variable::rain, day, 0.0, climate::ValueOrigin::forecast);
  }
  const SiteYear foretold = year_on(garden, today);
  EXPECT_EQ(foretold.tmin_c.p50, plain.tmin_c.p50);
  EXPECT_EQ(foretold.tmax_c.p10, plain.tmax_c.p10);
  EXPECT_EQ(foretold.soil.front().mean_c.p50, plain.soil.front().mean_c.p50);
  EXPECT_EQ(foretold.weeks.front().frost, plain.weeks.front().frost);
}

TEST(SiteYear, AnOldRecordSaysNothingOfThisWeek) {
  const SiteYear year = year_on(with_record([](base::Date) { return 0.0; }), date_of(2027, 6, 1));
  EXPECT_FALSE(year.observed);
  EXPECT_FALSE(year.last_days);
  EXPECT_TRUE(year.weather.last);
}

TEST(SiteYear, WithoutARecordThereIsNoStation) {
  const SiteYear year = year_on(normals_only(), date_of(2027, 6, 1));
  EXPECT_FALSE(year.weather.first || year.weather.station || year.observed || year.last_days);
  EXPECT_EQ(year.weather.made_years, year.weather.years);
}

TEST(SiteYear, ADistantOrHighStationIsSaidToBeSo) {
  auto garden = with_record([](base::Date) { return 0.0; });
  EXPECT_FALSE(year_on(garden, date_of(2027, 6, 1)).weather.far);
  // A degree of latitude is 111.2 km on the sphere of 6371 km.
  garden.weather.site.latitude_deg += 1.0;
  garden.weather.site.elevation_m += 250.0;
  const SiteYear year = year_on(garden, date_of(2027, 6, 1));
  EXPECT_NEAR(year.weather.station_distance_km, 111.2, 0.1);
  EXPECT_DOUBLE_EQ(year.weather.station_height_difference_m, 250.0);
  EXPECT_TRUE(year.weather.far && year.weather.other_height);
}

TEST(SiteYear, DeeperSoilSwingsLessAndLater) {
  const SiteYear year = year_on(normals_only(), date_of(2027, 6, 1));
  const auto range = [](const std::vector<double>& curve) {
    const auto [low, high] = std::minmax_element(curve.begin(), curve.end());
    return std::pair{*high - *low, high - curve.begin()};
  };
  const auto [shallow, shallow_day] = range(year.soil[0].mean_c.p50);
  const auto [deep, deep_day] = range(year.soil[1].mean_c.p50);
  EXPECT_LT(deep, shallow);
  EXPECT_GE(deep_day, shallow_day);
}

TEST(SiteYear, SureWarmthComesNoEarlierThanLikelyWarmth) {
  const SiteYear year = year_on(normals_only(), date_of(2027, 6, 1));
  EXPECT_EQ(year.crops.size(), crop::built_in_library().crops.size());
  std::size_t spans = 0;
  for (const CropWarmth& crop : year.crops) {
    EXPECT_FALSE(crop.coldest_sow_source.empty()) << crop.id;
    for (const SoilWarmth& depth : crop.depths) {
      if (depth.half.kind != WarmSpan::Kind::span || depth.nine_of_ten.kind != WarmSpan::Kind::span) continue;
      ++spans;
      EXPECT_LE(depth.half.from, depth.nine_of_ten.from) << crop.id;
      EXPECT_GE(depth.half.until, depth.nine_of_ten.until) << crop.id;
    }
  }
  EXPECT_GT(spans, 20U);
}

TEST(WarmSpan, IsTheStretchAroundTheWarmestDay) {
  std::vector<double> curve(365, 5.0);
  for (std::size_t i = 100; i < 200; ++i) curve[i] = 12.0;
  curve[150] = 14.0;
  curve[50] = 11.0;  // a false spring
  const WarmSpan span = warm_span(curve, 10.0);
  ASSERT_EQ(span.kind, WarmSpan::Kind::span);
  EXPECT_EQ(base::climatological_day(span.from), 101);
  EXPECT_EQ(base::climatological_day(span.until), 200);
  EXPECT_EQ(warm_span(curve, 14.1).kind, WarmSpan::Kind::never);
  EXPECT_EQ(warm_span(curve, 5.0).kind, WarmSpan::Kind::always);
  std::rotate(curve.begin(), curve.begin() + 150, curve.end());
  const WarmSpan wrapped = warm_span(curve, 10.0);
  EXPECT_GT(wrapped.from, wrapped.until);
}

TEST(SiteJson, IsTheSameOnAnyNumberOfThreads) {
  const Season season = season_on(normals_only(), date_of(2027, 6, 1));
  const auto free = site_json(season);
  const base::ThreadLimit one(1);
  const auto alone = site_json(season);
  ASSERT_TRUE(free && alone);
  EXPECT_EQ(*free, *alone);
}

TEST(SiteJson, SaysNullForWhatIsNotKnownAndWordsForWhatIsNoDate) {
  const auto text = site_json(season_on(tropical(), date_of(2027, 6, 1)));
  ASSERT_TRUE(text);
  const Json json = Json::parse(*text);
  EXPECT_TRUE(json["observed"].is_null());
  EXPECT_TRUE(json["weather"]["station"].is_null());
  EXPECT_EQ(json["risk"]["freezes"][0]["last"]["p50"], "never");
  EXPECT_EQ(json["crops"][0]["warm"][0]["half"], "always");
  EXPECT_EQ(json["air"]["tmin_c"]["p50"].size(), 365U);
}

}  // namespace
}  // namespace sowtide::desk
