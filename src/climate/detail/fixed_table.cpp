#include "climate/detail/fixed_table.hpp"

#include <fmt/format.h>

#include <cmath>
#include <vector>

#include "climate/detail/date_scan.hpp"
#include "climate/detail/station_filter.hpp"
#include "climate/detail/text_scan.hpp"

namespace sowtide::climate::detail {

using base::Problem;
using base::ProblemCode;

namespace {

struct PlacedColumn {
  const FixedColumn* column;
  std::size_t index;
  std::size_t extra;
};

std::string_view extra_unit(Field field) {
  switch (kind_of(field)) {
    case Kind::temperature:
      return "°C";
    case Kind::length:
      return "mm";
    case Kind::share:
      return "%";
    case Kind::pressure:
      return "kPa";
    default:
      return "";
  }
}

class FixedReader {
 public:
  FixedReader(RowSource& rows, const FixedFormat& format, Site site, bool site_stated, RecordBuilder& builder)
      : rows_(rows),
        format_(format),
        site_(std::move(site)),
        site_stated_(site_stated),
        builder_(builder),
        stations_(builder.options().station),
        height_m_(builder.options().wind_height_m.value_or(format.wind_height_m)) {}

  base::Result<WeatherImport> read() {
    if (auto problem = place()) return tl::unexpected(*problem);
    Row row;
    while (rows_.next(row)) {
      if (auto problem = take(row)) return tl::unexpected(*problem);
    }
    if (rows_.problem()) return tl::unexpected(*rows_.problem());
    if (station_) {
      if (auto problem = stations_.problem(builder_.file())) return tl::unexpected(*problem);
    }
    if (site_.name.empty()) site_.name = stations_.taken();
    return builder_.finish(std::string(format_.name), site_, site_stated_);
  }

 private:
  Problem problem(ProblemCode code, std::string what, int line, std::string field) const {
    return {
        code, std::move(what), {builder_.file(), line, 0, std::move(field)}, "Give the file as published."};
  }

  std::optional<Problem> place() {
    const auto& heading = rows_.heading();
    date_ = column_named(heading, format_.date);
    if (!date_) {
      return problem(ProblemCode::missing_field, fmt::format("the heading has no {}", format_.date),
                     rows_.heading_line(), std::string(format_.date));
    }
    if (!format_.station.empty()) station_ = column_named(heading, format_.station);
    for (const FixedColumn& column : format_.columns) {
      const auto index = column_named(heading, column.heading);
      if (!index) continue;
      std::size_t extra = 0;
      if (!column.extra.empty())
        extra = builder_.extra(column.extra, extra_unit(column.field), column.heading);
      columns_.push_back({&column, *index, extra});
    }
    if (columns_.empty()) {
      return problem(ProblemCode::missing_field, "the heading names no daily weather", rows_.heading_line(),
                     "");
    }
    name_ = column_named(heading, "NAME");
    latitude_ = column_named(heading, "LATITUDE");
    longitude_ = column_named(heading, "LONGITUDE");
    elevation_ = column_named(heading, "ELEVATION");
    return std::nullopt;
  }

  void take_site(const Row& row) {
    if (site_stated_ || !latitude_ || !longitude_) return;
    const auto latitude = number_of(row.cell(*latitude_)), longitude = number_of(row.cell(*longitude_));
    if (!latitude || !longitude || std::abs(*latitude) > 90.0 || std::abs(*longitude) > 180.0) return;
    site_.latitude_deg = *latitude;
    site_.longitude_deg = *longitude;
    if (elevation_) site_.elevation_m = number_of(row.cell(*elevation_)).value_or(0.0);
    if (name_) site_.name = row.cell(*name_);
    site_stated_ = true;
  }

  std::optional<Problem> take(const Row& row) {
    if (row.cells.size() < rows_.heading().size()) {
      return problem(
          ProblemCode::syntax,
          fmt::format("the line has {} cells, the heading {}", row.cells.size(), rows_.heading().size()),
          row.line, "");
    }
    if (station_ && !stations_.accepts(row.cell(*station_))) return std::nullopt;
    take_site(row);
    const auto written = scan_date(row.cell(*date_));
    const auto day = written ? settle(*written, DateForm::automatic) : std::nullopt;
    if (!day) {
      return problem(ProblemCode::syntax, fmt::format("\"{}\" is not a day", shown(row.cell(*date_))),
                     row.line, std::string(format_.date));
    }
    for (const PlacedColumn& placed : columns_) {
      if (auto refusal = take_value(row, placed, *day)) return refusal;
    }
    return std::nullopt;
  }

  std::optional<Problem> take_value(const Row& row, const PlacedColumn& placed, base::Date day) {
    const std::string_view cell = row.cell(placed.index);
    if (cell.empty()) return std::nullopt;
    const auto raw = number_of(cell);
    const FixedColumn& column = *placed.column;
    if (!raw) {
      return problem(ProblemCode::wrong_type, fmt::format("\"{}\" is not a number", shown(cell)), row.line,
                     std::string(column.heading));
    }
    if (column.missing != 0.0 && *raw == column.missing) return std::nullopt;
    double value = *raw * column.scale + column.shift;
    if (column.minus_one_is_trace && *raw == -1.0) value = 0.0;
    if (column.field == Field::wind) value = wind_to_2m(value, height_m_);
    if (const auto variable = variable_of(column.field)) {
      builder_.put(*variable, day, value);
    } else {
      builder_.put_extra(placed.extra, day, value);
    }
    return std::nullopt;
  }

  RowSource& rows_;
  const FixedFormat& format_;
  Site site_;
  bool site_stated_;
  RecordBuilder& builder_;
  StationFilter stations_;
  double height_m_;
  std::vector<PlacedColumn> columns_;
  std::optional<std::size_t> date_, station_, name_, latitude_, longitude_, elevation_;
};

}  // namespace

base::Result<WeatherImport> read_fixed(RowSource& rows, const FixedFormat& format, Site site,
                                       bool site_stated, RecordBuilder& builder) {
  return FixedReader(rows, format, std::move(site), site_stated, builder).read();
}

}  // namespace sowtide::climate::detail
