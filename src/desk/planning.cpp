#include "desk/planning.hpp"

#include <algorithm>
#include <utility>

#include "book/corrections.hpp"
#include "desk/garden_windows.hpp"
#include "desk/packets.hpp"
#include "desk/season.hpp"
#include "desk/since_plan.hpp"
#include "plan/season_plan.hpp"

namespace sowtide::desk {
namespace {

/// The outlook of a stand sown in the plan's last week must be seen to its end.
constexpr int kDaysBeyondPlan = 365;
/// One stand more must bring half a serving: our judgement of a quarter of an hour with drill, label and log.
constexpr double kStandPrice = 0.5;
/// A plan that was told already changes only where each stand changed saves a serving: our judgement.
constexpr double kChangePrice = 1.0;
/// A good square metre brings some 20 to 30 servings a year; on poor or freshly manured ground, or with its noon sun
/// taken, it may lose a tenth of them or more. Our judgement.
constexpr double kGroundPrice = 2.0;
constexpr double kShadePrice = 4.0;
/// Slugs, damping off or a hot day without water take a whole sowing. Chosen so that guarding against it costs the table
/// next to nothing; at 0.05 the demo garden's table loses 1.5 % of its cost.
constexpr double kSpreadPrice = 0.02;
/// The first half of what a want asks for counts twice: a household would rather have some of everything than
/// all of what yields most. Our judgement.
constexpr double kFirstHalfPrice = 1.0;

/// What is laid up or stands over winter feeds the table for half a year after the weeks of the plan: garlic
/// lifted in its last month, leeks of its last winter. Our judgement.
constexpr std::size_t kWeeksAfter = 26;

/// Two hundred and fifty seeds to buy, a packet or two, bother as much as one more stand. Our judgement.
constexpr double kSeedPrice = 0.002;

/// What the planner is given, with the weather that it points to.
struct Gathered {
  plan::PlanInput input;
  climate::WeatherEnsemble weather, typical_years;
  plan::PlanOptions options;

  /// The input with its weather; this object must stay where it is meanwhile.
  const plan::PlanInput& whole() {
    input.weather = &weather;
    input.typical_years = &typical_years;
    return input;
  }
};

/// When a stand that is over came into its bed and left it; nothing of one that was never there, or of which
/// nothing came up.
std::optional<plan::FormerStand> former_stand(const book::StandState& stand) {
  const bool direct = stand.plan.method == stand::Method::direct_sow;
  const auto entered = direct ? stand.facts.sown : stand.facts.set_out;
  if (!entered || stand.none_left || stand.plan.bed.empty()) return {};
  return plan::FormerStand{stand.plan, *entered, std::max(*entered, stand.over_on.value_or(*entered))};
}

base::Result<Gathered> gather(const crop::CropLibrary& library, const book::GardenDescription& garden,
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
  input.packets = packets_worth_sowing(library, garden, state, today);
  input.store = state.store;
  input.cool_store = garden.cool_store;
  input.seeds_gone = seeds_gone(library, garden, state, today);
  input.today = today;
  // The garden file keeps them, so the plan must too.
  const auto with_entry = book::stands_of_log(events);
  // What is over or was taken back keeps its row in the file, and its name.
  for (const book::Event& event : events) input.names_taken.push_back(event.stand);
  for (const book::StandState& stand : state.stands) {
    if (!with_entry.contains(stand.plan.id)) {
      input.earlier.push_back(stand.plan);
      continue;
    }
    if (!stand.facts.finished) {
      input.fixed.push_back({plan_from(stand, today), stand.facts});
    } else if (auto former = former_stand(stand)) {
      input.former.push_back(std::move(*former));
    }
  }
  // The weather of the season, day by day: so what a plan tells of a stand is what every page tells of it.
  const base::Date needed = base::date_of(base::year_of(plan::weather_needed_from(input)), 1, 1);
  const base::Date first = std::min(season_begin(state, today), needed);
  const auto days =
      (today - first).count() + static_cast<std::int64_t>(options.weeks + kWeeksAfter) * 7 + kDaysBeyondPlan;
  auto weather = garden_weather(garden, first, static_cast<std::size_t>(days), today);
  if (!weather) return tl::make_unexpected(weather.error());
  auto typical = typical_years(garden);
  if (!typical) return tl::make_unexpected(typical.error());
  plan::PlanOptions priced = options;
  priced.weeks_after = kWeeksAfter;
  priced.prices.stand = kStandPrice;
  priced.prices.seed = kSeedPrice;
  priced.prices.change = kChangePrice;
  priced.prices.ground = kGroundPrice;
  priced.prices.shade = kShadePrice;
  priced.prices.spread = kSpreadPrice;
  priced.prices.first_half = kFirstHalfPrice;
  // Two bad years of ten are chance: a plan made to suit them does no better in others. All known years are needed.
  if (priced.prices.bad_years > 0.0) priced.scenarios = weather->member_count;
  return Gathered{std::move(input), std::move(*weather), std::move(*typical), std::move(priced)};
}

}  // namespace

base::Result<plan::Plan> plan_garden(const crop::CropLibrary& library, const book::GardenDescription& garden,
                                     const std::vector<book::Event>& events, base::Date today,
                                     const plan::PlanOptions& options, plan::SowingMemory* memory,
                                     const std::string& answer_before) {
  auto gathered = gather(library, garden, events, today, options);
  if (!gathered) return tl::make_unexpected(gathered.error());
  gathered->input.memory = memory;
  gathered->input.since = since_plan(answer_before, garden, events, today);
  return plan::make_plan(gathered->whole(), gathered->options);
}

base::Result<std::string> plan_program_text(const crop::CropLibrary& library,
                                            const book::GardenDescription& garden,
                                            const std::vector<book::Event>& events, base::Date today,
                                            const plan::PlanOptions& options, ProgramText format) {
  auto gathered = gather(library, garden, events, today, options);
  if (!gathered) return tl::make_unexpected(gathered.error());
  const auto program = plan::program_of(gathered->whole(), gathered->options);
  if (!program) return tl::make_unexpected(program.error());
  return format == ProgramText::mps ? plan::to_mps(*program, "sowtide")
                                    : plan::to_lp_text(*program, "sowtide");
}

}  // namespace sowtide::desk
