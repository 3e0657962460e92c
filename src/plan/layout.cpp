#include "plan/layout.hpp"

#include <algorithm>
#include <cstddef>
#include <limits>
#include <map>

namespace sowtide::plan {
namespace {

constexpr std::size_t kNoStand = std::numeric_limits<std::size_t>::max();
/// A free stretch shorter than this is hardly ever used.
constexpr int kSliverMm = 150;
/// Nothing before or after on a stretch counts as lying idle for so many weeks.
constexpr int kFarWeeks = 12;
}  // namespace

Layout::Layout(const GardenModel& model)
    : model_(&model), blocks_(model.beds.size()), cells_(cells_taken(model)) {
  std::map<std::string, int> families;
  const auto family_number = [&](const std::string& family) {
    return families.emplace(family, static_cast<int>(families.size())).first->second;
  };
  for (const TakenStretch& taken : model.taken) {
    blocks_[taken.bed].push_back({taken.from_mm, taken.to_mm, taken.first_week, taken.last_week,
                                  family_number(taken.family), 0.0, kNoStand});
  }
  std::vector<Shape> shapes;
  for (const Candidate& candidate : model.candidates) {
    Shape shape{candidate.bed_first_week,
                candidate.bed_last_week,
                family_number(candidate.family),
                rest_weeks_of(candidate),
                {},
                {}};
    for (const bed::Bed& bed : model.beds) {
      shape.across.push_back(may_stand(bed, candidate) ? clumps_across(bed, candidate) : 0);
    }
    for (const PastStretch& past : model.past) {
      if (too_soon_after(model, candidate, past))
        shape.closed.push_back({past.bed, {past.from_mm, past.to_mm}});
    }
    shapes.push_back(std::move(shape));
  }
  shapes_ = std::make_shared<const std::vector<Shape>>(std::move(shapes));
}

int Layout::length_of(const PlacedStand& stand) const {
  return stretch_mm(model_->candidates[stand.candidate], (*shapes_)[stand.candidate].across[stand.bed],
                    stand.clumps);
}

std::vector<std::pair<int, int>> Layout::free_stretches(std::size_t candidate, std::size_t bed) const {
  const Shape& shape = (*shapes_)[candidate];
  std::vector<std::pair<int, int>> taken;
  for (const Block& block : blocks_[bed]) {
    if (keep_off_each_other(block, shape)) taken.emplace_back(block.from_mm, block.to_mm);
  }
  for (const auto& [past_bed, stretch] : shape.closed) {
    if (past_bed == bed) taken.push_back(stretch);
  }
  std::sort(taken.begin(), taken.end());
  std::vector<std::pair<int, int>> free;
  const int least_mm = std::max(1, stretch_mm(model_->candidates[candidate], shape.across[bed], 1));
  int end = 0;
  const int bed_end = length_mm(model_->beds[bed]);
  taken.emplace_back(bed_end, bed_end);
  for (const auto& [from, to] : taken) {
    if (from - end >= least_mm) free.emplace_back(end, from);
    end = std::max(end, to);
  }
  return free;
}

bool Layout::is_free(std::size_t candidate, std::size_t bed, int from_mm, int to_mm) const {
  const Shape& shape = (*shapes_)[candidate];
  if (from_mm < 0 || to_mm > length_mm(model_->beds[bed])) return false;
  const auto overlaps = [&](int from, int to) { return from < to_mm && from_mm < to; };
  for (const Block& block : blocks_[bed]) {
    if (overlaps(block.from_mm, block.to_mm) && keep_off_each_other(block, shape)) return false;
  }
  return std::none_of(shape.closed.begin(), shape.closed.end(), [&](const auto& closed) {
    return closed.first == bed && overlaps(closed.second.first, closed.second.second);
  });
}

int Layout::widest_row(std::size_t candidate) const {
  const std::vector<int>& across = (*shapes_)[candidate].across;
  return across.empty() ? 0 : *std::max_element(across.begin(), across.end());
}

int Layout::free_cells(std::size_t candidate) const {
  const Candidate& sowing = model_->candidates[candidate];
  int free = std::numeric_limits<int>::max();
  if (sowing.tray < 0) return free;
  for (const CellStay& stay : cell_stays(*model_, sowing)) {
    int most = 0;
    for (int w = stay.first_week; w <= stay.last_week; ++w)
      most = std::max(most, cells_[stay.room][static_cast<std::size_t>(w)]);
    free = std::min(free, cells_in_room(*model_, stay.room) - most);
  }
  return free;
}

void Layout::take_cells(std::size_t candidate, int cells) {
  for (const CellStay& stay : cell_stays(*model_, model_->candidates[candidate])) {
    for (int w = stay.first_week; w <= stay.last_week; ++w)
      cells_[stay.room][static_cast<std::size_t>(w)] += cells;
  }
}

void Layout::set_block(std::size_t stand) {
  const PlacedStand& placed = stands_[stand];
  const Shape& shape = (*shapes_)[placed.candidate];
  const Block block{placed.from_mm,   placed.from_mm + length_of(placed),
                    shape.first_week, shape.last_week,
                    shape.family,     shape.rest_weeks,
                    serials_[stand]};
  std::vector<Block>& blocks = blocks_[placed.bed];
  const auto found =
      std::find_if(blocks.begin(), blocks.end(), [&](const Block& b) { return b.stand == block.stand; });
  if (found == blocks.end()) {
    blocks.push_back(block);
  } else {
    *found = block;
  }
}

void Layout::append(const PlacedStand& stand) {
  stands_.push_back(stand);
  serials_.push_back(next_serial_++);
  set_block(stands_.size() - 1);
  take_cells(stand.candidate, cells_for(model_->candidates[stand.candidate], stand.clumps));
}

bool Layout::put(const PlacedStand& stand) {
  if (stand.clumps <= 0 || (*shapes_)[stand.candidate].across[stand.bed] <= 0) return false;
  if (!is_free(stand.candidate, stand.bed, stand.from_mm, stand.from_mm + length_of(stand))) return false;
  if (!cells_allow(stand.candidate, cells_for(model_->candidates[stand.candidate], stand.clumps)))
    return false;
  append(stand);
  return true;
}

bool Layout::put_near(PlacedStand stand) {
  const int length_mm = length_of(stand);
  const int wished_mm = stand.from_mm;
  std::vector<int> places;
  for (const auto& [from_mm, to_mm] : free_stretches(stand.candidate, stand.bed))
    if (to_mm - from_mm >= length_mm) places.push_back(std::clamp(wished_mm, from_mm, to_mm - length_mm));
  std::stable_sort(places.begin(), places.end(),
                   [&](int a, int b) { return std::abs(a - wished_mm) < std::abs(b - wished_mm); });
  return std::any_of(places.begin(), places.end(), [&](int from_mm) {
    stand.from_mm = from_mm;
    return put(stand);
  });
}

bool Layout::widen(std::size_t stand, int clumps) {
  PlacedStand grown = stands_[stand];
  const int length_before = length_of(grown);
  const Candidate& sowing = model_->candidates[grown.candidate];
  const int cells_before = cells_for(sowing, grown.clumps);
  grown.clumps += clumps;
  const int more = length_of(grown) - length_before;
  const int end = grown.from_mm + length_before;
  if (!cells_allow(grown.candidate, cells_for(sowing, grown.clumps) - cells_before)) return false;
  if (more > 0 && !is_free(grown.candidate, grown.bed, end, end + more)) {
    if (!is_free(grown.candidate, grown.bed, grown.from_mm - more, grown.from_mm)) return false;
    grown.from_mm -= more;
  }
  stands_[stand] = grown;
  set_block(stand);
  take_cells(grown.candidate, cells_for(sowing, grown.clumps) - cells_before);
  return true;
}

bool Layout::group_has(std::size_t group, std::size_t bed) const {
  const auto& beds = model_->groups[group].beds;
  return std::find(beds.begin(), beds.end(), bed) != beds.end();
}

int Layout::idle_weeks(std::size_t candidate, std::size_t bed, int from_mm, int to_mm) const {
  const Shape& shape = (*shapes_)[candidate];
  int before = kFarWeeks, after = kFarWeeks;
  for (const Block& block : blocks_[bed]) {
    if (block.to_mm <= from_mm || to_mm <= block.from_mm) continue;
    if (block.last_week < shape.first_week) before = std::min(before, shape.first_week - block.last_week - 1);
    if (block.first_week > shape.last_week) after = std::min(after, block.first_week - shape.last_week - 1);
  }
  return before + after;
}

std::optional<Layout::Spot> Layout::best_spot(std::size_t candidate, int clumps,
                                              std::optional<std::size_t> group, bool whole) const {
  const Shape& shape = (*shapes_)[candidate];
  const Candidate& sowing = model_->candidates[candidate];
  const int stay_weeks = shape.last_week - shape.first_week + 1;
  std::optional<Spot> best;
  double best_score = 0.0;
  for (std::size_t b = 0; b < blocks_.size(); ++b) {
    if (shape.across[b] <= 0) continue;
    for (const auto& [from, to] : free_stretches(candidate, b)) {
      const int held = std::min(clumps, clumps_in(sowing, shape.across[b], to - from));
      if (held == 0 || (whole && held < clumps)) continue;
      const int length = stretch_mm(sowing, shape.across[b], held);
      for (const int begin : {from, to - length}) {
        // The group asked for first, then most clumps, then shade while sun is dearer; then where least room
        // is lost: slivers too short to use, and weeks in which the stretch would lie idle before and after.
        double score = 1e9 * held / clumps;
        if (group && group_has(*group, b)) score += 1e12;
        if (model_->beds[b].sun != bed::SunClass::full) score += 1e7;
        const int left_over = to - from - length;
        if (left_over < kSliverMm) score -= static_cast<double>(left_over) * stay_weeks;
        score -=
            static_cast<double>(idle_weeks(candidate, b, begin, begin + length)) * length / held * clumps;
        if (best && score <= best_score) continue;
        best = Spot{b, begin, held};
        best_score = score;
        if (left_over == 0) break;
      }
    }
  }
  return best;
}

bool Layout::grow(std::size_t candidate, int clumps, std::optional<std::size_t> group) {
  for (std::size_t i = 0; i < stands_.size(); ++i) {
    if (stands_[i].candidate == candidate && widen(i, clumps)) return true;
  }
  if (!cells_allow(candidate, cells_for(model_->candidates[candidate], clumps))) return false;
  const std::optional<Spot> spot = best_spot(candidate, clumps, group, true);
  if (!spot) return false;
  append({candidate, spot->bed, spot->from_mm, clumps});
  return true;
}

int Layout::grow_split(std::size_t candidate, int clumps, std::optional<std::size_t> group) {
  int placed = 0;
  while (placed < clumps) {
    const std::optional<Spot> spot = best_spot(candidate, clumps - placed, group, false);
    if (!spot) break;
    int piece = spot->clumps;
    while (piece > 0 && !cells_allow(candidate, cells_for(model_->candidates[candidate], piece))) --piece;
    if (piece == 0) break;
    append({candidate, spot->bed, spot->from_mm, piece});
    placed += piece;
  }
  return placed;
}

void Layout::shrink(std::size_t stand, int clumps) {
  PlacedStand& placed = stands_[stand];
  const Candidate& sowing = model_->candidates[placed.candidate];
  const int cells_before = cells_for(sowing, placed.clumps);
  const int left = std::max(0, placed.clumps - clumps);
  take_cells(placed.candidate, cells_for(sowing, left) - cells_before);
  placed.clumps = left;
  if (left > 0) {
    set_block(stand);
    return;
  }
  std::vector<Block>& blocks = blocks_[placed.bed];
  blocks.erase(
      std::find_if(blocks.begin(), blocks.end(), [&](const Block& b) { return b.stand == serials_[stand]; }));
  stands_.erase(stands_.begin() + static_cast<std::ptrdiff_t>(stand));
  serials_.erase(serials_.begin() + static_cast<std::ptrdiff_t>(stand));
}

namespace {

/// A stretch of bed with its time, for the slow check.
struct Patch {
  std::string name;
  std::size_t bed = 0;
  int from_mm = 0, to_mm = 0, first_week = 0, last_week = 0;
  std::string family;
  double rest_weeks = 0.0;
};

Patch patch_of(const GardenModel& model, const PlacedStand& stand, std::size_t number) {
  const Candidate& candidate = model.candidates[stand.candidate];
  const int across = std::max(1, clumps_across(model.beds[stand.bed], candidate));
  const int length = stretch_mm(candidate, across, stand.clumps);
  return {"stand " + std::to_string(number),
          stand.bed,
          stand.from_mm,
          stand.from_mm + length,
          candidate.bed_first_week,
          candidate.bed_last_week,
          candidate.family,
          rest_weeks_of(candidate)};
}

/// Why two patches cannot both be; empty when they can. `b` is never what stood there before the plan.
std::string pair_fault(const Patch& a, const Patch& b) {
  if (a.bed != b.bed || a.to_mm <= b.from_mm || b.to_mm <= a.from_mm) return {};
  if (a.first_week <= b.last_week && b.first_week <= a.last_week) return a.name + " overlaps " + b.name;
  if (a.family != b.family) return {};
  const bool a_first = a.last_week < b.first_week;
  const int between = a_first ? b.first_week - a.last_week : a.first_week - b.last_week;
  const double rest_weeks = a_first ? b.rest_weeks : std::max(a.rest_weeks, b.rest_weeks);
  return between < rest_weeks ? a.name + " and " + b.name + " are of one family without rest" : std::string{};
}

void check_beds(const GardenModel& model, const std::vector<PlacedStand>& stands,
                std::vector<std::string>& faults) {
  std::vector<Patch> patches;
  for (const TakenStretch& taken : model.taken) {
    patches.push_back({"a standing crop", taken.bed, taken.from_mm, taken.to_mm, taken.first_week,
                       taken.last_week, taken.family, 0.0});
  }
  const std::size_t fixed_count = patches.size();
  for (std::size_t i = 0; i < stands.size(); ++i) patches.push_back(patch_of(model, stands[i], i));
  for (std::size_t j = fixed_count; j < patches.size(); ++j) {
    const PlacedStand& stand = stands[j - fixed_count];
    const Patch& patch = patches[j];
    if (stand.clumps <= 0) faults.push_back(patch.name + " has no clumps");
    if (!may_stand(model.beds[stand.bed], model.candidates[stand.candidate]))
      faults.push_back(patch.name + " may not stand in its bed");
    if (patch.from_mm < 0 || patch.to_mm > length_mm(model.beds[stand.bed]))
      faults.push_back(patch.name + " is out of its bed");
    for (std::size_t i = 0; i < j; ++i) {
      const std::string fault = pair_fault(patches[i], patch);
      if (!fault.empty()) faults.push_back(fault);
    }
    for (const PastStretch& past : model.past) {
      const bool touches = past.bed == patch.bed && past.from_mm < patch.to_mm && patch.from_mm < past.to_mm;
      if (touches && too_soon_after(model, model.candidates[stand.candidate], past)) {
        faults.push_back(patch.name + " comes back too soon after " + std::to_string(past.year));
      }
    }
  }
}

/// One tray, or its mat: in each week of their stay the cells of the stands and those that are `taken` against those
/// that have room there.
void check_room(const GardenModel& model, const std::vector<PlacedStand>& stands, std::size_t tray,
                int Candidate::* last_week, const std::vector<int>& taken, int room, const std::string& name,
                std::vector<std::string>& faults) {
  for (std::size_t w = 0; w < model.weeks; ++w) {
    const auto week = static_cast<int>(w);
    int cells = 0;
    for (const PlacedStand& stand : stands) {
      const Candidate& candidate = model.candidates[stand.candidate];
      if (candidate.tray != static_cast<int>(tray)) continue;
      if (candidate.tray_first_week <= week && week <= candidate.*last_week)
        cells += cells_for(candidate, stand.clumps);
    }
    if (cells > 0 && cells + taken[w] > room)
      faults.push_back(name + " is overfull in week " + std::to_string(w));
  }
}

void check_trays(const GardenModel& model, const std::vector<PlacedStand>& stands,
                 std::vector<std::string>& faults) {
  for (std::size_t t = 0; t < model.trays.size(); ++t)
    check_room(model, stands, t, &Candidate::tray_last_week, model.tray_taken[t], model.trays[t].cells,
               "tray " + model.trays[t].id, faults);
}

void check_mats(const GardenModel& model, const std::vector<PlacedStand>& stands,
                std::vector<std::string>& faults) {
  for (std::size_t t = 0; t < model.trays.size(); ++t) {
    if (model.trays[t].mat_cells > 0)
      check_room(model, stands, t, &Candidate::mat_last_week, model.mat_taken[t], model.trays[t].mat_cells,
                 "the mat of tray " + model.trays[t].id, faults);
  }
}

}  // namespace

std::vector<std::string> layout_faults(const GardenModel& model, const std::vector<PlacedStand>& stands) {
  std::vector<std::string> faults;
  check_beds(model, stands, faults);
  check_trays(model, stands, faults);
  check_mats(model, stands, faults);
  return faults;
}

}  // namespace sowtide::plan
