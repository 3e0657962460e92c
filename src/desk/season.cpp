#include "desk/season.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/parallel.hpp"

namespace sowtide::desk {
namespace {

/// Outlooks reach to the end of the year after today's, so that a winter crop is seen to its end.
constexpr int kYearsAhead = 1;

base::Date first_day(const book::GardenState& state, base::Date today) {
  int year = base::year_of(today);
  for (const book::StandState& stand : state.stands) {
    if (!stand.facts.finished) year = std::min(year, base::year_of(stand.facts.sown.value_or(stand.plan.sow)));
  }
  return base::date_of(year, 1, 1);
}

std::optional<stand::RaisingPlace> raising_place(const book::GardenDescription& garden,
                                                 const stand::StandPlan& plan) {
  if (plan.method != stand::Method::start_indoors) return std::nullopt;
  for (const bed::Tray& tray : garden.trays) {
    if (tray.id == plan.tray) return stand::RaisingPlace{tray.place, tray.temp_c};
  }
  return stand::RaisingPlace{};
}

base::Result<crop::Crop> crop_of(const crop::CropLibrary& library, const book::GardenDescription& garden,
                                 const stand::StandPlan& plan) {
  const auto found = library.find(plan.crop);
  if (!found) return tl::make_unexpected(found.error());
  for (const crop::Variety& variety : garden.varieties) {
    if (variety.id == plan.variety) return crop::with_variety(**found, variety);
  }
  return **found;
}

}  // namespace

base::Result<climate::WeatherEnsemble> garden_weather(const book::GardenDescription& garden, base::Date first,
                                                      std::size_t day_count, base::Date today) {
  climate::EnsembleOptions options;
  options.first = first;
  options.day_count = day_count;
  // What happened after `today` is not known on that day, even when the record holds it.
  climate::WeatherRecord known = garden.weather;
  known.site = garden.site;
  if (known.day_count() > 0 && known.last() > today && known.first <= today) known.resize(known.first, today);

  std::optional<base::Problem> record_problem;
  if (known.day_count() > 0) {
    auto ensemble = climate::ensemble_from_record(known, options);
    if (ensemble) return ensemble;
    record_problem = ensemble.error();
  }
  if (garden.normals) {
    return climate::ensemble_from_normals(climate::PlaceNormals{garden.site, *garden.normals}, known, options);
  }
  if (record_problem) return tl::make_unexpected(*record_problem);
  return base::fail(base::ProblemCode::insufficient_data, "the garden has no weather yet", {.field = "weather"},
                    "Import a record with `sowtide weather GARDEN add FILE`, or give twelve monthly normals in the "
                    "garden description");
}

base::Result<crop::Crop> crop_of(const Season& season, const stand::StandPlan& plan) {
  return crop_of(*season.library, season.garden, plan);
}

base::Result<Season> make_season(const crop::CropLibrary& library, book::GardenDescription garden,
                                 const std::vector<book::Event>& events, base::Date today) {
  Season season;
  season.today = today;
  season.library = &library;
  season.state = book::fold(garden, events, today);
  const base::Date first = first_day(season.state, today);
  const base::Date end = base::date_of(base::year_of(today) + kYearsAhead + 1, 1, 1);
  auto weather = garden_weather(garden, first, static_cast<std::size_t>((end - first).count()), today);
  if (!weather) return tl::make_unexpected(weather.error());
  season.weather = std::move(*weather);
  season.garden = std::move(garden);

  const std::vector<book::StandState>& stands = season.state.stands;
  std::vector<base::Result<stand::Outlook>> results(stands.size());
  base::parallel_for(stands.size(), [&](std::size_t i) {
    const auto crop = crop_of(library, season.garden, stands[i].plan);
    results[i] = crop ? stand::outlook(*crop, stands[i].plan, stands[i].facts,
                                       raising_place(season.garden, stands[i].plan), season.weather)
                      : tl::make_unexpected(crop.error());
  });
  season.outlooks.reserve(results.size());
  for (std::size_t i = 0; i < results.size(); ++i) {
    if (!results[i]) {
      base::Problem problem = results[i].error();
      if (problem.where.field.empty()) problem.where.field = "stand " + stands[i].plan.id;
      return tl::make_unexpected(problem);
    }
    season.outlooks.push_back(std::move(*results[i]));
  }
  return season;
}

}  // namespace sowtide::desk
