// The season as it stands today: the garden folded to a day, the weather ensemble ahead, and the outlook of
// every stand. Everything that is shown (worklist, pages, sheets) is read off one Season.
#pragma once

#include <any>
#include <cstddef>
#include <map>
#include <memory>
#include <mutex>
#include <string>
#include <utility>
#include <vector>

#include "base/problem.hpp"
#include "book/garden.hpp"
#include "climate/ensemble.hpp"
#include "crop/crop.hpp"
#include "desk/garden_windows.hpp"
#include "stand/bed_place.hpp"
#include "stand/crop_weather.hpp"
#include "stand/outlook.hpp"

namespace sowtide::desk {

/// What answers worked out of one stand and may use again, by name. It belongs to one day, one garden
/// description and one outlook of the stand; when any of them changes the stand gets a new one.
class StandMemo {
 public:
  /// What was remembered under this name, or what `make` gives now. From any thread; two at once may both
  /// make it.
  template <class T, class Make>
  T remember(const std::string& name, Make make) {
    {
      const std::lock_guard lock(mutex_);
      const auto known = known_.find(name);
      if (known != known_.end()) return std::any_cast<T>(known->second);
    }
    T made = make();
    const std::lock_guard lock(mutex_);
    return std::any_cast<T>(known_.try_emplace(name, std::move(made)).first->second);
  }

 private:
  std::mutex mutex_;
  std::map<std::string, std::any> known_;
};

struct Season {
  base::Date today{};
  const crop::CropLibrary* library = nullptr;
  book::GardenDescription garden;
  book::GardenState state;
  climate::WeatherEnsemble weather;      ///< from 1 January of the year of `today`, or of the earliest stand
  /// In the order of state.stands. Of a stand that is over or has no outlook it holds what the log tells, and
  /// nothing to come (stand/told_outlook.hpp).
  std::vector<stand::Outlook> outlooks;
  std::map<std::string, base::Problem> no_outlook;  ///< by stand: why nothing could be reckoned of it
  /// `weather` worked out once for all stands (soil, light, hours). It stands on a weather of its own, so a
  /// Season may be copied and moved.
  std::shared_ptr<const stand::SeasonWeather> felt_weather;
  /// When its crops may be sown.
  std::shared_ptr<CropWindows> windows = std::make_shared<CropWindows>();
  std::vector<std::shared_ptr<StandMemo>> memos;  ///< in the order of state.stands; empty where none are kept

  /// `make()`, or what it gave for this stand before.
  template <class T, class Make>
  T remember(std::size_t stand, const std::string& name, Make make) const {
    return stand < memos.size() ? memos[stand]->remember<T>(name, make) : make();
  }
};

/// What was worked out for an earlier season of the same garden and can be taken over: the ensemble as long
/// as place, record and day are the same, and the outlook of every stand whose plan, facts, raising place, place
/// in its bed and variety are the same. A season made with it is the same, to the last digit, as one made without.
class SeasonCache {
 public:
  SeasonCache();
  ~SeasonCache();
  SeasonCache(SeasonCache&&) noexcept;
  SeasonCache& operator=(SeasonCache&&) noexcept;

  /// How many outlooks the last `make_season` worked out; the others it took over.
  [[nodiscard]] std::size_t computed_count() const;

 private:
  friend base::Result<Season> make_season(const crop::CropLibrary& library, book::GardenDescription garden,
                                          const std::vector<book::Event>& events, base::Date today,
                                          SeasonCache* cache);
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

/// Daily forecasts reach two to four weeks (from memory); what is foretold for later than this is not used.
inline constexpr base::Days kForecastReach{30};

/// The ensemble for a garden: record years when the record is long enough, else the generator from normals,
/// with what was observed this season in front. Fails insufficient_data when the garden has neither.
[[nodiscard]] base::Result<climate::WeatherEnsemble> garden_weather(const book::GardenDescription& garden,
                                                                    base::Date first, std::size_t day_count,
                                                                    base::Date today);

/// A stand is put in by hand or moved to a day at most so far ahead, on the page too
/// (web/src/domain/ownStand.ts): two years, chosen. A garden file may plan farther, up to `farthest_sowing`.
inline constexpr base::Days kFarthestAhead{730};

/// The last day that a season seen from `today` reaches to: of what is sown later no weather is made up.
[[nodiscard]] base::Date farthest_sowing(base::Date today);

/// The day from which a season holds the weather: 1 January of this year, or of that in which the oldest
/// stand that is not over was sown, as far as can be looked back.
[[nodiscard]] base::Date season_begin(const book::GardenState& state, base::Date today);

/// Problem out_of_range at "stands[2].sow" where a garden is made whose stand is to be sown later than that.
[[nodiscard]] base::Result<void> check_reach(const book::GardenDescription& garden, base::Date today);

/// Folds the log and computes the outlook of every stand that is not over, in parallel; identical on any
/// number of threads. A stand of which nothing can be reckoned is named in `no_outlook`; the others are not
/// held up by it. Takes over from `cache` what is the same, and leaves in it what this season found.
[[nodiscard]] base::Result<Season> make_season(const crop::CropLibrary& library,
                                               book::GardenDescription garden,
                                               const std::vector<book::Event>& events, base::Date today,
                                               SeasonCache* cache = nullptr);

/// A season that holds only this stand, as it would be in this state. Cost: one outlook. Problems: those of
/// the outlook.
[[nodiscard]] base::Result<Season> with_state_tried(const Season& season, book::StandState state);

/// A season that holds only this stand, as it would be with another plan; what was observed of it stays.
/// Cost: one outlook. Problems: not_found (no such stand), those of the outlook.
[[nodiscard]] base::Result<Season> with_plan_tried(const Season& season, const stand::StandPlan& plan);

/// The crop of a stand with its variety's deltas.
[[nodiscard]] base::Result<crop::Crop> crop_of(const Season& season, const stand::StandPlan& plan);

/// The plan of a stand as it can still come true on a day: what is not sown by its day is sown today at the
/// earliest, and plants that were not bought by theirs likewise; what the log tells of began by then.
[[nodiscard]] stand::StandPlan plan_from(const book::StandState& stand, base::Date today);

/// A stand as its outlook is worked out on the season's day: what is not sown by its day is sown today at the
/// earliest, what was sown before the weather begins, or was to be, is sown on its first day.
[[nodiscard]] book::StandState as_seen(const Season& season, const book::StandState& stand);

/// The bed of an id; null where the garden has none.
[[nodiscard]] const bed::Bed* bed_of(const book::GardenDescription& garden, std::string_view id) noexcept;

/// Its name; the id itself where the garden has none.
[[nodiscard]] std::string bed_name(const book::GardenDescription& garden, const std::string& id);

/// The weather as crops feel it: the season's own where it is made, else made anew.
[[nodiscard]] std::shared_ptr<const stand::SeasonWeather> felt_weather_of(const Season& season);

/// How the stand lies in its bed, and in what light; open ground without edges when the bed is not known.
[[nodiscard]] stand::BedPlace bed_place(const book::GardenDescription& garden, const stand::StandPlan& plan);

}  // namespace sowtide::desk
