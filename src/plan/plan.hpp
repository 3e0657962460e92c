// The season's plan: what to sow, how many, when and where, with a proven gap (docs/models/plan.md).
#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/message.hpp"
#include "base/problem.hpp"
#include "bed/bed.hpp"
#include "climate/ensemble.hpp"
#include "crop/crop.hpp"
#include "keep/storage.hpp"
#include "stand/outlook.hpp"

namespace sowtide::plan {

enum class WantUnit { grams, servings, pieces };

/// What the table should see: an amount every week of a date range.
struct Want {
  std::string id;
  std::string crop;     ///< crop id, or empty when a group is wanted
  std::string group;    ///< kitchen group, or empty
  std::string variety;  ///< or empty for any
  double amount_per_week = 0.0;
  WantUnit unit = WantUnit::grams;
  base::MonthDay from{1, 1}, to{12, 31};  ///< may wrap the new year
  double priority = 1.0;                  ///< 0.1 .. 10, price of a missing gram relative to the others
  stand::SizeGoal size = stand::SizeGoal::large;
  bool early = false;  ///< as early as possible: the first weeks that can be had count for more
  /// To lie in store on the last day of the range, or as late in it as half of it is still good; in `unit`,
  /// beside what is eaten every week.
  double total = 0.0;
  double waste_dislike = 1;  ///< 0 .. 20, price of a wasted serving relative to the usual
  bool bought = false;       ///< plants are bought where the crop bears to be set out; of a group: may be
};

/// Whether a want may be met by a crop: its own, or one of its group.
[[nodiscard]] bool takes_crop(const Want& want, const crop::Crop& crop);

/// Whether a want takes what a crop of a variety, or of none that is known, gives. A group takes any variety.
[[nodiscard]] bool takes(const Want& want, const crop::Crop& crop, const std::string& variety);

/// Fresh weight, as picked, of one unit of the want when it is met by the crop, g.
[[nodiscard]] double grams_per_unit(const Want& want, const crop::Crop& crop);

/// What the want asks for in the week of a Monday, in its unit: the share of the week's days in its range, of
/// those from `from` on. Without its total.
[[nodiscard]] double wanted_in_week(const Want& want, base::Date monday, base::Date from);

/// The week from a Monday on in which what the want asks for in total is to lie in store: that of its last
/// day, the first that is not past. Nothing where no week of so many holds it, or nothing is asked for in
/// total.
[[nodiscard]] std::optional<std::size_t> week_of_total(const Want& want, base::Date first_monday,
                                                       std::size_t weeks, base::Date today);

/// Of what a sowing brings, the share that must be good for a total to be asked for in a week.
inline constexpr double kHalfStillGood = 0.5;

/// The last week up to `due` and within the want's range in which `can_lie` says that a total can lie in
/// store; `due` where none is.
[[nodiscard]] std::size_t last_week_to_lie_in_store(const Want& want, base::Date first_monday,
                                                    std::size_t due, const std::vector<bool>& can_lie);

/// A stand that is already there (or fixed by the grower) and not over, which would be a FormerStand: the
/// plan keeps it.
struct FixedStand {
  stand::StandPlan plan;
  stand::StandFacts facts;
};

/// A stand that is over: what comes after it on its ground minds its family and its hunger.
struct FormerStand {
  stand::StandPlan plan;
  base::Date entered{};  ///< when it came into its bed
  base::Date left{};     ///< the last day on which it stood there
};

/// What the log tells since the earlier plan of a stand that plan relied on.
struct StandNews {
  enum class Kind {
    failed,  ///< nothing of it stands any more, and nothing was picked
    fewer,   ///< fewer plants stand than were planned
    over     ///< all of it is picked
  };
  Kind kind = Kind::failed;
  FixedStand as_planned;  ///< begun on the day it was, and without what was seen since
  base::Date date{};      ///< of the entry that tells it
  int plants = 0, planned = 0;
};

/// A want that was changed since the earlier plan.
struct WantNews {
  std::string id;
  std::optional<Want> before;  ///< nothing: it is new
};

/// What has come to pass since the earlier plan, for telling why a new one differs. No plan depends on it.
struct SincePlan {
  std::vector<StandNews> stands;
  std::vector<WantNews> wants;
};

class SowingMemory;

struct PlanInput {
  const crop::CropLibrary* library = nullptr;
  std::vector<crop::Variety> varieties;
  std::vector<bed::Bed> beds;
  std::vector<bed::Tray> trays;
  std::vector<bed::PastCrop> past;
  std::vector<Want> wants;
  std::vector<crop::Packet> packets;
  std::map<std::string, double> seeds_gone;  ///< by packet: sown since it was counted
  std::vector<keep::Lot> store;              ///< what lies in store today
  bool cool_store = false;  ///< a cellar, clamp or cool loft: crops keep as long as at their best
  std::vector<FixedStand> fixed;
  std::vector<FormerStand> former;
  std::vector<stand::StandPlan>
      earlier;  ///< what an earlier plan said and nobody has begun: changing it costs
  SincePlan since;
  std::vector<std::string> names_taken;  ///< that stands had which are over or gone: new stands take others
  const climate::WeatherEnsemble* weather = nullptr;  ///< from `weather_needed_from` on
  /// Two typical years from a 1 January on, in which days to sow are judged as `windows` judges them;
  /// nothing: any day may be sown on.
  const climate::WeatherEnsemble* typical_years = nullptr;
  base::Date today{};  ///< nothing is sown or bought before
  std::uint64_t seed = 1;
  SowingMemory* memory = nullptr;  ///< of what sowings bring (plan/sowing_memory.hpp); nothing: each is lived anew
};

/// The first day of which a plan needs the weather, a Monday: this week's, or that of the day on which a
/// stand that is there was sown, or on which plants that can be bought today were sown elsewhere.
[[nodiscard]] base::Date weather_needed_from(const PlanInput& input);

/// Seeds that are left in a packet.
[[nodiscard]] double seeds_left(const PlanInput& input, const crop::Packet& packet);

/// Prices in units of one missing serving of priority 1 (choices of this project, not published figures).
struct PlanPrices {
  double waste = 0.05;      ///< a serving that spoils or is never wanted
  /// What a serving that is missing counts more, as a share of its price, where more than half of what its
  /// want asks for over the whole plan is missing in that weather year: so that more
  /// wants get some before any gets all.
  double first_half = 0.0;
  double easy_hour = 0.5;   ///< an hour of sowing and setting out within `easy_hours`
  double hard_hour = 2.0;   ///< an hour above
  double easy_hours = 4.0;  ///< a week
  /// A seed that has to be bought, where the garden tells of any seed that it has.
  double seed = 0.0;
  /// The bother of one more stand (a drill to draw, a label, a thing to remember), in servings of priority 1.
  /// It steers the search towards fewer and larger stands; `objective` and `bound` leave it out, so that the
  /// gap is one of the table.
  double stand = 0.0;
  /// Of each stand of an earlier plan that the new one no longer has, in servings of priority 1, and its
  /// share of one that is made larger or smaller: a new plan must bring that much to be worth the change. A
  /// sowing that would have over two thirds and less than one and a half times of what was told stays as
  /// told, where that costs no more than half of it. Left out of `objective` and `bound` likewise.
  double change = 0.0;
  /// Of a square metre on which a hungry crop follows a hungry one within a year, or a light feeder stands on ground
  /// that was manured this year. Left out of `objective` and `bound` likewise, as is the next.
  double ground = 0.0;
  /// Of a square metre that needs full sun and lies in the noon shadow of something tall, all its time.
  double shade = 0.0;
  /// Of having all of a product from one sowing, as a share of what is wanted of it; less where more sowings share
  /// it. Left out of `objective` and `bound` likewise, as is the next.
  double spread = 0.0;
  /// How much the dearest fifth of the weather years counts beyond the mean of all: 0 minds the mean only, 1 adds the
  /// whole difference.
  double bad_years = 0.0;
};

/// How far a planning has come.
struct PlanProgress {
  double seconds = 0.0;
  double laid_out = 0.0;  ///< share of the sowings to choose from that have been looked at, 0 .. 1
  /// Nothing until the sowings are laid out; the objective is infinite until there is a plan.
  std::optional<double> objective, bound;
};

/// What the search is given unless more is asked for.
inline constexpr std::size_t kUsualRounds = 3000;
inline constexpr double kUsualTimeLimitS = 60.0;

/// Between which values something may lie that is asked of a plan; both are allowed.
struct OptionLimits {
  double least = 0.0;
  double most = 0.0;
};

/// What may be asked of a plan, on the command line and in the page alike.
struct PlanLimits {
  OptionLimits effort{0.1, 50.0};  ///< times the usual search
  OptionLimits time_limit_s{1.0, 3600.0};
  OptionLimits weeks{1.0, 104.0};  ///< whole
  OptionLimits bad_years{0.0, 5.0};
};
inline constexpr PlanLimits kPlanLimits;

struct PlanOptions {
  /// Half of it may go into laying out the choices; what cannot be looked at by then is left out, with a
  /// note.
  double time_limit_s =
      kUsualTimeLimitS;  ///< a slow machine should end by its rounds, cooled down, and not by the clock
  double gap_goal = 0.01;
  std::size_t scenarios = 10;  ///< ensemble members used in the model
  std::size_t weeks = 52;
  /// So many weeks beyond those are minded too, less and less: what is sown within the plan feeds them from
  /// store and from the ground. They are not told of.
  std::size_t weeks_after = 0;
  std::size_t rounds = kUsualRounds;  ///< of the search among placed plans, a few hundred changes a bed each
  PlanPrices prices;
  /// Told often, by one thread at a time, not always the same; false stops. Stopped before the sowings are
  /// laid out there is no plan, afterwards the best so far counts.
  std::function<bool(const PlanProgress&)> progress;

  /// So many times the usual rounds (at least one), and as much more time for them.
  void search_longer(double times);
};

/// A remark on the plan: phrases one after the other.
using Note = std::vector<base::Message>;

struct Shortage {
  std::string want;
  base::Date week_start{};
  double grams = 0.0;        ///< mean over scenarios
  double probability = 0.0;  ///< share of scenarios that are short
};

/// What more of something would bring at most: the relaxation solved again with it.
struct Worth {
  /// "metre-in-sun", "metre-in-part-shade", "metre-in-shade", "cells-of-tray", "cells-on-mat",
  /// "earlier-in-place", "earlier-in-tray", "earlier-bought"; then "helps-want" for the wants that get most
  /// of it.
  Note what;
  double servings = 0.0;  ///< of priority 1, saved over the plan by one more
};

struct Plan {
  double objective = 0.0;
  double bound = 0.0;  ///< proven lower bound of the objective
  double gap = 0.0;    ///< (objective - bound) / objective
  double seconds = 0.0;
  std::string status;  ///< "gap reached", "rounds done", "time limit", "stopped"
  double unseen_objective =
      0.0;  ///< the same cost on the weather years that are not in the model; the objective when all are
  double bad_years_objective = 0.0;      ///< the same cost in the dearest fifth of all weather years, on average
  double wanted_value = 0.0;             ///< the cost when nothing at all reached the table: what is at stake
  std::size_t candidates = 0;            ///< sowings in the model
  std::vector<stand::StandPlan> stands;  ///< new stands, placed in beds
  std::vector<Shortage> shortages;
  std::map<std::string, double> wanted_g, supplied_g;  ///< by want, mean over scenarios, over the horizon
  std::map<std::string, Note> reasons;                 ///< by stand id: why this date, this number, this bed
  std::vector<Worth> worths;  ///< dearest first; what would bring nothing is left out
  std::vector<Note> notes;    ///< what limits, what was left out and why
  std::vector<Note> changes;  ///< against the earlier plan: what, and why where a reason is seen
};

/// Plans the season. Infeasible wants are not an error: they become shortages with a note. Fails `cancelled`
/// where `progress` stops it before there can be a plan.
[[nodiscard]] base::Result<Plan> make_plan(const PlanInput& input, const PlanOptions& options = {});

}  // namespace sowtide::plan
