#include "desk/table.hpp"

#include <nlohmann/json.hpp>

#include "book/words.hpp"
#include "desk/json_number.hpp"
#include "desk/supply.hpp"

namespace sowtide::desk {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::size_t kWeeks = 52;

Json week_json(const SupplyWeek& week) {
  return {{"week_start", base::to_iso(week.monday)},
          {"wanted", json_number(week.wanted)},
          {"reaches",
           {{"p10", json_number(week.reaches.p10)},
            {"p50", json_number(week.reaches.p50)},
            {"p90", json_number(week.reaches.p90)}}},
          {"mean_reaches", json_number(week.mean_reaches)},
          {"mean_from_store", json_number(week.mean_from_store)},
          {"short_chance", json_number(week.short_chance)}};
}

}  // namespace

std::string table_json(const Season& season) {
  Json wants = Json::array();
  for (const WantSupply& supply : supply_of_wants(season, kWeeks)) {
    Json weeks = Json::array();
    for (const SupplyWeek& week : supply.weeks) weeks.push_back(week_json(week));
    wants.push_back({{"want", supply.want->id},
                     {"unit", book::word_of(book::kWantUnitWords, supply.want->unit)},
                     {"wanted", json_number(supply.wanted)},
                     {"mean_reaches", json_number(supply.mean_reaches)},
                     {"weeks", weeks}});
  }
  return Json{{"garden", season.garden.name},
              {"today", base::to_iso(season.today)},
              {"members", season.weather.member_count},
              {"wants", wants}}
      .dump(2, ' ', false, Json::error_handler_t::replace);
}

}  // namespace sowtide::desk
