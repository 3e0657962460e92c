// Planning takes seconds, so it runs beside the server on a thread of its own, one plan at a time.
#pragma once

#include <atomic>
#include <functional>
#include <mutex>
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <thread>
#include <vector>

#include "base/problem.hpp"
#include "book/garden.hpp"
#include "desk/plan_keeping.hpp"
#include "plan/plan.hpp"
#include "plan/sowing_memory.hpp"
#include "serve/detail/plan_trial.hpp"

namespace sowtide::serve::detail {

struct PlanInput {
  book::GardenDescription garden;
  std::vector<book::Event> events;
  base::Date today{};
  std::int64_t revision = 0;  ///< of the garden file
  std::string answer_before;  ///< of the plan that is kept, or empty
  std::optional<PlanTrial> trial;  ///< nothing where the plan is to be kept
};

/// Reads {"effort", "time_limit_s", "weeks", "bad_years"} within plan::kPlanLimits, each with the planner's default
/// when left out.
[[nodiscard]] base::Result<plan::PlanOptions> read_plan_options(const nlohmann::json& told);

/// A plan that has come to its end, and the stands it was made for.
struct FinishedPlan {
  base::Result<plan::Plan> plan;
  desk::PlannedFor before;
  PlanInput input;
};

/// {"state":"tried"}, or as below where it was stopped or failed.
[[nodiscard]] std::string plan_tried_json(const base::Result<void>& end);

/// {"state":"done","notes":[…],"notes_said":[…]}, the notes being what became of the plan since the garden
/// changed meanwhile; {"state":"stopped"} when it was asked to stop before there was a plan; or
/// {"state":"failed","error":{…}}.
[[nodiscard]] std::string plan_end_json(const base::Result<desk::FittedPlan>& end);

class PlanJob {
 public:
  /// `tell` gets {"state":"working","only_try","seconds","laid_out","objective","bound"} about twice a
  /// second, on the job's thread.
  explicit PlanJob(std::function<void(const std::string&)> tell);
  /// Stops the plan in work and waits for it.
  ~PlanJob();
  PlanJob(const PlanJob&) = delete;
  PlanJob& operator=(const PlanJob&) = delete;

  /// Problems: contradiction when one is in work already.
  base::Result<void> start(PlanInput input, plan::PlanOptions options);
  /// Asks the plan in work to stop; the best that it has found so far counts, where it has found any.
  void cancel();
  /// The plan that has come to its end since the last call, once.
  std::optional<FinishedPlan> take_finished();

 private:
  void run(PlanInput input, plan::PlanOptions options);

  std::function<void(const std::string&)> tell_;
  plan::SowingMemory memory_;  ///< what one plan finds of a sowing serves the next
  std::thread thread_;
  std::atomic<bool> cancelled_{false};
  std::mutex mutex_;
  bool working_ = false;  ///< guarded, like all below
  std::optional<FinishedPlan> finished_;
};

}  // namespace sowtide::serve::detail
