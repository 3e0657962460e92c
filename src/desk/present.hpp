// Numbers, dates and tables as people read them. Metric or US customary units by the garden's choice;
// internal values stay SI. Used by the command line and by printed sheets; the web app has its own twin.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/date.hpp"

namespace sowtide::desk {

enum class Units { metric, us };

/// "metric" or "us" as kept in the garden file; anything else reads as metric.
[[nodiscard]] Units units_of(std::string_view text) noexcept;

/// "12 Apr" or, in US form, "Apr 12"; with the year when it differs from that of `reference`.
[[nodiscard]] std::string date_text(base::Date date, Units units, base::Date reference);
/// "350 g", "1.2 kg"; "12 oz", "2.6 lb". Two significant digits below 10; "under 1 g" or "under 0.1 oz" for a
/// trace.
[[nodiscard]] std::string weight_text(double grams, Units units);
/// "0.4 g", "35 g"; "0.05 oz", "1.2 oz": seed, of which a pinch counts.
[[nodiscard]] std::string seed_weight_text(double grams, Units units);
/// "0.35 m", "2.40 m"; "14 in", and from a yard on "3 ft 4 in", "8 ft".
[[nodiscard]] std::string length_text(double metres, Units units);
/// More than nothing, and yet the figure would read 0.
[[nodiscard]] bool is_trace(double grams, Units units) noexcept;
/// The least weight that a figure tells: "1 g", "0.1 oz".
[[nodiscard]] std::string least_weight_text(Units units);
/// The ends of a stretch, both as its far end is said: "9 in" and "30 in", "1 ft 9 in" and "3 ft 4 in".
[[nodiscard]] std::pair<std::string, std::string> stretch_texts(double from_m, double to_m, Units units);
/// "13 cm", "5 in": distances between plants and sowing depths.
[[nodiscard]] std::string spacing_text(double millimetres, Units units);
/// A depth of sowing, millimetres in metric gardens however deep, so that depths compare at a glance.
[[nodiscard]] std::string depth_text(double millimetres, Units units);
/// "12 L", "3.2 gal": water.
[[nodiscard]] std::string volume_text(double litres, Units units);
/// "45 mm", "1.8 in": across a root or head.
[[nodiscard]] std::string diameter_text(double millimetres, Units units);
/// "18 °C", "65 °F".
[[nodiscard]] std::string temperature_text(double celsius, Units units);
/// A sentence of a crop file with its temperatures in the units: "keep at 13 to 16 °C" as "keep at 55 to 61
/// °F".
[[nodiscard]] std::string with_temperatures_in(const std::string& sentence, Units units);
/// "1.8 °C", "3.2 °F": by how much one temperature is above another.
[[nodiscard]] std::string temperature_difference_text(double kelvin, Units units);
/// "1 bed", "3 beds"; where an s does not make several of it, `several` is told.
[[nodiscard]] std::string counted(std::int64_t count, std::string_view one, std::string_view several = {});
/// "82 %".
[[nodiscard]] std::string percent_text(double fraction);

/// A plain text table: header, rows, columns padded to the widest cell (counting characters, not bytes).
class TextTable {
 public:
  enum class Align { left, right };
  explicit TextTable(std::vector<std::string> header, std::vector<Align> align = {});
  void add(std::vector<std::string> row);
  [[nodiscard]] std::string text() const;

 private:
  std::vector<std::vector<std::string>> rows_;
  std::vector<Align> align_;
};

}  // namespace sowtide::desk
