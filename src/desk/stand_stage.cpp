#include "desk/stand_stage.hpp"

#include "stand/bought.hpp"

namespace sowtide::desk {

StandStage stand_stage(const stand::StandFacts& facts) noexcept {
  if (facts.finished) return StandStage::finished;
  if (facts.set_out || facts.first_picked) return StandStage::growing;
  const bool nothing_stands = facts.counted_plants == 0;
  // What was thinned had come up.
  const bool seen = facts.emerged || facts.counted_plants || !facts.taken.empty();
  if (!nothing_stands && seen) return StandStage::up;
  if (facts.sown) return StandStage::sown;
  return StandStage::planned;
}

bool stands_in_bed(const stand::StandPlan& plan, const stand::StandFacts& facts) noexcept {
  const StandStage stage = stand_stage(facts);
  const bool in_place = plan.method == stand::Method::direct_sow;
  return stage == StandStage::growing || (in_place && (stage == StandStage::sown || stage == StandStage::up));
}

bool stands_in_tray(const stand::StandPlan& plan, const stand::StandFacts& facts) noexcept {
  const StandStage stage = stand_stage(facts);
  return plan.method == stand::Method::start_indoors &&
         (stage == StandStage::sown || stage == StandStage::up);
}

bool comes_bought(const stand::StandPlan& plan, const stand::StandFacts& facts) noexcept {
  const bool dated = plan.set_out || facts.set_out;
  return stand::bought_as_plants(plan) && dated && !facts.sown && !facts.emerged;
}

bool to_be_bought(const stand::StandPlan& plan, const stand::StandFacts& facts) noexcept {
  return comes_bought(plan, facts) && stand_stage(facts) == StandStage::planned;
}

bool sowing_missed(const stand::StandPlan& plan, const stand::StandFacts& facts, base::Date today) noexcept {
  return stand_stage(facts) == StandStage::planned && stand::begins_on(plan) + kStillWork < today;
}

std::string_view stand_stage_text(StandStage stage) noexcept {
  switch (stage) {
    case StandStage::planned:
      return "planned";
    case StandStage::sown:
      return "sown";
    case StandStage::up:
      return "up";
    case StandStage::growing:
      return "growing";
    case StandStage::finished:
      return "finished";
  }
  return "planned";
}

}  // namespace sowtide::desk
