#include "keep/storage.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <tuple>
#include <utility>

namespace sowtide::keep {
namespace {

constexpr double kDaysPerWeek = 7.0;
/// A life longer than this is shown as this: it keeps dates inside the calendar.
constexpr double kLongestLifeDays = 3650.0;

base::Date eat_by_date(const Lot& lot, const crop::CropLibrary& library) {
  const auto found = library.crops.find(lot.crop);
  if (found == library.crops.end()) return lot.stored;
  const double life_days = std::min(storage_life_days(found->second, lot.place), kLongestLifeDays);
  return lot.stored + base::Days{static_cast<int>(std::floor(life_days))};
}

}  // namespace

double storage_life_days(const crop::Crop& crop, StorePlace place) {
  double life_days = 0.0;
  switch (place) {
    case StorePlace::kitchen:
      life_days = crop.keeping.kitchen_days;
      break;
    case StorePlace::fridge:
      life_days = crop.keeping.fridge_days;
      break;
    case StorePlace::best:
      life_days = crop.keeping.best_days;
      break;
  }
  return std::max(0.0, life_days);
}

StorePlace household_place(const crop::Crop& crop, bool cool_store) {
  const double kitchen_days = storage_life_days(crop, StorePlace::kitchen);
  const double fridge_days = storage_life_days(crop, StorePlace::fridge);
  if (cool_store && storage_life_days(crop, StorePlace::best) > std::max(kitchen_days, fridge_days))
    return StorePlace::best;
  return kitchen_days > fridge_days ? StorePlace::kitchen : StorePlace::fridge;
}

double good_share(const crop::Crop& crop, StorePlace place, double days) {
  if (!(days > 0.0)) return 1.0;
  const double life_days = storage_life_days(crop, place);
  if (!(life_days > 0.0)) return 0.0;
  return std::exp2(-days / life_days);
}

double weekly_keep_share(const crop::Crop& crop, StorePlace place) {
  return good_share(crop, place, kDaysPerWeek);
}

int most_weeks(const crop::Crop& crop, StorePlace place) {
  constexpr double kLives = 2.0;
  const double life_days = std::min(storage_life_days(crop, place), kLongestLifeDays);
  return std::max(1, static_cast<int>(std::floor(kLives * life_days / kDaysPerWeek)));
}

LotLeft left_of(const crop::Crop& crop, const Lot& lot, base::Date today) {
  const auto days = static_cast<double>(std::max<std::int64_t>(0, (today - lot.stored).count()));
  const double oldest = most_weeks(crop, lot.place);
  return {static_cast<int>(std::min(std::floor(days / kDaysPerWeek), oldest)),
          lot.grams * good_share(crop, lot.place, days)};
}

std::vector<LotAdvice> eat_first(std::vector<Lot> lots, const crop::CropLibrary& library) {
  std::vector<LotAdvice> advice;
  advice.reserve(lots.size());
  for (Lot& lot : lots) {
    const base::Date eat_by = eat_by_date(lot, library);
    advice.push_back({std::move(lot), eat_by});
  }
  std::sort(advice.begin(), advice.end(), [](const LotAdvice& a, const LotAdvice& b) {
    return std::tie(a.eat_by, a.lot.stored, a.lot.id) < std::tie(b.eat_by, b.lot.stored, b.lot.id);
  });
  return advice;
}

}  // namespace sowtide::keep
