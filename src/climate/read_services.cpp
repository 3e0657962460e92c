// Daily exports of weather services with fixed columns: GSOD, KNMI, Met Éireann, US Climate Reference
// Network.
#include <fmt/format.h>

#include <array>

#include "base/quantity.hpp"
#include "climate/detail/fixed_table.hpp"
#include "climate/detail/text_scan.hpp"
#include "climate/readers.hpp"

namespace sowtide::climate {

using base::Problem;
using base::ProblemCode;
using detail::Field;
using detail::FixedColumn;

namespace {

constexpr double kPerFahrenheit = 1.0 / 1.8;
constexpr double kFahrenheitShift = -32.0 / 1.8;

// NOAA NCEI, readme of the Global Summary of the Day: °F, knots, inches; 9999.9, 999.9 and 99.99 missing.
constexpr std::array kGsodColumns{
    FixedColumn{"MIN", Field::tmin, kPerFahrenheit, kFahrenheitShift, 9999.9},
    FixedColumn{"MAX", Field::tmax, kPerFahrenheit, kFahrenheitShift, 9999.9},
    FixedColumn{"PRCP", Field::rain, base::kMillimetresPerInch, 0.0, 99.99},
    FixedColumn{"WDSP", Field::wind, detail::kMetresPerSecondPerKnot, 0.0, 999.9},
    FixedColumn{"DEWP", Field::dew_point, kPerFahrenheit, kFahrenheitShift, 9999.9, false, "dew-point"},
    FixedColumn{"SNDP", Field::snow_depth, base::kMillimetresPerInch, 0.0, 999.9, false, "snow-depth"}};

constexpr detail::FixedFormat kGsod{"gsod", "DATE", "STATION", kGsodColumns};

// KNMI, heading of the etmgeg files: 0.1 °C, 0.1 mm and 0.1 h with -1 for less than half of that, J/cm², 0.1
// m/s, %.
constexpr std::array kKnmiColumns{
    FixedColumn{"TN", Field::tmin, 0.1},
    FixedColumn{"TX", Field::tmax, 0.1},
    FixedColumn{"RH", Field::rain, 0.1, 0.0, 0.0, true},
    FixedColumn{"Q", Field::radiation, 0.01},
    FixedColumn{"SQ", Field::sunshine, 0.1, 0.0, 0.0, true},
    FixedColumn{"UG", Field::humidity},
    FixedColumn{"FG", Field::wind, 0.1},
    FixedColumn{"T10N", Field::grass_minimum, 0.1, 0.0, 0.0, false, "grass-minimum"},
    FixedColumn{"EV24", Field::reference_et, 0.1, 0.0, 0.0, false, "reference-evapotranspiration-makkink"}};

constexpr detail::FixedFormat kKnmi{"knmi", "YYYYMMDD", "STN", kKnmiColumns};

// Met Éireann, key of the daily files: °C, mm, knots, hours; soil at 10 cm; moisture deficits in mm.
constexpr std::array kMetEireannColumns{
    FixedColumn{"mintp", Field::tmin},
    FixedColumn{"maxtp", Field::tmax},
    FixedColumn{"rain", Field::rain},
    FixedColumn{"wdsp", Field::wind, detail::kMetresPerSecondPerKnot},
    FixedColumn{"sun", Field::sunshine},
    FixedColumn{"glorad", Field::radiation, 0.01},
    FixedColumn{"gmin", Field::grass_minimum, 1.0, 0.0, 0.0, false, "grass-minimum"},
    FixedColumn{"soil", Field::soil_temperature, 1.0, 0.0, 0.0, false, "soil-temperature-10cm"},
    FixedColumn{"pe", Field::reference_et, 1.0, 0.0, 0.0, false, "potential-evapotranspiration"},
    FixedColumn{"smd_wd", Field::reference_et, 1.0, 0.0, 0.0, false, "soil-moisture-deficit-well-drained"},
    FixedColumn{"smd_md", Field::reference_et, 1.0, 0.0, 0.0, false,
                "soil-moisture-deficit-moderately-drained"},
    FixedColumn{"smd_pd", Field::reference_et, 1.0, 0.0, 0.0, false, "soil-moisture-deficit-poorly-drained"}};

constexpr detail::FixedFormat kMetEireann{"met-eireann", "date", "", kMetEireannColumns};

// DWD Climate Data Center, description of the daily station observations (KL): °C, mm, h, m/s, hPa, cm; -999
// missing.
constexpr std::array kDwdColumns{
    FixedColumn{"TNK", Field::tmin, 1.0, 0.0, -999.0},
    FixedColumn{"TXK", Field::tmax, 1.0, 0.0, -999.0},
    FixedColumn{"RSK", Field::rain, 1.0, 0.0, -999.0},
    FixedColumn{"SDK", Field::sunshine, 1.0, 0.0, -999.0},
    FixedColumn{"UPM", Field::humidity, 1.0, 0.0, -999.0},
    FixedColumn{"FM", Field::wind, 1.0, 0.0, -999.0},
    FixedColumn{"VPM", Field::vapour_pressure, 0.1, 0.0, -999.0, false, "vapour-pressure"},
    FixedColumn{"TGK", Field::grass_minimum, 1.0, 0.0, -999.0, false, "grass-minimum"},
    FixedColumn{"SHK_TAG", Field::snow_depth, 10.0, 0.0, -999.0, false, "snow-depth"}};

constexpr detail::FixedFormat kDwd{"dwd-daily", "MESS_DATUM", "STATIONS_ID", kDwdColumns};

// NOAA NCEI, readme of the US Climate Reference Network, daily01: 28 fields between blanks.
constexpr std::array<std::string_view, 28> kUscrnHeadings{
    "WBANNO",           "LST_DATE",          "CRX_VN",
    "LONGITUDE",        "LATITUDE",          "T_DAILY_MAX",
    "T_DAILY_MIN",      "T_DAILY_MEAN",      "T_DAILY_AVG",
    "P_DAILY_CALC",     "SOLARAD_DAILY",     "SUR_TEMP_TYPE",
    "SUR_TEMP_MAX",     "SUR_TEMP_MIN",      "SUR_TEMP_AVG",
    "RH_DAILY_MAX",     "RH_DAILY_MIN",      "RH_DAILY_AVG",
    "SOIL_MOISTURE_5",  "SOIL_MOISTURE_10",  "SOIL_MOISTURE_20",
    "SOIL_MOISTURE_50", "SOIL_MOISTURE_100", "SOIL_TEMP_5",
    "SOIL_TEMP_10",     "SOIL_TEMP_20",      "SOIL_TEMP_50",
    "SOIL_TEMP_100"};

constexpr std::array kUscrnColumns{
    FixedColumn{"T_DAILY_MIN", Field::tmin, 1.0, 0.0, -9999.0},
    FixedColumn{"T_DAILY_MAX", Field::tmax, 1.0, 0.0, -9999.0},
    FixedColumn{"P_DAILY_CALC", Field::rain, 1.0, 0.0, -9999.0},
    FixedColumn{"SOLARAD_DAILY", Field::radiation, 1.0, 0.0, -9999.0},
    FixedColumn{"RH_DAILY_AVG", Field::humidity, 1.0, 0.0, -9999.0},
    FixedColumn{"SOIL_TEMP_5", Field::soil_temperature, 1.0, 0.0, -9999.0, false, "soil-temperature-5cm"},
    FixedColumn{"SOIL_TEMP_10", Field::soil_temperature, 1.0, 0.0, -9999.0, false, "soil-temperature-10cm"},
    FixedColumn{"SOIL_TEMP_20", Field::soil_temperature, 1.0, 0.0, -9999.0, false, "soil-temperature-20cm"},
    FixedColumn{"SOIL_TEMP_50", Field::soil_temperature, 1.0, 0.0, -9999.0, false, "soil-temperature-50cm"},
    FixedColumn{"SOIL_TEMP_100", Field::soil_temperature, 1.0, 0.0, -9999.0, false,
                "soil-temperature-100cm"}};

constexpr detail::FixedFormat kUscrn{"uscrn-daily", "LST_DATE", "WBANNO", kUscrnColumns};

/// Where a line begins that starts with one of these words (after blanks), and its number.
struct FoundLine {
  std::string_view line;
  std::size_t position = 0;
  int number = 0;
};

std::optional<FoundLine> line_starting(std::string_view text, std::initializer_list<std::string_view> words) {
  detail::LineScanner lines(text);
  FoundLine found;
  for (int count = 0; count < 200 && lines.next(found.line); ++count) {
    found.number = lines.number();
    for (const std::string_view word : words) {
      if (detail::starts_with_word(detail::trimmed(found.line), word)) return found;
    }
    found.position = lines.position();
  }
  return std::nullopt;
}

tl::unexpected<Problem> no_heading(const std::string& file, std::string_view wanted) {
  return base::fail(ProblemCode::missing_field, fmt::format("there is no heading line with {}", wanted),
                    {file, 0, 0, ""}, "Give the file as published, with its heading.");
}

/// "Latitude:51.847  ,Longitude: -8.486" and "Station Height: 155 M": the figure after the word.
std::optional<double> figure_after(std::string_view text, std::string_view word) {
  const auto at = text.find(word);
  if (at == std::string_view::npos) return std::nullopt;
  std::string_view rest = text.substr(at + word.size(), 40);
  const auto begin = rest.find_first_of("-0123456789");
  if (begin == std::string_view::npos) return std::nullopt;
  rest.remove_prefix(begin);
  return detail::number_of(rest.substr(0, rest.find_first_not_of("-0123456789.")));
}

}  // namespace

base::Result<WeatherImport> read_gsod(std::string_view bytes, const std::string& file,
                                      const ReadOptions& options) {
  if (auto problem = detail::refuse_text(bytes, file)) return tl::unexpected(*problem);
  detail::DelimitedRows rows(detail::without_byte_order_mark(bytes), file, ',');
  if (rows.problem()) return tl::unexpected(*rows.problem());
  detail::RecordBuilder builder(file, options);
  builder.note(
      "Rain of many stations in this set runs to the morning observation, and a missing rain may be a dry "
      "day.");
  return detail::read_fixed(rows, kGsod, {}, false, builder);
}

base::Result<WeatherImport> read_knmi(std::string_view bytes, const std::string& file,
                                      const ReadOptions& options) {
  if (auto problem = detail::refuse_text(bytes, file)) return tl::unexpected(*problem);
  const std::string_view text = detail::without_byte_order_mark(bytes);
  const auto heading = line_starting(text, {"# STN,", "#STN,", "STN,"});
  if (!heading) return no_heading(file, "STN,YYYYMMDD");
  const auto word = heading->line.find("STN");
  detail::DelimitedRows rows(text, file, ',', heading->position + word, heading->number);
  if (rows.problem()) return tl::unexpected(*rows.problem());
  detail::RecordBuilder builder(file, options);
  builder.note("Source: Royal Netherlands Meteorological Institute (KNMI). Days are 00 to 24 UT.");
  return detail::read_fixed(rows, kKnmi, {}, false, builder);
}

base::Result<WeatherImport> read_met_eireann(std::string_view bytes, const std::string& file,
                                             const ReadOptions& options) {
  if (auto problem = detail::refuse_text(bytes, file)) return tl::unexpected(*problem);
  const std::string_view text = detail::without_byte_order_mark(bytes);
  const auto heading = line_starting(text, {"date,"});
  if (!heading) return no_heading(file, "date,ind,maxtp");
  detail::DelimitedRows rows(text, file, ',', heading->position, heading->number);
  if (rows.problem()) return tl::unexpected(*rows.problem());
  Site site;
  bool stated = false;
  const std::string_view above = text.substr(0, heading->position);
  if (const auto name = line_starting(above, {"Station Name:"})) {
    site.name = detail::trimmed(detail::trimmed(name->line).substr(13));
  }
  const auto latitude = figure_after(above, "Latitude:"), longitude = figure_after(above, "Longitude:");
  if (latitude && longitude && *latitude >= -90.0 && *latitude <= 90.0 && *longitude >= -180.0 &&
      *longitude <= 180.0) {
    site.latitude_deg = *latitude, site.longitude_deg = *longitude;
    site.elevation_m = figure_after(above, "Station Height:").value_or(0.0);
    stated = true;
  }
  detail::RecordBuilder builder(file, options);
  builder.note("Source: Met Éireann, CC BY 4.0.");
  return detail::read_fixed(rows, kMetEireann, site, stated, builder);
}

base::Result<WeatherImport> read_dwd_daily(std::string_view bytes, const std::string& file,
                                           const ReadOptions& options) {
  if (auto problem = detail::refuse_text(bytes, file)) return tl::unexpected(*problem);
  detail::DelimitedRows rows(detail::without_byte_order_mark(bytes), file, ';');
  if (rows.problem()) return tl::unexpected(*rows.problem());
  detail::RecordBuilder builder(file, options);
  builder.note("Source: Deutscher Wetterdienst.");
  return detail::read_fixed(rows, kDwd, {}, false, builder);
}

base::Result<WeatherImport> read_uscrn_daily(std::string_view bytes, const std::string& file,
                                             const ReadOptions& options) {
  if (auto problem = detail::refuse_text(bytes, file)) return tl::unexpected(*problem);
  detail::DelimitedRows rows(detail::without_byte_order_mark(bytes), file, ' ');
  rows.use_heading({kUscrnHeadings.begin(), kUscrnHeadings.end()});
  detail::RecordBuilder builder(file, options);
  return detail::read_fixed(rows, kUscrn, {}, false, builder);
}

}  // namespace sowtide::climate
