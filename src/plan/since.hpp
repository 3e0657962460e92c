// Whether a change of the plan comes of what has come to pass since the earlier one: a stand that failed, a
// want that was changed. Told only where the plan, judged as if that had not come to pass, says so
// (docs/models/plan.md).
#pragma once

#include <optional>
#include <vector>

#include "plan/changes.hpp"

namespace sowtide::plan {

class Hindsight {
 public:
  /// `placed` and `after` are the new plan. Holds references to all.
  Hindsight(const PlanInput& input, const PreparedGarden& garden, const std::vector<PlacedStand>& placed,
            const std::vector<stand::StandPlan>& after);

  /// For each change what of the news is its reason ("stand-failed-since", "stand-fewer-since",
  /// "stand-over-since", "want-more-since", "want-less-since", "want-new-since"), or has left the ground that
  /// it takes ("ground-free-since"). `reasons` are those of `reason_of_change`, in the order of the changes:
  /// what fails, is past or asked for by nobody has its reason already. `judge` holds the new plan's counts.
  /// One model is copied at a time.
  [[nodiscard]] std::vector<std::optional<base::Message>> reasons_since(
      ForwardPass& judge, const std::vector<StandChange>& changes, const std::vector<base::Message>& reasons);

 private:
  /// The model as it would be without one piece of news.
  struct World {
    base::Message told;
    GardenModel model;
  };
  /// A change that asks for a cause, and the piece of news that makes the most difference to it so far.
  struct Asked {
    std::size_t change = 0;
    std::optional<std::size_t> before;  ///< candidate of the stand as it was
    double now = 0.0;                   ///< what it would cost to undo it
    double most = 0.0;                  ///< by so much less it would without the news
    std::optional<base::Message> cause = {};
  };
  /// Ground that a stand would have kept had all gone as planned.
  struct FreedGround {
    base::Message told;
    TakenStretch stretch;
  };
  [[nodiscard]] std::optional<World> world_without(const StandNews& news);
  [[nodiscard]] std::optional<World> world_without(const WantNews& news) const;
  [[nodiscard]] std::vector<Asked> asking(ForwardPass& judge, const std::vector<StandChange>& changes,
                                          const std::vector<base::Message>& reasons) const;
  void ask(const World& world, const std::vector<StandChange>& changes, std::vector<Asked>& asked) const;
  [[nodiscard]] std::optional<std::size_t> candidate_before(const StandChange& change) const;
  [[nodiscard]] const FreedGround* freed_for(const StandChange& change) const;

  const PlanInput& input_;
  const PreparedGarden& garden_;
  const std::vector<PlacedStand>& placed_;
  const std::vector<stand::StandPlan>& after_;
  std::vector<FreedGround> freed_;
};

}  // namespace sowtide::plan
