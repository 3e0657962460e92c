#include "desk/log_answer.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "base/csv.hpp"
#include "book/corrections.hpp"
#include "book/stand_log.hpp"
#include "desk/present.hpp"

namespace sowtide::desk {
namespace {

using book::Event;
using book::EventKind;

/// Sowing thicker than planned is common, three times as thick is not (from memory).
constexpr double kFarMoreSeeds = 3.0;
/// A sowing so far from its day is of another season, or its date a slip.
constexpr base::Days kFarFromPlan{60};
/// Two weighings of the same crate differ by about so much (from memory).
constexpr double kWeighedTwice = 1.05;

const stand::StandPlan* plan_of(const book::GardenDescription& garden, const std::string& id) {
  for (const stand::StandPlan& plan : garden.stands) {
    if (plan.id == id) return &plan;
  }
  return nullptr;
}

bool takes_plants(const crop::CropLibrary& library, const stand::StandPlan* plan, const Event& event) {
  if (event.kind == EventKind::thinned) return true;
  if (event.kind == EventKind::discarded) return event.target.empty();
  if (event.kind != EventKind::picked || plan == nullptr) return false;
  const auto crop = library.crops.find(plan->crop);
  return crop != library.crops.end() && book::picks_plants(crop->second.harvest);
}

/// What is counted, by the kind of entry.
std::string_view counted_word(const crop::CropLibrary& library, const stand::StandPlan* plan,
                              const Event& event) {
  if (event.kind == EventKind::tested) return "come up";
  const bool one = event.count == 1.0;
  if (event.kind == EventKind::sown) return one ? "seed" : "seeds";
  const bool pieces = event.kind == EventKind::picked && !takes_plants(library, plan, event);
  const bool of_lot = event.kind == EventKind::eaten || event.kind == EventKind::stored;
  if (pieces || of_lot) return one ? "piece" : "pieces";
  return one ? "plant" : "plants";
}

std::string stand_words(const crop::CropLibrary& library, const stand::StandPlan* plan,
                        const std::string& id) {
  return plan == nullptr ? id : fmt::format("{} {}", id, library.name_of(plan->crop));
}

/// The stand of an entry as the log has it by the day of the entry.
class Before {
 public:
  Before(const book::GardenDescription& garden, const crop::CropLibrary& library,
         const std::vector<Event>& events, const Event& event)
      : garden_(garden), library_(library), event_(event), state_(book::fold(garden, events, event.date)) {
    for (const book::StandState& stand : state_.stands) {
      if (stand.plan.id == event.stand) stand_ = &stand;
    }
    const book::Corrections corrections = book::corrections_of(events);
    for (const Event& each : events) {
      const bool counts = each.date <= event.date && each.stand == event.stand && !corrections.removed(each.id);
      if (counts) take(each);
    }
  }

  [[nodiscard]] std::vector<std::string> cautions() const {
    std::vector<std::string> all;
    const auto add = [&all](std::string caution) {
      if (!caution.empty()) all.push_back(std::move(caution));
    };
    add(of_finished());
    add(of_seeds());
    add(of_sowing_again());
    add(of_sowing_day());
    add(of_plants());
    add(of_stored());
    add(of_eaten());
    return all;
  }

 private:
  void take(const Event& each) {
    if (each.kind == EventKind::stored) stored_g_ += each.grams.value_or(0.0);
    if (each.kind != EventKind::picked) return;
    picked_g_ += each.grams.value_or(0.0);
    all_weighed_ = all_weighed_ && each.grams.has_value();
  }

  [[nodiscard]] std::string weight(double grams) const {
    return weight_text(grams, units_of(garden_.units));
  }

  [[nodiscard]] std::string of_finished() const {
    const bool tends = event_.kind == EventKind::counted || event_.kind == EventKind::watered ||
                       event_.kind == EventKind::fed || event_.kind == EventKind::measured ||
                       event_.kind == EventKind::thinned;
    if (!tends || stand_ == nullptr || !stand_->facts.finished) return {};
    return fmt::format("by the log stand {} is over: all of it was picked or cleared", event_.stand);
  }

  [[nodiscard]] std::string of_seeds() const {
    if (event_.kind != EventKind::sown || stand_ == nullptr || !event_.count) return {};
    const double planned = book::planned_seeds(stand_->plan);
    if (*event_.count <= kFarMoreSeeds * planned) return {};
    return fmt::format("{} seeds, where the plan has {}", base::number_text(*event_.count),
                       base::number_text(planned));
  }

  [[nodiscard]] std::string of_sowing_again() const {
    const bool sown = event_.kind == EventKind::sown && stand_ != nullptr && stand_->facts.sown;
    if (!sown || stand_->facts.counted_plants == 0) return {};
    return fmt::format("stand {} was sown already on {}: the seeds of both add up", event_.stand,
                       base::to_iso(*stand_->facts.sown));
  }

  [[nodiscard]] std::string of_sowing_day() const {
    if (event_.kind != EventKind::sown || stand_ == nullptr) return {};
    // A further sowing, into gaps, is far from the day of the first.
    const base::Days apart = event_.date - stand_->plan.sow;
    if (stand_->facts.sown || std::chrono::abs(apart) <= kFarFromPlan) return {};
    return fmt::format("{} is {} days {} the day planned, {}", base::to_iso(event_.date),
                       std::abs(apart.count()), apart.count() < 0 ? "before" : "after",
                       base::to_iso(stand_->plan.sow));
  }

  [[nodiscard]] std::string of_plants() const {
    const bool counts = stand_ != nullptr && event_.count && takes_plants(library_, &stand_->plan, event_);
    // The seedlings that are thinned are more than the plants planned.
    if (!counts || event_.kind == EventKind::thinned) return {};
    const double planned = std::round(stand_->plan.clumps * stand_->plan.plants_per_clump);
    const double stood = stand_->facts.counted_plants.value_or(planned);
    const double left = std::max(0.0, stood - stand_->facts.plants_removed);
    if (*event_.count <= left) return {};
    return fmt::format("{} plants, where by the log {} are left of the {} {}", base::number_text(*event_.count),
                       base::number_text(left), base::number_text(stood),
                       stand_->facts.counted_plants ? "counted" : "planned");
  }

  [[nodiscard]] std::string of_stored() const {
    if (event_.kind != EventKind::stored || stand_ == nullptr) return {};
    if (!stand_->facts.first_picked) {
      return fmt::format("nothing was picked of stand {} by the log: log the picking too, or correct the stand",
                         event_.stand);
    }
    const double stored_g = stored_g_ + event_.grams.value_or(0.0);
    if (!all_weighed_ || stored_g <= kWeighedTwice * picked_g_) return {};
    return fmt::format("with this {} of stand {} were stored, and {} picked", weight(stored_g), event_.stand,
                       weight(picked_g_));
  }

  [[nodiscard]] std::string of_eaten() const {
    const bool of_lot = event_.kind == EventKind::eaten ||
                        (event_.kind == EventKind::discarded && !event_.target.empty());
    if (!of_lot) return {};
    double there_g = 0.0;
    for (const keep::Lot& lot : state_.store) {
      const bool meant = event_.target.empty() ? lot.stand == event_.stand : lot.id == event_.target;
      if (meant) there_g += lot.grams;
    }
    const std::string of = 
        event_.target.empty() ? fmt::format("stand {}", event_.stand) : fmt::format("the lot {}", event_.target);
    if (!(there_g > 0.0)) {
      return fmt::format(
          "nothing of {} lies in store that day, and the store stays as it is; `sowtide store GARDEN` lists the lots",
          of);
    }
    if (event_.grams.value_or(0.0) <= kWeighedTwice * there_g) return {};
    return fmt::format("only {} of {} lay in store", weight(there_g), of);
  }

  const book::GardenDescription& garden_;
  const crop::CropLibrary& library_;
  const Event& event_;
  book::GardenState state_;
  const book::StandState* stand_ = nullptr;
  double stored_g_ = 0.0;
  double picked_g_ = 0.0;
  bool all_weighed_ = true;
};

}  // namespace

std::string entry_text(const book::GardenDescription& garden, const crop::CropLibrary& library,
                       const Event& event) {
  const Units units = units_of(garden.units);
  const stand::StandPlan* plan = plan_of(garden, event.stand);
  std::string text(book::event_kind_text(event.kind));
  if (!event.stand.empty()) text += fmt::format(" {}", stand_words(library, plan, event.stand));
  if (!event.target.empty()) text += fmt::format("{}{}", event.stand.empty() ? " " : ", ", event.target);
  if (event.count)
    text += fmt::format(", {} {}", base::number_text(*event.count), counted_word(library, plan, event));
  const std::string_view each = event.kind == EventKind::measured ? " each" : "";
  if (event.grams) text += fmt::format(", {}{}", weight_text(*event.grams, units), each);
  if (event.litres) text += fmt::format(", {}", volume_text(*event.litres, units));
  if (event.diameter_mm) text += fmt::format(", {} across", diameter_text(*event.diameter_mm, units));
  return text;
}

std::vector<std::string> entry_cautions(const book::GardenDescription& garden,
                                        const crop::CropLibrary& library, const std::vector<Event>& before,
                                        const Event& event) {
  return Before(garden, library, before, event).cautions();
}

}  // namespace sowtide::desk
