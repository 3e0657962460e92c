#include "desk/site.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <nlohmann/json.hpp>
#include <span>

#include "base/parallel.hpp"
#include "base/quantile.hpp"
#include "climate/merge.hpp"
#include "climate/places.hpp"
#include "climate/soil_temperature.hpp"
#include "climate/sun.hpp"
#include "desk/json_number.hpp"

namespace sowtide::desk {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::size_t kYearDays = 365;
/// Days on each side whose values count for a day of an air band: seasons move a degree or so in that time.
constexpr std::size_t kPoolDays = 7;
/// Days on each side of the mean that bands of soil and radiation are made of.
constexpr std::size_t kWeekHalf = 3;
/// Days on each side over which a finished curve is smoothed: 30 years leave its quantiles ragged.
constexpr std::size_t kSmoothDays = 7;
constexpr int kWeekDays = 7;
constexpr int kObservedDays = 60;
/// Older than this, the last observed week says nothing about today.
constexpr int kStaleDays = 14;
constexpr std::size_t kEnoughWinters = 20;
constexpr int kNormalYears = 30;
constexpr int kMadeYears = 301;  // 300 whole winters, as climate::freeze_dates takes from normals

/// One variable in all weather years: value of year y on climatological day d is `value[y * 365 + d]`.
struct Years {
  std::size_t count = 0;
  std::vector<double> value;
  [[nodiscard]] double at(std::size_t year, std::size_t day) const { return value[year * kYearDays + day]; }
};

/// The last calendar year of the ensemble.
struct CalendarYear {
  base::Date first{};
  std::size_t begin = 0, days = 0;  ///< in the days of the ensemble
};

std::size_t climatological_index(base::Date date) {
  return static_cast<std::size_t>(base::climatological_day(date) - 1);
}

base::Date date_at(base::Date first, std::size_t day) {
  return first + base::Days{static_cast<int>(day)};
}

base::Result<CalendarYear> last_year(const climate::WeatherEnsemble& weather) {
  const base::Date end = date_at(weather.first, weather.day_count);
  const base::Date first = base::date_of(base::year_of(end) - 1, 1, 1);
  if (weather.member_count == 0 || base::day_of_year(end) != 1 || first < weather.first) {
    return base::fail(base::ProblemCode::insufficient_data,
                      "the weather ahead does not end with a whole year", {.field = "weather"},
                      "Compute the season to the end of a year.");
  }
  return CalendarYear{first, static_cast<std::size_t>((first - weather.first).count()),
                      static_cast<std::size_t>((end - first).count())};
}

/// The weather of a year of which nothing is known yet: a forecast may reach over New Year into the season's last.
/// Nothing where the season's own weather is that already.
base::Result<std::optional<climate::WeatherEnsemble>> weather_without_forecast(const Season& season,
                                                                               base::Date last_year_first) {
  const climate::WeatherRecord& record = season.garden.weather;
  if (record.day_count() == 0 || record.last() < last_year_first) return std::nullopt;
  book::GardenDescription unforetold = season.garden;
  unforetold.weather = climate::without_forecast(std::move(unforetold.weather));
  auto made = garden_weather(unforetold, season.weather.first, season.weather.day_count, season.today);
  if (!made) return tl::make_unexpected(made.error());
  return std::optional(std::move(*made));
}

/// Brings one value a day of a calendar year to the 365 climatological days; a 29 February is left out.
Years by_climatological_day(const std::vector<std::span<const double>>& years, base::Date first) {
  Years all{years.size(), std::vector<double>(years.size() * kYearDays)};
  for (std::size_t y = 0; y < years.size(); ++y) {
    for (std::size_t day = years[y].size(); day-- > 0;) {
      // From the end, so that 28 February has the last word over 29 February.
      all.value[y * kYearDays + climatological_index(date_at(first, day))] = years[y][day];
    }
  }
  return all;
}

std::span<const double> days_of(const climate::WeatherEnsemble& weather, const CalendarYear& year,
                                std::size_t member, const std::vector<double>& values) {
  return std::span<const double>(values).subspan(weather.at(member, year.begin), year.days);
}

Years years_of(const climate::WeatherEnsemble& weather, const CalendarYear& year,
               const std::vector<double>& values) {
  std::vector<std::span<const double>> spans;
  for (std::size_t m = 0; m < weather.member_count; ++m) spans.push_back(days_of(weather, year, m, values));
  return by_climatological_day(spans, year.first);
}

std::size_t around(std::size_t day, std::size_t offset, std::size_t half) {
  return (day + offset + kYearDays - half) % kYearDays;
}

/// Means over `2 half + 1` days around each day, round the year.
std::vector<double> running_mean(std::span<const double> curve, std::size_t half) {
  std::vector<double> mean(kYearDays);
  const std::size_t width = 2 * half + 1;
  for (std::size_t day = 0; day < kYearDays; ++day) {
    double sum = 0.0;
    for (std::size_t k = 0; k < width; ++k) sum += curve[around(day, k, half)];
    mean[day] = sum / static_cast<double>(width);
  }
  return mean;
}

/// Quantiles of all years' values within `half` days of each day, smoothed; one value a climatological day.
YearBand band_of(const Years& years, std::size_t half) {
  YearBand band;
  for (auto* curve : {&band.p10, &band.p50, &band.p90}) curve->resize(kYearDays);
  base::parallel_for(kYearDays, [&](std::size_t day) {
    std::vector<double> pool;
    pool.reserve(years.count * (2 * half + 1));
    for (std::size_t y = 0; y < years.count; ++y) {
      for (std::size_t k = 0; k <= 2 * half; ++k) pool.push_back(years.at(y, around(day, k, half)));
    }
    const base::Quantiles q = base::quantiles(std::move(pool));
    band.p10[day] = q.p10;
    band.p50[day] = q.p50;
    band.p90[day] = q.p90;
  });
  for (auto* curve : {&band.p10, &band.p50, &band.p90}) *curve = running_mean(*curve, kSmoothDays);
  return band;
}

/// The same of the means of weeks.
YearBand weekly_band(const Years& years) {
  Years means{years.count, {}};
  means.value.reserve(years.value.size());
  for (std::size_t y = 0; y < years.count; ++y) {
    const auto mean =
        running_mean(std::span<const double>(years.value).subspan(y * kYearDays, kYearDays), kWeekHalf);
    means.value.insert(means.value.end(), mean.begin(), mean.end());
  }
  return band_of(means, 0);
}

std::vector<double> on_axis(const std::vector<double>& curve, base::Date first, int days) {
  std::vector<double> axis(static_cast<std::size_t>(days));
  for (std::size_t day = 0; day < axis.size(); ++day)
    axis[day] = curve[climatological_index(date_at(first, day))];
  return axis;
}

YearBand on_axis(const YearBand& band, base::Date first, int days) {
  return {on_axis(band.p10, first, days), on_axis(band.p50, first, days), on_axis(band.p90, first, days)};
}

// --- Where the weather comes from
// --------------------------------------------------------------------------------

/// What the garden's record says up to a day, forecasts left out at its end; empty where nothing is known by
/// then.
climate::WeatherRecord known_record(const climate::WeatherRecord& record, base::Date today) {
  climate::WeatherRecord known;
  if (record.day_count() == 0 || record.first > today) return known;
  known = record;
  const auto& origin = known.of(climate::Variable::tmin).origin;
  std::size_t days = origin.size();
  while (days > 0 && (origin[days - 1] == climate::ValueOrigin::forecast ||
                      origin[days - 1] == climate::ValueOrigin::missing)) {
    --days;
  }
  if (days == 0) return {};
  known.resize(record.first, std::min(today, record.date_at(days - 1)));
  return known;
}

WeatherOrigin weather_origin(const Season& season, const climate::WeatherRecord& known) {
  WeatherOrigin origin;
  origin.source = season.weather.source;
  origin.years = season.weather.member_count;
  origin.made_years = static_cast<std::size_t>(
      std::count_if(season.weather.member_names.begin(), season.weather.member_names.end(),
                    [](const std::string& name) { return name.starts_with("made"); }));
  const climate::Site& garden = season.garden.site;
  if (season.garden.normals && origin.made_years == origin.years)
    origin.normals_station = climate::station_of_normals(*season.garden.normals, garden);
  if (known.day_count() == 0) return origin;
  origin.first = known.first;
  origin.last = known.last();
  origin.station = known.site;
  origin.station_distance_km = climate::distance_km(known.site.latitude_deg, known.site.longitude_deg,
                                                    garden.latitude_deg, garden.longitude_deg);
  origin.station_height_difference_m = known.site.elevation_m - garden.elevation_m;
  origin.far = origin.station_distance_km > kFarStationKm;
  origin.other_height = std::abs(origin.station_height_difference_m) > kHighStationM;
  return origin;
}

// --- Today's place
// -----------------------------------------------------------------------------------------------

std::optional<ObservedDays> observed_days(const climate::WeatherRecord& known, base::Date today) {
  const base::Date new_year = base::date_of(base::year_of(today), 1, 1);
  if (known.day_count() == 0 || known.last() < new_year) return std::nullopt;
  ObservedDays observed;
  observed.first = std::max({new_year, known.first, known.last() - base::Days{kObservedDays - 1}});
  for (base::Date date = observed.first; date <= known.last(); date += base::Days{1}) {
    const auto at = static_cast<std::size_t>((date - known.first).count());
    observed.tmin_c.push_back(known.values(climate::Variable::tmin)[at]);
    observed.tmax_c.push_back(known.values(climate::Variable::tmax)[at]);
  }
  return observed;
}

double mean_over(const Years& years, std::size_t year, base::Date from, base::Date to) {
  double sum = 0.0;
  int days = 0;
  for (base::Date date = from; date <= to; date += base::Days{1}, ++days) {
    sum += years.at(year, climatological_index(date));
  }
  return sum / days;
}

double share_colder(const Years& years, double value, base::Date from, base::Date to) {
  std::size_t colder = 0;
  for (std::size_t y = 0; y < years.count; ++y) colder += mean_over(years, y, from, to) < value ? 1U : 0U;
  return static_cast<double>(colder) / static_cast<double>(years.count);
}

std::optional<LastDays> last_days(const climate::WeatherRecord& known, base::Date today, const Years& tmin,
                                  const Years& tmax) {
  if (known.day_count() < kWeekDays || today - known.last() > base::Days{kStaleDays}) return std::nullopt;
  LastDays last{known.last() - base::Days{kWeekDays - 1}, known.last()};
  const auto mean = [&known](climate::Variable variable) {
    const std::vector<double>& values = known.values(variable);
    double sum = 0.0;
    for (std::size_t at = values.size() - kWeekDays; at < values.size(); ++at) sum += values[at];
    return sum / kWeekDays;
  };
  last.tmin_c = mean(climate::Variable::tmin);
  last.tmax_c = mean(climate::Variable::tmax);
  if (std::isnan(last.tmin_c) || std::isnan(last.tmax_c)) return std::nullopt;
  last.tmin_share_colder = share_colder(tmin, last.tmin_c, last.from, last.to);
  last.tmax_share_colder = share_colder(tmax, last.tmax_c, last.from, last.to);
  return last;
}

// --- Frost and heat
// ----------------------------------------------------------------------------------------------

template <typename Happens>
double share_with_day(const Years& years, base::Date from, base::Date to, Happens happens) {
  std::size_t with = 0;
  for (std::size_t y = 0; y < years.count; ++y) {
    bool any = false;
    for (base::Date date = from; date <= to && !any; date += base::Days{1}) {
      any = happens(years.at(y, climatological_index(date)));
    }
    with += any ? 1U : 0U;
  }
  return static_cast<double>(with) / static_cast<double>(years.count);
}

std::vector<RiskWeek> risk_weeks(const Years& tmin, const Years& tmax, base::Date first, int days) {
  std::vector<RiskWeek> weeks;
  const base::Date last = first + base::Days{days - 1};
  for (int start = 0; start + kWeekDays <= days; start += kWeekDays) {
    RiskWeek week;
    week.from = first + base::Days{start};
    week.to = start + 2 * kWeekDays > days ? last : week.from + base::Days{kWeekDays - 1};
    const auto below = [](double limit) { return [limit](double value) { return value <= limit; }; };
    week.frost = share_with_day(tmin, week.from, week.to, below(kFrostC));
    week.hard_frost = share_with_day(tmin, week.from, week.to, below(kHardFrostC));
    week.heat = share_with_day(tmax, week.from, week.to, [](double value) { return value >= kHeatC; });
    weeks.push_back(week);
  }
  return weeks;
}

base::Quantiles hot_days(const Years& tmax) {
  std::vector<double> counts(tmax.count);
  for (std::size_t y = 0; y < tmax.count; ++y) {
    const auto begin = tmax.value.begin() + static_cast<std::ptrdiff_t>(y * kYearDays);
    counts[y] = static_cast<double>(
        std::count_if(begin, begin + kYearDays, [](double value) { return value >= kHeatC; }));
  }
  return base::quantiles(std::move(counts));
}

/// The weather years one after the other, as the freeze statistics take them. Neighbours in it were not
/// neighbours in time, which changes nothing where winters are cut at midsummer and the two halves of one are
/// looked at apart.
climate::WeatherRecord years_as_record(const climate::Site& site, const Years& tmin) {
  constexpr int kFirstYear = 1601;
  climate::WeatherRecord record;
  record.site = site;
  record.resize(base::date_of(kFirstYear, 1, 1),
                base::date_of(kFirstYear + static_cast<int>(tmin.count) - 1, 12, 31));
  for (std::size_t at = 0; at < record.day_count(); ++at) {
    const base::Date date = record.date_at(at);
    const auto year = static_cast<std::size_t>(base::year_of(date) - kFirstYear);
    record.set(climate::Variable::tmin, date, tmin.at(year, climatological_index(date)),
               climate::ValueOrigin::estimated);
  }
  return record;
}

std::optional<climate::FreezeDates> recorded_freezes(const climate::WeatherRecord& known,
                                                     double threshold_c) {
  if (known.day_count() == 0) return std::nullopt;
  climate::WeatherRecord latest = known;
  const base::Date from = base::date_of(base::year_of(known.last()) - kNormalYears, 1, 1);
  if (latest.first < from) latest.resize(from, latest.last());
  auto dates = climate::freeze_dates(latest, threshold_c);
  if (!dates || dates->winters().size() < kEnoughWinters) return std::nullopt;
  return std::move(*dates);
}

/// The share of years that have had it: a last freeze on or after a day in 9 of 10 years is over by then in 1
/// of 10.
FreezeSeason freeze_season(const climate::FreezeDates& dates) {
  return {.threshold_c = dates.threshold_c(),
          .winters = dates.winters().size(),
          .share_with_freeze = dates.share_with_freeze(),
          .last = {dates.last(0.9), dates.last(0.5), dates.last(0.1)},
          .first = {dates.first(0.1), dates.first(0.5), dates.first(0.9)}};
}

/// From the record where it has enough winters; from the normals where there is nothing else; else from the
/// weather years of the outlooks.
base::Result<std::array<FreezeSeason, 2>> freeze_seasons(const Season& season,
                                                         const climate::WeatherRecord& known,
                                                         const Years& tmin) {
  constexpr std::array<double, 2> kThresholdsC{kFrostC, kHardFrostC};
  std::array<FreezeSeason, 2> seasons;
  std::optional<climate::WeatherRecord> made;
  for (std::size_t i = 0; i < kThresholdsC.size(); ++i) {
    if (const auto recorded = recorded_freezes(known, kThresholdsC[i])) {
      seasons[i] = freeze_season(*recorded);
      continue;
    }
    if (!made) {
      made = known.day_count() == 0 && season.garden.normals
                 ? climate::generated_record({season.garden.site, *season.garden.normals}, kMadeYears)
                 : years_as_record(season.garden.site, tmin);
    }
    const auto dates = climate::freeze_dates(*made, kThresholdsC[i]);
    if (!dates) return tl::make_unexpected(dates.error());
    seasons[i] = freeze_season(*dates);
  }
  return seasons;
}

// --- Sun and soil
// ------------------------------------------------------------------------------------------------

void add_sun(SiteYear& site) {
  const auto latitude = base::Degrees::of(site.site.latitude_deg);
  for (int day = 1; day <= site.days; ++day) {
    site.day_length_h.push_back(climate::hours_above(climate::kAlmanacHorizon, latitude, day).value());
    site.clear_sky_mj_m2.push_back(climate::clear_sky_radiation(site.site, day).value());
  }
}

/// Daily means of bare, watered loam in the open ground at each depth, in every weather year; the year runs
/// twice, so that its first days have a winter before them.
base::Result<std::vector<Years>> soil_years(const climate::WeatherEnsemble& weather,
                                            const CalendarYear& year) {
  std::vector<base::Millimetres> depths;
  for (const double depth : kSoilDepthsMm) depths.push_back(base::Millimetres::of(depth));
  using Soil = base::Result<std::vector<climate::SoilTemperatures>>;
  std::vector<Soil> soil(weather.member_count);
  base::parallel_for(weather.member_count, [&](std::size_t m) {
    const auto part = [&](const std::vector<double>& values) { return days_of(weather, year, m, values); };
    climate::SoilWeather days{.site = weather.site, .first = year.first};
    days.tmin_c = part(weather.tmin_c);
    days.tmax_c = part(weather.tmax_c);
    days.rain_mm = part(weather.rain_mm);
    days.radiation_mj_m2 = part(weather.radiation_mj_m2);
    days.et0_mm = part(weather.et0_mm);
    soil[m] = climate::soil_temperature_daily(days, climate::SoilSetting{}, depths);
  });
  std::vector<Years> all;
  for (std::size_t d = 0; d < depths.size(); ++d) {
    std::vector<std::span<const double>> spans;
    for (const Soil& member : soil) {
      if (!member) return tl::make_unexpected(member.error());
      spans.emplace_back((*member)[d].tmean_c);
    }
    all.push_back(by_climatological_day(spans, year.first));
  }
  return all;
}

std::string source_text(const crop::CropLibrary& library, const crop::Figure& figure) {
  const auto found = library.sources.find(figure.source);
  return found == library.sources.end() ? figure.source : found->second;
}

std::vector<CropWarmth> crop_warmth(const crop::CropLibrary& library, const std::vector<YearBand>& bands) {
  std::vector<CropWarmth> crops;
  for (const auto& [id, crop] : library.crops) {
    CropWarmth warmth{.id = id,
                      .name = crop.name,
                      .base_c = crop.germination.cardinal.base_c,
                      .coldest_sow_c = crop.limits.soil_min_sow_c};
    warmth.base_source = source_text(library, warmth.base_c);
    warmth.coldest_sow_source = source_text(library, warmth.coldest_sow_c);
    warmth.sown_outdoors = crop.nursery.can_direct_sow;
    for (std::size_t d = 0; d < bands.size(); ++d) {
      warmth.depths.push_back({kSoilDepthsMm[d], warm_span(bands[d].p50, warmth.coldest_sow_c),
                               warm_span(bands[d].p10, warmth.coldest_sow_c)});
    }
    crops.push_back(std::move(warmth));
  }
  std::sort(crops.begin(), crops.end(),
            [](const CropWarmth& a, const CropWarmth& b) { return a.name < b.name; });
  return crops;
}

base::Result<void> add_soil(const Season& season, const climate::WeatherEnsemble& weather, const CalendarYear& year,
                            base::Date first, SiteYear& site) {
  const auto soil = soil_years(weather, year);
  if (!soil) return tl::make_unexpected(soil.error());
  std::vector<YearBand> bands;
  for (const Years& depth : *soil) bands.push_back(weekly_band(depth));
  for (std::size_t d = 0; d < bands.size(); ++d) {
    site.soil.push_back({kSoilDepthsMm[d], on_axis(bands[d], first, site.days)});
  }
  site.crops = crop_warmth(*season.library, bands);
  return {};
}

// --- JSON
// --------------------------------------------------------------------------------------------------------

Json number(double value, int decimals = 1) {
  return json_number(value, decimals);
}

Json numbers(const std::vector<double>& values, int decimals = 1) {
  Json list = Json::array();
  for (const double value : values) list.push_back(number(value, decimals));
  return list;
}

Json band_json(const YearBand& band) {
  return {{"p10", numbers(band.p10)}, {"p50", numbers(band.p50)}, {"p90", numbers(band.p90)}};
}

Json date_json(const std::optional<base::Date>& date) {
  return date ? Json(base::to_iso(*date)) : Json(nullptr);
}

Json place_json(const climate::Site& site) {
  return {{"name", site.name},
          {"latitude_deg", site.latitude_deg},
          {"longitude_deg", site.longitude_deg},
          {"elevation_m", site.elevation_m}};
}

Json origin_json(const WeatherOrigin& origin) {
  Json station = nullptr;
  if (origin.station) {
    station = place_json(*origin.station);
    station["distance_km"] = number(origin.station_distance_km);
    station["height_difference_m"] = number(origin.station_height_difference_m, 0);
    station["far"] = origin.far;
    station["other_height"] = origin.other_height;
  }
  Json lent = nullptr;
  if (origin.normals_station) {
    lent = {{"name", origin.normals_station->name},
            {"distance_km", number(origin.normals_station->distance_km)},
            {"height_difference_m", number(origin.normals_station->height_difference_m, 0)},
            {"far", origin.normals_station->distance_km >= climate::kFarClimateKm},
            {"other", origin.normals_station->distance_km >= climate::kOtherClimateKm}};
  }
  return {{"source", origin.source},         {"years", origin.years},
          {"made_years", origin.made_years}, {"first", date_json(origin.first)},
          {"last", date_json(origin.last)},  {"station", station},
          {"normals_station", lent}};
}

Json observed_json(const std::optional<ObservedDays>& observed) {
  if (!observed) return nullptr;
  return {{"first", base::to_iso(observed->first)},
          {"tmin_c", numbers(observed->tmin_c)},
          {"tmax_c", numbers(observed->tmax_c)}};
}

Json last_days_json(const std::optional<LastDays>& last) {
  if (!last) return nullptr;
  constexpr int kShareDecimals = 3;
  return {{"from", base::to_iso(last->from)},
          {"to", base::to_iso(last->to)},
          {"tmin_c", number(last->tmin_c)},
          {"tmax_c", number(last->tmax_c)},
          {"tmin_share_colder", number(last->tmin_share_colder, kShareDecimals)},
          {"tmax_share_colder", number(last->tmax_share_colder, kShareDecimals)}};
}

Json weeks_json(const std::vector<RiskWeek>& weeks) {
  constexpr int kShareDecimals = 3;
  Json list = Json::array();
  for (const RiskWeek& week : weeks) {
    list.push_back({{"from", base::to_iso(week.from)},
                    {"to", base::to_iso(week.to)},
                    {"frost", number(week.frost, kShareDecimals)},
                    {"hard_frost", number(week.hard_frost, kShareDecimals)},
                    {"heat", number(week.heat, kShareDecimals)}});
  }
  return list;
}

Json risk_dates_json(const RiskDates& dates) {
  return {{"p10", climate::to_text(dates.p10)},
          {"p50", climate::to_text(dates.p50)},
          {"p90", climate::to_text(dates.p90)}};
}

Json freezes_json(const std::array<FreezeSeason, 2>& freezes) {
  Json list = Json::array();
  for (const FreezeSeason& freeze : freezes) {
    list.push_back({{"threshold_c", freeze.threshold_c},
                    {"winters", freeze.winters},
                    {"share_with_freeze", number(freeze.share_with_freeze, 3)},
                    {"last", risk_dates_json(freeze.last)},
                    {"first", risk_dates_json(freeze.first)}});
  }
  return list;
}

Json span_json(const WarmSpan& span) {
  switch (span.kind) {
    case WarmSpan::Kind::never:
      return "never";
    case WarmSpan::Kind::always:
      return "always";
    case WarmSpan::Kind::span:
      break;
  }
  return {{"from", base::to_text(span.from)}, {"until", base::to_text(span.until)}};
}

Json soil_json(const std::vector<SoilDepth>& soil) {
  Json list = Json::array();
  for (const SoilDepth& depth : soil)
    list.push_back({{"depth_mm", depth.depth_mm}, {"mean_c", band_json(depth.mean_c)}});
  return list;
}

Json crops_json(const std::vector<CropWarmth>& crops) {
  Json list = Json::array();
  for (const CropWarmth& crop : crops) {
    Json depths = Json::array();
    for (const SoilWarmth& depth : crop.depths) {
      depths.push_back({{"depth_mm", depth.depth_mm},
                        {"half", span_json(depth.half)},
                        {"nine_of_ten", span_json(depth.nine_of_ten)}});
    }
    list.push_back({{"id", crop.id},
                    {"name", crop.name},
                    {"germination_base_c", crop.base_c.value},
                    {"germination_base_source", crop.base_source},
                    {"coldest_sow_c", crop.coldest_sow_c.value},
                    {"coldest_sow_source", crop.coldest_sow_source},
                    {"sown_outdoors", crop.sown_outdoors},
                    {"warm", depths}});
  }
  return list;
}

}  // namespace

WarmSpan warm_span(const std::vector<double>& curve_c, double least_c) {
  const auto warmest =
      static_cast<std::size_t>(std::max_element(curve_c.begin(), curve_c.end()) - curve_c.begin());
  if (curve_c.empty() || curve_c[warmest] < least_c) return {};
  if (*std::min_element(curve_c.begin(), curve_c.end()) >= least_c) return {.kind = WarmSpan::Kind::always};
  std::size_t from = warmest;
  std::size_t until = warmest;
  const std::size_t days = curve_c.size();
  while (curve_c[(from + days - 1) % days] >= least_c) from = (from + days - 1) % days;
  while (curve_c[(until + 1) % days] >= least_c) until = (until + 1) % days;
  const auto month_day = [](std::size_t day) {
    return base::month_day_of_climatological_day(static_cast<int>(day) + 1);
  };
  return {WarmSpan::Kind::span, month_day(from), month_day(until)};
}

base::Result<SiteYear> site_year(const Season& season) {
  const auto year = last_year(season.weather);
  if (!year) return tl::make_unexpected(year.error());
  const auto unforetold = weather_without_forecast(season, year->first);
  if (!unforetold) return tl::make_unexpected(unforetold.error());
  const climate::WeatherEnsemble& weather = *unforetold ? **unforetold : season.weather;
  const Years tmin = years_of(weather, *year, weather.tmin_c);
  const Years tmax = years_of(weather, *year, weather.tmax_c);
  const climate::WeatherRecord known = known_record(season.garden.weather, season.today);
  const int axis_year = base::year_of(season.today);
  const base::Date first = base::date_of(axis_year, 1, 1);

  SiteYear site;
  site.garden = season.garden.name;
  site.site = season.garden.site;
  site.today = season.today;
  site.days = base::days_in_year(axis_year);
  site.weather = weather_origin(season, known);
  site.tmin_c = on_axis(band_of(tmin, kPoolDays), first, site.days);
  site.tmax_c = on_axis(band_of(tmax, kPoolDays), first, site.days);
  site.observed = observed_days(known, season.today);
  site.last_days = last_days(known, season.today, tmin, tmax);
  site.weeks = risk_weeks(tmin, tmax, first, site.days);
  auto freezes = freeze_seasons(season, known, tmin);
  if (!freezes) return tl::make_unexpected(freezes.error());
  site.freezes = *freezes;
  site.hot_days = hot_days(tmax);
  add_sun(site);
  const Years radiation = years_of(weather, *year, weather.radiation_mj_m2);
  site.radiation_mj_m2 = on_axis(weekly_band(radiation), first, site.days);
  if (auto soil = add_soil(season, weather, *year, first, site); !soil) return tl::make_unexpected(soil.error());
  return site;
}

std::string site_json(const SiteYear& year) {
  const Json json{
      {"garden", year.garden},
      {"today", base::to_iso(year.today)},
      {"site", place_json(year.site)},
      {"first", base::to_iso(base::date_of(base::year_of(year.today), 1, 1))},
      {"days", year.days},
      {"weather", origin_json(year.weather)},
      {"air", {{"tmin_c", band_json(year.tmin_c)}, {"tmax_c", band_json(year.tmax_c)}}},
      {"observed", observed_json(year.observed)},
      {"last_days", last_days_json(year.last_days)},
      {"risk",
       {{"frost_c", kFrostC},
        {"hard_frost_c", kHardFrostC},
        {"heat_c", kHeatC},
        {"weeks", weeks_json(year.weeks)},
        {"freezes", freezes_json(year.freezes)},
        {"hot_days",
         {{"p10", number(year.hot_days.p10)},
          {"p50", number(year.hot_days.p50)},
          {"p90", number(year.hot_days.p90)}}}}},
      {"sun",
       {{"day_length_h", numbers(year.day_length_h, 2)},
        {"radiation_mj_m2", band_json(year.radiation_mj_m2)},
        {"clear_sky_mj_m2", numbers(year.clear_sky_mj_m2)}}},
      {"soil", {{"setting", "bare, watered loam in the open ground"}, {"depths", soil_json(year.soil)}}},
      {"crops", crops_json(year.crops)}};
  return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

base::Result<std::string> site_json(const Season& season) {
  const auto year = site_year(season);
  if (!year) return tl::make_unexpected(year.error());
  return site_json(*year);
}

}  // namespace sowtide::desk
