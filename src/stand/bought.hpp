// Plants that are bought and set out instead of raised in the garden. Nobody here sowed them: they are taken
// to be as old as seedlings that have just become ready to go out, so that their day of sowing follows from
// that of setting out,
//   sow = set_out - raising_days(crop),
// and the growth model lives them as it lives all others (docs/models/plan.md, "Bought plants").
//
//     set_out_as_bought(plan, monday, tomato);  // plan.set_out = monday, plan.sow some weeks before
#pragma once

#include "base/date.hpp"
#include "crop/crop.hpp"
#include "stand/outlook.hpp"

namespace sowtide::stand {

/// Whether a planned stand comes into its bed as plants without ever standing in a tray of the garden. Of one
/// that the log says was sown, the tray is not known instead.
[[nodiscard]] bool bought_as_plants(const StandPlan& plan) noexcept;

/// Days from sowing to seedlings ready to go out, at an ordinary room's 20 °C; hardening off not included.
[[nodiscard]] int raising_days(const crop::Crop& crop);

/// Decides the day on which bought plants are set out; their day of sowing follows.
void set_out_as_bought(StandPlan& plan, base::Date day, const crop::Crop& crop);

/// The day on which a garden begins with a planned stand: that of setting out where the plants are bought and
/// the day is decided, else that of sowing.
[[nodiscard]] base::Date begins_on(const StandPlan& plan) noexcept;

}  // namespace sowtide::stand
