// Pull now or wait? What one, two or three more weeks would add to a stand, what could be lost meanwhile, and
// which plants of a clump to take first (docs/models/stand.md, "Judging").
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/message.hpp"
#include "base/quantile.hpp"
#include "stand/simulate.hpp"

namespace sowtide::stand {

/// What a plant's harvested part weighs against what people want: below the smallest worth taking; small;
/// large (from the goal of the large size on); over-size.
enum class SizeClass { too_small, small, large, over_size };
inline constexpr std::size_t kSizeClasses = 4;

/// The class of a plant whose harvested part weighs so much.
[[nodiscard]] SizeClass size_class(const crop::Harvest& harvest, double grams) noexcept;
/// Its words, as they are logged and shown: "too small", "over-size".
[[nodiscard]] std::string_view size_class_text(SizeClass size) noexcept;

/// So many weeks ahead a wait is weighed, and frost looked for.
inline constexpr int kWeeksJudged = 3;

/// How the plan pulls a stand that waits in the ground until it is wanted (`waits_in_ground`).
struct PlannedPulling {
  std::optional<base::Date> from;  ///< nothing: once it is ready, and that is not in sight
  int weeks = 0;
  bool begun = false;      ///< the plan's own day has come, whether it is ready or not
  bool now = false;        ///< it is ready on the day of judging, so the week's share comes out
  base::Quantiles
      week_g;  ///< that share, of the seven days from the day of judging on, over the weather years
  /// What comes out by one, two and three weeks on, mean of the weather years.
  std::array<double, kWeeksJudged> by_wait_g = {};
};

/// Weeks from one plant to the next where the share of seven days of what is pulled is less than two thirds
/// of a plant that weighs so much: nobody pulls part of a cabbage. Nothing where a share is about a plant or
/// more.
[[nodiscard]] std::optional<int> weeks_to_each_plant(const PlannedPulling& pulling, double plant_g) noexcept;

/// What the rest of the household brings into the judgement; nothing is assumed where it is not known.
struct JudgeNeeds {
  double kitchen_short_g = 0.0;  ///< the kitchen lacks this much of the crop this week
  double greens_short_g =
      0.0;  ///< and this much of leaves to cook, which a root crop may give beside its root
  /// What the next stand loses for every week it waits for this ground, in grams of this crop.
  double ground_worth_g_per_week = 0.0;
  std::optional<base::Date> next_from;  ///< from this day on it waits; nothing: from the day of judging on
  /// The plan's own answer for a stand that waits in the ground: it goes before what is weighed here.
  std::optional<PlannedPulling> pulling = {};
};

/// The stand after a wait; of crops picked over weeks what is good to pick then, when nothing was picked
/// meanwhile.
struct WaitOption {
  int weeks = 0;
  base::Date date{};
  base::Quantiles
      plant_g;  ///< mean weight of a plant's harvested part, over the weather years in which any stands
  /// Usable weight of the whole stand against pulling today; of crops picked over weeks what is good on that
  /// day against all that comes in by it when what is ripe is picked from today on.
  base::Quantiles gain_g;
  double mean_gain_g = 0.0;  ///< mean of it, as `usable_g` and `net_g` are means
  double usable_g = 0.0;     ///< usable weight of the whole stand, losses counted, mean of the weather years
  std::array<double, kSizeClasses> class_share{};  ///< share of the standing plants in each size class
  /// Share of weather years in which frost, heat, bolting or age ends it first; years whose frost it has
  /// outlived do not count.
  double loss_risk = 0.0;
  std::string loss_cause;  ///< the commonest of these; empty without risk
  base::Quantiles large_plants;  ///< plants of the large size or over, of the whole stand
  base::Quantiles large_g;       ///< what they weigh
  double ground_cost_g = 0.0;    ///< what the next stand loses by the wait
  double net_g = 0.0;            ///< usable weight less what waiting costs the ground
};

/// The plants of a clump from the largest down, today; of as many as most clumps hold.
struct ClumpPlant {
  int rank = 0;              ///< 0 is the largest
  base::Quantiles weight_g;  ///< the average over the clumps that hold so many, by weather year
  SizeClass size = SizeClass::too_small;
};

/// How a crop that is picked or cut over weeks goes on when what is ready is taken on the day of judging.
struct Rhythm {
  double now_g = 0.0;  ///< ready on the day, whole stand
  std::optional<int>
      next_days;  ///< to the next day that brings something, median; nothing when half of the years have none
  base::Quantiles next_g;  ///< what it brings, over the years that have one
  /// Fruit and pods: by so much less comes in by the same day next week when nothing is picked until then;
  /// the mean of the years, as the gain of that wait.
  double week_costs_g = 0.0;
};

/// What a root crop gives of its leaves beside its root, when its share of them is taken on the day of
/// judging.
struct GreensOffer {
  double now_g = 0.0;  ///< fresh leaf of the whole stand, mean of the weather years
  double root_cost_g =
      0.0;  ///< by so much less the roots weigh after the last of the weeks judged, mean; not below 0
};

struct Judgement {
  std::string stand;
  base::Date date{};
  std::vector<WaitOption> options;  ///< today, and one, two and three weeks on
  /// The wait that nets most, 0 when none beats taking it now by more than a twentieth. Crops picked or cut
  /// over weeks: 0 when some is to be taken now, else the first week that brings something.
  int best_weeks = 0;
  /// The option that nets most, where the advice follows it; nothing where it goes by something else.
  std::optional<int> marked_weeks;
  /// "pull", "pull the largest", "cut", "pick", "wait" or "nothing to judge yet".
  std::string advice;
  /// With "pull the largest" for a kitchen that lacks: so many of the largest plants meet it; else 0.
  int plants_for_kitchen = 0;
  /// Weather years in which frost ends it within three weeks, of those in which frost has not ended it
  /// before: the stand that is judged lives.
  int frost_years = 0, years_alive = 0;
  /// What is worth taking goes before the frost: it ends the stand by then in a third of the years or more.
  bool before_frost = false;
  /// All that is worth taking is to come in now: before the frost, before another end that comes sooner than
  /// the plan would have eaten it, or since the stand is past its end.
  bool takes_all = false;
  /// The advice is to take the plan's own share of the week.
  bool as_planned = false;
  std::vector<base::Message> reasons;
  std::vector<ClumpPlant> clump;
  double pull_largest_now_g = 0.0;  ///< whole stand, middle year: taking the largest of every clump today
  double rest_gain_g = 0.0;  ///< and by so much more the others weigh in two weeks than if it had stayed
  /// Crops that are cut again: what a cut today takes, and the weight in three weeks of cut and regrowth
  /// together less that of the stand left alone.
  double cut_now_g = 0.0, cut_gain_g = 0.0;
  std::optional<Rhythm> rhythm;  ///< of crops picked or cut over weeks
  std::optional<GreensOffer> greens;  ///< of root crops whose leaves are eaten too
};

/// Judges one stand on a day of the ensemble. Fails out_of_range like `outlook`, and where three weeks of
/// weather are not there. Facts (a weighed sample, counts, dates) shift it as they shift the outlook.
[[nodiscard]] base::Result<Judgement> judge(const CropWeather& weather, const StandPlan& plan,
                                            const StandFacts& facts,
                                            const std::optional<RaisingPlace>& raising, base::Date date,
                                            const JudgeNeeds& needs = {},
                                            const SimulationOptions& options = {});

}  // namespace sowtide::stand
