#include "book/stand_log.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <tuple>

#include "base/csv.hpp"
#include "book/arrangement_word.hpp"
#include "book/words.hpp"
#include "stand/places.hpp"

namespace sowtide::book {
namespace {

using base::ProblemCode;

/// A limit of plausibility, not a figure of a crop: what is sold as one seed of a beet is a ball of a few
/// seeds, of other crops one seed gives one plant (from memory).
constexpr double kMostPlantsPerSeed = 5.0;
/// Limits of plausibility again (from memory): record plants weigh several times what is coarse already; a figure
/// beyond is a slip of the unit or of a digit.
constexpr double kBeyondOverSize = 20.0;
constexpr double kBeyondLarge = 6.0;
/// Plants are miscounted, but not by more than half (from memory).
constexpr double kMiscount = 1.5;

bool follows_sowing(EventKind kind) {
  return kind == EventKind::set_out || kind == EventKind::counted || kind == EventKind::thinned ||
         kind == EventKind::measured || kind == EventKind::picked;
}

std::string done_text(EventKind kind) {
  return kind == EventKind::set_out ? "set out" : std::string(event_kind_text(kind));
}

tl::unexpected<base::Problem> contradiction(std::string what, std::string_view field, std::string remedy) {
  return base::fail(ProblemCode::contradiction, std::move(what), {.field = std::string(field)},
                    std::move(remedy));
}

/// Whether that is sure enough to refuse a count by it: heads may have side shoots.
bool surely_picks_plants(const crop::Harvest& harvest) {
  using Part = crop::HarvestedPart;
  return picks_plants(harvest) &&
         (harvest.part == Part::root || harvest.part == Part::bulb || harvest.part == Part::stem);
}

/// Whether the plants that an entry counts are gone.
bool takes_plants(const StandEntry& entry, bool pulled_once) {
  return entry.kind == EventKind::thinned || entry.kind == EventKind::discarded ||
         (entry.kind == EventKind::picked && pulled_once);
}

/// The seeds that were in the ground on a day, as far as the log or else the plan tells.
struct SeedsKnown {
  double seeds = 0.0;
  bool logged = false;
};

SeedsKnown seeds_known(double planned_seeds, const std::vector<StandEntry>& log, base::Date day) {
  SeedsKnown known;
  bool sown = false;
  for (const StandEntry& entry : log) {
    if (entry.kind != EventKind::sown || entry.date > day) continue;
    sown = true;
    known.seeds += entry.count.value_or(planned_seeds);
    known.logged = known.logged || entry.count.has_value();
  }
  if (!sown) known.seeds = planned_seeds;
  return known;
}

/// "the 40 seeds sown", "the one seed of the plan".
std::string seeds_text(const SeedsKnown& known) {
  if (known.seeds == 1.0) return known.logged ? "the one seed sown" : "the one seed of the plan";
  return fmt::format("the {} seeds {}", base::number_text(known.seeds),
                     known.logged ? "sown" : "of the plan");
}

}  // namespace

bool gives_several(const crop::Harvest& harvest) noexcept {
  return harvest.part == crop::HarvestedPart::tuber || harvest.part == crop::HarvestedPart::fruit;
}

bool picks_plants(const crop::Harvest& harvest) noexcept {
  return harvest.style == crop::HarvestStyle::once && !gives_several(harvest);
}

bool gives_greens(const crop::Harvest& harvest) noexcept {
  return harvest.style == crop::HarvestStyle::once && harvest.greens_dry_matter_fraction.has_value();
}

bool picks_greens(const Event& event, const crop::Harvest& harvest) noexcept {
  return event.kind == EventKind::picked && says_leaves(event.text) && gives_greens(harvest);
}

double planned_seeds(const stand::StandPlan& plan) {
  return std::round(std::max(1.0, plan.seeds_per_cell) * stand::places_of(plan));
}

double planned_seeds(const stand::StandPlan& plan, const crop::Crop* crop) {
  const bool of_pieces = crop != nullptr && crop->seed.planting_piece;
  return of_pieces ? stand::places_of(plan) : planned_seeds(plan);
}

double most_seedlings(double seeds, const crop::Crop& crop) noexcept {
  return seeds * static_cast<double>(std::max<std::size_t>(1, crop.seed.embryos.size()));
}

StandLogs StandLogs::of(const std::vector<stand::StandPlan>& stands, const crop::CropLibrary& library) {
  StandLogs logs;
  for (const stand::StandPlan& plan : stands) {
    const auto crop = library.crops.find(plan.crop);
    Stand& stand = logs.stands_[plan.id];
    stand.name = fmt::format("\"{}\" ({})", plan.id, plan.crop);
    stand.sown_in_place = plan.method == stand::Method::direct_sow;
    stand.planned_seeds = planned_seeds(plan);
    stand.planned_plants = stand::planned_plants(plan);
    if (crop == library.crops.end()) continue;
    const crop::Harvest& harvest = crop->second.harvest;
    stand.can_be_set_out = crop->second.nursery.can_transplant;
    stand.whole_plants = picks_plants(harvest);
    stand.has_greens = gives_greens(harvest);
    stand.pulled_once = surely_picks_plants(harvest);
    // Of crops picked over weeks the size is that of a pod or fruit, and what is measured is a plant.
    if (harvest.style != crop::HarvestStyle::picked) stand.most_g = kBeyondOverSize * harvest.over_size_g.value;
    if (harvest.large_diameter_mm) stand.most_diameter_mm = kBeyondLarge * harvest.large_diameter_mm->value;
  }
  return logs;
}

std::optional<StandEntry> StandLogs::entry_of(const Stand& stand, const Event& event, std::size_t arrival) {
  const bool plants_thrown_away = event.kind == EventKind::discarded && event.target.empty();
  if (!follows_sowing(event.kind) && event.kind != EventKind::sown && !plants_thrown_away)
    return std::nullopt;
  // Leaves that were picked are no plants.
  const bool greens = event.kind == EventKind::picked && stand.has_greens && says_leaves(event.text);
  return StandEntry{event.id,    event.date,        event.kind, greens ? std::nullopt : event.count,
                    event.grams, event.diameter_mm, arrival,    says_bought(event.text)};
}

base::Result<void> StandLogs::check(const Event& event) const {
  if (event.kind == EventKind::corrected) return check_brought_back(event);
  const auto stand = stands_.find(event.stand);
  if (stand == stands_.end()) return {};
  const auto entry = entry_of(stand->second, event, arrivals_);
  if (!entry) return {};
  const bool nothing_told =
      event.kind == EventKind::picked && !event.grams && !event.count && !says_all(event.text);
  if (nothing_told && stand->second.whole_plants && !stand->second.has_greens) {
    return base::fail(
        ProblemCode::missing_field,
        fmt::format("of {} whole plants are picked, and no leaves as greens", stand->second.name),
        {.field = "grams"}, "Give the weight, or the number of plants as count");
  }
  if (stand->second.entries.size() >= kMostEntriesOfAStand) {
    return base::fail(ProblemCode::too_large,
                      fmt::format("stand {} has {} entries already", stand->second.name, kMostEntriesOfAStand),
                      {.field = "stand"}, "Write what is done to it less often, or plan it as several stands");
  }
  return check_entry(stand->second, *entry);
}

void StandLogs::take(const Event& event) {
  const std::size_t arrival = arrivals_++;
  if (event.kind == EventKind::corrected) {
    corrections_.take(event.id, event.target);
    return;
  }
  const auto stand = stands_.find(event.stand);
  if (stand == stands_.end()) return;
  if (auto entry = entry_of(stand->second, event, arrival)) {
    stand_of_.emplace(event.id, event.stand);
    stand->second.entries.push_back(*std::move(entry));
  }
}

/// The entries that stand, this one among them, in the order of the fold.
std::vector<StandEntry> StandLogs::standing(const Stand& stand, const StandEntry& entry) const {
  std::vector<StandEntry> log;
  for (const StandEntry& other : stand.entries) {
    if (other.id != entry.id && !removed(other.id)) log.push_back(other);
  }
  log.push_back(entry);
  std::sort(log.begin(), log.end(), [](const StandEntry& a, const StandEntry& b) {
    return std::tie(a.date, a.arrival) < std::tie(b.date, b.arrival);
  });
  return log;
}

base::Result<void> StandLogs::check_entry(const Stand& stand, const StandEntry& entry) const {
  if (entry.kind == EventKind::set_out && entry.bought && !stand.can_be_set_out) {
    return contradiction(fmt::format("stand {} is of a crop that does not bear to be set out", stand.name),
                         "text", "Sow it where it is to grow");
  }
  if (entry.kind == EventKind::set_out && stand.sown_in_place && !entry.bought) {
    return contradiction(
        fmt::format("stand {} is sown in place and cannot be set out on {}", stand.name,
                    base::to_iso(entry.date)),
        "kind",
        "Leave the entry out, name the stand that was raised in a tray, or say in the text that the plants "
        "were \"bought\"");
  }
  if (auto checked = check_size(stand, entry); !checked) return checked;
  const std::vector<StandEntry> log = standing(stand, entry);
  if (auto checked = check_sowing(stand, log, entry); !checked) return checked;
  if (auto checked = check_setting_out(stand, log, entry); !checked) return checked;
  if (auto checked = check_seeds(stand, log, entry); !checked) return checked;
  if (auto checked = check_taken(stand, log, entry); !checked) return checked;
  return check_thinning(stand, log, entry);
}

/// Nothing is counted, thinned, measured, picked or set out before the first sowing. A further sowing into
/// gaps may be as late as it likes.
base::Result<void> StandLogs::check_sowing(const Stand& stand, const std::vector<StandEntry>& log,
                                           const StandEntry& entry) {
  const auto sown =
      std::find_if(log.begin(), log.end(), [](const StandEntry& e) { return e.kind == EventKind::sown; });
  if (sown == log.end()) return {};
  const auto refusal = [&stand](const StandEntry& stands, std::string what) {
    return contradiction(fmt::format("stand {} was {} on {} and cannot be {}", stand.name,
                                     done_text(stands.kind), base::to_iso(stands.date), what),
                         "date", fmt::format("Put the date right, or first correct the entry {}", stands.id));
  };
  if (follows_sowing(entry.kind) && entry.date < sown->date)
    return refusal(*sown, fmt::format("{} before, on {}", done_text(entry.kind), base::to_iso(entry.date)));
  const auto early =
      std::find_if(log.begin(), log.end(), [](const StandEntry& e) { return follows_sowing(e.kind); });
  if (entry.kind != EventKind::sown || early == log.end()) return {};
  if (entry.date <= early->date || sown->date <= early->date) return {};
  return refusal(*early, fmt::format("sown first on {}", base::to_iso(entry.date)));
}

/// Nothing is picked before it is set out. A further setting out, into gaps, may be as late as it likes.
base::Result<void> StandLogs::check_setting_out(const Stand& stand, const std::vector<StandEntry>& log,
                                                const StandEntry& entry) {
  const auto first = [&log](EventKind kind) {
    return std::find_if(log.begin(), log.end(), [kind](const StandEntry& e) { return e.kind == kind; });
  };
  const auto set_out = first(EventKind::set_out);
  const auto picked = first(EventKind::picked);
  if (set_out == log.end() || picked == log.end() || picked->date >= set_out->date) return {};
  if (entry.kind == EventKind::set_out && entry.id == set_out->id) {
    return contradiction(fmt::format("stand {} was picked on {} and cannot be set out first on {}",
                                     stand.name, base::to_iso(picked->date), base::to_iso(entry.date)),
                         "date",
                         fmt::format("Put the date right, or first correct the entry {}", picked->id));
  }
  if (entry.kind != EventKind::picked || entry.date >= set_out->date) return {};
  return contradiction(fmt::format("stand {} was set out on {} and cannot be picked before, on {}",
                                   stand.name, base::to_iso(set_out->date), base::to_iso(entry.date)),
                       "date", fmt::format("Put the date right, or first correct the entry {}", set_out->id));
}

/// No plant is measured far beyond what its crop can be.
base::Result<void> StandLogs::check_size(const Stand& stand, const StandEntry& entry) {
  if (entry.kind != EventKind::measured) return {};
  const auto refusal = [&](std::string size, std::string_view field) {
    return base::fail(ProblemCode::out_of_range, fmt::format("a plant of stand {} cannot be of {}", stand.name, size),
                      {.field = std::string(field)}, "Check the unit and the digits");
  };
  if (stand.most_diameter_mm > 0.0 && entry.diameter_mm.value_or(0.0) > stand.most_diameter_mm)
    return refusal(base::number_text(*entry.diameter_mm) + " mm", "diameter_mm");
  const double plant_g = entry.grams.value_or(0.0);
  if (stand.most_g > 0.0 && plant_g > stand.most_g) return refusal(base::number_text(plant_g) + " g", "grams");
  return {};
}

/// As many as the plan has seeds and plants for may stand there though the log tells of fewer seeds sown:
/// then the number of the sowing is the likelier slip, which a caution says (desk/log_answer.hpp).
double StandLogs::planned_most(const Stand& stand) {
  return std::max(stand.planned_seeds, stand.planned_plants);
}

/// No more plants are counted or set out than the seeds sown by then can give.
base::Result<void> StandLogs::check_seeds(const Stand& stand, const std::vector<StandEntry>& log,
                                          const StandEntry& entry) {
  const auto tells_plants = [](EventKind kind) {
    return kind == EventKind::counted || kind == EventKind::set_out;
  };
  if (!tells_plants(entry.kind) && entry.kind != EventKind::sown) return {};
  for (const StandEntry& counted : log) {
    if (!tells_plants(counted.kind) || counted.date < entry.date) continue;
    if (tells_plants(entry.kind) && counted.id != entry.id) continue;
    const SeedsKnown known = seeds_known(stand.planned_seeds, log, counted.date);
    const double most = std::max(kMostPlantsPerSeed * known.seeds, planned_most(stand));
    if (counted.count.value_or(0.0) <= most) continue;
    return contradiction(
        fmt::format("stand {} cannot have {} plants on {} from {}", stand.name,
                    base::number_text(*counted.count), base::to_iso(counted.date), seeds_text(known)),
        "count",
        known.logged ? "Put the count right, or first correct the sowing"
                     : "Put the count right, or first log the sowing with its seeds");
  }
  return {};
}

/// No more plants are pulled, thinned and thrown away in all than seeds can give and were set out; nor were
/// fewer sown than those that were taken ask for.
base::Result<void> StandLogs::check_taken(const Stand& stand, const std::vector<StandEntry>& log,
                                          const StandEntry& entry) {
  const bool takes = takes_plants(entry, stand.pulled_once) && entry.count.value_or(0.0) > 0.0;
  if (!takes && entry.kind != EventKind::sown) return {};
  double taken = 0.0;
  double set_out = 0.0;
  for (const StandEntry& each : log) {
    if (takes_plants(each, stand.pulled_once)) taken += each.count.value_or(0.0);
    if (each.kind == EventKind::set_out) set_out += each.count.value_or(0.0);
  }
  const SeedsKnown known = seeds_known(stand.planned_seeds, log, log.back().date);
  const double most = std::max({kMostPlantsPerSeed * known.seeds, set_out, planned_most(stand)});
  if (taken <= most) return {};
  return contradiction(fmt::format("stand {} cannot have given {} plants in all from {}", stand.name,
                                   base::number_text(taken), seeds_text(known)),
                       "count",
                       known.logged ? "Put the count right, or first correct the sowing"
                                    : "Put the count right, or first log the sowing with its seeds");
}

/// No more plants are thinned than are left of the last count, and not far more pulled or thrown away than were
/// counted, unless more was sown or set out since. An entry has part in that only from the last
/// count on, itself included.
base::Result<void> StandLogs::check_thinning(const Stand& stand, const std::vector<StandEntry>& log,
                                             const StandEntry& entry) {
  const StandEntry* counted = nullptr;
  double left = 0.0;
  bool entry_has_part = false;
  bool added_since = false;
  for (const StandEntry& e : log) {
    const double plants = e.count.value_or(0.0);
    if (e.kind == EventKind::counted) {
      counted = &e;
      left = plants;
      entry_has_part = false;
      added_since = false;
    }
    added_since = added_since || e.kind == EventKind::sown || e.kind == EventKind::set_out;
    entry_has_part = entry_has_part || e.id == entry.id;
    if (counted == nullptr || !takes_plants(e, stand.pulled_once)) continue;
    const bool thinned = e.kind == EventKind::thinned;
    const double most = thinned ? left : left + (kMiscount - 1.0) * counted->count.value_or(0.0);
    // A count of the first seedlings says nothing of how many there are to pull.
    const bool tells = thinned || (!added_since && counted->count.value_or(0.0) >= 0.5 * stand.planned_plants);
    if (entry_has_part && plants > most && tells) {
      return contradiction(
          fmt::format("of the {} counted in stand {} on {}, {} were left on {}, and {} cannot be {}",
                      base::number_text(*counted->count), stand.name, base::to_iso(counted->date),
                      base::number_text(std::max(0.0, left)), base::to_iso(e.date),
                      base::number_text(plants), done_text(e.kind)),
          "count", "Put the count right, or first log how many plants stood there");
    }
    left -= plants;
  }
  return {};
}

/// A correction of a correction brings entries back, which must still fit.
base::Result<void> StandLogs::check_brought_back(const Event& correction) const {
  for (const std::string& id : corrections_.restored_by(correction.target)) {
    const auto stand_name = stand_of_.find(id);
    if (stand_name == stand_of_.end()) continue;
    const Stand& stand = stands_.find(stand_name->second)->second;
    const auto entry = std::find_if(stand.entries.begin(), stand.entries.end(),
                                    [&id](const StandEntry& each) { return each.id == id; });
    if (auto checked = check_entry(stand, *entry); !checked) {
      base::Problem problem = checked.error();
      problem.where.field = "target";
      problem.what = fmt::format("would bring back the entry {}, but {}", id, problem.what);
      return tl::make_unexpected(std::move(problem));
    }
  }
  return {};
}

}  // namespace sowtide::book
