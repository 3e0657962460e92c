#include "desk/log_answer.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>
#include <optional>

#include "base/csv.hpp"
#include "book/arrangement_word.hpp"
#include "book/corrections.hpp"
#include "book/stand_log.hpp"
#include "book/words.hpp"
#include "desk/present.hpp"
#include "desk/season.hpp"
#include "desk/stand_stage.hpp"
#include "stand/bought.hpp"
#include "stand/places.hpp"

namespace sowtide::desk {
namespace {

using book::Event;
using book::EventKind;

/// Sowing thicker or thinner than planned is common, three times as thick is not, nor a third (from memory).
constexpr double kFarMoreSeeds = 3.0;
/// Chosen: the highest published yields in crops/ stand near 11 kg from a square metre.
constexpr double kMostOfGround_g_m2 = 15000.0;
/// Of the smallest weight worth taking: what weighs less is another unit or a digit lost (chosen).
constexpr double kFarTooLight = 0.1;
/// A sowing so far from its day is of another season, or its date a slip (chosen).
constexpr base::Days kFarFromPlan{60};
/// What follows so long after the last that is known of a stand is of another year: garlic and other crops of
/// the winter stand ten months without an entry (chosen).
constexpr base::Days kLongAfter{330};
/// Of what nine weather years in ten stay below: a plant so far beyond is a slip of the unit, a digit or the
/// stand (chosen: good ground and seed make a half or the double of it).
constexpr double kFarTooHeavy = 5.0;
/// Two weighings of the same crate differ by about so much (from memory).
constexpr double kWeighedTwice = 1.05;

const stand::StandPlan* plan_of(const book::GardenDescription& garden, const std::string& id) {
  for (const stand::StandPlan& plan : garden.stands) {
    if (plan.id == id) return &plan;
  }
  return nullptr;
}

const crop::Crop* crop_of(const crop::CropLibrary& library, const stand::StandPlan* plan) {
  const auto found = plan == nullptr ? library.crops.end() : library.crops.find(plan->crop);
  return found == library.crops.end() ? nullptr : &found->second;
}

/// Grown from tubers, cloves or slips.
bool is_of_pieces(const crop::CropLibrary& library, const stand::StandPlan* plan) {
  const crop::Crop* crop = crop_of(library, plan);
  return crop != nullptr && crop->seed.planting_piece;
}

bool takes_plants(const crop::CropLibrary& library, const stand::StandPlan* plan, const Event& event) {
  if (event.kind == EventKind::thinned) return true;
  if (event.kind == EventKind::discarded) return event.target.empty();
  const crop::Crop* crop = crop_of(library, plan);
  return event.kind == EventKind::picked && crop != nullptr && book::picks_plants(crop->harvest) &&
         !book::picks_greens(event, crop->harvest);
}

/// Leaves alone, as greens, of a crop that is grown for its root.
bool takes_greens(const crop::CropLibrary& library, const stand::StandPlan* plan, const Event& event) {
  const crop::Crop* crop = crop_of(library, plan);
  return crop != nullptr && book::picks_greens(event, crop->harvest);
}

/// What is counted, by the kind of entry.
std::string_view counted_word(const crop::CropLibrary& library, const stand::StandPlan* plan,
                              const Event& event) {
  if (event.kind == EventKind::tested) return "come up";
  const bool one = event.count == 1.0;
  if (event.kind == EventKind::sown && !is_of_pieces(library, plan)) return one ? "seed" : "seeds";
  const bool several_a_plant = event.kind == EventKind::picked && !takes_plants(library, plan, event);
  const bool pieces = event.kind == EventKind::sown || several_a_plant;
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
      : garden_(garden),
        library_(library),
        events_(events),
        event_(event),
        state_(book::fold(garden, events, event.date, library)) {
    for (const book::StandState& stand : state_.stands) {
      if (stand.plan.id == event.stand) stand_ = &stand;
    }
    const book::Corrections corrections = book::corrections_of(events);
    for (const Event& each : events) {
      const bool counts = each.date <= event.date && each.stand == event.stand && !corrections.removed(each.id);
      if (counts) take(each);
      const bool known = each.stand == event.stand && !corrections.removed(each.id) && is_work(each);
      if (known) know(each);
    }
  }

  [[nodiscard]] std::vector<Message> cautions() const {
    std::vector<Message> all;
    for (const auto caution :
         {&Before::of_finished, &Before::of_seeds, &Before::of_sowing_again, &Before::of_sowing_day,
          &Before::of_first_day, &Before::of_last_day, &Before::of_place, &Before::of_shoots,
          &Before::of_count, &Before::of_setting_out, &Before::of_thinning, &Before::of_plants,
          &Before::of_ground, &Before::of_light_plants, &Before::of_greens, &Before::of_measure,
          &Before::of_stored, &Before::of_eaten}) {
      if (auto said = (this->*caution)()) all.push_back(std::move(*said));
    }
    return all;
  }

 private:
  using Caution = std::optional<Message>;

  /// Something that is done at the stand itself, on the day of the entry.
  static bool is_work(const Event& event) {
    using enum EventKind;
    const bool of_lot = event.kind == eaten || !event.target.empty();
    return !event.stand.empty() && !of_lot && event.kind != noted && event.kind != corrected;
  }

  static bool begins(const Event& event) {
    return event.kind == EventKind::sown || event.kind == EventKind::set_out;
  }

  /// Of any day, also later than that of the entry.
  void know(const Event& each) {
    const stand::StandPlan* plan = plan_of(garden_, each.stand);
    // One that is a year off is a slip itself.
    const bool likely = plan != nullptr && each.date >= stand::begins_on(*plan) - kLongAfter;
    if (begins(each) && likely) begun_on_ = std::min(begun_on_.value_or(each.date), each.date);
    last_on_ = std::max(last_on_.value_or(each.date), each.date);
  }

  void take(const Event& each) {
    if (each.kind == EventKind::stored) stored_g_ += each.grams.value_or(0.0);
    if (each.kind == EventKind::set_out) set_out_ += each.count.value_or(0.0);
    if (each.kind == EventKind::sown)
      seeds_told_ = seeds_told_.value_or(0.0) + each.count.value_or(planned_seeds());
    if (each.kind == EventKind::thinned) thinned_ += each.count.value_or(0.0);
    if (each.kind != EventKind::picked || takes_greens(library_, plan_of(garden_, each.stand), each)) return;
    picked_g_ += each.grams.value_or(0.0);
    all_weighed_ = all_weighed_ && each.grams.has_value();
  }

  [[nodiscard]] double planned_seeds() const {
    return stand_ == nullptr ? 0.0 : book::planned_seeds(stand_->plan, crop_of(library_, &stand_->plan));
  }
  [[nodiscard]] double planned_plants() const { return std::round(stand::planned_plants(stand_->plan)); }
  [[nodiscard]] bool pieces() const { return stand_ != nullptr && is_of_pieces(library_, &stand_->plan); }

  /// Plants there are to set out: those counted, or as many as the cells sown are to hold. A count in the bed
  /// tells nothing of what is raised, nor do plants that were bought.
  [[nodiscard]] std::optional<double> raised() const {
    const stand::StandPlan& plan = stand_->plan;
    if (stand_->counted_on)
      return stand_->facts.set_out ? std::nullopt : std::optional(1.0 * *stand_->facts.counted_plants);
    if (!seeds_told_ || !stand_->facts.sown) return std::nullopt;
    const double cells = std::ceil(*seeds_told_ / std::max(1.0, plan.seeds_per_cell));
    return std::ceil(cells * std::max(1.0, plan.plants_per_clump));
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
    const double planned = planned_seeds();
    const bool of_pieces = pieces();
    if (*event_.count == 0.0)
      return Message{of_pieces ? "log-no-pieces" : "log-no-seeds", {{"planned", planned}}};
    const std::string what = of_pieces ? "pieces" : "seeds";
    if (*event_.count > kFarMoreSeeds * planned)
      return Message{"log-many-" + what, {{what, *event_.count}, {"planned", planned}}};
    // Into gaps any few may be sown.
    const bool few = !stand_->facts.sown && *event_.count * kFarMoreSeeds <= planned;
    return few ? Caution(Message{"log-few-" + what, {{what, *event_.count}, {"planned", planned}}})
               : Caution();
  }

  [[nodiscard]] Caution of_sowing_again() const {
    const bool sown = event_.kind == EventKind::sown && stand_ != nullptr && stand_->facts.sown;
    if (!sown || stand_->facts.counted_plants == 0) return {};
    return Message{pieces() ? "log-planted-before" : "log-sown-before",
                   {{"stand", event_.stand}, {"day", *stand_->facts.sown}}};
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

  /// Nothing is done to a stand before it begins, by the log or else the plan; it may begin somewhat before
  /// its day.
  [[nodiscard]] Caution of_first_day() const {
    if (!is_work(event_) || event_.kind == EventKind::sown || stand_ == nullptr) return {};
    const stand::StandPlan* plan = plan_of(garden_, event_.stand);
    const base::Date planned = stand::begins_on(*plan);
    const base::Date first = std::min(planned, begun_on_.value_or(planned));
    const base::Days early = begins(event_) ? kFarFromPlan : base::Days{0};
    if (event_.date >= first - early) return {};
    return Message{"log-before-stand", {{"day", event_.date}, {"stand", event_.stand}, {"first", first}}};
  }

  [[nodiscard]] Caution of_last_day() const {
    if (!is_work(event_) || event_.kind == EventKind::sown || stand_ == nullptr) return {};
    const stand::StandPlan* plan = plan_of(garden_, event_.stand);
    base::Date last = std::max(plan->sow, last_on_.value_or(plan->sow));
    if (plan->set_out) last = std::max(last, *plan->set_out);
    if (plan->pick_from) last = std::max(last, *plan->pick_from + base::Days{7 * plan->pick_weeks});
    const base::Days after = event_.date - last;
    if (after <= kLongAfter) return {};
    return Message{"log-long-after",
                   {{"day", event_.date},
                    {"days", static_cast<double>(after.count())},
                    {"stand", event_.stand},
                    {"last", last}}};
  }

  /// It comes into ground on which another stands by the log.
  [[nodiscard]] Caution of_place() const {
    if (stand_ == nullptr || stands_in_bed(stand_->plan, stand_->facts)) return {};
    const bool in_place = stand_->plan.method == stand::Method::direct_sow;
    if (event_.kind != EventKind::set_out && !(event_.kind == EventKind::sown && in_place)) return {};
    for (const book::StandState& other : state_.stands) {
      const bool holds = &other != stand_ && stands_in_bed(other.plan, other.facts);
      if (!holds || !share_ground(other.plan, stand_->plan)) continue;
      return Message{"log-place-taken",
                     {{"other", other.plan.id},
                      {"crop", other.plan.crop},
                      {"crop_name", library_.name_of(other.plan.crop)}}};
    }
    return {};
  }

  static bool share_ground(const stand::StandPlan& a, const stand::StandPlan& b) {
    constexpr double kTouching_m = 1e-6;
    return !a.bed.empty() && a.bed == b.bed && a.from_m < b.to_m - kTouching_m &&
           b.from_m < a.to_m - kTouching_m;
  }

  /// A planting piece is one plant, and the fold has taken them so.
  [[nodiscard]] Caution of_shoots() const {
    if (event_.kind != EventKind::counted || stand_ == nullptr || !pieces()) return {};
    std::vector<Event> with = events_;
    with.push_back(event_);
    with.back().sequence = std::numeric_limits<std::int64_t>::max();
    for (const book::StandState& stand : book::fold(garden_, with, event_.date, library_).stands) {
      if (stand.plan.id != event_.stand || !stand.facts.counted_plants ||
          *stand.facts.counted_plants >= *event_.count)
        continue;
      return Message{"log-shoots",
                     {{"shoots", *event_.count}, {"plants", 1.0 * *stand.facts.counted_plants}}};
    }
    return {};
  }

  /// A sowing of few seeds under a count of more plants: the one or the other is a slip, unless a seed is a
  /// ball of several.
  [[nodiscard]] Caution of_count() const {
    const crop::Crop* crop = stand_ == nullptr ? nullptr : crop_of(library_, &stand_->plan);
    if (event_.kind != EventKind::counted || crop == nullptr || pieces() || !seeds_told_) return {};
    if (*event_.count <= book::most_seedlings(*seeds_told_, *crop)) return {};
    return Message{"log-more-than-sown", {{"plants", *event_.count}, {"seeds", *seeds_told_}}};
  }

  /// More than came up, or than were sown for; and, into gaps, more than the plan has places for.
  [[nodiscard]] Caution of_setting_out() const {
    if (event_.kind != EventKind::set_out || stand_ == nullptr || !event_.count) return {};
    const double total = set_out_ + *event_.count;
    const auto were = book::says_bought(event_.text) ? std::nullopt : raised();
    if (were && total > *were)
      return Message{"log-more-out-than-raised", {{"plants", total}, {"raised", *were}}};
    const double planned = planned_plants();
    if (!stand_->facts.set_out || total <= planned) return {};
    return Message{"log-more-out-than-planned", {{"plants", total}, {"planned", planned}}};
  }

  /// Seedlings are thinned that nobody counted or set out: those beyond the plants planned.
  [[nodiscard]] bool thins_seedlings() const {
    return event_.kind == EventKind::thinned && stand_ != nullptr && event_.count && !pieces() &&
           !stand_->facts.counted_plants && !stand_->facts.set_out;
  }

  /// So many that fewer than planned can be left of the seeds.
  [[nodiscard]] Caution of_thinning() const {
    const crop::Crop* crop = stand_ == nullptr ? nullptr : crop_of(library_, &stand_->plan);
    if (!thins_seedlings() || crop == nullptr) return {};
    const double seeds = seeds_told_.value_or(planned_seeds());
    const double thinned = thinned_ + *event_.count;
    const double left = std::max(0.0, book::most_seedlings(seeds, *crop) - thinned);
    if (left >= planned_plants()) return {};
    return Message{"log-many-thinned",
                   {{"thinned", thinned}, {"seeds", seeds}, {"left", left}, {"planned", planned_plants()}}};
  }

  [[nodiscard]] Caution of_plants() const {
    const bool counts = stand_ != nullptr && event_.count && takes_plants(library_, &stand_->plan, event_);
    if (!counts || thins_seedlings()) return {};
    const double stood = stand_->facts.counted_plants.value_or(planned_plants());
    const double left = stand::plants_left(stand_->plan, stand_->facts);
    if (*event_.count <= left) return {};
    return Message{stand_->facts.counted_plants ? "log-more-than-counted" : "log-more-than-planned",
                   {{"plants", *event_.count}, {"left", left}, {"stood", stood}}};
  }

  [[nodiscard]] Caution of_ground() const {
    const bool roots = stand_ != nullptr && !takes_greens(library_, &stand_->plan, event_);
    if (event_.kind != EventKind::picked || !roots || !event_.grams) return {};
    const bed::Bed* bed = bed_of(garden_, stand_->plan.bed);
    if (bed == nullptr) return {};
    const double most_g = kMostOfGround_g_m2 * (stand_->plan.to_m - stand_->plan.from_m) * bed->width_m;
    const double picked_g = picked_g_ + *event_.grams;
    if (!(most_g > 0.0) || picked_g <= most_g) return {};
    return Message{"log-much-for-ground",
                   {{"picked_g", picked_g}, {"stand", event_.stand}, {"most_g", most_g}}};
  }

  [[nodiscard]] Caution of_light_plants() const {
    const bool told = event_.kind == EventKind::picked && stand_ != nullptr && event_.grams && event_.count;
    if (!told || !takes_plants(library_, &stand_->plan, event_)) return {};
    const double least_g =
        kFarTooLight * crop_of(library_, &stand_->plan)->harvest.smallest_g * *event_.count;
    if (*event_.grams >= least_g) return {};
    // Where pounds and ounces are read, the unit is the likelier slip.
    const bool us = units_of(garden_.units) == Units::us;
    return Message{us ? "log-little-for-plants-unit" : "log-little-for-plants",
                   {{"picked_g", *event_.grams}, {"plants", *event_.count}}};
  }

  /// The text speaks of leaves, and the plants are taken as pulled.
  [[nodiscard]] Caution of_greens() const {
    if (stand_ == nullptr || event_.kind != EventKind::picked ||
        !takes_plants(library_, &stand_->plan, event_))
      return {};
    const crop::Crop& crop = *crop_of(library_, &stand_->plan);
    if (!book::speaks_of_leaves(event_.text) || crop.harvest.part != crop::HarvestedPart::root) return {};
    return Message{book::gives_greens(crop.harvest) ? "log-greens-as-roots" : "log-leaves-as-roots",
                   {{"crop", crop.id}, {"crop_name", crop.name}}};
  }

  /// A measure that tells nothing, of what cannot be up yet, or far beyond what the weather lets grow.
  [[nodiscard]] Caution of_measure() const {
    const crop::Crop* crop = stand_ == nullptr ? nullptr : crop_of(library_, &stand_->plan);
    if (event_.kind != EventKind::measured || crop == nullptr) return {};
    const auto seen = book::size_observed(event_, crop);
    if (!seen) return Message{"log-diameter-unread", {{"crop", crop->id}, {"crop_name", crop->name}}};
    const auto season = season_of_stand();
    if (!season || season->outlooks.empty() || seen->told == book::SizeTold::by_eye) return {};
    const stand::Outlook& outlook = season->outlooks.front();
    const stand::EventOutlook* up = expected_event(outlook, "emerge");
    if (up != nullptr && event_.date < up->p10)
      return Message{"log-measured-early", {{"day", event_.date}, {"stand", event_.stand}, {"up", up->p10}}};
    // Of crops picked over weeks a plant that is measured is no pod or fruit.
    if (crop->harvest.style == crop::HarvestStyle::picked) return {};
    const double likely_g =
        std::max(stand::plant_on_g(outlook, event_.date).p90, kFarTooLight * crop->harvest.smallest_g);
    if (seen->weight_g <= kFarTooHeavy * likely_g) return {};
    return Message{"log-measured-heavy", {{"plant_g", seen->weight_g}, {"likely_g", likely_g}}};
  }

  /// The stand by itself on the day of the entry, as what was logged before lets expect it.
  [[nodiscard]] std::optional<Season> season_of_stand() const {
    book::GardenDescription alone = garden_;
    alone.stands = {*plan_of(garden_, event_.stand)};
    auto season = make_season(library_, std::move(alone), events_, event_.date);
    return season ? std::optional<Season>(std::move(*season)) : std::nullopt;
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
  const std::vector<Event>& events_;
  const Event& event_;
  book::GardenState state_;
  const book::StandState* stand_ = nullptr;
  std::optional<base::Date> begun_on_, last_on_;  ///< by the other entries, of any day
  double set_out_ = 0.0;
  double thinned_ = 0.0;
  std::optional<double> seeds_told_;  ///< of the sowings in the log
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
  const std::string_view from = event.kind == EventKind::sown ? "from packet " : "";
  if (!event.target.empty())
    text += fmt::format("{}{}{}", event.stand.empty() ? " " : ", ", from, event.target);
  if (event.count)
    text += fmt::format(", {} {}", base::number_text(*event.count), counted_word(library, plan, event));
  const std::string_view each = event.kind == EventKind::measured ? " each" : "";
  if (event.kind == EventKind::picked && book::says_all(event.text)) text += ", all of it";
  const bool greens = takes_greens(library, plan, event);
  if (greens && !event.grams) text += ", leaves";
  if (event.grams)
    text += fmt::format(", {}{}{}", weight_text(*event.grams, units), each, greens ? " of leaves" : "");
  if (event.litres) text += fmt::format(", {}", volume_text(*event.litres, units));
  if (event.diameter_mm) text += fmt::format(", {} across", diameter_text(*event.diameter_mm, units));
  return text;
}

bool lies_ahead(const Event& event, base::Date today) {
  return event.date > today + base::Days{1};
}

std::optional<Message> caution_of_day_ahead(const Event& event, base::Date today) {
  if (!lies_ahead(event, today)) return {};
  return Message{"log-day-ahead", {{"days", static_cast<double>((event.date - today).count())}, {"today", today}}};
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
