// What a crop gives a square metre of bed, or a metre of row, in a place, sown when it does best: the figure
// to hold against published garden and field yields.
#pragma once

#include "stand/simulate.hpp"

namespace sowtide::stand {

struct GardenYield {
  double kg_m2 = 0.0;  ///< median over the sowing days that do at least seven tenths as well as the best
  double days = 0.0;   ///< of that day, from sowing to the last pick
  /// The sowing that does best.
  struct Best {
    base::Date sow{};
    Method method = Method::direct_sow;
    double days = 0.0;     ///< from sowing to the last pick
    double success = 0.0;  ///< share of years with a harvest worth having
  } best;
};

/// Lives the crop sown on the 1st and the 15th of every month of the year of the ensemble's first day, where
/// it grows and in trays, as far as it may be, on the square at its large spacing, inside a stand of its
/// kind. All 0 when no day succeeds. The ensemble should begin on 1 January and last two years. Cost: 24 or
/// 48 outlooks of 16 plants.
[[nodiscard]] GardenYield garden_yield(const CropWeather& weather);

/// How a crop stands in rows.
struct RowPlanting {
  double in_row_mm = 0.0, row_mm = 0.0;
};

/// At the crop's row spacing, small plants (closer than 250 mm on the square) half as far apart in the row.
[[nodiscard]] RowPlanting usual_row(const crop::Crop& crop);

/// The same in rows: kg a metre of row.
[[nodiscard]] double row_yield_kg_m(const CropWeather& weather, const RowPlanting& row);

}  // namespace sowtide::stand
