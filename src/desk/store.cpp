#include "desk/store.hpp"

#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <string>

#include "book/store_place.hpp"
#include "desk/json_number.hpp"
#include "desk/present.hpp"
#include "keep/storage.hpp"

namespace sowtide::desk {
namespace {

using Json = nlohmann::ordered_json;
using keep::StorePlace;

Json lives_json(const crop::Crop& crop) {
  return {{"kitchen", keep::storage_life_days(crop, StorePlace::kitchen)},
          {"fridge", keep::storage_life_days(crop, StorePlace::fridge)},
          {"best", keep::storage_life_days(crop, StorePlace::best)}};
}

Json lot_json(const Season& season, const keep::LotAdvice& advice) {
  const keep::Lot& lot = advice.lot;
  const auto crop = season.library->find(lot.crop);
  const auto age_days = static_cast<int>((season.today - lot.stored).count());
  Json json{{"id", lot.id},
            {"crop", lot.crop},
            {"crop_name", crop ? (*crop)->name : lot.crop},
            {"place", std::string(book::store_place_text(lot.place))},
            {"stored", base::to_iso(lot.stored)},
            {"grams", json_number(lot.grams, 1)},
            {"eat_by", base::to_iso(advice.eat_by)},
            {"age_days", age_days}};
  json["good_share"] = crop ? Json(keep::good_share(**crop, lot.place, age_days)) : Json(nullptr);
  json["life_days"] = crop ? lives_json(**crop) : Json(nullptr);
  json["handling"] = crop ? (*crop)->keeping.handling : std::string{};
  return json;
}

/// What is left, the first to spoil first.
std::vector<keep::LotAdvice> lots_left(const Season& season) {
  std::vector<keep::LotAdvice> lots = keep::eat_first(season.state.store, *season.library);
  std::erase_if(lots, [](const keep::LotAdvice& advice) { return advice.lot.grams <= 0.0; });
  return lots;
}

std::vector<std::string> lot_row(const Season& season, const keep::LotAdvice& advice) {
  const keep::Lot& lot = advice.lot;
  const Units units = units_of(season.garden.units);
  const std::string late = advice.eat_by < season.today ? " (past)" : "";
  return {lot.id,
          season.library->name_of(lot.crop),
          std::string(book::store_place_text(lot.place)),
          weight_text(lot.grams, units),
          date_text(lot.stored, units, season.today),
          date_text(advice.eat_by, units, season.today) + late};
}

}  // namespace

std::string store_text(const Season& season) {
  const std::vector<keep::LotAdvice> lots = lots_left(season);
  if (lots.empty())
    return "The store is empty. `sowtide log GARDEN stored STAND --grams 800` puts a lot into it.\n";
  using Align = TextTable::Align;
  TextTable table({"lot", "crop", "place", "left", "stored", "eat by"},
                  {Align::left, Align::left, Align::left, Align::right, Align::right, Align::left});
  for (const keep::LotAdvice& advice : lots) table.add(lot_row(season, advice));
  return fmt::format("In store on {}, the first to spoil first:\n{}", base::to_iso(season.today),
                     table.text());
}

std::string store_json(const Season& season) {
  Json lots = Json::array();
  for (const keep::LotAdvice& advice : lots_left(season)) lots.push_back(lot_json(season, advice));
  return Json{{"garden", season.garden.name}, {"today", base::to_iso(season.today)}, {"lots", lots}}.dump(
      2, ' ', false, Json::error_handler_t::replace);
}

}  // namespace sowtide::desk
