// Tables whose columns, units and missing codes are known beforehand: the exports of weather services.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "climate/detail/headings.hpp"
#include "climate/detail/record_builder.hpp"
#include "climate/detail/row_source.hpp"

namespace sowtide::climate::detail {

/// One column of a known format.
struct FixedColumn {
  std::string_view heading;
  Field field;
  double scale = 1.0;
  double shift = 0.0;
  double missing = 0.0;             ///< this value stands for "not known"; 0 for none
  bool minus_one_is_trace = false;  ///< -1 stands for "a little, less than half a unit"
  std::string_view extra = {};      ///< name of the series for a field outside the record
};

/// A known format.
struct FixedFormat {
  std::string_view name;
  std::string_view date;     ///< heading of the date
  std::string_view station;  ///< heading of the station, or ""
  std::span<const FixedColumn> columns;
  double wind_height_m = 10.0;  ///< WMO-No. 8: ten metres
};

/// Reads the rows. `site` as far as it is known already; rows may carry LATITUDE, LONGITUDE, ELEVATION and
/// NAME.
[[nodiscard]] base::Result<WeatherImport> read_fixed(RowSource& rows, const FixedFormat& format, Site site,
                                                     bool site_stated, RecordBuilder& builder);

}  // namespace sowtide::climate::detail
