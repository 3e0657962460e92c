#include "desk/planning.hpp"

#include <set>
#include <utility>

#include "desk/season.hpp"
#include "desk/stand_stage.hpp"

namespace sowtide::desk {
namespace {

/// The outlook of a stand sown in the plan's last week must be seen to its end.
constexpr int kDaysBeyondPlan = 365;
/// One stand more must bring half a serving: our judgement of a quarter of an hour with drill, label and log.
constexpr double kStandPrice = 0.5;

}  // namespace

base::Result<plan::Plan> plan_garden(const crop::CropLibrary& library, const book::GardenDescription& garden,
                                     const std::vector<book::Event>& events, base::Date today,
                                     const plan::PlanOptions& options) {
  const book::GardenState state = book::fold(garden, events, today);
  plan::PlanInput input;
  input.library = &library;
  input.varieties = garden.varieties;
  input.beds = garden.beds;
  input.trays = garden.trays;
  input.past = garden.past;
  input.wants = garden.wants;
  input.packets = garden.packets;
  input.today = today;
  // A stand with any entry, be it a note, is the grower's own by now: the garden file keeps it, so the plan must too.
  std::set<std::string, std::less<>> with_entry;
  for (const book::Event& event : events) with_entry.insert(event.stand);
  base::Date first = base::week_start(today);
  for (const book::StandState& stand : state.stands) {
    if (!with_entry.contains(stand.plan.id)) continue;
    if (stand_stage(stand.facts) == StandStage::finished) {
      input.past_stands.push_back(stand.plan.id);
      continue;
    }
    input.fixed.push_back({stand.plan, stand.facts});
    first = std::min(first, base::week_start(stand.facts.sown.value_or(stand.plan.sow)));
  }
  const auto days = (today - first).count() + static_cast<std::int64_t>(options.weeks) * 7 + kDaysBeyondPlan;
  auto weather = garden_weather(garden, first, static_cast<std::size_t>(days), today);
  if (!weather) return tl::make_unexpected(weather.error());
  input.weather = &*weather;
  plan::PlanOptions priced = options;
  priced.prices.stand = kStandPrice;
  return plan::make_plan(input, priced);
}

}  // namespace sowtide::desk
