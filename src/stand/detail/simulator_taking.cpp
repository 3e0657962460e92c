// What is taken out beside the rule: what the log tells, and what is tried by hand.
#include <algorithm>
#include <cmath>

#include "stand/detail/simulator.hpp"

namespace sowtide::stand::detail {
namespace {

using crop::HarvestStyle;

// Constants of the engine that are no crop's own. Sources and reasons: docs/models/stand.md, "Constants".
// Of what stands: a logged cut of more than that by the model leaves the rest, since the plant was cut, not
// pulled (chosen).
constexpr double kMostCutShare = 0.9;

}  // namespace

// The largest of every clump, and all above a weight; the last plant of a clump stays unless it is above the
// weight.
void Simulator::remove_by_hand() {
  const Removal& removal = *options_.removal;
  for (std::size_t c = 0; c < grid_.clumps; ++c) {
    for (int taken = 0; taken < removal.largest_per_clump; ++taken) {
      std::size_t largest = grid_.size();
      int standing = 0;
      for (std::size_t i = c; i < grid_.size(); i += grid_.clumps) {
        if (!(grid_.present[i] > 0.0)) continue;
        ++standing;
        if (largest == grid_.size() || grid_.fresh_g[i] > grid_.fresh_g[largest]) largest = i;
      }
      if (standing < 2) break;
      removed_g_ += grid_.fresh_g[largest];
      removed_plants_ += 1.0;
      grid_.present[largest] = 0.0;
    }
    for (std::size_t i = c; i < grid_.size() && removal.above_g > 0.0; i += grid_.clumps) {
      if (!(grid_.present[i] > 0.0) || grid_.fresh_g[i] < removal.above_g) continue;
      removed_g_ += grid_.fresh_g[i];
      removed_plants_ += 1.0;
      grid_.present[i] = 0.0;
    }
  }
  if (removal.keep_per_clump > 0) thin_to(removal.keep_per_clump);
  if (removal.leaf_share > 0.0) greens_g_ += take_leaves(removal.leaf_share);
  weigh();
}

// The smallest of every clump go until `keep` are left.
void Simulator::thin_to(int keep) {
  for (std::size_t c = 0; c < grid_.clumps; ++c) {
    while (true) {
      std::size_t smallest = grid_.size();
      int standing = 0;
      for (std::size_t i = c; i < grid_.size(); i += grid_.clumps) {
        if (!(grid_.present[i] > 0.0)) continue;
        ++standing;
        if (smallest == grid_.size() || grid_.fresh_g[i] <= grid_.fresh_g[smallest]) smallest = i;
      }
      if (standing <= keep) break;
      removed_g_ += grid_.fresh_g[smallest];
      removed_plants_ += 1.0;
      grid_.present[smallest] = 0.0;
    }
  }
}

// Leaves as greens, or a cut of a leaf crop: the plant grows on with what is left. What is taken, g of the
// sample.
double Simulator::take_leaves(double share) {
  const auto& dry_share = crop_.harvest.greens_dry_matter_fraction;
  double taken_g = 0.0;
  for (std::size_t i = 0; i < grid_.size(); ++i) {
    const bool up = grid_.present[i] > 0.0 && forcing_.day >= grid_.emerge_day[i];
    if (!up) continue;
    if (top_share_ > 0.0) {
      taken_g += share * grid_.fresh_g[i];
      grid_.other_g[i] *= 1.0 - share;
    } else if (dry_share) {
      taken_g += share * grid_.leaf_g[i] / dry_share->value;
    }
    grid_.leaf_g[i] *= 1.0 - share;
  }
  return taken_g;
}

// What was weighed for the kitchen is known, whatever the model makes of the stand.
void Simulator::credit_weighed() {
  for (const PlantsTaken& taken : facts_.taken) {
    const auto day = std::max<std::int64_t>(day_of(taken.date), static_cast<std::int64_t>(sow_day_));
    if (!taken.grams || !taken.largest || day >= static_cast<std::int64_t>(days_)) continue;
    taken_g_[static_cast<std::size_t>(day) - sow_day_] += *taken.grams;
    if (plants_ > 0.0) life_->taken_g += *taken.grams / plants_;
    if (life_->first_pick_day < 0) life_->first_pick_day = static_cast<int>(day);
    life_->last_pick_day = std::max(life_->last_pick_day, static_cast<int>(day));
  }
}

void Simulator::take_observed(std::size_t day) {
  bool any = false;
  while (next_observed_ < facts_.taken.size() && facts_.taken[next_observed_].date <= date_of(day)) {
    take_entry(facts_.taken[next_observed_++], day);
    any = true;
  }
  if (any) weigh();
}

// What the log says was taken leaves the sample, and where it was not weighed it counts with the model's
// weight.
void Simulator::take_entry(const PlantsTaken& taken, std::size_t day) {
  if (grams_of_sample_ <= 0.0) return;
  if (taken.leaves) return take_greens(taken);
  const HarvestStyle style = crop_.harvest.style;
  if (taken.before_count) {
    if (taken.largest && !taken.grams) take(day, taken.plants / grams_of_sample_ * mean_fresh_g());
  } else if (!taken.largest || style == HarvestStyle::once) {
    take_plants(taken, day);
  } else if (style == HarvestStyle::repeat_cut) {
    take_cut(taken, day);
  } else if (!options_.leave_standing) {
    take_fruit(taken, day);
  }
}

// So many plants of the sample as stand for those of the log: the largest when they were pulled, else the
// smallest of the fullest clumps.
void Simulator::take_plants(const PlantsTaken& taken, std::size_t day) {
  if (taken.plants == 0 && taken.grams) return take_by_weight(*taken.grams / grams_of_sample_);
  observed_debt_ += taken.plants / grams_of_sample_;
  for (; observed_debt_ >= 0.5; observed_debt_ -= 1.0) {
    const double weight = take_out_one(taken.largest);
    if (!taken.largest || taken.grams) continue;
    take(day, weight);
    if (life_->first_pick_day < 0) life_->first_pick_day = static_cast<int>(day);
  }
}

// Pulled plants that were weighed and not counted: the largest until so much is out, each at least worth
// taking.
void Simulator::take_by_weight(double grams_of_sample) {
  double left = grams_of_sample;
  while (left > 0.0) {
    const double weight = take_out_one(true);
    if (!(weight > 0.0)) return;
    left -= std::max(weight, crop_.harvest.smallest_g.value);
  }
}

// A cut of a leaf crop: its share of what stands, or an ordinary cut where it was not weighed.
void Simulator::take_cut(const PlantsTaken& taken, std::size_t day) {
  const double standing_g = fresh_.sum_g * grams_of_sample_ * alive_;
  double share = kCutShare;
  if (taken.grams) share = standing_g > 0.0 ? std::min(kMostCutShare, *taken.grams / standing_g) : 0.0;
  if (!taken.grams) take(day, share * fresh_.sum_g);
  cut_tops(share, day);
}

// Greens of a root crop: their share of the leaf that stands, or what may be taken at once where they were
// not weighed.
void Simulator::take_greens(const PlantsTaken& taken) {
  const auto& harvest = crop_.harvest;
  if (!harvest.greens_dry_matter_fraction || !harvest.greens_share) return;
  double share = *harvest.greens_share;
  if (taken.grams) {
    double leaf_g = 0.0;
    for (std::size_t i = 0; i < grid_.size(); ++i) leaf_g += grid_.present[i] > 0.0 ? grid_.leaf_g[i] : 0.0;
    const double greens_g = leaf_g / *harvest.greens_dry_matter_fraction * grams_of_sample_ * alive_;
    share = greens_g > 0.0 ? std::min(kMostCutShare, *taken.grams / greens_g) : 0.0;
  }
  take_leaves(share);
}

// All that was ripe is picked.
void Simulator::take_fruit(const PlantsTaken& taken, std::size_t day) {
  const double ripe = gather_ripe();
  days_since_pick_ = -1;  // the day itself is counted after what the log tells
  ripe_g_ += taken.grams ? *taken.grams / plants_ : ripe;
  if (!taken.grams) take(day, ripe * sampled_plants_);
  if (life_->first_pick_day < 0) life_->first_pick_day = static_cast<int>(day);
}

/// Takes out the largest or the smallest plant that stands; its weight, 0 when none does.
double Simulator::take_out_one(bool largest) {
  const std::size_t plant = extreme_plant(largest);
  if (plant == grid_.size()) return 0.0;
  const double weight = grid_.fresh_g[plant];
  (largest ? taken_plants_ : unthinned_plants_) += largest ? 1.0 : -1.0;
  grid_.present[plant] = 0.0;
  grid_.fresh_g[plant] = 0.0;
  return weight;
}

// The largest plant that stands, or the smallest of those in the fullest clumps; `size()` when none does.
std::size_t Simulator::extreme_plant(bool largest) const {
  std::size_t found = grid_.size();
  int fullest = 0;
  for (std::size_t c = 0; c < grid_.clumps; ++c) {
    int standing = 0;
    for (std::size_t i = c; i < grid_.size(); i += grid_.clumps) standing += grid_.present[i] > 0.0 ? 1 : 0;
    if (standing == 0 || (!largest && standing < fullest)) continue;
    for (std::size_t i = c; i < grid_.size(); i += grid_.clumps) {
      if (!(grid_.present[i] > 0.0)) continue;
      const bool first = found == grid_.size() || (!largest && standing > fullest);
      const bool better = first || (largest ? grid_.fresh_g[i] > grid_.fresh_g[found]
                                            : grid_.fresh_g[i] < grid_.fresh_g[found]);
      if (better) found = i;
      fullest = std::max(fullest, standing);
    }
  }
  return found;
}

}  // namespace sowtide::stand::detail
