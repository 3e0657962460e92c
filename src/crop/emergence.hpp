// Seed to seedling: thermal-time emergence, final emergence, and how many cells to sow.
#pragma once

#include <span>
#include <vector>

#include "base/problem.hpp"
#include "base/quantile.hpp"
#include "crop/crop.hpp"

namespace sowtide::crop {

/// Rate of progress of a process with cardinal temperatures at temperature `temp_c`, in °C above base (so
/// that a day at constant T below the optimum adds T - base °C d). 0 at or below base and at or above the
/// ceiling.
[[nodiscard]] double thermal_rate(double base_c, double optimum_low_c, double optimum_high_c,
                                  double ceiling_c, double temp_c) noexcept;
[[nodiscard]] double thermal_rate(const CardinalTemperatures& cardinal, double temp_c) noexcept;

/// Thermal time of a day from its 24 hourly temperatures, °C d.
[[nodiscard]] double daily_thermal_time(const CardinalTemperatures& cardinal,
                                        std::span<const double, 24> hours_c) noexcept;

/// Thermal time from sowing in garden soil or tray mix to half emergence, °C d: at the crop's usual depth, or
/// at another, which adds or takes the time the shoot needs for the difference (never more than half of the
/// whole).
[[nodiscard]] double half_emergence_cd(const Crop& crop) noexcept;
[[nodiscard]] double half_emergence_cd(const Crop& crop, double depth_mm) noexcept;

/// Emergence at a constant temperature.
struct ConstantEmergence {
  base::Quantiles days;  ///< p10: one live seed in ten is up, p50 half, p90; as the published tables count it
  base::Quantiles soil_days;  ///< the same from garden soil; differs only where the crop has a `soil_factor`
  double final_pct = 0.0;     ///< of seeds sown
};
/// `germination_pct` defaults to the crop's fresh packet. Fails out_of_range where the crop does not
/// germinate.
[[nodiscard]] base::Result<ConstantEmergence> emergence_at(const Crop& crop, double temp_c, double depth_mm,
                                                           std::optional<double> germination_pct = {});

/// Share of live seeds that are up from garden soil or tray mix after `thermal_time_cd` (log-normal over
/// seeds; the crop's `soil_factor` is applied).
[[nodiscard]] double emerged_share(const Crop& crop, double thermal_time_cd, double depth_mm) noexcept;

/// Share of live seeds that are up at the end of each whole day, from hourly temperatures of the soil at
/// sowing depth beginning at the hour of sowing. Never falls; what comes up in all is the final fraction
/// averaged over the thermal time gathered so far. Hours after the last whole day are not used.
[[nodiscard]] std::vector<double> emergence_by_day(const Crop& crop, std::span<const double> hours_c,
                                                   double depth_mm);

/// Final emergence at a temperature, 0..1 of live seeds: linear between the crop's points.
[[nodiscard]] double final_fraction_at(const Crop& crop, double temp_c) noexcept;

/// Distribution of seedlings in one cell: probability of 0, 1, 2 … given seeds per cell and the chance that a
/// "seed" gives at least one seedling. Exact, by convolution.
[[nodiscard]] std::vector<double> seedlings_per_cell(const SeedFacts& seed, int seeds_per_cell,
                                                     double germination_pct);

/// Plants from which on a cell is good enough: half of those that its clump is to have (chosen), at least
/// one.
[[nodiscard]] int least_plants_of_clump(double plants) noexcept;

/// Cells to sow so that at least `good_clumps` cells have `min_plants` or more seedlings with probability
/// `service`.
[[nodiscard]] base::Result<int> cells_to_sow(const SeedFacts& seed, int good_clumps, double service,
                                             double germination_pct, int seeds_per_cell = 1,
                                             int min_plants = 1);

}  // namespace sowtide::crop
