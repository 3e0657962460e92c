// The formulas of this room, each to be called by itself from the `figure` verb: inputs as typed, an answer
// that shows its working and its source.
#pragma once

#include <string_view>
#include <vector>

#include "base/explanation.hpp"
#include "base/figure.hpp"
#include "base/problem.hpp"
#include "climate/record.hpp"

namespace sowtide::climate {

/// Every figure of the room with its keys.
[[nodiscard]] const std::vector<base::FigureDescription>& climate_figures();

/// Works out a figure. Figures with a key `weather` want the record read from that file; this room opens no
/// files. Problems name the key in `where.field`: not_found for the name, unknown_field, missing_field,
/// wrong_type, out_of_range or contradiction for the inputs.
[[nodiscard]] base::Result<base::Explanation> climate_figure(std::string_view name,
                                                             const base::FigureInputs& inputs,
                                                             const WeatherRecord* weather = nullptr);

// One function a figure, for callers that know which they want. Keys are those of `climate_figures()`.
[[nodiscard]] base::Result<base::Explanation> explain_daylight(const base::FigureInputs& inputs);
[[nodiscard]] base::Result<base::Explanation> explain_day_length(const base::FigureInputs& inputs);
[[nodiscard]] base::Result<base::Explanation> explain_extraterrestrial_radiation(
    const base::FigureInputs& inputs);
[[nodiscard]] base::Result<base::Explanation> explain_clear_sky_radiation(const base::FigureInputs& inputs);
[[nodiscard]] base::Result<base::Explanation> explain_sun_position(const base::FigureInputs& inputs);
[[nodiscard]] base::Result<base::Explanation> explain_beam_and_diffuse(const base::FigureInputs& inputs);
[[nodiscard]] base::Result<base::Explanation> explain_daily_light(const base::FigureInputs& inputs);
[[nodiscard]] base::Result<base::Explanation> explain_et0(const base::FigureInputs& inputs);
[[nodiscard]] base::Result<base::Explanation> explain_et0_monthly(const base::FigureInputs& inputs);
[[nodiscard]] base::Result<base::Explanation> explain_et0_hourly(const base::FigureInputs& inputs);
[[nodiscard]] base::Result<base::Explanation> explain_et0_hargreaves(const base::FigureInputs& inputs);
[[nodiscard]] base::Result<base::Explanation> explain_vapour_pressure(const base::FigureInputs& inputs);
[[nodiscard]] base::Result<base::Explanation> explain_growing_degree_days(const base::FigureInputs& inputs);
[[nodiscard]] base::Result<base::Explanation> explain_thermal_time(const base::FigureInputs& inputs);
/// Chill and heat of one day (repeated `days` times) or of the days `from` to `to` of `record`.
[[nodiscard]] base::Result<base::Explanation> explain_chill(const base::FigureInputs& inputs,
                                                            const WeatherRecord* record);
/// Daily series over the days of `record`, which must have no gaps in tmin and tmax; `lat` overrides its
/// site.
[[nodiscard]] base::Result<base::Explanation> explain_soil_temperature(const base::FigureInputs& inputs,
                                                                       const WeatherRecord* record);

}  // namespace sowtide::climate
