// Storage life: how long a picked lot keeps where it really lies, and what to eat first.
//
// Lives are data (crops/<id>.toml, [keeping]); equations in docs/models/plan.md, "Store".
#pragma once

#include <string>
#include <vector>

#include "base/date.hpp"
#include "crop/crop.hpp"

namespace sowtide::keep {

enum class StorePlace { kitchen, fridge, best };

/// Days that a lot keeps in a place. Never below 0.
[[nodiscard]] double storage_life_days(const crop::Crop& crop, StorePlace place);

/// Where the planner lets a crop lie: the better of the two places every household has, kitchen and
/// refrigerator, or the cool store where there is one and the crop keeps longer there. A crop that cold
/// injures is never put in a refrigerator that shortens its life, since its life there is shorter.
[[nodiscard]] StorePlace household_place(const crop::Crop& crop, bool cool_store);

/// The share of a lot still good `days` after it was stored: 1 at first, 0.5 at the storage life, halving
/// again with every further life. 0 when the crop does not keep at all; negative days count as 0.
[[nodiscard]] double good_share(const crop::Crop& crop, StorePlace place, double days);

/// The share of a lot still good after a week, for the planner: 1 at harvest, falling to 0.5 at the storage
/// life; never below 0.
[[nodiscard]] double weekly_keep_share(const crop::Crop& crop, StorePlace place);

/// How many weeks after the week of its picking a lot may still be eaten, for the planner: as many as twice
/// the storage life holds, by when a quarter is good and nobody sorts it out any more (our choice); at least
/// one, so that a meal may wait for the next week.
[[nodiscard]] int most_weeks(const crop::Crop& crop, StorePlace place);

/// A lot in store.
struct Lot {
  std::string id;
  std::string crop;
  StorePlace place = StorePlace::fridge;
  base::Date stored{};
  double grams = 0.0;
  std::string stand = {};  ///< that it was picked of
};

/// A lot as the weeks ahead see it.
struct LotLeft {
  int weeks_old = 0;    ///< whole weeks since it was stored; at most `most_weeks`: what is older is eaten today or never
  double good_g = 0.0;  ///< of it, what is good today
};

/// What is left of a lot of the crop where it lies. A day before it was stored counts as that day.
[[nodiscard]] LotLeft left_of(const crop::Crop& crop, const Lot& lot, base::Date today);

struct LotAdvice {
  Lot lot;
  base::Date eat_by{};
};

/// Lots in the order to eat them: the first to spoil first; then the first stored; then by id. A lot of a
/// crop that the library does not know comes with `eat_by` = the day it was stored: its life is unknown, so
/// look now.
[[nodiscard]] std::vector<LotAdvice> eat_first(std::vector<Lot> lots, const crop::CropLibrary& library);

}  // namespace sowtide::keep
