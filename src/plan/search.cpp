#include "plan/search.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <utility>

namespace sowtide::plan {
namespace {

constexpr double kNever = -std::numeric_limits<double>::infinity();
/// A gain smaller than this is rounding.
constexpr double kLeastGain = 1e-9;
/// Random orders tried when a dive's solution is placed, besides the sensible ones.
constexpr int kRandomOrders = 4;
/// Sowings of a product that the search may add: those the relaxation finds nearest to worth it.
constexpr std::size_t kActivePerProduct = 24;
/// Sowings so near in time may stand for each other when a piece is too small to be placed by itself.
constexpr int kNearWeeks = 3;

/// Clumps of a candidate that a dive put into a group.
struct PieceToPlace {
  std::size_t candidate = 0;
  std::size_t group = 0;
  int clumps = 0;
};

std::vector<PieceToPlace> pieces_of(const Formulation& formulation, const std::vector<double>& values) {
  std::vector<PieceToPlace> pieces;
  for (const ClumpColumn& entry : formulation.clump_columns) {
    const auto clumps = static_cast<int>(std::lround(values[static_cast<std::size_t>(entry.column)]));
    if (clumps > 0) pieces.push_back({entry.candidate, entry.group, clumps});
  }
  return pieces;
}

/// Gives pieces of less than half a row to the nearest sowing of the same product in the same group.
std::vector<PieceToPlace> without_crumbs(const GardenModel& model, std::vector<PieceToPlace> pieces) {
  const auto is_crumb = [&](const PieceToPlace& piece) {
    const bed::Bed& bed = model.beds[model.groups[piece.group].beds.front()];
    return 2 * piece.clumps < clumps_across(bed, model.candidates[piece.candidate]);
  };
  std::vector<PieceToPlace> kept;
  for (const PieceToPlace& piece : pieces) {
    if (!is_crumb(piece)) kept.push_back(piece);
  }
  for (const PieceToPlace& piece : pieces) {
    if (!is_crumb(piece)) continue;
    const Candidate& sowing = model.candidates[piece.candidate];
    PieceToPlace* nearest = nullptr;
    int least = kNearWeeks + 1;
    for (PieceToPlace& other : kept) {
      const Candidate& near = model.candidates[other.candidate];
      const int weeks = std::abs(near.bed_first_week - sowing.bed_first_week);
      if (other.group != piece.group || near.product != sowing.product || weeks >= least) continue;
      nearest = &other;
      least = weeks;
    }
    if (nearest != nullptr) {
      nearest->clumps += piece.clumps;
    } else {
      kept.push_back(piece);
    }
  }
  return kept;
}

/// Reduced costs of all columns, d = c − Aᵀ π.
std::vector<double> reduced_costs(const LinearProgram& program, const std::vector<double>& row_prices) {
  std::vector<double> reduced;
  for (const LinearColumn& column : program.columns) reduced.push_back(column.cost);
  for (const LinearElement& element : program.elements) {
    reduced[static_cast<std::size_t>(element.column)] -=
        element.value * row_prices[static_cast<std::size_t>(element.row)];
  }
  return reduced;
}

/// Rows of room: beds, trays, families.
std::vector<bool> room_rows(const Formulation& formulation) {
  std::vector<bool> is_room(formulation.program.rows.size(), false);
  for (const auto* tables : {&formulation.bed_rows, &formulation.tray_rows, &formulation.family_rows}) {
    for (const std::vector<int>& rows : *tables) {
      for (const int row : rows) {
        if (row >= 0) is_room[static_cast<std::size_t>(row)] = true;
      }
    }
  }
  return is_room;
}

/// By column: the worth of the room that one unit takes.
std::vector<double> room_prices(const Formulation& formulation, const std::vector<double>& row_prices) {
  const std::vector<bool> is_room = room_rows(formulation);
  std::vector<double> prices(formulation.program.columns.size(), 0.0);
  for (const LinearElement& element : formulation.program.elements) {
    const auto row = static_cast<std::size_t>(element.row);
    if (is_room[row]) prices[static_cast<std::size_t>(element.column)] -= element.value * row_prices[row];
  }
  return prices;
}

}  // namespace

PlacedSearch::PlacedSearch(const GardenModel& model, const Formulation& formulation,
                           const LinearSolution& relaxation)
    : model_(&model),
      formulation_(&formulation),
      layout_(model),
      judge_(model, model.scenarios),
      room_price_(model.candidates.size(), std::numeric_limits<double>::infinity()),
      least_cost_(model.candidates.size(), std::numeric_limits<double>::infinity()),
      bound_(relaxation.objective),
      offers_(model.candidates.size()),
      gains_(model.candidates.size()),
      pool_version_(model.pools.size(), 0),
      pool_eased_(model.pools.size(), true) {
  const std::vector<double> reduced = reduced_costs(formulation.program, relaxation.row_prices);
  const std::vector<double> room = room_prices(formulation, relaxation.row_prices);
  for (const ClumpColumn& entry : formulation.clump_columns) {
    const auto column = static_cast<std::size_t>(entry.column);
    room_price_[entry.candidate] = std::min(room_price_[entry.candidate], room[column]);
    least_cost_[entry.candidate] = std::min(least_cost_[entry.candidate], reduced[column]);
  }
  choose_active();
}

/// Of each product, the candidates with the least reduced cost in proportion to what they bring.
void PlacedSearch::choose_active() {
  std::vector<std::vector<std::size_t>> of_product(model_->products.size());
  for (std::size_t c = 0; c < model_->candidates.size(); ++c) {
    if (std::isfinite(room_price_[c])) of_product[model_->candidates[c].product].push_back(c);
  }
  const auto remoteness = [&](std::size_t c) {
    return least_cost_[c] / std::max(1e-9, model_->candidates[c].expected_servings);
  };
  for (std::vector<std::size_t>& candidates : of_product) {
    std::stable_sort(candidates.begin(), candidates.end(),
                     [&](std::size_t a, std::size_t b) { return remoteness(a) < remoteness(b); });
    if (candidates.size() > kActivePerProduct) candidates.resize(kActivePerProduct);
    active_.insert(active_.end(), candidates.begin(), candidates.end());
  }
  std::sort(active_.begin(), active_.end());
}

PlacedSearch::Kept PlacedSearch::keep() const {
  return {layout_, judge_.counts(), judge_.cost(), burden()};
}

void PlacedSearch::go_back(const Kept& kept) {
  layout_ = kept.layout;
  for (std::size_t c = 0; c < kept.counts.size(); ++c) {
    if (kept.counts[c] != judge_.counts()[c]) count_changed(c, true);
  }
  judge_.set_counts(kept.counts);
}

void PlacedSearch::place(const std::vector<double>& values) {
  std::vector<PieceToPlace> pieces = without_crumbs(*model_, pieces_of(*formulation_, values));
  const auto first_week = [&](const PieceToPlace& piece) {
    return model_->candidates[piece.candidate].bed_first_week;
  };
  const auto stay = [&](const PieceToPlace& piece) {
    return model_->candidates[piece.candidate].bed_last_week - first_week(piece);
  };
  std::stable_sort(pieces.begin(), pieces.end(), [&](const PieceToPlace& a, const PieceToPlace& b) {
    return first_week(a) != first_week(b) ? first_week(a) < first_week(b) : stay(a) > stay(b);
  });
  const Kept empty = keep();
  std::optional<Kept> best;
  base::RandomStream random(1, "plan.place");
  for (int order = 0; order < kRandomOrders + 2; ++order) {
    if (order == 1) {
      std::stable_sort(pieces.begin(), pieces.end(),
                       [&](const PieceToPlace& a, const PieceToPlace& b) { return stay(a) > stay(b); });
    }
    if (order > 1) {
      for (std::size_t i = pieces.size(); i > 1; --i) {
        std::swap(pieces[i - 1], pieces[random.below(static_cast<std::uint32_t>(i))]);
      }
    }
    go_back(empty);
    for (const PieceToPlace& piece : pieces) {
      const int placed = layout_.grow_split(piece.candidate, piece.clumps, piece.group);
      if (placed == 0) continue;
      judge_.add(piece.candidate, placed);
      count_changed(piece.candidate, false);
    }
    fill(1.0);
    fill(0.0);
    trim();
    if (!best || burden() < best->burden - kLeastGain) best = keep();
  }
  go_back(*best);
}

void PlacedSearch::adopt(const PlacedSearch& other) {
  go_back(other.keep());
}

void PlacedSearch::start_from(const std::vector<PlacedStand>& stands) {
  for (const PlacedStand& stand : stands) {
    if (!layout_.put(stand)) continue;
    judge_.add(stand.candidate, stand.clumps);
    count_changed(stand.candidate, false);
  }
  fill(1.0);
  fill(0.0);
  trim();
}

void PlacedSearch::renew_gains(std::size_t candidate) {
  Gains& gains = gains_[candidate];
  const int row = std::max(1, layout_.widest_row(candidate));
  gains.version = pool_version_[judge_.pool_of(candidate)];
  gains.clumps = {1, row, 3 * row};
  for (std::size_t k = 0; k < gains.clumps.size(); ++k) {
    const bool repeated = k == 1 && row == 1;
    gains.gain[k] = repeated ? gains.gain[0] : -judge_.change_by(candidate, gains.clumps[k]);
  }
}

PlacedSearch::Offer PlacedSearch::best_offer(std::size_t candidate, double price_factor) const {
  const Gains& gains = gains_[candidate];
  const double bother = stands_already(candidate) ? 0.0 : model_->prices.stand;
  Offer best{kNever, 0};
  for (std::size_t k = 0; k < gains.clumps.size(); ++k) {
    const double net = gains.gain[k] - bother - price_factor * room_price_[candidate] * gains.clumps[k];
    if (net > best.net) best = {net, gains.clumps[k]};
  }
  return best;
}

void PlacedSearch::count_changed(std::size_t candidate, bool fewer) {
  const std::size_t pool = judge_.pool_of(candidate);
  pool_version_[pool] = ++next_version_;
  if (fewer) pool_eased_[pool] = true;
}

bool PlacedSearch::stands_already(std::size_t candidate) const { return judge_.counts()[candidate] > 0; }

bool PlacedSearch::take_offer(std::size_t candidate) {
  int clumps = offers_[candidate].clumps;
  while (clumps > 0) {
    // The offer may be old where only hours have changed since: ask again before taking it.
    const double gain = -judge_.change_by(candidate, clumps);
    if (gain < kLeastGain) return false;
    const std::size_t stands = layout_.stands().size();
    if (layout_.grow(candidate, clumps)) {
      const bool is_new = layout_.stands().size() > stands;
      if (is_new && gain < model_->prices.stand) {
        layout_.shrink(layout_.stands().size() - 1, clumps);
        return false;
      }
      judge_.add(candidate, clumps);
      count_changed(candidate, false);
      return true;
    }
    clumps /= 2;
  }
  return false;
}

void PlacedSearch::fill(double price_factor) {
  // Gains fall as more is sown, so an old gain is an upper bound and is renewed only when it comes to the
  // top; where something was taken out they may have risen and all are renewed.
  for (const std::size_t c : active_) {
    if (pool_eased_[judge_.pool_of(c)]) renew_gains(c);
    offers_[c] = best_offer(c, price_factor);
  }
  pool_eased_.assign(pool_eased_.size(), false);
  while (true) {
    const auto found = std::max_element(active_.begin(), active_.end(), [&](std::size_t a, std::size_t b) {
      return offers_[a].net < offers_[b].net;
    });
    if (found == active_.end() || offers_[*found].net <= kLeastGain) return;
    const std::size_t chosen = *found;
    if (gains_[chosen].version != pool_version_[judge_.pool_of(chosen)]) {
      renew_gains(chosen);
      offers_[chosen] = best_offer(chosen, price_factor);
    } else if (!take_offer(chosen)) {
      // Room only shrinks while filling: what found none now will find none later.
      offers_[chosen].net = kNever;
    }
  }
}

void PlacedSearch::take_out(std::size_t stand, int clumps) {
  const std::size_t candidate = layout_.stands()[stand].candidate;
  layout_.shrink(stand, clumps);
  judge_.add(candidate, -clumps);
  count_changed(candidate, true);
}

void PlacedSearch::take_out_where(const std::function<bool(const PlacedStand&)>& chosen) {
  for (std::size_t i = layout_.stands().size(); i-- > 0;) {
    const PlacedStand stand = layout_.stands()[i];
    if (chosen(stand)) take_out(i, stand.clumps);
  }
}

void PlacedSearch::trim() {
  for (std::size_t i = layout_.stands().size(); i-- > 0;) {
    while (i < layout_.stands().size()) {
      const PlacedStand stand = layout_.stands()[i];
      const double one = judge_.change_by(stand.candidate, -1);
      const double all = judge_.change_by(stand.candidate, -stand.clumps) - model_->prices.stand;
      if (std::min(one, all) > -kLeastGain) break;
      take_out(i, all < one ? stand.clumps : 1);
      if (all < one || stand.clumps == 1) break;
    }
  }
}

void PlacedSearch::ruin(base::RandomStream& random) {
  const std::vector<PlacedStand>& stands = layout_.stands();
  if (stands.empty()) return;
  const PlacedStand seed = stands[random.below(static_cast<std::uint32_t>(stands.size()))];
  const Candidate& around = model_->candidates[seed.candidate];
  const double kind = random.uniform();
  if (kind < 0.35) {
    // One bed for a while.
    const int margin = static_cast<int>(random.below(8));
    take_out_where([&](const PlacedStand& stand) {
      const Candidate& other = model_->candidates[stand.candidate];
      return stand.bed == seed.bed && other.bed_first_week <= around.bed_last_week + margin &&
             around.bed_first_week <= other.bed_last_week + margin;
    });
  } else if (kind < 0.6) {
    // All sowings of one product, and now and then of another beside it.
    const PlacedStand second = stands[random.below(static_cast<std::uint32_t>(stands.size()))];
    const std::size_t product =
        random.chance(0.5) ? around.product : model_->candidates[second.candidate].product;
    take_out_where([&](const PlacedStand& stand) {
      const std::size_t other = model_->candidates[stand.candidate].product;
      return other == product || other == around.product;
    });
  } else {
    // A few stands anywhere in the same stretch of the year.
    const double share = 0.1 + 0.4 * random.uniform();
    const int span = 2 + static_cast<int>(random.below(14));
    take_out_where([&](const PlacedStand& stand) {
      const Candidate& other = model_->candidates[stand.candidate];
      const bool near = std::abs(other.bed_first_week - around.bed_first_week) <= span;
      return near && random.chance(share);
    });
  }
}

/// A candidate whose reduced cost is above the distance between the plan and the bound is in no better plan.
void PlacedSearch::narrow_active() {
  const double room = judge_.cost() - bound_ + kLeastGain;
  const auto hopeless = [&](std::size_t c) { return least_cost_[c] > room; };
  std::erase_if(active_, hopeless);
}

void PlacedSearch::improve(const SearchOptions& options) {
  constexpr int kRoundsPerQuestion = 16;
  base::RandomStream random(options.seed, "plan.search");
  narrow_active();
  Kept best = keep();
  Kept current = best;
  for (int i = 0; i < options.rounds && best.cost > options.goal; ++i) {
    if (i % kRoundsPerQuestion == 0 && options.keep_going && !options.keep_going(best.cost)) break;
    ruin(random);
    const double factor = random.uniform() * 1.2;
    fill(factor);
    fill(0.0);
    trim();
    if (burden() > current.burden * (1.0 + options.leniency * random.uniform())) {
      go_back(current);
      continue;
    }
    current = keep();
    if (current.burden < best.burden - kLeastGain) {
      best = current;
      narrow_active();
    }
  }
  go_back(best);
}

void PlacedSearch::merge_tiny(int smallest, double allowance) {
  for (std::size_t i = layout_.stands().size(); i-- > 0;) {
    if (i >= layout_.stands().size()) continue;
    const PlacedStand tiny = layout_.stands()[i];
    if (tiny.clumps >= smallest) continue;
    const Candidate& sowing = model_->candidates[tiny.candidate];
    const Kept before = keep();
    take_out(i, tiny.clumps);
    bool merged = judge_.cost() <= before.cost + allowance;
    const std::vector<PlacedStand> others = layout_.stands();
    for (std::size_t j = 0; j < others.size() && !merged; ++j) {
      const Candidate& other = model_->candidates[others[j].candidate];
      if (other.product != sowing.product || std::abs(other.sow_week - sowing.sow_week) > kNearWeeks)
        continue;
      const Kept without = keep();
      if (!layout_.grow(others[j].candidate, tiny.clumps)) continue;
      judge_.add(others[j].candidate, tiny.clumps);
      count_changed(others[j].candidate, false);
      merged = judge_.cost() <= before.cost + allowance;
      if (!merged) go_back(without);
    }
    if (!merged) go_back(before);
  }
}

}  // namespace sowtide::plan
