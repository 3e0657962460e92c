#include "cli/place_weather.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <ostream>
#include <vector>

#include "base/csv.hpp"
#include "base/file.hpp"
#include "cli/open.hpp"
#include "climate/places.hpp"

namespace sowtide::cli {
namespace {

base::Result<NamedWeather> weather_of_place(const climate::PlaceNormals& place, base::Date first,
                                            double warming_c) {
  climate::EnsembleOptions options;
  options.first = first;
  options.day_count = kWindowDays;
  options.warming_c = warming_c;
  return NamedWeather{place.site.name, climate::ensemble_from_normals(place, options)};
}

/// "47.4,-122.3" or "47.4,-122.3,110": latitude, longitude and, if given, elevation in metres; nothing for
/// other texts.
std::optional<std::vector<double>> coordinates_of(const std::string& text) {
  std::vector<double> numbers;
  for (std::size_t from = 0; from <= text.size();) {
    const std::size_t comma = std::min(text.find(',', from), text.size());
    const auto number = base::parse_number(base::trim(std::string_view(text).substr(from, comma - from)));
    if (!number) return std::nullopt;
    numbers.push_back(*number);
    from = comma + 1;
  }
  if (numbers.size() < 2 || numbers.size() > 3) return std::nullopt;
  return numbers;
}

/// The built-in place nearest to coordinates, moved to their elevation; how far off that is goes to stderr.
base::Result<climate::PlaceNormals> nearest_to(const std::vector<double>& at, Output& output) {
  constexpr double kLowest_m = -430.0, kHighest_m = 6000.0;  // the Dead Sea's shore; the highest fields and villages lie below
  if (std::abs(at[0]) > 90.0 || std::abs(at[1]) > 180.0) {
    return base::fail(base::ProblemCode::out_of_range, fmt::format("{}, {} is not on earth", at[0], at[1]),
                      {.field = "PLACE"}, "Give latitude -90 to 90 and longitude -180 to 180");
  }
  if (at.size() == 3 && (at[2] < kLowest_m || at[2] > kHighest_m)) {
    return base::fail(base::ProblemCode::out_of_range, fmt::format("nothing grows at {} m", at[2]), {.field = "PLACE"},
                      fmt::format("Give an elevation from {:g} to {:g} m", kLowest_m, kHighest_m));
  }
  climate::NearestPlace nearest =
      at.size() == 3 ? climate::nearest_place(at[0], at[1], at[2]) : climate::nearest_place(at[0], at[1]);
  if (!nearest.warning.empty()) output.err << "note: " << nearest.warning << "\n";
  return std::move(nearest.place);
}

}  // namespace

base::Result<climate::PlaceNormals> place_named(const std::string& text, Output& output) {
  if (const auto coordinates = coordinates_of(text)) return nearest_to(*coordinates, output);
  return climate::find_place(text);
}

base::Result<NamedWeather> weather_of(const std::string& place, base::Date first, std::optional<double> warming_c,
                                      Output& output) {
  const double warmer_c = warming_c.value_or(0.0);
  if (const auto coordinates = coordinates_of(place)) {
    const auto nearest = nearest_to(*coordinates, output);
    if (!nearest) return tl::make_unexpected(nearest.error());
    return weather_of_place(*nearest, first, warmer_c);
  }
  const auto bytes = base::read_file(place);
  if (bytes && book::looks_like_garden_file(*bytes)) {
    auto opened = open_garden(place);
    if (!opened) return tl::make_unexpected(opened.error());
    if (warming_c) opened->garden.warming_c = *warming_c;
    auto weather = desk::garden_weather(opened->garden, first, kWindowDays, first - base::Days{1});
    if (!weather) return tl::make_unexpected(weather.error());
    return NamedWeather{opened->garden.name, std::move(*weather), opened->garden.units};
  }
  if (bytes) {
    const auto read = climate::read_place(*bytes, place);
    if (!read) return tl::make_unexpected(read.error());
    return weather_of_place(*read, first, warming_c.value_or(read->warming_c));
  }
  if (place.ends_with(".toml") || place.ends_with(".sowtide") || place.find('/') != std::string::npos) {
    return tl::make_unexpected(bytes.error());
  }
  const auto built_in = climate::find_place(place);
  if (!built_in) return tl::make_unexpected(built_in.error());
  return weather_of_place(*built_in, first, warmer_c);
}

}  // namespace sowtide::cli
