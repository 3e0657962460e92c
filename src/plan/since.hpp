// Whether a change of the plan comes of what has come to pass since the earlier one: a stand that failed, a
// want that was changed. Told only where the plan, judged as if that had not come to pass, says so
// (docs/models/plan.md).
#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "plan/changes.hpp"

namespace sowtide::plan {

class Hindsight {
 public:
  /// `placed` and `after` are the new plan. Holds references to all.
  Hindsight(const PlanInput& input, const PreparedGarden& garden, const std::vector<PlacedStand>& placed,
            const std::vector<stand::StandPlan>& after);

  /// What of the news is the reason of a change ("stand-failed-since", "stand-fewer-since",
  /// "stand-over-since", "want-more-since", "want-less-since", "want-new-since"), or has left the ground that
  /// it takes
  /// ("ground-free-since"). `reason` is that of `reason_of_change`: what fails, is past or asked for by
  /// nobody has its reason already. `judge` holds the new plan's counts.
  [[nodiscard]] std::optional<base::Message> reason_since(ForwardPass& judge, const StandChange& change,
                                                          const base::Message& reason);

 private:
  /// The model as it would be without one piece of news, judged with the new plan's counts.
  struct World {
    base::Message told;
    GardenModel model;
    std::optional<ForwardPass> judge;
  };
  /// Ground that a stand would have kept had all gone as planned.
  struct FreedGround {
    base::Message told;
    TakenStretch stretch;
  };
  void add_world_without(const StandNews& news);
  void add_world_without(const WantNews& news);
  [[nodiscard]] std::optional<std::size_t> candidate_before(const StandChange& change) const;
  /// What it would cost to undo the change; below 0 where that would gain.
  [[nodiscard]] double cost_of_undoing(ForwardPass& judge, const StandChange& change,
                                       std::optional<std::size_t> before) const;
  [[nodiscard]] const FreedGround* freed_for(const StandChange& change) const;

  const PlanInput& input_;
  const PreparedGarden& garden_;
  const std::vector<PlacedStand>& placed_;
  const std::vector<stand::StandPlan>& after_;
  std::vector<std::unique_ptr<World>> worlds_;
  std::vector<FreedGround> freed_;
};

}  // namespace sowtide::plan
