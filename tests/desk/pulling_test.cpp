// From when on what waits in the ground is pulled.
#include "desk/pulling.hpp"

#include <gtest/gtest.h>

namespace sowtide::desk {
namespace {

using base::date_of;

TEST(PulledFrom, IsThePlansDayOrThatOfTheFirstPickingWhereThatIsLater) {
  const base::Date june = date_of(2026, 6, 8);
  book::StandState state;
  stand::Outlook outlook;
  EXPECT_EQ(pulled_from(state, outlook), std::nullopt);
  state.plan.pick_from = date_of(2026, 5, 1);
  EXPECT_EQ(pulled_from(state, outlook), date_of(2026, 5, 1)) << "no picking is expected";
  outlook.events.push_back({"first-pick", june, june, june, 1.0});
  EXPECT_EQ(pulled_from(state, outlook), june);
  state.plan.pick_from = date_of(2026, 11, 1);
  EXPECT_EQ(pulled_from(state, outlook), date_of(2026, 11, 1));
  state.plan.pick_from.reset();
  state.facts.first_picked = date_of(2026, 6, 3);
  EXPECT_EQ(pulled_from(state, outlook), date_of(2026, 6, 3)) << "what was seen goes before what was expected";
}

}  // namespace
}  // namespace sowtide::desk
