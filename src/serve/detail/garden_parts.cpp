#include "serve/detail/garden_parts.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <limits>
#include <nlohmann/json.hpp>
#include <set>
#include <utility>

#include "book/words.hpp"
#include "climate/places.hpp"
#include "crop/crop.hpp"
#include "serve/detail/json_fields.hpp"

namespace sowtide::serve::detail {
namespace {

using base::ProblemCode;
using nlohmann::json;
using nlohmann::ordered_json;

/// Ids for entries that come without: letters and digits of a name, with a number when that is taken.
class IdMaker {
 public:
  void take(const std::string& id) { taken_.insert(id); }
  std::string make(const std::string& name, const std::string& otherwise) {
    constexpr std::size_t kLongest = 24;
    std::string id;
    for (const char c : name) {
      if (id.size() >= kLongest) break;
      if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9')) id += c;
      if (c >= 'A' && c <= 'Z') id += static_cast<char>(c - 'A' + 'a');
      if ((c == ' ' || c == '-') && !id.empty() && id.back() != '-') id += '-';
    }
    while (!id.empty() && id.back() == '-') id.pop_back();
    if (id.empty()) id = otherwise;
    std::string free = id;
    for (int number = 2; taken_.contains(free); ++number) free = fmt::format("{}-{}", id, number);
    taken_.insert(free);
    return free;
  }

 private:
  std::set<std::string, std::less<>> taken_;
};

void read_entry(JsonFields& fields, bed::Bed& bed) {
  fields.text("name", bed.name, Need::must);
  fields.number("length_m", bed.length_m, Need::must);
  fields.number("width_m", bed.width_m, Need::must);
  fields.choice("sun", book::kSunWords, bed.sun);
  fields.choice("kind", book::kBedKindWords, bed.kind);
  fields.flag("fed", bed.fed);
  fields.choice("pole_end", book::kPoleEndWords, bed.pole_end);
}

void read_entry(JsonFields& fields, bed::Tray& tray) {
  fields.text("name", tray.name, Need::must);
  fields.whole("cells", tray.cells, Need::must);
  fields.number("cell_width_mm", tray.cell_width_mm);
  fields.choice("place", book::kTrayPlaceWords, tray.place);
  fields.number("temp_c", tray.temp_c);
  fields.whole("mat_cells", tray.mat_cells);
  fields.number("room_c", tray.room_c);
}

void read_day(JsonFields& fields, const std::string& name, base::MonthDay& into) {
  std::string text;
  fields.text(name, text);
  if (text.empty()) return;
  const auto day = base::parse_month_day(text);
  if (!day) return fields.report(day.error().code, day.error().what, name, "Write it as \"MM-DD\".");
  into = *day;
}

void read_entry(JsonFields& fields, plan::Want& want) {
  fields.text("crop", want.crop);
  want.crop = crop::built_in_library().id_for(want.crop);
  fields.text("group", want.group);
  fields.text("variety", want.variety);
  fields.number("amount_per_week", want.amount_per_week);
  fields.choice("unit", book::kWantUnitWords, want.unit);
  read_day(fields, "from", want.from);
  read_day(fields, "to", want.to);
  fields.number("priority", want.priority);
  fields.choice("size", book::kSizeWords, want.size);
  fields.flag("early", want.early);
  fields.number("total", want.total);
  fields.number("waste_dislike", want.waste_dislike);
  fields.flag("bought", want.bought);
}

void read_entry(JsonFields& fields, crop::Packet& packet) {
  fields.text("crop", packet.crop, Need::must);
  packet.crop = crop::built_in_library().id_for(packet.crop);
  fields.text("variety", packet.variety);
  fields.whole("packed_year", packet.packed_year, Need::must);
  fields.number("seeds", packet.seeds, Need::must);
  if (fields.find("germination_pct", Need::may) == nullptr) {
    packet.germination_pct.reset();
    return;
  }
  double percent = 0.0;
  fields.number("germination_pct", percent);
  packet.germination_pct = percent;
}

/// A variety's figures (days to maturity and the like) are not set in the page: they stay as they are.
void read_entry(JsonFields& fields, crop::Variety& variety) {
  fields.text("crop", variety.crop, Need::must);
  variety.crop = crop::built_in_library().id_for(variety.crop);
  fields.text("name", variety.name, Need::must);
  fields.text("colour", variety.colour);
  fields.text("notes", variety.notes);
}

const std::string& name_for_id(const bed::Bed& bed) {
  return bed.name;
}
const std::string& name_for_id(const bed::Tray& tray) {
  return tray.name;
}
const std::string& name_for_id(const plan::Want& want) {
  return want.crop.empty() ? want.group : want.crop;
}
const std::string& name_for_id(const crop::Packet& packet) {
  return packet.crop;
}
const std::string& name_for_id(const crop::Variety& variety) {
  return variety.name;
}

/// A part that is a list of entries, and not too long a one.
base::Result<void> check_list(const json& body, const std::string& part) {
  constexpr std::size_t kMostEntries = 1000;
  const base::Place place{.file = {}, .line = 0, .column = 0, .field = part};
  if (!body.is_array()) return base::fail(ProblemCode::wrong_type, "must be a list", place, "Send [ … ].");
  if (body.size() <= kMostEntries) return {};
  return base::fail(ProblemCode::too_large, fmt::format("holds more than {} entries", kMostEntries), place);
}

/// Reads a whole list. An entry with the id of one that is there begins as that one, so that what the page
/// does not know of it is kept.
template <class T>
base::Result<void> read_list(const json& body, const std::string& part, std::vector<T>& into) {
  if (auto checked = check_list(body, part); !checked) return checked;
  IdMaker ids;
  for (const json& value : body) {
    if (value.is_object() && value.contains("id") && value["id"].is_string())
      ids.take(value["id"].get<std::string>());
  }
  std::vector<T> list;
  for (std::size_t i = 0; i < body.size(); ++i) {
    JsonFields fields(body[i], fmt::format("{}[{}]", part, i));
    std::string id;
    fields.text("id", id);
    T entry{};
    for (const T& known : into) {
      if (known.id == id) entry = known;
    }
    read_entry(fields, entry);
    if (auto read = fields.finish(); !read) return read;
    entry.id = id.empty() ? ids.make(name_for_id(entry), part + "-1") : id;
    list.push_back(std::move(entry));
  }
  into = std::move(list);
  return {};
}

/// What grew where before: a whole list, whose entries have no ids.
base::Result<void> read_past(const json& body, std::vector<bed::PastCrop>& into) {
  if (auto checked = check_list(body, "past"); !checked) return checked;
  std::vector<bed::PastCrop> list;
  for (std::size_t i = 0; i < body.size(); ++i) {
    JsonFields fields(body[i], fmt::format("past[{}]", i));
    bed::PastCrop past;
    fields.text("bed", past.bed, Need::must);
    fields.number("from_m", past.from_m, Need::must);
    fields.number("to_m", past.to_m, Need::must);
    fields.text("family", past.family, Need::must);
    fields.whole("year", past.year, Need::must);
    if (auto read = fields.finish(); !read) return read;
    list.push_back(std::move(past));
  }
  into = std::move(list);
  return {};
}

base::Result<void> read_about(book::GardenDescription& garden, const json& body) {
  JsonFields fields(body, "");
  fields.text("name", garden.name);
  std::size_t units = book::place_of(book::kGardenUnitWords, garden.units).value_or(0);
  fields.choice("units", book::kGardenUnitWords, units);
  garden.units = book::kGardenUnitWords[units];
  fields.flag("cool_store", garden.cool_store);
  return fields.finish();
}

base::Result<void> check_spot(double latitude_deg, double longitude_deg) {
  if (std::abs(latitude_deg) <= 90.0 && std::abs(longitude_deg) <= 180.0) return {};
  return base::fail(ProblemCode::out_of_range, "there is no such place on earth",
                    {.file = {}, .line = 0, .column = 0, .field = "latitude_deg"},
                    "Latitude lies between -90 and 90, longitude between -180 and 180.");
}

/// What the nearest station lends a spot must be wanted where it lies far off: its height never unasked, its
/// climate only by `far_climate`.
base::Result<void> check_lent(const climate::NearestPlace& nearest, double elevation_m, bool far_climate) {
  if (std::isnan(elevation_m) && nearest.distance_km > climate::kSameClimateKm) {
    return base::fail(ProblemCode::missing_field, "is needed where no built-in station is near",
                      {.file = {}, .line = 0, .column = 0, .field = "elevation_m"},
                      "Give the height of the garden in metres above the sea.");
  }
  if (far_climate || nearest.distance_km < climate::kOtherClimateKm) return {};
  return base::fail(
      ProblemCode::contradiction,
      fmt::format("the nearest built-in station is {}, {:.0f} km away: that is another climate",
                  nearest.station, nearest.distance_km),
      {.file = {}, .line = 0, .column = 0, .field = "far_climate"},
      "Take a weather record of your own, or twelve monthly normals; or say that this climate is to be "
      "taken all the same.");
}

base::Result<climate::PlaceNormals> read_spot(const json& body) {
  JsonFields fields(body, "");
  std::string place;
  std::string name;
  double latitude_deg = 0.0;
  double longitude_deg = 0.0;
  double elevation_m = std::numeric_limits<double>::quiet_NaN();
  bool far_climate = false;
  fields.text("place", place);
  fields.flag("far_climate", far_climate);
  const Need need = place.empty() ? Need::must : Need::may;
  fields.text("name", name, need);
  fields.number("latitude_deg", latitude_deg, need);
  fields.number("longitude_deg", longitude_deg, need);
  fields.number("elevation_m", elevation_m);
  if (auto read = fields.finish(); !read) return tl::unexpected(read.error());
  if (!place.empty()) return climate::find_place(place);
  if (auto checked = check_spot(latitude_deg, longitude_deg); !checked)
    return tl::unexpected(checked.error());
  climate::NearestPlace nearest = climate::nearest_place(latitude_deg, longitude_deg, elevation_m);
  if (auto wanted = check_lent(nearest, elevation_m, far_climate); !wanted)
    return tl::unexpected(wanted.error());
  nearest.place.site.name = name;
  return std::move(nearest.place);
}

base::Result<void> read_place_part(book::GardenDescription& garden, const json& body) {
  auto spot = read_spot(body);
  if (!spot) return tl::unexpected(spot.error());
  const double moved_km = climate::distance_km(garden.site.latitude_deg, garden.site.longitude_deg,
                                               spot->site.latitude_deg, spot->site.longitude_deg);
  if (garden.weather.day_count() > 0 && moved_km > climate::kSameClimateKm) {
    return base::fail(ProblemCode::contradiction,
                      fmt::format("the garden's weather record was made {:.0f} km from there", moved_km),
                      {.file = {}, .line = 0, .column = 0, .field = "place"},
                      "Make a new garden for a place with another climate.");
  }
  garden.site = spot->site;
  garden.normals = spot->normals;
  return {};
}

ordered_json bed_json(const bed::Bed& bed) {
  return {{"id", bed.id},
          {"name", bed.name},
          {"length_m", bed.length_m},
          {"width_m", bed.width_m},
          {"sun", book::word_of(book::kSunWords, bed.sun)},
          {"kind", book::word_of(book::kBedKindWords, bed.kind)},
          {"fed", bed.fed},
          {"pole_end", book::word_of(book::kPoleEndWords, bed.pole_end)}};
}

ordered_json tray_json(const bed::Tray& tray) {
  return {{"id", tray.id},
          {"name", tray.name},
          {"cells", tray.cells},
          {"cell_width_mm", tray.cell_width_mm},
          {"place", book::word_of(book::kTrayPlaceWords, tray.place)},
          {"temp_c", tray.temp_c},
          {"mat_cells", tray.mat_cells},
          {"room_c", tray.room_c ? ordered_json(*tray.room_c) : ordered_json(nullptr)}};
}

ordered_json want_json(const plan::Want& want) {
  return {{"id", want.id},
          {"crop", want.crop},
          {"group", want.group},
          {"variety", want.variety},
          {"amount_per_week", want.amount_per_week},
          {"unit", book::word_of(book::kWantUnitWords, want.unit)},
          {"from", base::to_text(want.from)},
          {"to", base::to_text(want.to)},
          {"priority", want.priority},
          {"size", book::word_of(book::kSizeWords, want.size)},
          {"early", want.early},
          {"total", want.total},
          {"waste_dislike", want.waste_dislike},
          {"bought", want.bought}};
}

ordered_json packet_json(const crop::Packet& packet) {
  return {{"id", packet.id},
          {"crop", packet.crop},
          {"variety", packet.variety},
          {"packed_year", packet.packed_year},
          {"seeds", packet.seeds},
          {"germination_pct",
           packet.germination_pct ? ordered_json(*packet.germination_pct) : ordered_json(nullptr)}};
}

ordered_json variety_json(const crop::Variety& variety) {
  return {{"id", variety.id},
          {"crop", variety.crop},
          {"name", variety.name},
          {"colour", variety.colour},
          {"notes", variety.notes}};
}

ordered_json past_json(const bed::PastCrop& past) {
  return {{"bed", past.bed},
          {"from_m", past.from_m},
          {"to_m", past.to_m},
          {"family", past.family},
          {"year", past.year}};
}

ordered_json site_json(const climate::Site& site) {
  return {{"name", site.name},
          {"latitude_deg", site.latitude_deg},
          {"longitude_deg", site.longitude_deg},
          {"elevation_m", site.elevation_m}};
}

template <class T, class Make>
ordered_json list_json(const std::vector<T>& entries, Make make) {
  ordered_json list = ordered_json::array();
  for (const T& entry : entries) list.push_back(make(entry));
  return list;
}

/// The built-in station whose normals the garden's years are made of; null for a record or normals of its
/// own.
ordered_json lent_climate_json(const book::GardenDescription& garden) {
  if (!garden.normals || garden.weather.day_count() > 0) return nullptr;
  const auto station = climate::station_of_normals(*garden.normals, garden.site);
  if (!station) return nullptr;
  return {{"station", station->name},
          {"distance_km", station->distance_km},
          {"height_difference_m", station->height_difference_m},
          {"far", station->distance_km >= climate::kFarClimateKm},
          {"other", station->distance_km >= climate::kOtherClimateKm}};
}

/// What is wanting before a first plan can be made, in the order in which it is best given.
ordered_json missing_parts(const book::GardenDescription& garden) {
  ordered_json missing = ordered_json::array();
  if (!garden.place_told() || (!garden.normals && garden.weather.day_count() == 0))
    missing.push_back("place");
  if (garden.beds.empty()) missing.push_back("beds");
  if (garden.wants.empty()) missing.push_back("wants");
  return missing;
}

}  // namespace

const std::vector<std::string>& garden_part_names() {
  static const std::vector<std::string> names{"about", "place",     "beds",    "trays",
                                              "wants", "varieties", "packets", "past"};
  return names;
}

base::Result<void> read_garden_part(book::GardenDescription& garden, const std::string& name,
                                    const json& body) {
  if (name == "about") return read_about(garden, body);
  if (name == "place") return read_place_part(garden, body);
  if (name == "beds") return read_list(body, name, garden.beds);
  if (name == "trays") return read_list(body, name, garden.trays);
  if (name == "wants") return read_list(body, name, garden.wants);
  if (name == "varieties") return read_list(body, name, garden.varieties);
  if (name == "packets") return read_list(body, name, garden.packets);
  if (name == "past") return read_past(body, garden.past);
  return base::fail(ProblemCode::not_found, fmt::format("a garden has no part \"{}\"", name.substr(0, 64)),
                    {.file = {}, .line = 0, .column = 0, .field = "part"},
                    fmt::format("Its parts are {}.", fmt::join(garden_part_names(), ", ")));
}

std::string setup_json(const book::GardenDescription& garden, std::size_t event_count) {
  const ordered_json answer{{"name", garden.name},
                            {"units", garden.units},
                            {"cool_store", garden.cool_store},
                            {"site", site_json(garden.site)},
                            {"normals", garden.normals ? garden.normals->source : std::string{}},
                            {"has_normals", garden.normals.has_value()},
                            {"lent_climate", lent_climate_json(garden)},
                            {"weather_days", garden.weather.day_count()},
                            {"beds", list_json(garden.beds, bed_json)},
                            {"trays", list_json(garden.trays, tray_json)},
                            {"wants", list_json(garden.wants, want_json)},
                            {"varieties", list_json(garden.varieties, variety_json)},
                            {"packets", list_json(garden.packets, packet_json)},
                            {"past", list_json(garden.past, past_json)},
                            {"stands", garden.stands.size()},
                            {"events", event_count},
                            {"missing", missing_parts(garden)}};
  return answer.dump(-1, ' ', false, ordered_json::error_handler_t::replace);
}

}  // namespace sowtide::serve::detail
