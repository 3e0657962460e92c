// The figure `emergence` in weather that changes: hourly soil temperature at sowing depth from a record or
// from a built-in place's normals, and the curve of emergence over it.
#pragma once

#include "base/explanation.hpp"
#include "base/figure.hpp"
#include "climate/record.hpp"
#include "crop/crop.hpp"

namespace sowtide::stand {

/// Works out `emergence` with the keys crop, date, depth_mm, germination_pct, lat and `weather` (a record,
/// without gaps, handed over) or `place`. A record gives one course; a place thirty made years, of which the
/// day is the median. Problems: those of the keys; out_of_range where nothing comes up within the days the
/// record goes on, or half a year; insufficient_data where the record does not hold the sowing.
[[nodiscard]] base::Result<base::Explanation> emergence_in_weather(const base::FigureInputs& inputs,
                                                                   const crop::CropLibrary& library,
                                                                   const climate::WeatherRecord* record);

}  // namespace sowtide::stand
