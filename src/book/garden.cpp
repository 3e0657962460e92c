#include "book/garden.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <set>
#include <tuple>

#include "book/arrangement_word.hpp"
#include "book/corrections.hpp"
#include "book/seed_test.hpp"
#include "book/size_word.hpp"
#include "book/stand_log.hpp"
#include "book/store_place.hpp"
#include "book/taken_back.hpp"
#include "book/words.hpp"
#include "crop/organ_size.hpp"
#include "stand/bought.hpp"
#include "stand/places.hpp"

namespace sowtide::book {
namespace {

constexpr std::array<std::string_view, 14> kKindWords{
    "sown",   "counted", "set-out", "thinned",   "watered", "fed",      "measured",
    "picked", "stored",  "eaten",   "discarded", "noted",   "corrected", "tested"};

/// Below this a lot counts as used up: a crumb, and far above what subtraction of grams leaves behind.
constexpr double kNothingLeft_g = 1e-6;

/// Half of the plants planned: at this count a stand is taken as emerged.
constexpr double kEmergedShare = 0.5;

/// The entries that count on a day, in the order of the fold.
std::vector<const Event*> effective_events(const std::vector<Event>& events, base::Date day) {
  const Corrections corrections = corrections_of(events);
  std::vector<const Event*> kept;
  kept.reserve(events.size());
  for (const Event& event : events) {
    if (event.date <= day && event.kind != EventKind::corrected && !corrections.removed(event.id))
      kept.push_back(&event);
  }
  std::sort(kept.begin(), kept.end(), [](const Event* a, const Event* b) {
    return std::tie(a->date, a->sequence, a->id) < std::tie(b->date, b->sequence, b->id);
  });
  return kept;
}

/// Whole plants of an event's count.
int plants_of(const Event& event) {
  return static_cast<int>(std::lround(event.count.value_or(0.0)));
}

class Fold {
 public:
  Fold(const GardenDescription& garden, const std::set<std::string, std::less<>>& gone, base::Date day,
       const crop::CropLibrary& library)
      : library_(library), day_(day), monday_(base::week_start(day)) {
    state_.stands.reserve(garden.stands.size());
    for (const stand::StandPlan& plan : garden.stands) {
      if (gone.contains(plan.id)) continue;
      stand_index_.emplace(plan.id, state_.stands.size());
      state_.stands.push_back({plan, {}});
    }
  }

  void take(const Event& event) {
    StandState* stand = find_stand(event.stand);
    switch (event.kind) {
      case EventKind::sown:
        take_sown(stand, event);
        take_arrangement(stand, event);
        break;
      case EventKind::tested:
        take_tested(event);
        break;
      case EventKind::counted:
        take_counted(stand, event);
        break;
      case EventKind::set_out:
        take_set_out(stand, event);
        take_arrangement(stand, event);
        break;
      case EventKind::thinned:
        take_thinned(stand, event);
        break;
      case EventKind::watered:
        take_watered(stand, event);
        break;
      case EventKind::measured:
        take_measured(stand, event);
        break;
      case EventKind::picked:
        take_picked(stand, event);
        break;
      case EventKind::stored:
        take_stored(stand, event);
        break;
      case EventKind::eaten:
        take_eaten(stand, event);
        break;
      case EventKind::discarded:
        take_discarded(stand, event);
        break;
      case EventKind::fed:
      case EventKind::noted:
      case EventKind::corrected:
        break;
    }
  }

  /// What is not in the log by then did not happen; of a stand of which nothing is in the log the plan still
  /// tells.
  GardenState finish() {
    for (StandState& stand : state_.stands) {
      stand.facts.finished = is_over(stand);
      if (stand.facts.finished) stand.over_on = tally_of(stand).last_taken;
      if (stand.facts.finished && !stand.over_on) stand.over_on = stand.counted_on;
      stand.none_left = counted_out(stand) && !stand.facts.first_picked && !tally_of(stand).cleared;
      if (stand.none_left) stand.over_on = stand.counted_on;
      if (stand.facts != stand::StandFacts{}) stand.facts.log_to = day_;
    }
    const auto used_up = [](const keep::Lot& lot) { return lot.grams <= kNothingLeft_g; };
    state_.store.erase(std::remove_if(state_.store.begin(), state_.store.end(), used_up), state_.store.end());
    return std::move(state_);
  }

 private:
  StandState* find_stand(const std::string& id) {
    const auto found = stand_index_.find(id);
    return found == stand_index_.end() ? nullptr : &state_.stands[found->second];
  }

  keep::Lot* find_lot(const std::string& id) {
    const auto found = lot_index_.find(id);
    return found == lot_index_.end() ? nullptr : &state_.store[found->second];
  }

  [[nodiscard]] const crop::Crop* find_crop(const StandState& stand) const {
    const auto found = library_.crops.find(stand.plan.crop);
    return found == library_.crops.end() ? nullptr : &found->second;
  }

  static void keep_first(StandState* stand, std::optional<base::Date> stand::StandFacts::*fact,
                         base::Date date) {
    if (stand != nullptr && !(stand->facts.*fact)) stand->facts.*fact = date;
  }

  /// What the facts do not hold and the end of a stand is told by; of the sowing that stands.
  struct Tally {
    int pulled = 0;                    ///< plants picked or thrown away
    std::optional<double> seeds_told;  ///< of the sowings in the log; one without a number is as planned
    bool cleared = false;              ///< the whole stand: thrown away, or the last of it picked
    std::optional<base::Date> last_taken;  ///< plants, by kitchen, thinning or heap
    double clumps_out = 0.0;               ///< clumps set out, of a stand of clumps of several
    bool seen = false;                     ///< somebody has counted some
    int thinned = 0;                       ///< seedlings, while nobody had counted or set out any
  };

  Tally& tally_of(const StandState& stand) { return tallies_[stand.plan.id]; }

  void begin_anew(StandState& stand) {
    stand.facts = {};
    stand.counted_on.reset();
    stand.observed.clear();
    tallies_.erase(stand.plan.id);
  }

  /// A count found nothing where plants were seen before. A sowing that nobody has seen may still come.
  bool counted_out(const StandState& stand) {
    const stand::StandFacts& facts = stand.facts;
    return facts.counted_plants == 0 &&
           (tally_of(stand).seen || facts.set_out || facts.measured_on || facts.first_picked);
  }

  /// The first sowing dates a stand; one after which nothing stood any more is begun anew by the next.
  void take_sown(StandState* stand, const Event& event) {
    if (stand == nullptr) return;
    const double seeds = event.count.value_or(planned_seeds(stand->plan, find_crop(*stand)));
    state_.seeds_sown[stand->plan.id][event.target.empty() ? stand->plan.packet : event.target] += seeds;
    const stand::StandFacts& facts = stand->facts;
    const bool nothing_stands = facts.counted_plants == 0 && !facts.first_picked;
    if (nothing_stands && (facts.sown || facts.set_out)) begin_anew(*stand);
    keep_first(stand, &stand::StandFacts::sown, event.date);
    auto& told = tally_of(*stand).seeds_told;
    told = told.value_or(0.0) + seeds;
  }

  /// The last entry that tells how the clumps are set counts.
  static void take_arrangement(StandState* stand, const Event& event) {
    const auto told = arrangement_told(event.text);
    if (stand == nullptr || !told || !*told) return;
    stand->plan.arrangement = (*told)->arrangement;
    stand->plan.row_spacing_mm = (*told)->row_spacing_mm;
  }

  /// Plants of a setting out. As long as clumps of several are not all out, what is counted are clumps.
  int plants_set_out(const StandState& stand, const Event& event) {
    double& clumps_out = tally_of(stand).clumps_out;
    const double count = event.count.value_or(stand.plan.clumps);
    const bool in_clumps = stand::several_to_a_clump(stand.plan) && clumps_out + count <= stand.plan.clumps;
    clumps_out += count;
    return in_clumps ? static_cast<int>(std::lround(count * stand.plan.plants_per_clump)) : plants_of(event);
  }

  /// What was taken before a count is none of the plants counted.
  static void begin_count(stand::StandFacts& facts) {
    facts.plants_removed = 0;
    for (stand::PlantsTaken& taken : facts.taken) taken.before_count = true;
  }

  /// Of what was counted in the tray so many stand in the bed; the others were spare.
  void count_set_out(StandState& stand, const Event& event) {
    const int plants = plants_set_out(stand, event);
    if (!event.count || plants == 0) return;
    stand::StandFacts& facts = stand.facts;
    const int raised = facts.counted_plants ? *facts.counted_plants - facts.plants_removed : plants;
    facts.counted_plants = std::clamp(raised, 0, plants);
    begin_count(facts);
  }

  /// The first setting out dates it. Plants set out later go on with it, or fill gaps: they add to what
  /// stands.
  void take_set_out(StandState* stand, const Event& event) {
    if (stand == nullptr) return;
    stand::StandFacts& facts = stand->facts;
    const bool lost = facts.set_out && counted_out(*stand) && !facts.first_picked;
    if (lost) lose_set_out(*stand);
    if (facts.set_out) {
      const int plants = plants_set_out(*stand, event);
      if (facts.counted_plants && event.count) *facts.counted_plants += plants;
      if (event.count) tally_of(*stand).pulled -= plants;
      if (event.count && plants > 0) tally_of(*stand).cleared = false;
      return;
    }
    // What was planned to be bought for a day is so, unless something was raised in a tray that nobody told.
    const bool planned_so = stand::bought_as_plants(stand->plan) && stand->plan.set_out;
    const bool as_planned = planned_so && facts == stand::StandFacts{};
    const bool bought =
        says_bought(event.text) || as_planned || (lost && stand::bought_as_plants(stand->plan));
    if (bought) take_bought(*stand, event.date);
    facts.set_out = event.date;
    if (bought && event.count) {
      facts.counted_plants = plants_of(event);
      tally_of(*stand).clumps_out = stand->plan.clumps;
    } else {
      count_set_out(*stand, event);
    }
  }

  /// What was set out is gone, so that the next setting out dates the stand.
  void lose_set_out(StandState& stand) {
    stand.facts.set_out.reset();
    stand.facts.counted_plants.reset();
    tally_of(stand).clumps_out = 0.0;
  }

  /// Bought plants are as old as seedlings ready to go out; what the garden itself sowed there is gone.
  void take_bought(StandState& stand, base::Date date) {
    begin_anew(stand);
    stand.plan.method = stand::Method::start_indoors;
    stand.plan.tray.clear();
    stand.plan.packet.clear();
    if (const crop::Crop* crop = find_crop(stand)) stand::set_out_as_bought(stand.plan, date, *crop);
    stand.plan.set_out.reset();  // a fact from now on
  }

  /// Where somebody counts plants there are some, whatever was thrown away before.
  void take_counted(StandState* stand, const Event& event) {
    if (stand == nullptr) return;
    stand::StandFacts& facts = stand->facts;
    stand->counted_on = event.date;
    facts.counted_plants = std::min(plants_of(event), most_plants(*stand));
    if (*facts.counted_plants > 0) {
      tally_of(*stand).cleared = false;
      tally_of(*stand).seen = true;
    }
    begin_count(facts);
    const double planned = stand::planned_plants(stand->plan);
    // Plants that were set out, measured or picked before were up long since.
    const bool only_seedlings = !facts.set_out && !facts.measured_on && !facts.first_picked;
    if (only_seedlings && *facts.counted_plants > 0 && *facts.counted_plants >= kEmergedShare * planned) {
      keep_first(stand, &stand::StandFacts::emerged, event.date);
    }
  }

  /// A tuber, clove or slip is one plant however many shoots it sends up; so there are no more than were
  /// planted.
  int most_plants(const StandState& stand) {
    const crop::Crop* crop = find_crop(stand);
    if (crop == nullptr || !crop->seed.planting_piece) return std::numeric_limits<int>::max();
    const double pieces = tally_of(stand).seeds_told.value_or(planned_seeds(stand.plan, crop));
    return std::max(static_cast<int>(std::lround(pieces)), stand.facts.counted_plants.value_or(0));
  }

  /// What goes into the kitchen are the largest; what is thinned or thrown away the smallest.
  void remove_plants(StandState* stand, const Event& event, bool largest) {
    const int plants = plants_of(event);
    const std::optional<double> grams = largest ? event.grams : std::nullopt;
    if (stand == nullptr || (plants == 0 && !grams)) return;
    take_off(*stand, {event.date, plants, largest, grams});
  }

  /// Where nobody counted or set out any, the seedlings that are thinned are those beyond the plants planned,
  /// as far as the seeds can have given so many.
  void take_thinned(StandState* stand, const Event& event) {
    if (stand == nullptr) return;
    const stand::StandFacts& facts = stand->facts;
    const crop::Crop* crop = find_crop(*stand);
    if (facts.counted_plants || facts.set_out || crop == nullptr || crop->seed.planting_piece)
      return remove_plants(stand, event, false);
    Tally& tally = tally_of(*stand);
    const double seeds = tally.seeds_told.value_or(planned_seeds(stand->plan, crop));
    const double spare = most_seedlings(seeds, *crop) - stand::planned_plants(stand->plan);
    const int spare_left = std::max(0, static_cast<int>(std::lround(spare)) - tally.thinned);
    const int thinned = plants_of(event);
    tally.thinned += thinned;
    take_off(*stand, {.date = event.date, .plants = std::max(0, thinned - spare_left)});
  }

  void take_off(StandState& stand, const stand::PlantsTaken& taken) {
    tally_of(stand).last_taken = taken.date;
    stand.facts.plants_removed += taken.plants;
    stand.facts.taken.push_back(taken);
  }

  /// Pulled plants of tubers and fruits are not added up: somebody may have counted pieces. Nor are thinned
  /// seedlings, which are none of those planned.
  void pull_plants(StandState* stand, const Event& event, bool largest) {
    remove_plants(stand, event, largest);
    const crop::Crop* crop = stand == nullptr ? nullptr : find_crop(*stand);
    if (crop == nullptr || gives_several(crop->harvest)) return;
    tally_of(*stand).pulled += plants_of(event);
  }

  /// Nothing is left of the stand, by what was thrown away or picked whole, or counted and taken since. Where
  /// nobody counted, as many as planned are all there were, unless more was sown than planned.
  bool is_over(const StandState& stand) {
    const Tally& tally = tally_of(stand);
    if (tally.cleared || counted_out(stand)) return true;
    const stand::StandFacts& facts = stand.facts;
    if (facts.counted_plants)
      return std::max(facts.plants_removed, tally.pulled) > 0 &&
             facts.plants_removed >= *facts.counted_plants;
    const bool more_sown = tally.seeds_told.value_or(0.0) > planned_seeds(stand.plan);
    return tally.pulled > 0 && !more_sown && tally.pulled >= stand::planned_plants(stand.plan);
  }

  void take_tested(const Event& event) {
    const auto sown = seeds_tested_of(event.text);
    if (sown) state_.seed_tests.push_back({event.target, event.date, *sown, plants_of(event)});
  }

  void take_watered(const StandState* stand, const Event& event) {
    const std::string& bed = !event.target.empty() || stand == nullptr ? event.target : stand->plan.bed;
    if (!bed.empty()) state_.watered[bed] = event.date;
  }

  void take_measured(StandState* stand, const Event& event) const {
    if (stand == nullptr) return;
    const auto seen = size_observed(event, find_crop(*stand));
    if (!seen) return;  // the diameter of a leaf crop tells no weight; what was weighed before still counts
    stand->facts.measured_on = event.date;
    stand->facts.measured_g = seen->weight_g;
    stand->observed.push_back(*seen);
  }

  void take_picked(StandState* stand, const Event& event) {
    if (stand == nullptr) return;
    const crop::Crop* crop = find_crop(*stand);
    if (crop != nullptr && picks_greens(event, crop->harvest)) return take_greens(*stand, event);
    keep_first(stand, &stand::StandFacts::first_picked, event.date);
    stand->facts.picked_g += event.grams.value_or(0.0);
    state_.picked_g[stand->plan.crop] += event.grams.value_or(0.0);
    const bool whole = crop != nullptr && picks_plants(crop->harvest);
    Event told = event;
    if (whole && says_all(event.text) && !event.count)
      told.count = stand::plants_left(stand->plan, stand->facts);
    note_food(told, stand->plan.id, stand->plan.crop, event.grams.value_or(0.0),
              whole && !event.grams ? plants_of(told) : 0);
    if (whole) {
      pull_plants(stand, told, true);
    } else {
      stand->facts.taken.push_back({event.date, 0, true, event.grams});
    }
    if (says_all(event.text)) clear(*stand, event.date);
  }

  /// Leaves as greens: the plants stay, and their roots are still to be picked.
  static void take_greens(StandState& stand, const Event& event) {
    stand.facts.greens_g += event.grams.value_or(0.0);
    stand.facts.taken.push_back({.date = event.date, .grams = event.grams, .leaves = true});
  }

  /// Nothing of it is left from that day on.
  void clear(const StandState& stand, base::Date date) {
    tally_of(stand).cleared = true;
    tally_of(stand).last_taken = date;
  }

  void note_food(const Event& event, const std::string& stand, const std::string& crop, double grams,
                 int plants = 0) {
    if (event.date >= monday_)
      state_.food_of_week.push_back({event.date, event.kind, stand, crop, grams, plants});
  }

  void take_stored(const StandState* stand, const Event& event) {
    if (stand == nullptr) return;
    note_food(event, stand->plan.id, stand->plan.crop, event.grams.value_or(0.0));
    const std::string& id = event.target.empty() ? event.id : event.target;
    if (keep::Lot* lot = find_lot(id)) {
      lot->grams += event.grams.value_or(0.0);
      return;
    }
    lot_index_.emplace(id, state_.store.size());
    state_.store.push_back({id, stand->plan.crop,
                            store_place_of(event.text).value_or(keep::StorePlace::fridge), event.date,
                            event.grams.value_or(0.0), stand->plan.id});
  }

  void take_eaten(const StandState* stand, const Event& event) {
    if (!event.target.empty()) return take_from_lot(event);
    if (stand != nullptr) take_from_oldest(stand->plan.id, event);
  }

  /// Of what was stored of a stand the oldest lot is eaten first, and further ones as far as the weight goes.
  void take_from_oldest(const std::string& stand, const Event& event) {
    std::vector<keep::Lot*> lots;
    for (keep::Lot& lot : state_.store) {
      if (lot.stand == stand && lot.grams > kNothingLeft_g) lots.push_back(&lot);
    }
    std::stable_sort(lots.begin(), lots.end(),
                     [](const keep::Lot* a, const keep::Lot* b) { return a->stored < b->stored; });
    if (lots.empty()) return;
    double left_g = event.grams.value_or(lots.front()->grams);
    for (keep::Lot* lot : lots) left_g -= take_out(*lot, left_g, event);
  }

  /// Takes so much of a lot, as far as it lies there; what was eaten of it is food of the day. What was
  /// taken.
  double take_out(keep::Lot& lot, double grams, const Event& event) {
    const double taken_g = std::min(grams, lot.grams);
    lot.grams -= taken_g;
    if (event.kind == EventKind::eaten && taken_g > 0.0) note_food(event, lot.stand, lot.crop, taken_g);
    return taken_g;
  }

  /// Takes the weight from the lot, or all of it when no weight is given.
  void take_from_lot(const Event& event) {
    keep::Lot* lot = find_lot(event.target);
    if (lot != nullptr) take_out(*lot, event.grams.value_or(lot->grams), event);
  }

  void take_discarded(StandState* stand, const Event& event) {
    if (!event.target.empty()) return take_from_lot(event);
    if (stand == nullptr) return;
    if (event.count) return pull_plants(stand, event, false);
    if (event.grams) return note_food(event, stand->plan.id, stand->plan.crop, *event.grams);
    clear(*stand, event.date);
  }

  const crop::CropLibrary& library_;
  base::Date day_, monday_;  ///< to which the log is folded, and that of its week
  GardenState state_;
  std::map<std::string, std::size_t, std::less<>> stand_index_;
  std::map<std::string, std::size_t, std::less<>> lot_index_;
  std::map<std::string, Tally, std::less<>> tallies_;  ///< by stand
};

}  // namespace

std::string_view event_kind_text(EventKind kind) noexcept {
  return kKindWords[static_cast<std::size_t>(kind)];
}

std::optional<EventKind> parse_event_kind(std::string_view text) noexcept {
  const auto* const found = std::find(kKindWords.begin(), kKindWords.end(), text);
  if (found == kKindWords.end()) return std::nullopt;
  return static_cast<EventKind>(found - kKindWords.begin());
}

std::string_view size_told_text(SizeTold told) noexcept {
  constexpr std::array<std::string_view, 3> kWords{"weighed", "felt", "by eye"};
  return kWords[static_cast<std::size_t>(told)];
}

std::optional<SizeObserved> size_observed(const Event& event, const crop::Crop* crop) {
  if (event.grams) return SizeObserved{event.date, *event.grams, SizeTold::weighed};
  if (crop == nullptr) return std::nullopt;
  if (event.diameter_mm) {
    const auto weight_g = crop::weight_from_diameter(*crop, *event.diameter_mm);
    if (weight_g) return SizeObserved{event.date, *weight_g, SizeTold::felt};
  }
  const auto size = size_class_of(event.text);
  if (!size) return std::nullopt;
  return SizeObserved{event.date, weight_of_class(*size, crop->harvest), SizeTold::by_eye};
}

GardenState fold(const GardenDescription& garden, const std::vector<Event>& events, base::Date day,
                 const crop::CropLibrary& library) {
  Fold folded(garden, taken_back(events), day, library);
  for (const Event* event : effective_events(events, day)) folded.take(*event);
  return folded.finish();
}

bool same_content(const Event& a, const Event& b) {
  const auto parts = [](const Event& e) {
    return std::tie(e.id, e.date, e.kind, e.stand, e.target, e.count, e.grams, e.litres, e.diameter_mm,
                    e.text);
  };
  return parts(a) == parts(b);
}

bool is_id(std::string_view text) noexcept {
  constexpr std::size_t kLongest = 64;
  const auto allowed = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' || c == '-';
  };
  return !text.empty() && text.size() <= kLongest && std::all_of(text.begin(), text.end(), allowed);
}

}  // namespace sowtide::book
