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

  [[nodiscard]] std::vector<Message> cautions() const {
    std::vector<Message> all;
    for (const auto caution :
         {&Before::of_finished, &Before::of_seeds, &Before::of_sowing_again, &Before::of_sowing_day,
          &Before::of_plants, &Before::of_stored, &Before::of_eaten}) {
      if (auto said = (this->*caution)()) all.push_back(std::move(*said));
    }
    return all;
  }

 private:
  using Caution = std::optional<Message>;

  void take(const Event& each) {
    if (each.kind == EventKind::stored) stored_g_ += each.grams.value_or(0.0);
    if (each.kind != EventKind::picked) return;
    picked_g_ += each.grams.value_or(0.0);
    all_weighed_ = all_weighed_ && each.grams.has_value();
  }

  [[nodiscard]] Caution of_finished() const {
    const bool tends = event_.kind == EventKind::counted || event_.kind == EventKind::watered ||
                       event_.kind == EventKind::fed || event_.kind == EventKind::measured ||
                       event_.kind == EventKind::thinned;
    if (!tends || stand_ == nullptr || !stand_->facts.finished) return {};
    return Message{"log-stand-over", {{"stand", event_.stand}}};
  }

  [[nodiscard]] Caution of_seeds() const {
    if (event_.kind != EventKind::sown || stand_ == nullptr || !event_.count) return {};
    const double planned = book::planned_seeds(stand_->plan);
    if (*event_.count <= kFarMoreSeeds * planned) return {};
    return Message{"log-many-seeds", {{"seeds", *event_.count}, {"planned", planned}}};
  }

  [[nodiscard]] Caution of_sowing_again() const {
    const bool sown = event_.kind == EventKind::sown && stand_ != nullptr && stand_->facts.sown;
    if (!sown || stand_->facts.counted_plants == 0) return {};
    return Message{"log-sown-before", {{"stand", event_.stand}, {"day", *stand_->facts.sown}}};
  }

  [[nodiscard]] Caution of_sowing_day() const {
    if (event_.kind != EventKind::sown || stand_ == nullptr) return {};
    // A further sowing, into gaps, is far from the day of the first.
    const base::Days apart = event_.date - stand_->plan.sow;
    if (stand_->facts.sown || std::chrono::abs(apart) <= kFarFromPlan) return {};
    return Message{apart.count() < 0 ? "log-before-its-day" : "log-after-its-day",
                   {{"day", event_.date},
                    {"days", static_cast<double>(std::abs(apart.count()))},
                    {"planned_day", stand_->plan.sow}}};
  }

  [[nodiscard]] Caution of_plants() const {
    const bool counts = stand_ != nullptr && event_.count && takes_plants(library_, &stand_->plan, event_);
    // The seedlings that are thinned are more than the plants planned.
    if (!counts || event_.kind == EventKind::thinned) return {};
    const double planned = std::round(stand_->plan.clumps * stand_->plan.plants_per_clump);
    const double stood = stand_->facts.counted_plants.value_or(planned);
    const double left = std::max(0.0, stood - stand_->facts.plants_removed);
    if (*event_.count <= left) return {};
    return Message{stand_->facts.counted_plants ? "log-more-than-counted" : "log-more-than-planned",
                   {{"plants", *event_.count}, {"left", left}, {"stood", stood}}};
  }

  [[nodiscard]] Caution of_stored() const {
    if (event_.kind != EventKind::stored || stand_ == nullptr) return {};
    if (!stand_->facts.first_picked) return Message{"log-stored-unpicked", {{"stand", event_.stand}}};
    const double stored_g = stored_g_ + event_.grams.value_or(0.0);
    if (!all_weighed_ || stored_g <= kWeighedTwice * picked_g_) return {};
    return Message{"log-more-stored",
                   {{"stored_g", stored_g}, {"stand", event_.stand}, {"picked_g", picked_g_}}};
  }

  [[nodiscard]] Caution of_eaten() const {
    const bool of_lot = event_.kind == EventKind::eaten ||
                        (event_.kind == EventKind::discarded && !event_.target.empty());
    if (!of_lot) return {};
    double there_g = 0.0;
    for (const keep::Lot& lot : state_.store) {
      const bool meant = event_.target.empty() ? lot.stand == event_.stand : lot.id == event_.target;
      if (meant) there_g += lot.grams;
    }
    const bool any = there_g > 0.0;
    if (any && event_.grams.value_or(0.0) <= kWeighedTwice * there_g) return {};
    Message said =
        event_.target.empty()
            ? Message{any ? "log-little-in-store" : "log-nothing-in-store", {{"stand", event_.stand}}}
            : Message{any ? "log-little-of-lot" : "log-nothing-of-lot", {{"lot", event_.target}}};
    if (any) said.values.emplace_back("there_g", there_g);
    return said;
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

std::vector<Message> entry_cautions(const book::GardenDescription& garden, const crop::CropLibrary& library,
                                    const std::vector<Event>& before, const Event& event) {
  return Before(garden, library, before, event).cautions();
}

std::vector<std::string> caution_texts(const std::vector<Message>& cautions, const Event& event,
                                       Units units) {
  std::vector<std::string> texts;
  for (const Message& caution : cautions) {
    base::Date latest = event.date;
    for (const auto& [name, value] : caution.values) {
      if (const auto* date = std::get_if<base::Date>(&value)) latest = std::max(latest, *date);
    }
    texts.push_back(message_text(caution, units, latest));
  }
  return texts;
}

}  // namespace sowtide::desk
