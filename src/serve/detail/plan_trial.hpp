// What if: a plan that is only tried, also of a garden with other beds, trays or wishes; nothing of it is
// written.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <vector>

#include "base/problem.hpp"
#include "book/garden.hpp"
#include "desk/plan_keeping.hpp"
#include "desk/season.hpp"
#include "plan/plan.hpp"

namespace sowtide::serve::detail {

/// How a garden was planned that is only tried.
struct PlanTrial {
  std::vector<std::string>
      changed;  ///< parts in which it differs from the garden file: "beds", "trays", "wants"
};

/// Takes {"only_try": true, "what_if": {"beds": […], "trays": […], "wants": […]}} out of what was told of a
/// plan, and puts the parts of it into `garden`; nothing where the plan is to be kept. Problems: wrong_type,
/// contradiction (parts of a plan that is kept), and those of a garden's parts.
[[nodiscard]] base::Result<std::optional<PlanTrial>> take_plan_trial(nlohmann::json& told,
                                                                     book::GardenDescription& garden);

/// A garden as a plan would leave it: what was begun stays, and of the rest there is what the plan says.
[[nodiscard]] book::GardenDescription with_plan(book::GardenDescription garden,
                                                const std::vector<book::Event>& events,
                                                const plan::Plan& plan);

/// {"changed":[…],"plan":{…},"garden":{…},"outlook":{…},"before":{…},"after":{…}}: the plan, the garden it
/// was made for, the outlook of all stands with it, and the table as it is and as it would be;
/// docs/api/plan-trial.schema.json.
[[nodiscard]] std::string plan_trial_json(const PlanTrial& trial, const plan::Plan& plan,
                                          const desk::Season& before, const desk::Season& after);

}  // namespace sowtide::serve::detail
