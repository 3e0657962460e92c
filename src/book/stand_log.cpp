#include "book/stand_log.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <tuple>

#include "base/csv.hpp"

namespace sowtide::book {
namespace {

using base::ProblemCode;

/// A limit of plausibility, not a figure of a crop: what is sold as one seed of a beet is a ball of a few
/// seeds, of other crops one seed gives one plant (from memory).
constexpr double kMostPlantsPerSeed = 5.0;

bool follows_sowing(EventKind kind) {
  return kind == EventKind::set_out || kind == EventKind::counted || kind == EventKind::thinned ||
         kind == EventKind::measured || kind == EventKind::picked;
}

std::string done_text(EventKind kind) {
  return kind == EventKind::set_out ? "set out" : std::string(event_kind_text(kind));
}

std::optional<StandEntry> entry_of(const Event& event, std::size_t arrival) {
  const bool plants_thrown_away = event.kind == EventKind::discarded && event.target.empty();
  if (!follows_sowing(event.kind) && event.kind != EventKind::sown && !plants_thrown_away)
    return std::nullopt;
  return StandEntry{event.id, event.date, event.kind, event.count, arrival};
}

tl::unexpected<base::Problem> contradiction(std::string what, std::string_view field, std::string remedy) {
  return base::fail(ProblemCode::contradiction, std::move(what), {.field = std::string(field)},
                    std::move(remedy));
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

}  // namespace

double planned_seeds(const stand::StandPlan& plan) {
  return std::round(std::max(1.0, plan.seeds_per_cell) * (plan.cells > 0 ? plan.cells : plan.clumps));
}

StandLogs StandLogs::of(const std::vector<stand::StandPlan>& stands, const crop::CropLibrary& library) {
  StandLogs logs;
  for (const stand::StandPlan& plan : stands) {
    const auto crop = library.crops.find(plan.crop);
    const bool once = crop != library.crops.end() && crop->second.harvest.style == crop::HarvestStyle::once;
    logs.stands_.emplace(plan.id, Stand{fmt::format("\"{}\" ({})", plan.id, plan.crop),
                                        plan.method == stand::Method::direct_sow,
                                        once,
                                        planned_seeds(plan),
                                        plan.clumps * plan.plants_per_clump,
                                        {}});
  }
  return logs;
}

base::Result<void> StandLogs::check(const Event& event) const {
  if (event.kind == EventKind::corrected) return check_brought_back(event);
  const auto stand = stands_.find(event.stand);
  const auto entry = entry_of(event, arrivals_);
  if (stand == stands_.end() || !entry) return {};
  return check_entry(stand->second, removed_, *entry);
}

void StandLogs::take(const Event& event) {
  const std::size_t arrival = arrivals_++;
  if (event.kind == EventKind::corrected) {
    corrections_.emplace_back(event.id, event.target);
    removed_ = removed_by(corrections_);
    return;
  }
  const auto stand = stands_.find(event.stand);
  if (stand == stands_.end()) return;
  if (auto entry = entry_of(event, arrival)) stand->second.entries.push_back(*std::move(entry));
}

/// Later corrections win, as in the fold.
StandLogs::Ids StandLogs::removed_by(const std::vector<Correction>& corrections) {
  Ids removed;
  for (auto it = corrections.rbegin(); it != corrections.rend(); ++it) {
    if (!removed.contains(it->first)) removed.insert(it->second);
  }
  return removed;
}

/// The entries that stand, this one among them, in the order of the fold.
std::vector<StandEntry> StandLogs::standing(const Stand& stand, const Ids& removed, const StandEntry& entry) {
  std::vector<StandEntry> log;
  for (const StandEntry& other : stand.entries) {
    if (other.id != entry.id && !removed.contains(other.id)) log.push_back(other);
  }
  log.push_back(entry);
  std::sort(log.begin(), log.end(), [](const StandEntry& a, const StandEntry& b) {
    return std::tie(a.date, a.arrival) < std::tie(b.date, b.arrival);
  });
  return log;
}

base::Result<void> StandLogs::check_entry(const Stand& stand, const Ids& removed, const StandEntry& entry) {
  if (entry.kind == EventKind::set_out && stand.sown_in_place) {
    return contradiction(fmt::format("stand {} is sown in place and cannot be set out on {}", stand.name,
                                     base::to_iso(entry.date)),
                         "kind", "Leave the entry out, or name the stand that was raised in a tray");
  }
  const std::vector<StandEntry> log = standing(stand, removed, entry);
  if (auto checked = check_sowing(stand, log, entry); !checked) return checked;
  if (auto checked = check_seeds(stand, log, entry); !checked) return checked;
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

/// No more plants are counted than the seeds sown by then can give.
base::Result<void> StandLogs::check_seeds(const Stand& stand, const std::vector<StandEntry>& log,
                                          const StandEntry& entry) {
  if (entry.kind != EventKind::counted && entry.kind != EventKind::sown) return {};
  for (const StandEntry& counted : log) {
    if (counted.kind != EventKind::counted || counted.date < entry.date) continue;
    if (entry.kind == EventKind::counted && counted.id != entry.id) continue;
    const SeedsKnown known = seeds_known(stand.planned_seeds, log, counted.date);
    const double most = std::max(kMostPlantsPerSeed * known.seeds, known.logged ? 0.0 : stand.planned_plants);
    if (counted.count.value_or(0.0) <= most) continue;
    return contradiction(fmt::format("stand {} cannot have {} plants on {} from the {} seeds {}", stand.name,
                                     base::number_text(*counted.count), base::to_iso(counted.date),
                                     base::number_text(known.seeds), known.logged ? "sown" : "of the plan"),
                         "count",
                         known.logged ? "Put the count right, or first correct the sowing"
                                      : "Put the count right, or first log the sowing with its seeds");
  }
  return {};
}

/// No more plants are thinned than are left of the last count. An entry has part in that only from the last
/// count on, itself included.
base::Result<void> StandLogs::check_thinning(const Stand& stand, const std::vector<StandEntry>& log,
                                             const StandEntry& entry) {
  const StandEntry* counted = nullptr;
  double left = 0.0;
  bool entry_has_part = false;
  for (const StandEntry& e : log) {
    const double plants = e.count.value_or(0.0);
    if (e.kind == EventKind::counted) {
      counted = &e;
      left = plants;
      entry_has_part = false;
    }
    entry_has_part = entry_has_part || e.id == entry.id;
    const bool takes = e.kind == EventKind::thinned || e.kind == EventKind::discarded ||
                       (e.kind == EventKind::picked && stand.pulled_once);
    if (counted == nullptr || !takes) continue;
    if (e.kind == EventKind::thinned && entry_has_part && plants > left) {
      return contradiction(
          fmt::format("of the {} counted in stand {} on {}, {} were left on {}, and {} cannot be thinned",
                      base::number_text(*counted->count), stand.name, base::to_iso(counted->date),
                      base::number_text(std::max(0.0, left)), base::to_iso(e.date),
                      base::number_text(plants)),
          "count", "Put the count right, or first log how many plants stood there");
    }
    left -= plants;
  }
  return {};
}

/// A correction of a correction brings an entry back, which must still fit.
base::Result<void> StandLogs::check_brought_back(const Event& correction) const {
  auto corrections = corrections_;
  corrections.emplace_back(correction.id, correction.target);
  const Ids removed = removed_by(corrections);
  for (const auto& [id, stand] : stands_) {
    for (const StandEntry& entry : stand.entries) {
      if (!removed_.contains(entry.id) || removed.contains(entry.id)) continue;
      if (auto checked = check_entry(stand, removed, entry); !checked) {
        base::Problem problem = checked.error();
        problem.where.field = "target";
        problem.what = fmt::format("would bring back the entry {}, but {}", entry.id, problem.what);
        return tl::make_unexpected(std::move(problem));
      }
    }
  }
  return {};
}

}  // namespace sowtide::book
