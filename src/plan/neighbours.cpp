#include "plan/neighbours.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace sowtide::plan {
namespace {

using crop::FeederClass;

constexpr int kWeeksOfFeeding = 52;   ///< the ground is fed again within a year
constexpr double kSquareMetre = 1e6;  ///< in mm²
/// Towards the poles the noon shadow of the equinox grows without end; beds there are cropped in summer only.
constexpr double kLongestShadow = 3.0;

int shared_mm(int from_a, int to_a, int from_b, int to_b) {
  return std::max(0, std::min(to_a, to_b) - std::max(from_a, from_b));
}

double square_metres(const bed::Bed& bed, int length) {
  return length * bed.width_m * 1000.0 / kSquareMetre;
}

}  // namespace

Neighbour neighbour_of(const Candidate& candidate, int from_mm, int to_mm) {
  return {from_mm,
          to_mm,
          candidate.bed_first_week,
          candidate.bed_last_week,
          candidate.feeder,
          candidate.height_m,
          !candidate.stands_part_shade};
}

Neighbour neighbour_of(const GardenModel& model, const PlacedStand& stand) {
  const Candidate& candidate = model.candidates[stand.candidate];
  const int across = std::max(1, clumps_across(model.beds[stand.bed], candidate));
  return neighbour_of(candidate, stand.from_mm, stand.from_mm + stretch_mm(candidate, across, stand.clumps));
}

NeighbourPrices::NeighbourPrices(const GardenModel& model)
    : model_(&model),
      ground_price_(model.prices.ground),
      shade_price_(model.prices.shade),
      shadow_per_height_(std::min(
          kLongestShadow, std::tan(std::min(89.0, std::abs(model.latitude_deg)) * std::numbers::pi / 180.0))),
      standing_(model.beds.size()) {
  const int year = year_of_week(model, 0);
  while (weeks_of_this_year_ < static_cast<int>(model.weeks) &&
         year_of_week(model, weeks_of_this_year_) == year)
    ++weeks_of_this_year_;
  for (const TakenStretch& taken : model.taken) {
    standing_[taken.bed].push_back({taken.from_mm, taken.to_mm, taken.first_week, taken.last_week,
                                    taken.feeder, taken.height_m, taken.needs_sun});
  }
}

double NeighbourPrices::alone(std::size_t bed, const Neighbour& stand) const {
  const bed::Bed& ground = model_->beds[bed];
  if (!ground.fed || stand.feeder != FeederClass::light || stand.first_week >= weeks_of_this_year_)
    return 0.0;
  return ground_price_ * square_metres(ground, stand.to_mm - stand.from_mm);
}

double NeighbourPrices::after_each_other(std::size_t bed, const Neighbour& first,
                                         const Neighbour& second) const {
  if (first.feeder != FeederClass::heavy || second.first_week - first.last_week >= kWeeksOfFeeding)
    return 0.0;
  const int length = shared_mm(first.from_mm, first.to_mm, second.from_mm, second.to_mm);
  if (length == 0) return 0.0;
  const bed::Bed& ground = model_->beds[bed];
  if (second.feeder == FeederClass::heavy) return ground_price_ * square_metres(ground, length);
  const bool spares_it =
      ground.fed && second.feeder == FeederClass::light && second.first_week < weeks_of_this_year_;
  return spares_it ? -ground_price_ * square_metres(ground, length) : 0.0;
}

double NeighbourPrices::shaded_by(std::size_t bed, const Neighbour& low, const Neighbour& tall) const {
  const bed::Bed& ground = model_->beds[bed];
  if (!low.needs_sun) return 0.0;
  const int reach = static_cast<int>(1000.0 * shadow_per_height_ * (tall.height_m - low.height_m));
  if (reach <= 0) return 0.0;
  const int length = ground.pole_end == bed::PoleEnd::start
                         ? shared_mm(low.from_mm, low.to_mm, tall.from_mm - reach, tall.from_mm)
                         : shared_mm(low.from_mm, low.to_mm, tall.to_mm, tall.to_mm + reach);
  if (length == 0) return 0.0;
  const int weeks = 1 + std::min(low.last_week, tall.last_week) - std::max(low.first_week, tall.first_week);
  const double share = static_cast<double>(weeks) / (1 + low.last_week - low.first_week);
  return shade_price_ * share * square_metres(ground, length);
}

double NeighbourPrices::together(std::size_t bed, const Neighbour& a, const Neighbour& b) const {
  if (a.last_week < b.first_week) return after_each_other(bed, a, b);
  if (b.last_week < a.first_week) return after_each_other(bed, b, a);
  if (model_->beds[bed].pole_end == bed::PoleEnd::neither) return 0.0;
  return shaded_by(bed, a, b) + shaded_by(bed, b, a);
}

double NeighbourPrices::of_bed(std::size_t bed, const std::vector<Neighbour>& stands) const {
  // Asked hundreds of thousands of times a second: most pairs are settled by what costs nothing to look at.
  const bool shadows = model_->beds[bed].pole_end != bed::PoleEnd::neither;
  const auto matters = [&](const Neighbour& a, const Neighbour& b) {
    const bool meet = a.first_week <= b.last_week && b.first_week <= a.last_week;
    return meet ? shadows : a.feeder == FeederClass::heavy || b.feeder == FeederClass::heavy;
  };
  double price = 0.0;
  for (std::size_t i = 0; i < stands.size(); ++i) {
    price += alone(bed, stands[i]);
    for (std::size_t j = 0; j < i; ++j) {
      if (matters(stands[i], stands[j])) price += together(bed, stands[i], stands[j]);
    }
    for (const Neighbour& standing : standing_[bed]) {
      if (matters(stands[i], standing)) price += together(bed, stands[i], standing);
    }
  }
  return price;
}

double NeighbourPrices::of_plan(const std::vector<PlacedStand>& stands) const {
  if (!matter()) return 0.0;
  std::vector<std::vector<Neighbour>> by_bed(model_->beds.size());
  for (const PlacedStand& stand : stands) by_bed[stand.bed].push_back(neighbour_of(*model_, stand));
  double price = 0.0;
  for (std::size_t b = 0; b < by_bed.size(); ++b) price += of_bed(b, by_bed[b]);
  return price;
}

}  // namespace sowtide::plan
