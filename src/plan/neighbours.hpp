// What one stand does to another in its bed: a hungry crop leaves poor ground behind, fresh manure forks
// roots, and what is tall throws its noon shadow towards the pole.
//
// These are preferences that steer the search, not rows of the program: the bound and the objective leave
// them out (docs/models/plan.md, "Neighbours").
#pragma once

#include <vector>

#include "plan/garden_model.hpp"

namespace sowtide::plan {

/// A stand as its neighbours feel it. Weeks are of the model, both included.
struct Neighbour {
  int from_mm = 0, to_mm = 0;
  int first_week = 0, last_week = 0;
  crop::FeederClass feeder = crop::FeederClass::medium;
  double height_m = 0.0;
  bool needs_sun = true;
};

[[nodiscard]] Neighbour neighbour_of(const Candidate& candidate, int from_mm, int to_mm);
[[nodiscard]] Neighbour neighbour_of(const GardenModel& model, const PlacedStand& stand);

/// Prices, in servings of priority 1, of stands that are bad for each other.
class NeighbourPrices {
 public:
  /// `model` must outlive this.
  explicit NeighbourPrices(const GardenModel& model);

  /// False when no neighbour can ever cost anything: nothing need be asked then.
  [[nodiscard]] bool matter() const { return ground_price_ > 0.0 || shade_price_ > 0.0; }

  /// Of all new stands of a bed, among each other and with what stands there already.
  [[nodiscard]] double of_bed(std::size_t bed, const std::vector<Neighbour>& stands) const;
  /// Of a whole plan.
  [[nodiscard]] double of_plan(const std::vector<PlacedStand>& stands) const;

  /// Of one stand by itself: a light feeder on ground that was manured this year.
  [[nodiscard]] double alone(std::size_t bed, const Neighbour& stand) const;
  /// Of two stands of a bed. Below zero where a hungry crop has taken from fed ground what the light one
  /// after it cannot bear.
  [[nodiscard]] double together(std::size_t bed, const Neighbour& a, const Neighbour& b) const;

 private:
  [[nodiscard]] double after_each_other(std::size_t bed, const Neighbour& first,
                                        const Neighbour& second) const;
  [[nodiscard]] double shaded_by(std::size_t bed, const Neighbour& low, const Neighbour& tall) const;

  const GardenModel* model_;
  double ground_price_ = 0.0, shade_price_ = 0.0;  ///< a square metre
  double shadow_per_height_ = 0.0;                 ///< noon shadow of the equinox, relative to the height
  int weeks_of_this_year_ = 0;  ///< weeks of the model that begin in the year of its first day
  std::vector<std::vector<Neighbour>> standing_;  ///< by bed: what is there already
};

}  // namespace sowtide::plan
