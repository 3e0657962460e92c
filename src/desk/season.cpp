#include "desk/season.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstring>
#include <functional>
#include <map>
#include <optional>
#include <utility>

#include "base/parallel.hpp"
#include "book/garden_file.hpp"
#include "desk/overdue.hpp"
#include "desk/raising.hpp"
#include "desk/stand_stage.hpp"
#include "stand/bought.hpp"
#include "stand/simulate.hpp"
#include "stand/told_outlook.hpp"

namespace sowtide::desk {
namespace {

/// Outlooks reach to the end of the year after today's, so that a winter crop is seen to its end.
constexpr int kYearsAhead = 1;
/// A stand planned for later than this many years from today has no outlook: no weather is made up so far
/// ahead.
constexpr int kFarthestYears = 6;

/// Stands sown longer ago are seen as if sown so many years ago: they are past their end either way, and the weather
/// to look through stays short.
constexpr int kYearsBack = 2;

/// The first day of which the log tells of the stand, also where nobody wrote the sowing down.
std::optional<base::Date> first_told(const book::StandState& stand) {
  const stand::StandFacts& facts = stand.facts;
  std::optional<base::Date> first;
  for (const auto& day :
       {facts.sown, facts.emerged, stand.counted_on, facts.set_out, facts.first_picked, facts.measured_on}) {
    if (day && (!first || *day < *first)) first = day;
  }
  return first;
}

base::Date earliest_day(base::Date today) { return base::date_of(base::year_of(today) - kYearsBack, 1, 1); }

/// Far enough that a winter crop is seen to its end, also where a garden is looked at from years before its stands.
base::Date end_day(const book::GardenState& state, base::Date today) {
  int year = base::year_of(today) + kYearsAhead;
  for (const book::StandState& stand : state.stands) {
    if (stand.plan.sow <= farthest_sowing(today))
      year = std::max(year, base::year_of(stand.plan.sow) + kYearsAhead);
  }
  return base::date_of(std::min(year, base::year_of(today) + kFarthestYears) + 1, 1, 1);
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

/// What was observed up to `today` and what is forecast from then on: what happened after is not known on that
/// day, even when the record holds it. A record that begins later still tells of the climate.
climate::WeatherRecord known_weather(const book::GardenDescription& garden, base::Date today) {
  climate::WeatherRecord known = garden.weather;
  known.site = garden.site;
  if (known.day_count() == 0 || known.last() <= today || known.first > today) return known;
  base::Date last = today;
  for (climate::Series& series : known.series) {
    for (auto i = static_cast<std::size_t>((today - known.first).count()) + 1; i < series.value.size(); ++i) {
      const bool foretold =
          series.origin[i] == climate::ValueOrigin::forecast && known.date_at(i) - today <= kForecastReach;
      if (!foretold) {
        series.value[i] = std::nan("");
        series.origin[i] = climate::ValueOrigin::missing;
      } else {
        last = std::max(last, known.date_at(i));
      }
    }
  }
  known.resize(known.first, last);
  return known;
}

/// All that a garden's outlooks depend on beside stands and weather record, as text: every field of it is in
/// there.
std::string ground_text(const book::GardenDescription& garden) {
  book::GardenDescription ground;
  ground.name = "ground";
  ground.site = garden.site;
  ground.normals = garden.normals;
  ground.warming_c = garden.warming_c;
  ground.varieties = garden.varieties;
  return book::garden_toml(ground, {});
}

/// The whole description but stands and weather.
std::string description_text(const book::GardenDescription& garden) {
  book::GardenDescription description = garden;
  description.stands.clear();
  description.weather = {};
  return book::garden_toml(description, {});
}

bool same_values(const std::vector<double>& a, const std::vector<double>& b) {
  // By their bytes: a missing day holds NaN, which equals nothing.
  return a.size() == b.size() &&
         (a.empty() || std::memcmp(a.data(), b.data(), a.size() * sizeof(double)) == 0);
}

bool same_record(const climate::WeatherRecord& a, const climate::WeatherRecord& b) {
  if (a.first != b.first || a.day_count() != b.day_count()) return false;
  for (std::size_t i = 0; i < a.series.size(); ++i) {
    if (a.series[i].origin != b.series[i].origin || !same_values(a.series[i].value, b.series[i].value))
      return false;
  }
  return true;
}

/// The ensemble of a season with what stands feel of it; one owner keeps both.
struct Climate {
  explicit Climate(climate::WeatherEnsemble made) : ensemble(std::move(made)), felt(ensemble) {}
  Climate(const Climate&) = delete;
  Climate& operator=(const Climate&) = delete;
  climate::WeatherEnsemble ensemble;
  stand::SeasonWeather felt;
  std::shared_ptr<CropWindows> windows = std::make_shared<CropWindows>();
};

std::shared_ptr<const stand::SeasonWeather> felt_weather(const std::shared_ptr<const Climate>& climate) {
  return {climate, &climate->felt};
}

/// Plants that are bought have come up elsewhere: the reckoning sows them on a made-up day, and when those
/// would show is nothing to tell.
void forget_emergence(stand::Outlook& outlook) {
  for (stand::EventOutlook& event : outlook.events) {
    if (event.name == "emerge") event.probability = 0.0;
  }
}

base::Result<stand::Outlook> outlook_of(const Season& season, const book::StandState& stand) {
  // Nothing more comes of it, and it may be of years whose weather is not looked at any more.
  if (stand.facts.finished || sowing_failed(season, stand))
    return stand::told_outlook(stand.plan, stand.facts, season.weather);
  if (stand.plan.sow > farthest_sowing(season.today) && !stand.facts.sown) {
    return base::fail(
        base::ProblemCode::out_of_range,
        fmt::format("stand {} is to be sown on {}, and no outlook reaches beyond {}", stand.plan.id,
                    base::to_iso(stand.plan.sow), base::to_iso(farthest_sowing(season.today))),
        {.field = "sow"}, "Put its day of sowing right, or take the stand out of the garden");
  }
  const auto crop = crop_of(*season.library, season.garden, stand.plan);
  if (!crop) return tl::make_unexpected(crop.error());
  const book::StandState seen = as_seen(season, stand);
  auto outlook =
      stand::outlook(stand::CropWeather(*crop, season.felt_weather), seen.plan, seen.facts,
                     raising_of(season.garden, stand.plan), {.bed = bed_place(season.garden, seen.plan)});
  if (outlook && comes_bought(seen.plan, seen.facts)) forget_emergence(*outlook);
  return outlook;
}

}  // namespace

struct SeasonCache::Impl {
  /// What an outlook takes from the garden besides the stand and the weather.
  struct Surroundings {
    std::optional<stand::RaisingPlace> raising;
    stand::BedPlace bed;
    Surroundings(const book::GardenDescription& garden, const stand::StandPlan& plan)
        : raising(raising_of(garden, plan)), bed(bed_place(garden, plan)) {}
    bool operator==(const Surroundings&) const = default;
  };
  struct Known {
    book::StandState planned;  ///< as the garden has it
    book::StandState stand;    ///< as it was looked at
    Surroundings around;
    stand::Outlook outlook;
    std::shared_ptr<StandMemo> memo;
  };
  std::string ground, description;
  base::Date memo_day{};
  climate::WeatherRecord record;
  base::Date first{}, end{};
  std::shared_ptr<const Climate> climate;
  std::map<std::string, Known> stands;  ///< by id, of the last season
  std::size_t computed_count = 0;

  /// The climate of a season; takes nothing over from another ground, record or span of days.
  base::Result<std::shared_ptr<const Climate>> climate_for(const book::GardenDescription& garden,
                                                           base::Date from, base::Date to, base::Date today) {
    std::string text = ground_text(garden);
    climate::WeatherRecord known = known_weather(garden, today);
    if (climate && text == ground && from == first && to == end && same_record(known, record)) return climate;
    stands.clear();
    climate = nullptr;
    auto weather = garden_weather(garden, from, static_cast<std::size_t>((to - from).count()), today);
    if (!weather) return tl::make_unexpected(weather.error());
    ground = std::move(text);
    record = std::move(known);
    first = from;
    end = to;
    climate = std::make_shared<const Climate>(std::move(*weather));
    return climate;
  }

  [[nodiscard]] const Known* find(const book::StandState& stand, const Surroundings& around) const {
    const auto known = stands.find(stand.plan.id);
    if (known == stands.end()) return nullptr;
    const bool same = known->second.stand.plan == stand.plan && known->second.stand.facts == stand.facts &&
                      known->second.stand.counted_on == stand.counted_on && known->second.around == around;
    return same ? &known->second : nullptr;
  }

  /// Memos go with their outlooks as long as day and description stay.
  [[nodiscard]] std::vector<std::shared_ptr<StandMemo>> memos_for(const Season& season) {
    std::string text = description_text(season.garden);
    const bool same = text == description && season.today == memo_day;
    description = std::move(text);
    memo_day = season.today;
    std::vector<std::shared_ptr<StandMemo>> memos;
    for (const book::StandState& stand : season.state.stands) {
      const Known* known = same ? find(as_seen(season, stand), {season.garden, stand.plan}) : nullptr;
      const bool unchanged = known != nullptr && known->planned.plan == stand.plan &&
                             known->planned.facts == stand.facts &&
                             known->planned.counted_on == stand.counted_on;
      memos.push_back(unchanged ? known->memo : std::make_shared<StandMemo>());
    }
    return memos;
  }

  void keep(const Season& season) {
    stands.clear();
    for (std::size_t i = 0; i < season.outlooks.size(); ++i) {
      const book::StandState& stand = season.state.stands[i];
      if (season.no_outlook.contains(stand.plan.id)) continue;
      stands.emplace(stand.plan.id, Known{stand, as_seen(season, stand), {season.garden, stand.plan},
                                          season.outlooks[i], season.memos[i]});
    }
  }
};

SeasonCache::SeasonCache() : impl_(std::make_unique<Impl>()) {}
SeasonCache::~SeasonCache() = default;
SeasonCache::SeasonCache(SeasonCache&&) noexcept = default;
SeasonCache& SeasonCache::operator=(SeasonCache&&) noexcept = default;
std::size_t SeasonCache::computed_count() const {
  return impl_->computed_count;
}

stand::StandPlan plan_from(const book::StandState& stand, base::Date today) {
  stand::StandPlan plan = stand.plan;
  if (const auto told = first_told(stand)) {
    plan.sow = std::min(plan.sow, *told);
    return plan;
  }
  const base::Days late = today - stand::begins_on(plan);
  if (late <= base::Days{0}) return plan;
  if (plan.set_out) *plan.set_out += late;
  plan.sow += late;
  return plan;
}

base::Result<climate::WeatherEnsemble> garden_weather(const book::GardenDescription& garden, base::Date first,
                                                      std::size_t day_count, base::Date today) {
  if (auto told = book::need_place(garden); !told) return tl::make_unexpected(told.error());
  climate::EnsembleOptions options;
  options.first = first;
  options.day_count = day_count;
  options.warming_c = garden.warming_c;
  options.known_to = today;
  const climate::WeatherRecord known = known_weather(garden, today);
  std::optional<base::Problem> record_problem;
  if (known.day_count() > 0) {
    auto ensemble = climate::ensemble_from_record(known, options);
    if (ensemble) return ensemble;
    record_problem = ensemble.error();
  }
  if (garden.normals) {
    auto ensemble = climate::ensemble_from_normals(climate::PlaceNormals{garden.site, *garden.normals}, known,
                                                   options);
    if (record_problem) {
      ensemble.origin.record_unused = true;
      ensemble.source += fmt::format("; the record is not used for years to come: {}", record_problem->what);
    }
    return ensemble;
  }
  if (record_problem) return tl::make_unexpected(*record_problem);
  return base::fail(
      base::ProblemCode::insufficient_data, "the garden has no weather yet", {.field = "weather"},
      "Import a record with `sowtide weather GARDEN add FILE`, or give twelve monthly normals in the "
      "garden description");
}

book::StandState as_seen(const Season& season, const book::StandState& stand) {
  book::StandState seen = stand;
  seen.plan = plan_from(stand, season.today);
  seen.plan.sow = std::max(seen.plan.sow, season.weather.first);
  if (seen.plan.set_out) seen.plan.set_out = std::max(*seen.plan.set_out, season.weather.first);
  if (seen.facts.sown) seen.facts.sown = std::max(*seen.facts.sown, season.weather.first);
  if (seen.facts.set_out) seen.facts.set_out = std::max(*seen.facts.set_out, season.weather.first);
  return seen;
}

base::Date farthest_sowing(base::Date today) {
  return base::date_of(base::year_of(today) + kFarthestYears, 12, 31);
}

base::Date season_begin(const book::GardenState& state, base::Date today) {
  int year = base::year_of(today);
  for (const book::StandState& stand : state.stands) {
    if (!stand.facts.finished)
      year = std::min(year, base::year_of(stand.facts.sown.value_or(plan_from(stand, today).sow)));
  }
  return std::max(base::date_of(year, 1, 1), earliest_day(today));
}

base::Result<void> check_reach(const book::GardenDescription& garden, base::Date today) {
  for (std::size_t i = 0; i < garden.stands.size(); ++i) {
    if (garden.stands[i].sow <= farthest_sowing(today)) continue;
    return base::fail(base::ProblemCode::out_of_range,
                      fmt::format("{} is later than {}, the last day that an outlook reaches to",
                                  base::to_iso(garden.stands[i].sow), base::to_iso(farthest_sowing(today))),
                      {.field = fmt::format("stands[{}].sow", i)}, "Put the day of sowing right");
  }
  return {};
}

const bed::Bed* bed_of(const book::GardenDescription& garden, std::string_view id) noexcept {
  const auto found = std::find_if(garden.beds.begin(), garden.beds.end(),
                                  [id](const bed::Bed& bed) { return bed.id == id; });
  return found == garden.beds.end() ? nullptr : &*found;
}

std::string bed_name(const book::GardenDescription& garden, const std::string& id) {
  const bed::Bed* bed = bed_of(garden, id);
  return bed == nullptr ? id : bed->name;
}

std::shared_ptr<const stand::SeasonWeather> felt_weather_of(const Season& season) {
  return season.felt_weather ? season.felt_weather
                             : std::make_shared<const stand::SeasonWeather>(season.weather);
}

stand::BedPlace bed_place(const book::GardenDescription& garden, const stand::StandPlan& plan) {
  return stand::bed_place(garden.beds, plan);
}

base::Result<crop::Crop> crop_of(const Season& season, const stand::StandPlan& plan) {
  return crop_of(*season.library, season.garden, plan);
}

namespace {

/// Gives the season the outlook of every stand: known ones taken over, the others worked out beside each
/// other.
void add_outlooks(Season& season, const std::function<const stand::Outlook*(const book::StandState&)>& known,
                  std::size_t& computed_count) {
  const std::vector<book::StandState>& stands = season.state.stands;
  std::vector<base::Result<stand::Outlook>> results(stands.size());
  std::vector<std::size_t> unknown;
  for (std::size_t i = 0; i < stands.size(); ++i) {
    if (const stand::Outlook* outlook = known(stands[i])) {
      results[i] = *outlook;
    } else {
      unknown.push_back(i);
    }
  }
  base::parallel_for(unknown.size(),
                     [&](std::size_t i) { results[unknown[i]] = outlook_of(season, stands[unknown[i]]); });
  computed_count = unknown.size();
  for (std::size_t i = 0; i < results.size(); ++i) {
    if (results[i]) {
      season.outlooks.push_back(std::move(*results[i]));
      continue;
    }
    season.no_outlook.emplace(stands[i].plan.id, results[i].error());
    season.outlooks.push_back(stand::told_outlook(stands[i].plan, stands[i].facts, season.weather));
  }
}

}  // namespace

base::Result<Season> make_season(const crop::CropLibrary& library, book::GardenDescription garden,
                                 const std::vector<book::Event>& events, base::Date today,
                                 SeasonCache* cache) {
  SeasonCache own;
  SeasonCache::Impl& memory = cache == nullptr ? *own.impl_ : *cache->impl_;
  Season season;
  season.today = today;
  season.library = &library;
  season.state = book::fold(garden, events, today);
  const auto climate =
      memory.climate_for(garden, season_begin(season.state, today), end_day(season.state, today), today);
  if (!climate) return tl::make_unexpected(climate.error());
  season.weather = (*climate)->ensemble;
  season.felt_weather = felt_weather(*climate);
  season.windows = (*climate)->windows;
  season.garden = std::move(garden);
  add_outlooks(
      season,
      [&](const book::StandState& stand) -> const stand::Outlook* {
        const auto* known = memory.find(as_seen(season, stand), {season.garden, stand.plan});
        return known == nullptr ? nullptr : &known->outlook;
      },
      memory.computed_count);
  season.memos = memory.memos_for(season);
  if (cache != nullptr) memory.keep(season);
  return season;
}

base::Result<Season> with_state_tried(const Season& season, book::StandState state) {
  Season tried;
  tried.today = season.today;
  tried.library = season.library;
  tried.garden = season.garden;
  tried.weather = season.weather;
  tried.felt_weather = season.felt_weather;
  tried.windows = season.windows;
  tried.state.stands = {std::move(state)};
  auto outlook = outlook_of(tried, tried.state.stands.front());
  if (!outlook) return tl::make_unexpected(outlook.error());
  tried.outlooks.push_back(std::move(*outlook));
  return tried;
}

base::Result<Season> with_plan_tried(const Season& season, const stand::StandPlan& plan) {
  for (book::StandState stand : season.state.stands) {
    if (stand.plan.id != plan.id) continue;
    stand.plan = plan;
    return with_state_tried(season, std::move(stand));
  }
  return base::fail(base::ProblemCode::not_found, fmt::format("there is no stand \"{}\"", plan.id),
                    {.field = "stand"});
}

}  // namespace sowtide::desk
