#include "plan/search.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <tuple>
#include <utility>

namespace sowtide::plan {
namespace {

constexpr double kNever = -std::numeric_limits<double>::infinity();
/// A gain smaller than this is rounding.
constexpr double kLeastGain = 1e-9;
/// Sowings of a product that the search may add: those the relaxation finds nearest to worth it.
constexpr std::size_t kActivePerProduct = 24;
/// Sowings so near in time may stand for each other when a piece is too small to be placed by itself.
constexpr int kNearWeeks = 3;

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
      layout_(model),
      judge_(model, model.scenarios),
      neighbours_(model),
      spread_(model),
      room_price_(model.candidates.size(), std::numeric_limits<double>::infinity()),
      least_cost_(model.candidates.size(), std::numeric_limits<double>::infinity()),
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
  std::vector<std::size_t> taken_of_product(model_->products.size(), 0);
  for (const std::size_t c : likely_sowings()) {
    if (++taken_of_product[model_->candidates[c].product] <= kActivePerProduct) active_.push_back(c);
  }
  std::sort(active_.begin(), active_.end());
}

std::vector<std::size_t> PlacedSearch::likely_sowings() const {
  std::vector<std::size_t> likely;
  for (std::size_t c = 0; c < model_->candidates.size(); ++c) {
    if (std::isfinite(room_price_[c])) likely.push_back(c);
  }
  const auto remoteness = [&](std::size_t c) {
    return least_cost_[c] / std::max(1e-9, model_->candidates[c].expected_servings);
  };
  std::stable_sort(likely.begin(), likely.end(),
                   [&](std::size_t a, std::size_t b) { return remoteness(a) < remoteness(b); });
  return likely;
}

/// Clumps of each sowing of an earlier plan in its bed: as told, and now.
std::map<PlacedSearch::SowingInBed, PlacedSearch::ToldAndKept> PlacedSearch::promises() const {
  std::map<SowingInBed, ToldAndKept> clumps;
  for (const PlacedStand& stand : model_->promised) clumps[{stand.candidate, stand.bed}].told += stand.clumps;
  for (const PlacedStand& stand : layout_.stands()) {
    const auto promise = clumps.find({stand.candidate, stand.bed});
    if (promise != clumps.end()) promise->second.kept += stand.clumps;
  }
  return clumps;
}

/// What of an earlier plan is not kept, in sowings.
double PlacedSearch::broken_promises() const {
  if (model_->prices.change == 0.0) return 0.0;
  double broken = 0.0;
  for (const auto& [sowing, clumps] : promises()) broken += broken_share(clumps.told, clumps.kept);
  return broken;
}

double PlacedSearch::cost_with_preferences() const {
  return judge_.cost() + neighbours_.of_plan(layout_.stands()) + model_->prices.change * broken_promises() +
         model_->prices.bad_years * judge_.bad_years_excess() + spread_.of_plan(judge_.counts());
}

/// Change of the cost of the table and of spreading by more clumps of a sowing.
double PlacedSearch::change_by(std::size_t candidate, int clumps) {
  return judge_.change_by(candidate, clumps) + spread_.change(judge_.counts(), candidate, clumps);
}

PlacedSearch::Kept PlacedSearch::keep() const {
  return {layout_, judge_.counts(), cost_with_preferences()};
}

void PlacedSearch::go_back(const Kept& kept) {
  layout_ = kept.layout;
  for (std::size_t c = 0; c < kept.counts.size(); ++c) {
    if (kept.counts[c] != judge_.counts()[c]) count_changed(c, true);
  }
  judge_.set_counts(kept.counts);
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
    gains.gain[k] = repeated ? gains.gain[0] : -change_by(candidate, gains.clumps[k]);
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

bool PlacedSearch::stands_already(std::size_t candidate) const {
  return judge_.counts()[candidate] > 0;
}

/// Finds room for more clumps, unless a new stand or what it does to its neighbours costs more than it gains.
bool PlacedSearch::grow_among_neighbours(std::size_t candidate, int clumps, double gain) {
  const Layout before = layout_;
  if (!layout_.grow(candidate, clumps)) return false;
  const bool is_new = layout_.stands().size() > before.stands().size();
  const double price = (is_new ? model_->prices.stand : 0.0) + neighbours_.of_plan(layout_.stands()) -
                       neighbours_.of_plan(before.stands());
  if (gain >= price) return true;
  layout_ = before;
  return false;
}

bool PlacedSearch::take_offer(std::size_t candidate) {
  int clumps = offers_[candidate].clumps;
  while (clumps > 0) {
    // The offer may be old where only hours have changed since: ask again before taking it.
    const double gain = -change_by(candidate, clumps);
    if (gain < kLeastGain) return false;
    if (grow_among_neighbours(candidate, clumps, gain)) {
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

void PlacedSearch::trim() {
  for (std::size_t i = layout_.stands().size(); i-- > 0;) {
    while (i < layout_.stands().size()) {
      const PlacedStand stand = layout_.stands()[i];
      const double one = change_by(stand.candidate, -1);
      const double all = change_by(stand.candidate, -stand.clumps) - model_->prices.stand;
      if (std::min(one, all) > -kLeastGain) break;
      take_out(i, all < one ? stand.clumps : 1);
      if (all < one || stand.clumps == 1) break;
    }
  }
}

void PlacedSearch::merge_tiny(int smallest, double allowance) {
  for (std::size_t i = layout_.stands().size(); i-- > 0;) {
    if (i >= layout_.stands().size()) continue;
    const PlacedStand tiny = layout_.stands()[i];
    if (tiny.clumps >= smallest) continue;
    const Candidate& sowing = model_->candidates[tiny.candidate];
    const Kept before = keep();
    take_out(i, tiny.clumps);
    bool merged = cost_with_preferences() <= before.cost + allowance;
    const std::vector<PlacedStand> others = layout_.stands();
    for (std::size_t j = 0; j < others.size() && !merged; ++j) {
      const Candidate& other = model_->candidates[others[j].candidate];
      if (other.product != sowing.product || std::abs(other.sow_week - sowing.sow_week) > kNearWeeks)
        continue;
      const Kept without = keep();
      if (!layout_.grow(others[j].candidate, tiny.clumps)) continue;
      judge_.add(others[j].candidate, tiny.clumps);
      count_changed(others[j].candidate, false);
      merged = cost_with_preferences() <= before.cost + allowance;
      if (!merged) go_back(without);
    }
    if (!merged) go_back(before);
  }
}

/// Makes a stand longer within its bed, as near to where it was as a stretch has room for all of it; false,
/// and nothing changed, when none has.
bool PlacedSearch::lengthen(std::size_t stand, int more) {
  const Kept before = keep();
  PlacedStand longer = layout_.stands()[stand];
  take_out(stand, longer.clumps);
  longer.clumps += more;
  if (!layout_.put_near(longer)) {
    go_back(before);
    return false;
  }
  judge_.add(longer.candidate, longer.clumps);
  count_changed(longer.candidate, false);
  return true;
}

std::optional<std::size_t> PlacedSearch::largest_short_block() const {
  std::optional<std::size_t> largest;
  const std::vector<PlacedStand>& stands = layout_.stands();
  for (std::size_t i = 0; i < stands.size(); ++i) {
    if (stands[i].clumps >= model_->candidates[stands[i].candidate].least_clumps) continue;
    if (!largest || stands[i].clumps > stands[*largest].clumps) largest = i;
  }
  return largest;
}

void PlacedSearch::complete_blocks() {
  while (const auto i = largest_short_block()) {
    const PlacedStand stand = layout_.stands()[*i];
    const Kept before = keep();
    take_out(*i, stand.clumps);
    const Kept without = keep();
    go_back(before);
    if (!lengthen(*i, model_->candidates[stand.candidate].least_clumps - stand.clumps) ||
        cost_with_preferences() > without.cost)
      go_back(without);
  }
}

/// Takes so many clumps of a sowing out of one of its stands in a bed, a whole stand where one is just so
/// large; false when none has as many.
bool PlacedSearch::take_out_of(const SowingInBed& sowing, int clumps) {
  std::optional<std::size_t> found;
  for (std::size_t i = layout_.stands().size(); i-- > 0;) {
    const PlacedStand& stand = layout_.stands()[i];
    if (SowingInBed{stand.candidate, stand.bed} != sowing || stand.clumps < clumps) continue;
    if (!found || stand.clumps == clumps || layout_.stands()[*found].clumps != clumps) found = i;
  }
  if (found) take_out(*found, clumps);
  return found.has_value();
}

/// Adds so many clumps to one of a sowing's stands in a bed; false when none has room for them.
bool PlacedSearch::add_to(const SowingInBed& sowing, int clumps) {
  for (std::size_t i = 0; i < layout_.stands().size(); ++i) {
    const PlacedStand& stand = layout_.stands()[i];
    if (SowingInBed{stand.candidate, stand.bed} == sowing && lengthen(i, clumps)) return true;
  }
  return false;
}

/// The layout with the stands of a bed where they were told to stand, those that fit there first and the
/// others as near as may be to where they are; nothing where one finds no room.
std::optional<Layout> PlacedSearch::laid_back(std::size_t bed) const {
  Layout layout = layout_;
  std::vector<PlacedStand> told = model_->promised, lifted;
  for (std::size_t i = layout.stands().size(); i-- > 0;) {
    const PlacedStand stand = layout.stands()[i];
    if (stand.bed != bed) continue;
    lifted.push_back(stand);
    layout.shrink(i, stand.clumps);
  }
  std::vector<PlacedStand> others;
  for (PlacedStand stand : lifted) {
    // Of several of one sowing the one of its size, then the nearest.
    const auto unlike = [&](const PlacedStand& other) {
      const bool same = other.candidate == stand.candidate && other.bed == bed;
      return std::make_tuple(!same, std::abs(other.clumps - stand.clumps),
                             std::abs(other.from_mm - stand.from_mm));
    };
    const auto was =
        std::min_element(told.begin(), told.end(),
                         [&](const PlacedStand& a, const PlacedStand& b) { return unlike(a) < unlike(b); });
    const int now_mm = stand.from_mm;
    if (was != told.end() && !std::get<0>(unlike(*was))) {
      stand.from_mm = was->from_mm;
      told.erase(was);
      if (layout.put(stand)) continue;
      stand.from_mm = now_mm;
    }
    others.push_back(stand);
  }
  for (const PlacedStand& stand : others) {
    if (!layout.put_near(stand)) return {};
  }
  return layout;
}

void PlacedSearch::restore_places(double allowance) {
  if (model_->promised.empty()) return;
  for (std::size_t bed = 0; bed < model_->beds.size(); ++bed) {
    auto back = laid_back(bed);
    if (!back) continue;
    const double before = neighbours_.of_plan(layout_.stands());
    if (neighbours_.of_plan(back->stands()) > before + allowance) continue;
    layout_ = std::move(*back);
  }
}

void PlacedSearch::restore_promises(double allowance) {
  constexpr double kNearlyKept = 1.0 / 3.0;  // chosen
  // Those that have grown first: what they give back is room for the others.
  for (const bool grown : {true, false}) {
    for (const auto& [sowing, clumps] : promises()) {
      const int more = clumps.told - clumps.kept;
      if (more == 0 || (more < 0) != grown || broken_share(clumps.told, clumps.kept) >= kNearlyKept) continue;
      const Kept before = keep();
      const bool restored = grown ? take_out_of(sowing, -more) : add_to(sowing, more);
      if (!restored || cost_with_preferences() > before.cost + allowance) go_back(before);
    }
  }
}

}  // namespace sowtide::plan
