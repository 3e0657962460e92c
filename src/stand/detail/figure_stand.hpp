// What the figures of this room share: keys, their weather and the stand they speak of.
#pragma once

#include "base/explanation.hpp"
#include "base/figure.hpp"
#include "climate/ensemble.hpp"
#include "climate/record.hpp"
#include "crop/crop.hpp"
#include "stand/crop_weather.hpp"
#include "stand/outlook.hpp"

namespace sowtide::stand::detail {

inline constexpr const char* kLintul =
    "M. E. Shibu, P. A. Leffelaar, H. van Keulen, P. K. Aggarwal (2010) Eur. J. Agron. 32:255-271";
inline constexpr const char* kModel = "docs/models/stand.md";

/// Keys for the weather: a place, or a record instead.
[[nodiscard]] base::FigureKey place_or_weather_key();
[[nodiscard]] base::FigureKey weather_key();

/// An answer that repeats the inputs given.
[[nodiscard]] base::Explanation begin_answer(const base::FigureDescription& figure,
                                             const base::FigureInputs& inputs);

/// The number under a key, or `fallback` where it is left out; problems as of base::number_input.
[[nodiscard]] base::Result<double> number_or(const base::FigureInputs& inputs, const std::string& key,
                                             double fallback, double low, double high);

/// The weather of the record, else of the place named, else of a usual place. contradiction where both are
/// named; else the problems of the place and the ensemble.
[[nodiscard]] base::Result<climate::WeatherEnsemble> figure_weather(const base::FigureInputs& inputs,
                                                                    const climate::WeatherRecord* record,
                                                                    const climate::EnsembleOptions& options);

struct FigureStand {
  climate::WeatherEnsemble ensemble;
  StandPlan plan;
};

/// A stand sown on the day, as the keys spacing_mm and plants_per_clump say, with 400 days of weather.
[[nodiscard]] base::Result<FigureStand> figure_stand(const base::FigureInputs& inputs, const crop::Crop& crop,
                                                     const climate::WeatherRecord* record, base::Date sow);

/// The stand's weather as the crop feels it; both must outlive it.
[[nodiscard]] CropWeather felt_weather(const FigureStand& stand, const crop::Crop& crop);

}  // namespace sowtide::stand::detail
