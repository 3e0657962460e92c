// weather.csv of an export: one row a day, each variable with its unit in the heading and its origin beside
// it.
#pragma once

#include <string>
#include <string_view>

#include "base/problem.hpp"
#include "climate/record.hpp"

namespace sowtide::book {

/// The record as CSV; variables that are missing on every day are left out (one is kept).
[[nodiscard]] std::string weather_csv(const climate::WeatherRecord& record);

/// True when the text begins with the heading that `weather_csv` writes.
[[nodiscard]] bool is_weather_csv(std::string_view text);

/// Reads it back without loss. The site is the caller's.
[[nodiscard]] base::Result<climate::WeatherRecord> read_weather_csv(std::string_view text,
                                                                    const std::string& file,
                                                                    const climate::Site& site);

}  // namespace sowtide::book
