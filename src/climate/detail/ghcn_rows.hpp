// The two row forms of GHCN-Daily, from text or from JSON.
#pragma once

#include <string>
#include <vector>

#include "climate/detail/row_source.hpp"
#include "climate/readers.hpp"

namespace sowtide::climate::detail {

/// Headings of the wide form: STATION, DATE and at least one element.
[[nodiscard]] bool wide_heading(const std::vector<std::string>& heading);
/// Headings of the long form: date, element (or datatype, attr) and value.
[[nodiscard]] bool long_heading(const std::vector<std::string>& heading);

[[nodiscard]] base::Result<WeatherImport> read_wide_rows(RowSource& rows, const std::string& format,
                                                         const std::string& file, const ReadOptions& options);
[[nodiscard]] base::Result<WeatherImport> read_long_rows(RowSource& rows, const std::string& format,
                                                         const std::string& file, const ReadOptions& options);

}  // namespace sowtide::climate::detail
