// Figures of risk dates, for the `figure` verb (see figures.hpp).
#pragma once

#include <vector>

#include "base/explanation.hpp"
#include "base/figure.hpp"
#include "base/problem.hpp"
#include "climate/record.hpp"
#include "climate/risk.hpp"
#include "climate/site.hpp"

namespace sowtide::climate {

/// Descriptions of the figures here: "frost-dates".
[[nodiscard]] std::vector<base::FigureDescription> risk_figures();

/// Last and first frost of the record, or where it is null of the built-in place named by `place`.
[[nodiscard]] base::Result<base::Explanation> explain_frost_dates(const base::FigureInputs& inputs,
                                                                  const WeatherRecord* weather);

/// The same for a place with normals that the caller has read.
[[nodiscard]] base::Result<base::Explanation> explain_frost_dates(const base::FigureInputs& inputs,
                                                                  const PlaceNormals& place);

}  // namespace sowtide::climate
