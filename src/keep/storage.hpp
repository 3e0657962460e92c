// Storage life: how long a picked lot keeps where it really lies, and what to eat first.
#pragma once

#include <string>
#include <vector>

#include "base/date.hpp"
#include "crop/crop.hpp"

namespace sowtide::keep {

enum class StorePlace { kitchen, fridge, best };

/// Days that a lot keeps in a place.
[[nodiscard]] double storage_life_days(const crop::Crop& crop, StorePlace place);

/// The share of a lot still good after a number of weeks, for the planner: 1 at harvest, falling to 0.5 at the storage
/// life; never below 0.
[[nodiscard]] double weekly_keep_share(const crop::Crop& crop, StorePlace place);

/// A lot in store.
struct Lot {
  std::string id;
  std::string crop;
  StorePlace place = StorePlace::fridge;
  base::Date stored{};
  double grams = 0.0;
};

struct LotAdvice {
  Lot lot;
  base::Date eat_by{};
};

/// Lots in the order to eat them: the first to spoil first.
[[nodiscard]] std::vector<LotAdvice> eat_first(std::vector<Lot> lots, const crop::CropLibrary& library);

}  // namespace sowtide::keep
