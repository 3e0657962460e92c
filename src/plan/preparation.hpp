// A garden while it is made ready for the planner: what the parts of that work share, each in a file of its
// own.
#pragma once

#include <atomic>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include "plan/candidates.hpp"

namespace sowtide::plan {

/// The bed, or the tray, is kept until so many of the weather years have finished with it.
inline constexpr double kStayQuantile = 0.9;
/// Clumps of the stand that is lived to judge one clump.
inline constexpr int kJudgedClumps = 100;

/// How a product comes into its beds, as the wants that name it have it.
struct Means {
  bool raised = false, bought = false;
};

/// Counts the choices that are laid out, and hears whether to go on.
class ChoiceCount {
 public:
  explicit ChoiceCount(const ChoiceWatch& watch) : watch_(watch) {}

  /// What all is; before it is known the share is 0.
  void expect(std::size_t all) { all_ = all; }
  /// So many more are done. Several threads may tell at once.
  void add(std::size_t some);
  [[nodiscard]] bool cancelled() const { return cancelled_; }

 private:
  const ChoiceWatch& watch_;
  std::size_t all_ = 0, done_ = 0;  ///< `done_` is guarded
  std::mutex mutex_;
  std::atomic<bool> cancelled_ = false;
};

struct Preparation {
  const PlanInput& input;
  const PlanOptions& options;
  const ChoiceWatch& watch;
  PreparedGarden out = {};
  std::vector<Means> means = {};   ///< by product
  int lot_of_plants = -1;          ///< seed lot of bought plants
  std::vector<int> seed_lot = {};  ///< by product; empty where nothing is known of the seed box
  std::unique_ptr<SowingSource> source = {};
  ChoiceCount count{watch};

  /// Fails not_found where the library has no such crop, or the garden no such variety of it.
  [[nodiscard]] base::Result<crop::Crop> crop_with(const std::string& id, const std::string& variety) const;
  [[nodiscard]] std::optional<std::size_t> bed_named(const std::string& id) const;
  /// Null where there is none.
  [[nodiscard]] const bed::Tray* tray_named(const std::string& id) const;
  /// May lie before the grid or after it.
  [[nodiscard]] int grid_week(base::Date day) const;
  /// Whether a stand begins after all weeks of the grid: no weather is made up for it, so that its place is
  /// kept and nothing of it counts.
  [[nodiscard]] bool begins_beyond(const FixedStand& fixed) const;
  /// Whether a planned stand stands in beds of the light; one without a bed may.
  [[nodiscard]] bool has_light(const stand::StandPlan& stand, bed::SunClass sun) const;
  [[nodiscard]] bool is_bought(std::size_t product) const;
};

// ---- small answers that several parts need

/// The week of a day that counts from the first Monday; before it below 0.
[[nodiscard]] int week_of_day(int day);

/// Quantile over the members for which it happens; kNeverDay when it happens in none.
[[nodiscard]] int day_quantile(const std::vector<int>& days, double p);

/// That the work was ended before its end.
[[nodiscard]] tl::unexpected<base::Problem> cancelled();

/// Whether the tray stands on a heat mat that has not room for all its cells.
[[nodiscard]] bool has_small_mat(const bed::Tray& tray);

/// Until nine in ten years have half of the seed up it stands on the mat; at most to the end of its stay.
[[nodiscard]] int last_week_on_mat(const SowingLife& life, int stay_last_week);

/// Cells of a tray that one cell's worth of the crop takes, by area.
[[nodiscard]] int places_in(const crop::Crop& crop, const bed::Tray& tray);

// ---- the parts, in the order in which they are made

/// Products, wants laid on the weeks, and lots of seed (products.cpp).
[[nodiscard]] base::Result<void> make_products(Preparation& garden);

/// What stands there already: its room, its cells, what it brings, and what grew there before (standing.cpp).
[[nodiscard]] base::Result<void> add_standing(Preparation& garden);

/// Every sowing worth considering (candidates.cpp). Fails cancelled.
[[nodiscard]] base::Result<void> make_candidates(Preparation& garden);

/// What is to lie in store is wanted all at once, in the last week of the range in which half of what a
/// sowing brings can be good; where none can be, in that of the last day. Until then it keeps as the crop
/// keeps (products.cpp).
void add_totals(Preparation& garden);

/// After the weeks of the plan only what its sowings can bring is asked for: the rest is no matter of it
/// (products.cpp).
void ask_beyond_for_what_can_be_had(Preparation& garden);

/// What an earlier plan said, as sowings of the model (promised.cpp).
void add_promised(Preparation& garden);

/// The lot that a clump draws from, and how much (products.cpp).
void draw_seed(const Preparation& garden, Candidate& candidate);

}  // namespace sowtide::plan
