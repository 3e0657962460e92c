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

/// The whole season, as it would be with another plan for one of its stands.
base::Result<Season> with_plan(const Season& season, const stand::StandPlan& plan) {
  auto tried = with_plan_tried(season, plan);
  if (!tried) return tried;
  Season all = season;
  all.memos.clear();  // of the stands as they are
  for (std::size_t i = 0; i < all.state.stands.size(); ++i) {
    if (all.state.stands[i].plan.id != plan.id) continue;
    all.state.stands[i] = std::move(tried->state.stands.front());
    all.outlooks[i] = std::move(tried->outlooks.front());
  }
  return all;
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

base::Result<std::string> moved_table_json(const Season& season, const stand::StandPlan& plan) {
  const auto moved = with_plan(season, plan);
  if (!moved) return tl::unexpected(moved.error());
  const auto before = supply_of_wants(season, kWeeks);
  const auto after = supply_of_wants(*moved, kWeeks);
  Json wants = Json::array();
  for (std::size_t i = 0; i < after.size(); ++i) {
    wants.push_back({{"want", after[i].want->id},
                     {"unit", book::word_of(book::kWantUnitWords, after[i].want->unit)},
                     {"wanted", json_number(after[i].wanted)},
                     {"before", json_number(before[i].mean_reaches)},
                     {"after", json_number(after[i].mean_reaches)}});
  }
  return Json{{"members", season.weather.member_count}, {"wants", wants}}.dump(
      2, ' ', false, Json::error_handler_t::replace);
}

}  // namespace sowtide::desk
