#include "climate/places.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cassert>
#include <cctype>
#include <cmath>
#include <map>
#include <numbers>

#include "base/csv.hpp"
#include "base/nearest.hpp"
#include "climate/detail/places_data.hpp"

namespace sowtide::climate {
namespace {

constexpr std::array<std::string_view, 12> kMonths = {"jan", "feb", "mar", "apr", "may", "jun",
                                                      "jul", "aug", "sep", "oct", "nov", "dec"};
/// Days with at least 1 mm over days with at least 0.01 in.
constexpr double kOneMillimetreShare = 0.77;

/// The table is ours and checked by a test, so a cell that is not there or not a number is a defect.
class PlaceRow {
 public:
  PlaceRow(const base::CsvTable& table, const base::CsvRow& row) : table_(table), row_(row) {}

  [[nodiscard]] const std::string& text(std::string_view column) const {
    const auto index = table_.column(column);
    assert(index);
    return row_.cells[*index];
  }
  [[nodiscard]] double number(std::string_view column) const {
    return base::parse_number(text(column)).value();
  }
  [[nodiscard]] std::array<double, 12> months(std::string_view prefix) const {
    std::array<double, 12> values{};
    for (std::size_t m = 0; m < values.size(); ++m)
      values[m] = number(fmt::format("{}_{}", prefix, kMonths[m]));
    return values;
  }

 private:
  const base::CsvTable& table_;
  const base::CsvRow& row_;
};

BuiltInPlace read_row(const PlaceRow& row) {
  BuiltInPlace built;
  built.country = row.text("country");
  built.elevation_from_memory = row.text("elevation_from") == "memory";
  built.place.site = {row.text("name"), row.number("lat"), row.number("lon"), row.number("elevation_m")};
  MonthlyNormals& normals = built.place.normals;
  normals.tmax_c = row.months("tmax_c");
  normals.tmin_c = row.months("tmin_c");
  normals.precip_mm = row.months("precip_mm");
  normals.source = row.text("source") + ", " + row.text("period");
  if (!row.text("wet_day_mm").empty()) {
    normals.wet_days = row.months("wet_days");
    const double factor = row.number("wet_day_mm") < 1.0 ? kOneMillimetreShare : 1.0;
    for (double& days : *normals.wet_days) days *= factor;
  }
  return built;
}

/// Letters and digits in lower case, all else as single blanks: "Ayr, QLD" and "ayr qld" are the same.
std::string plain(std::string_view text) {
  std::string result;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (std::isalnum(byte) != 0 || byte >= 0x80U) {
      result += static_cast<char>(std::tolower(byte));
    } else if (!result.empty() && result.back() != ' ') {
      result += ' ';
    }
  }
  while (!result.empty() && result.back() == ' ') result.pop_back();
  return result;
}

std::string full_name(const BuiltInPlace& built) {
  return built.place.site.name + ", " + built.country;
}

std::string joined(const std::vector<std::string>& names) {
  std::string text;
  for (const std::string& name : names) text += (text.empty() ? "" : "; ") + name;
  return text;
}

/// "Olympia WA" as "Olympia": a state behind the name need not be told. Of "San Salvador" both words are the
/// name.
std::string without_state(const std::string& name) {
  const std::size_t blank = name.find_last_of(' ');
  const std::string last = blank == std::string::npos ? std::string() : name.substr(blank + 1);
  const bool is_state = !last.empty() && std::all_of(last.begin(), last.end(),
                                                     [](unsigned char c) { return std::isupper(c) != 0; });
  return is_state ? name.substr(0, blank) : name;
}

/// The places whose name is spelt nearly so, at most three, the nearest first.
std::vector<std::string> most_alike(const std::string& wanted) {
  std::vector<std::string> names;
  std::map<std::string, std::string> full;
  for (const BuiltInPlace& built : built_in_places()) {
    const std::string& name = built.place.site.name;
    for (const std::string& part : {plain(name), plain(without_state(name))}) {
      if (full.emplace(part, full_name(built)).second) names.push_back(part);
    }
  }
  std::vector<std::string> alike;
  for (const std::string& name : base::nearest_names(wanted, names)) {
    if (std::find(alike.begin(), alike.end(), full[name]) == alike.end()) alike.push_back(full[name]);
  }
  return alike;
}

base::Problem no_such_place(std::string_view name, const std::vector<std::string>& alike) {
  base::Problem problem{base::ProblemCode::not_found,
                        fmt::format("no built-in place is called \"{}\"", name),
                        {.field = "place"},
                        "Nearest in spelling: " + joined(alike) +
                            ". Or give LAT,LON for the nearest place; `sowtide places` lists them all."};
  if (alike.empty()) {
    problem.remedy =
        "Give its coordinates, LAT,LON or LAT,LON,ELEVATION_M, and the nearest built-in place serves; "
        "`sowtide places` lists them all; weather of your own is added with `sowtide weather GARDEN add "
        "FILE`";
  }
  return problem;
}

}  // namespace

const std::vector<BuiltInPlace>& built_in_places() {
  static const std::vector<BuiltInPlace> kPlaces = [] {
    const base::CsvTable table = base::parse_csv(detail::kPlacesCsv, "data/places.csv").value();
    std::vector<BuiltInPlace> places;
    for (const base::CsvRow& row : table.rows) places.push_back(read_row(PlaceRow(table, row)));
    return places;
  }();
  return kPlaces;
}

base::Result<PlaceNormals> find_place(std::string_view name) {
  const std::string wanted = plain(name);
  std::vector<const BuiltInPlace*> beginning;
  for (const BuiltInPlace& built : built_in_places()) {
    if (plain(built.place.site.name) == wanted || plain(full_name(built)) == wanted) return built.place;
    if (!wanted.empty() && plain(full_name(built)).starts_with(wanted)) beginning.push_back(&built);
  }
  if (beginning.size() == 1) return beginning.front()->place;
  if (beginning.empty()) return tl::make_unexpected(no_such_place(name, most_alike(wanted)));
  std::vector<std::string> names;
  for (const BuiltInPlace* built : beginning) names.push_back(full_name(*built));
  return base::fail(base::ProblemCode::ambiguous,
                    fmt::format("\"{}\" could be {} of the built-in places", name, beginning.size()),
                    {.field = "place"}, "Give one of: " + joined(names) + ".");
}

double distance_km(double latitude_a_deg, double longitude_a_deg, double latitude_b_deg,
                   double longitude_b_deg) {
  constexpr double kEarthRadiusKm = 6371.0;
  constexpr double kRadians = std::numbers::pi / 180.0;
  const double half_latitude = 0.5 * (latitude_b_deg - latitude_a_deg) * kRadians;
  const double half_longitude = 0.5 * (longitude_b_deg - longitude_a_deg) * kRadians;
  const double a = std::sin(half_latitude) * std::sin(half_latitude) +
                   std::cos(latitude_a_deg * kRadians) * std::cos(latitude_b_deg * kRadians) *
                       std::sin(half_longitude) * std::sin(half_longitude);
  return 2.0 * kEarthRadiusKm * std::asin(std::min(1.0, std::sqrt(a)));
}

namespace {

std::string warning_text(const NearestPlace& nearest, bool height_known) {
  constexpr double kElsewhereM = 1000.0;
  std::string text =
      fmt::format("The nearest built-in station is {}, {:.0f} km away", nearest.station, nearest.distance_km);
  const double higher = nearest.elevation_difference_m;
  if (std::abs(higher) >= 1.0) {
    text += fmt::format(" and {:.0f} m {} than this spot; its temperatures were {} by {:.1f} °C for that",
                        std::abs(higher), higher > 0.0 ? "lower" : "higher",
                        higher > 0.0 ? "lowered" : "raised", std::abs(nearest.temperature_shift_k));
  }
  text += ".";
  if (std::abs(higher) >= kElsewhereM) text += " Over such a height that is a guess.";
  if (nearest.distance_km >= kOtherClimateKm) {
    text += " That is another climate: take a weather record of your own, or twelve monthly normals.";
  } else if (nearest.distance_km >= kFarClimateKm) {
    text +=
        " Over such a distance coasts and hills make other climates: a weather record of your own, or twelve "
        "monthly "
        "normals, is better.";
  }
  if (!height_known && nearest.distance_km >= kSameClimateKm) {
    text += fmt::format(
        " Its height of {:.0f} m is taken for this spot, which may lie at another: give the height too.",
        nearest.place.site.elevation_m);
  }
  return text;
}

}  // namespace

NearestPlace nearest_place(double latitude_deg, double longitude_deg, double elevation_m) {
  constexpr double kKmPerMetre = 0.1;
  const bool height_known = !std::isnan(elevation_m);
  const auto& places = built_in_places();
  const auto apart = [&](const BuiltInPlace& built) {
    const Site& site = built.place.site;
    const double height = height_known ? kKmPerMetre * std::abs(elevation_m - site.elevation_m) : 0.0;
    return distance_km(latitude_deg, longitude_deg, site.latitude_deg, site.longitude_deg) + height;
  };
  const auto best =
      std::min_element(places.begin(), places.end(),
                       [&](const BuiltInPlace& a, const BuiltInPlace& b) { return apart(a) < apart(b); });
  NearestPlace nearest;
  nearest.place = best->place;
  nearest.station = full_name(*best);
  const Site& station = best->place.site;
  nearest.distance_km = distance_km(latitude_deg, longitude_deg, station.latitude_deg, station.longitude_deg);
  nearest.elevation_difference_m = height_known ? elevation_m - station.elevation_m : 0.0;
  nearest.temperature_shift_k = -kStandardLapseKPerKm * nearest.elevation_difference_m / 1000.0;
  for (std::size_t m = 0; m < 12; ++m) {
    nearest.place.normals.tmax_c[m] += nearest.temperature_shift_k;
    nearest.place.normals.tmin_c[m] += nearest.temperature_shift_k;
  }
  // Beyond this the station's name would mislead as the name of the spot.
  const std::string spot = nearest.distance_km < kFarClimateKm
                               ? "near " + station.name
                               : fmt::format("{:.2f}, {:.2f} (by {}, {:.0f} km away)", latitude_deg,
                                             longitude_deg, station.name, nearest.distance_km);
  nearest.place.site = {spot, latitude_deg, longitude_deg, height_known ? elevation_m : station.elevation_m};
  nearest.warning = warning_text(nearest, height_known);
  nearest.place.normals.source += "; station " + nearest.station;
  return nearest;
}

std::optional<NormalsStation> station_of_normals(const MonthlyNormals& normals, const Site& garden) {
  for (const BuiltInPlace& built : built_in_places()) {
    const auto& [station, lent, warming_c] = built.place;
    if (!normals.source.starts_with(lent.source) || normals.precip_mm != lent.precip_mm) continue;
    return NormalsStation{
        full_name(built),
        distance_km(garden.latitude_deg, garden.longitude_deg, station.latitude_deg, station.longitude_deg),
        station.elevation_m - garden.elevation_m};
  }
  return std::nullopt;
}

}  // namespace sowtide::climate
