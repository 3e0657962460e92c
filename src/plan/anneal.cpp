#include "plan/anneal.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <string>
#include <utility>

namespace sowtide::plan {
namespace {

/// Weeks by which a stand's sowing is moved at most in one change.
constexpr std::uint32_t kNearSowings = 6;
constexpr std::size_t kChangesPerQuestion = 4096;
constexpr int kMostClumps = 100000;
/// After so many changes taken, the judge's tables are made afresh: sums and differences leave rounding
/// behind.
constexpr std::size_t kChangesPerRefresh = 1U << 16U;
constexpr double kLeastGain = 1e-9;

}  // namespace

Annealing::Annealing(const GardenModel& model, std::vector<std::size_t> likely)
    : model_(&model),
      judge_(model, model.scenarios),
      likely_(std::move(likely)),
      cells_(cells_taken(model)),
      beds_(model.beds.size()),
      neighbours_(model),
      bed_prices_(model.beds.size(), 0.0),
      spread_(model) {
  learn_shapes();
  close_stretches();
  std::erase_if(likely_, [&](std::size_t c) {
    return std::all_of(shapes_[c].across.begin(), shapes_[c].across.end(), [](int n) { return n == 0; });
  });
  most_.assign(model.candidates.size(), 0);
  for (const std::size_t c : likely_) most_[c] = most_worth(c);
  std::erase_if(likely_, [&](std::size_t c) { return most_[c] < 1; });
  of_product_.resize(model.products.size());
  std::vector<std::size_t> in_time = likely_;
  std::sort(in_time.begin(), in_time.end(), [&](std::size_t a, std::size_t b) {
    const Candidate &x = model.candidates[a], &y = model.candidates[b];
    return x.bed_first_week != y.bed_first_week ? x.bed_first_week < y.bed_first_week : a < b;
  });
  for (const std::size_t c : in_time) of_product_[model.candidates[c].product].push_back(c);
  promises_.resize(model.candidates.size());
  for (std::size_t k = 0; k < model.promised.size(); ++k) {
    std::vector<int>& by_bed = promises_[model.promised[k].candidate];
    by_bed.resize(model.beds.size(), -1);
    int& promise = by_bed[model.promised[k].bed];
    if (promise < 0) {
      promise = static_cast<int>(told_.size());
      told_.emplace_back();
    }
    told_[static_cast<std::size_t>(promise)].promised += model.promised[k].clumps;
  }
  broken_promises_ = static_cast<double>(told_.size());
  best_ = beds_;
  best_burden_ = burden();
  best_table_ = judge_.cost();
}

void Annealing::learn_shapes() {
  std::map<std::string, int> families;
  for (const Candidate& candidate : model_->candidates) {
    const int family = families.emplace(candidate.family, static_cast<int>(families.size())).first->second;
    Shape shape{candidate.bed_first_week, candidate.bed_last_week, family, rest_weeks_of(candidate), {}};
    for (const bed::Bed& bed : model_->beds)
      shape.across.push_back(may_stand(bed, candidate) ? clumps_across(bed, candidate) : 0);
    shapes_.push_back(std::move(shape));
  }
}

void Annealing::close_stretches() {
  closed_.assign(model_->candidates.size(), std::vector<std::vector<Stretch>>(model_->beds.size()));
  for (std::size_t c = 0; c < model_->candidates.size(); ++c) {
    const Candidate& candidate = model_->candidates[c];
    for (const TakenStretch& taken : model_->taken) {
      const bool at_once =
          taken.first_week <= candidate.bed_last_week && candidate.bed_first_week <= taken.last_week;
      if (at_once || too_soon_after(candidate, taken.family, taken.first_week, taken.last_week))
        closed_[c][taken.bed].push_back({taken.from_mm, taken.to_mm});
    }
    for (const PastStretch& past : model_->past) {
      if (too_soon_after(*model_, candidate, past))
        closed_[c][past.bed].push_back({past.from_mm, past.to_mm});
    }
  }
}

/// The table's cost is convex in the clumps of one sowing, and others only lessen what one more brings: what
/// is not worth sowing alone never is.
int Annealing::most_worth(std::size_t candidate) {
  const auto worth = [&](int clumps) {
    return judge_.change_by(candidate, clumps + 1) < judge_.change_by(candidate, clumps) - kLeastGain;
  };
  if (!worth(0)) return 0;
  int low = 0, high = 1;
  while (high < kMostClumps && worth(high)) {
    low = high;
    high *= 2;
  }
  while (high - low > 1) {
    const int middle = low + (high - low) / 2;
    (worth(middle) ? low : high) = middle;
  }
  return high;
}

/// What steers the search beside the table.
double Annealing::preferences() const {
  const PlanPrices& prices = model_->prices;
  return prices.stand * static_cast<double>(stand_count_) + prices.change * broken_promises_ +
         neighbour_price_ + spread_price_ + prices.bad_years * judge_.bad_years_excess();
}

double Annealing::burden() const {
  return judge_.cost() + preferences();
}

/// Prices the neighbours in the open bed as they are now.
void Annealing::judge_open_bed() {
  if (!neighbours_.matter()) return;
  open_neighbours_.clear();
  for (const Piece& piece : beds_[open_bed_])
    open_neighbours_.push_back(neighbour_of(model_->candidates[piece.candidate], piece.from_mm, piece.to_mm));
  bed_prices_[open_bed_] = neighbours_.of_bed(open_bed_, open_neighbours_);
  neighbour_price_ = kept_neighbour_price_ - kept_bed_price_ + bed_prices_[open_bed_];
}

/// Counts clumps that came to the open bed or left it.
void Annealing::count_promised(std::size_t candidate, int more) {
  if (promises_[candidate].empty() || promises_[candidate][open_bed_] < 0) return;
  const auto place = static_cast<std::size_t>(promises_[candidate][open_bed_]);
  Promise& promise = told_[place];
  const double before = broken_share(promise.promised, promise.kept);
  promise.kept += more;
  broken_promises_ += broken_share(promise.promised, promise.kept) - before;
  counted_.emplace_back(place, more);
}

void Annealing::begin(std::size_t bed) {
  open_bed_ = bed;
  kept_pieces_ = beds_[bed];
  kept_stand_count_ = stand_count_;
  kept_broken_promises_ = broken_promises_;
  kept_bed_price_ = bed_prices_[bed];
  kept_neighbour_price_ = neighbour_price_;
  kept_spread_price_ = spread_price_;
  kept_preferences_ = preferences();
  counted_.clear();
  taken_cells_.clear();
  judge_.begin_trial();
}

double Annealing::change_of_burden() {
  judge_open_bed();
  // The judge must have walked what changed before it can tell the bad years apart.
  const double table = judge_.trial_change();
  return table + preferences() - kept_preferences_;
}

void Annealing::settle(bool keep) {
  judge_.end_trial(keep);
  if (keep) return;
  std::swap(beds_[open_bed_], kept_pieces_);
  stand_count_ = kept_stand_count_;
  broken_promises_ = kept_broken_promises_;
  bed_prices_[open_bed_] = kept_bed_price_;
  neighbour_price_ = kept_neighbour_price_;
  spread_price_ = kept_spread_price_;
  for (const auto& [promise, more] : counted_) told_[promise].kept -= more;
  for (const auto& [candidate, cells] : taken_cells_) {
    for (const CellStay& stay : cell_stays(*model_, model_->candidates[candidate])) {
      for (int w = stay.first_week; w <= stay.last_week; ++w)
        cells_[stay.room][static_cast<std::size_t>(w)] -= cells;
    }
  }
}

bool Annealing::take_cells(std::size_t candidate, int clumps_before, int clumps_after) {
  const Candidate& sowing = model_->candidates[candidate];
  if (sowing.tray < 0) return true;
  const int cells = cells_for(sowing, clumps_after) - cells_for(sowing, clumps_before);
  taken_cells_.emplace_back(candidate, cells);
  bool enough = true;
  for (const CellStay& stay : cell_stays(*model_, sowing)) {
    const int there = cells_in_room(*model_, stay.room);
    for (int w = stay.first_week; w <= stay.last_week; ++w) {
      int& taken = cells_[stay.room][static_cast<std::size_t>(w)];
      taken += cells;
      enough = enough && (cells <= 0 || taken <= there);
    }
  }
  return enough;
}

bool Annealing::take_clumps(std::size_t candidate, int clumps_before, int clumps_after) {
  const int more = clumps_after - clumps_before;
  spread_price_ += spread_.change(judge_.counts(), candidate, more);
  judge_.add(candidate, more);
  count_promised(candidate, more);
  return take_cells(candidate, clumps_before, clumps_after);
}

bool Annealing::remove_piece(std::size_t piece) {
  std::vector<Piece>& pieces = beds_[open_bed_];
  const Piece gone = pieces[piece];
  pieces[piece] = pieces.back();
  pieces.pop_back();
  --stand_count_;
  return take_clumps(gone.candidate, gone.clumps, 0);
}

/// Makes a piece leave a stretch: its longer end stays, if that holds anything.
bool Annealing::cut_back(std::size_t piece, int from_mm, int to_mm) {
  Piece& cut = beds_[open_bed_][piece];
  const Candidate& candidate = model_->candidates[cut.candidate];
  const int across = shapes_[cut.candidate].across[open_bed_];
  const int left = from_mm - cut.from_mm, right = cut.to_mm - to_mm;
  const int clumps = std::min(cut.clumps, clumps_in(candidate, across, std::max({left, right, 0})));
  if (clumps == 0) return remove_piece(piece);
  const int length = stretch_mm(candidate, across, clumps);
  if (right > left) cut.from_mm = cut.to_mm - length;
  cut.to_mm = cut.from_mm + length;
  const int before = std::exchange(cut.clumps, clumps);
  return take_clumps(cut.candidate, before, clumps);
}

bool Annealing::put(std::size_t candidate, int from_mm, int clumps) {
  const int length = stretch_mm(model_->candidates[candidate], shapes_[candidate].across[open_bed_], clumps);
  const int to_mm = from_mm + length;
  if (clumps <= 0 || from_mm < 0 || to_mm > length_mm(model_->beds[open_bed_])) return false;
  for (const Stretch& closed : closed_[candidate][open_bed_]) {
    if (closed.from_mm < to_mm && from_mm < closed.to_mm) return false;
  }
  std::vector<Piece>& pieces = beds_[open_bed_];
  for (std::size_t i = pieces.size(); i-- > 0;) {
    if (pieces[i].from_mm >= to_mm || from_mm >= pieces[i].to_mm) continue;
    if (!keep_off_each_other(shapes_[pieces[i].candidate], shapes_[candidate])) continue;
    if (!cut_back(i, from_mm, to_mm)) return false;
  }
  pieces.push_back({candidate, from_mm, to_mm, clumps});
  ++stand_count_;
  return take_clumps(candidate, 0, clumps);
}

bool Annealing::pick_stand(base::RandomStream& random, std::size_t& bed, std::size_t& piece) const {
  if (stand_count_ == 0) return false;
  auto at = random.below(static_cast<std::uint32_t>(stand_count_));
  for (bed = 0; at >= beds_[bed].size(); ++bed) at -= static_cast<std::uint32_t>(beds_[bed].size());
  piece = at;
  return true;
}

/// Early places of the list are likelier: the square of a uniform number.
std::size_t Annealing::pick_likely(base::RandomStream& random) const {
  const double share = random.uniform();
  return likely_[static_cast<std::size_t>(share * share * static_cast<double>(likely_.size()))];
}

/// Free length from a place on, for a candidate.
int Annealing::hole_after(std::size_t candidate, std::size_t bed, int from_mm) const {
  int end = length_mm(model_->beds[bed]);
  for (const Piece& piece : beds_[bed]) {
    if (piece.to_mm > from_mm && keep_off_each_other(shapes_[piece.candidate], shapes_[candidate]))
      end = std::min(end, piece.from_mm);
  }
  for (const Stretch& closed : closed_[candidate][bed]) {
    if (closed.to_mm > from_mm) end = std::min(end, closed.from_mm);
  }
  return end - from_mm;
}

int Annealing::pick_clumps(base::RandomStream& random, std::size_t candidate, int across, int hole_mm) const {
  const int held = clumps_in(model_->candidates[candidate], across, std::max(0, hole_mm));
  int clumps = std::max(1, across / 2);
  switch (random.below(5)) {
    case 0:
      break;
    case 1:
      clumps = across;
      break;
    case 2:
      clumps = across * (1 + static_cast<int>(random.below(4)));
      break;
    default:
      clumps = held > 0 ? held : across;
  }
  return std::min(clumps, most_[candidate]);
}

bool Annealing::try_new_stand(base::RandomStream& random) {
  if (likely_.empty()) return false;
  const std::size_t candidate = pick_likely(random);
  const std::size_t bed = random.below(static_cast<std::uint32_t>(beds_.size()));
  const int across = shapes_[candidate].across[bed];
  if (across == 0) return false;
  const std::vector<Piece>& pieces = beds_[bed];
  const auto edge = random.below(static_cast<std::uint32_t>(2 * pieces.size() + 2));
  int at = 0;
  if (edge == 1) at = length_mm(model_->beds[bed]);
  if (edge > 1) at = edge % 2 == 0 ? pieces[edge / 2 - 1].from_mm : pieces[edge / 2 - 1].to_mm;
  const bool backwards = edge == 1 || (edge > 1 && random.chance(0.5));
  const int clumps = pick_clumps(random, candidate, across, backwards ? 0 : hole_after(candidate, bed, at));
  const int length = stretch_mm(model_->candidates[candidate], across, clumps);
  begin(bed);
  return put(candidate, backwards ? at - length : at, clumps);
}

bool Annealing::try_resize(base::RandomStream& random) {
  std::size_t bed = 0, at = 0;
  if (!pick_stand(random, bed, at)) return false;
  const Piece piece = beds_[bed][at];
  const int across = shapes_[piece.candidate].across[bed];
  const int step =
      random.chance(0.5) ? 1 : 1 + static_cast<int>(random.below(static_cast<std::uint32_t>(2 * across)));
  const int clumps = piece.clumps + (random.chance(0.55) ? step : -step);
  if (clumps > std::max(piece.clumps, most_[piece.candidate])) return false;
  begin(bed);
  if (!remove_piece(at)) return false;
  if (clumps <= 0) return true;
  const int length = stretch_mm(model_->candidates[piece.candidate], across, clumps);
  return put(piece.candidate, random.chance(0.5) ? piece.from_mm : piece.to_mm - length, clumps);
}

bool Annealing::try_exchange(base::RandomStream& random, bool same_product) {
  std::size_t bed = 0, at = 0;
  if (!pick_stand(random, bed, at)) return false;
  const Piece piece = beds_[bed][at];
  std::size_t other = 0;
  if (same_product) {
    const std::vector<std::size_t>& sowings = of_product_[model_->candidates[piece.candidate].product];
    const auto found = std::find(sowings.begin(), sowings.end(), piece.candidate);
    if (found == sowings.end() || sowings.size() < 2) return false;
    const auto step = 1 + static_cast<std::ptrdiff_t>(random.below(kNearSowings));
    const std::ptrdiff_t place = (found - sowings.begin()) + (random.chance(0.5) ? step : -step);
    if (place < 0 || place >= static_cast<std::ptrdiff_t>(sowings.size())) return false;
    other = sowings[static_cast<std::size_t>(place)];
  } else {
    other = pick_likely(random);
  }
  const int across = shapes_[other].across[bed];
  if (across == 0 || other == piece.candidate) return false;
  const int held = clumps_in(model_->candidates[other], across, piece.to_mm - piece.from_mm);
  int clumps = std::min(std::max(held, 1), most_[other]);
  if (same_product && random.chance(0.5)) clumps = std::min(piece.clumps, most_[other]);
  const int length = stretch_mm(model_->candidates[other], across, clumps);
  begin(bed);
  if ((same_product || random.chance(0.5)) && !remove_piece(at)) return false;
  return put(other, random.chance(0.5) ? piece.from_mm : piece.to_mm - length, clumps);
}

/// Moves a stand along its bed against what keeps it off, so that free lengths flow together.
bool Annealing::try_slide(base::RandomStream& random) {
  std::size_t bed = 0, at = 0;
  if (!pick_stand(random, bed, at)) return false;
  const Piece piece = beds_[bed][at];
  begin(bed);
  if (!remove_piece(at)) return false;
  const int length = piece.to_mm - piece.from_mm;
  const std::vector<Piece>& pieces = beds_[bed];
  const auto edge = random.below(static_cast<std::uint32_t>(2 * pieces.size() + 2));
  int from = 0;
  if (edge == 1) from = length_mm(model_->beds[bed]) - length;
  if (edge > 1) from = edge % 2 == 0 ? pieces[edge / 2 - 1].to_mm : pieces[edge / 2 - 1].from_mm - length;
  return put(piece.candidate, from, piece.clumps);
}

bool Annealing::try_removal(base::RandomStream& random) {
  std::size_t bed = 0, at = 0;
  if (!pick_stand(random, bed, at)) return false;
  begin(bed);
  return remove_piece(at);
}

bool Annealing::try_one(base::RandomStream& random) {
  const double kind = random.uniform();
  if (kind < 0.35) return try_new_stand(random);
  if (kind < 0.60) return try_resize(random);
  if (kind < 0.80) return try_exchange(random, true);
  if (kind < 0.90) return try_exchange(random, false);
  if (kind < 0.96) return try_slide(random);
  return try_removal(random);
}

void Annealing::start_from(const std::vector<PlacedStand>& stands) {
  for (const PlacedStand& stand : stands) {
    if (shapes_[stand.candidate].across[stand.bed] == 0) continue;
    begin(stand.bed);
    const std::size_t before = stand_count_;
    // What would have to give way for it stays: the stands given earlier come first.
    const bool fits = put(stand.candidate, stand.from_mm, stand.clumps) && stand_count_ == before + 1;
    static_cast<void>(change_of_burden());
    settle(fits);
  }
  best_ = beds_;
  best_burden_ = burden();
  best_table_ = judge_.cost();
}

void Annealing::run(const AnnealingOptions& options) {
  if (beds_.empty()) return;
  base::RandomStream random(options.seed, "plan.anneal");
  const double cooling = std::log(options.end_warmth / options.start_warmth);
  double warmth = options.start_warmth;
  double current = burden();
  for (std::size_t i = 0; i < options.changes; ++i) {
    if (i % kChangesPerQuestion == 0) {
      const double done = static_cast<double>(i) / static_cast<double>(options.changes);
      warmth = options.start_warmth * std::exp(cooling * done);
      if (options.keep_going && !options.keep_going(best_table_)) break;
    }
    if (i % kChangesPerRefresh == 0) {
      judge_.set_counts(ClumpCounts(judge_.counts()));
      neighbour_price_ = std::accumulate(bed_prices_.begin(), bed_prices_.end(), 0.0);
      spread_price_ = spread_.of_plan(judge_.counts());
      broken_promises_ = 0.0;
      for (const Promise& promise : told_) broken_promises_ += broken_share(promise.promised, promise.kept);
      current = burden();
    }
    open_bed_ = beds_.size();
    const bool feasible = try_one(random);
    if (open_bed_ == beds_.size()) continue;
    const double change = feasible ? change_of_burden() : 0.0;
    const bool taken = feasible && (change <= 0.0 || random.uniform() < std::exp(-change / warmth));
    settle(taken);
    if (!taken) continue;
    current += change;
    if (current < best_burden_ - kLeastGain) {
      best_burden_ = current;
      best_table_ = current - preferences();
      best_ = beds_;
    }
  }
}

std::vector<PlacedStand> Annealing::best_stands() const {
  std::vector<PlacedStand> stands;
  for (std::size_t b = 0; b < best_.size(); ++b) {
    std::vector<Piece> pieces = best_[b];
    std::sort(pieces.begin(), pieces.end(), [](const Piece& x, const Piece& y) {
      return x.candidate != y.candidate ? x.candidate < y.candidate : x.from_mm < y.from_mm;
    });
    for (std::size_t i = 0; i < pieces.size(); ++i) {
      const bool touches =
          i > 0 && pieces[i - 1].candidate == pieces[i].candidate && pieces[i - 1].to_mm == pieces[i].from_mm;
      if (touches) {
        stands.back().clumps += pieces[i].clumps;
      } else {
        stands.push_back({pieces[i].candidate, b, pieces[i].from_mm, pieces[i].clumps});
      }
    }
  }
  return stands;
}

}  // namespace sowtide::plan
