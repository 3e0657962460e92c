#include <cmath>
#include <cstdlib>
#include <utility>

#include "plan/preparation.hpp"
#include "stand/bought.hpp"

namespace sowtide::plan {
namespace {

/// What an earlier plan said, looked up among the sowings of the model.
class Promised {
 public:
  explicit Promised(Preparation& garden) : garden_(garden) {}

  void add() {
    for (const stand::StandPlan& planned : garden_.input.earlier) {
      garden_.out.earlier_c.push_back(warmth_now(planned));
      const auto bed = garden_.bed_named(planned.bed);
      const bool is_past = stand::begins_on(planned) < garden_.input.today;
      const auto candidate = is_past ? std::nullopt : candidate_like(planned);
      if (!bed || !candidate || planned.clumps <= 0) continue;
      model().promised.push_back({*candidate, *bed, whole_mm(planned.from_m), planned.clumps});
    }
  }

 private:
  [[nodiscard]] GardenModel& model() const { return garden_.out.model; }

  /// The sowing of the model that is nearest to a planned stand: same product, method and tray, within a
  /// week.
  std::optional<std::size_t> candidate_like(const stand::StandPlan& planned) const {
    std::optional<std::size_t> nearest;
    auto least = std::make_pair(2, 0);
    for (std::size_t c = 0; c < model().candidates.size(); ++c) {
      const Candidate& candidate = model().candidates[c];
      const stand::StandPlan& sowing = candidate.sowing;
      if (sowing.crop != planned.crop || sowing.variety != planned.variety || sowing.size != planned.size ||
          sowing.method != planned.method || sowing.tray != planned.tray ||
          !stand_alike(sowing.pick_weeks, planned.pick_weeks) || !garden_.has_light(planned, *candidate.sun))
        continue;
      const auto distance =
          std::make_pair(std::abs(candidate.sow_week - garden_.grid_week(stand::begins_on(planned))),
                         std::abs(sowing.pick_weeks - planned.pick_weeks));
      if (distance >= least) continue;
      least = distance;
      nearest = c;
    }
    return nearest;
  }

  /// The warmth that a planned sowing would meet by the weather as it is known now.
  std::optional<double> warmth_now(const stand::StandPlan& planned) const {
    const base::Date begin = stand::begins_on(planned);
    if (!planned.planned_c || begin < garden_.input.today) return {};
    return garden_.source->warmth_c(planned.method, begin);
  }

  Preparation& garden_;
};

}  // namespace

void add_promised(Preparation& garden) {
  Promised(garden).add();
}

}  // namespace sowtide::plan
