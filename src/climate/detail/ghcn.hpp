// What the three forms of GHCN-Daily have in common: elements, units, flags, totals of several days.
// Source: NOAA NCEI, readme of GHCN-Daily (elements, units, MFLAG and QFLAG letters).
#pragma once

#include <map>
#include <optional>
#include <string_view>

#include "climate/detail/record_builder.hpp"

namespace sowtide::climate::detail {

/// The elements that are read.
enum class GhcnElement {
  tmax,            ///< TMAX, tenths of °C
  tmin,            ///< TMIN
  rain,            ///< PRCP, tenths of mm
  several_amount,  ///< MDPR, total of several days, tenths of mm
  several_days,    ///< DAPR, how many days MDPR covers
  wind,            ///< AWND, tenths of m/s
  sunshine,        ///< TSUN, minutes
  humidity,        ///< RHAV, whole %
  dew_point,       ///< ADPT, tenths of °C
  snow_depth       ///< SNWD, whole mm
};

[[nodiscard]] std::optional<GhcnElement> ghcn_element(std::string_view name);

/// The units in which a file gives its values.
enum class GhcnUnits {
  tenths,  ///< as archived
  metric,  ///< °C, mm, m/s
  us       ///< °F, inch, mph
};

/// Takes values of one file and knows what their flags mean.
class GhcnReader {
 public:
  GhcnReader(RecordBuilder& builder, GhcnUnits units) : builder_(builder), units_(units) {}

  /// One value as in the file, with its measurement and quality flags (' ' for none).
  void take(GhcnElement element, base::Date day, double raw, char measurement_flag, char quality_flag);

  /// Shares out the totals of several days. Call once, at the end.
  void finish();

  [[nodiscard]] std::size_t flagged() const { return flagged_; }

 private:
  struct Several {
    std::optional<double> amount_mm;
    int days = 0;
  };
  [[nodiscard]] double in_our_units(GhcnElement element, double raw) const;
  void take_passed(GhcnElement element, base::Date day, double value, bool presumed);

  RecordBuilder& builder_;
  GhcnUnits units_;
  std::size_t flagged_ = 0;
  std::map<base::Date, Several> several_;
};

}  // namespace sowtide::climate::detail
