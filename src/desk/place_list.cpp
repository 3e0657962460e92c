#include "desk/place_list.hpp"

#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <vector>

#include "base/letters.hpp"
#include "climate/places.hpp"
#include "desk/present.hpp"

namespace sowtide::desk {
namespace {

using Json = nlohmann::ordered_json;

std::vector<climate::BuiltInPlace> places_with(std::string_view word) {
  std::vector<climate::BuiltInPlace> found;
  for (const climate::BuiltInPlace& each : climate::built_in_places()) {
    const std::string name = base::small_letters(each.place.site.name + ", " + each.country);
    if (name.find(base::small_letters(word)) != std::string::npos) found.push_back(each);
  }
  return found;
}

}  // namespace

std::string places_json(std::string_view word) {
  Json places = Json::array();
  for (const climate::BuiltInPlace& each : places_with(word)) {
    const climate::Site& site = each.place.site;
    places.push_back({{"name", site.name},
                      {"latitude_deg", site.latitude_deg},
                      {"longitude_deg", site.longitude_deg},
                      {"elevation_m", site.elevation_m},
                      {"country", each.country},
                      {"source", each.place.normals.source}});
  }
  return Json{{"places", places}}.dump(-1, ' ', false, Json::error_handler_t::replace);
}

std::string places_text(std::string_view word) {
  using Align = TextTable::Align;
  TextTable table({"place", "country", "latitude", "longitude", "elevation"},
                  {Align::left, Align::left, Align::right, Align::right, Align::right});
  const auto found = places_with(word);
  for (const climate::BuiltInPlace& each : found) {
    const climate::Site& site = each.place.site;
    table.add({site.name, each.country, fmt::format("{:.2f}", site.latitude_deg),
               fmt::format("{:.2f}", site.longitude_deg), fmt::format("{:.0f} m", site.elevation_m)});
  }
  const std::string none = fmt::format("No built-in place has \"{}\" in its name or country.\n", word);
  return (found.empty() ? none : table.text()) +
         "\nFor a spot that is not among them give LAT,LON or LAT,LON,ELEVATION_M in place of a name: the "
         "nearest "
         "serves.\n";
}

}  // namespace sowtide::desk
