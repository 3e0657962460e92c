#include "climate/detail/headings.hpp"

#include <algorithm>
#include <array>
#include <vector>

#include "climate/detail/text_scan.hpp"

namespace sowtide::climate::detail {

namespace {

struct FieldFacts {
  Field field;
  std::string_view name;
  Kind kind;
};

constexpr std::array kFields{
    FieldFacts{Field::ignored, "ignore", Kind::none},
    FieldFacts{Field::date, "date", Kind::none},
    FieldFacts{Field::time, "time", Kind::none},
    FieldFacts{Field::year, "year", Kind::none},
    FieldFacts{Field::month, "month", Kind::none},
    FieldFacts{Field::day, "day", Kind::none},
    FieldFacts{Field::day_of_year, "day_of_year", Kind::none},
    FieldFacts{Field::unix_time, "unix_time", Kind::none},
    FieldFacts{Field::unit_system, "unit_system", Kind::none},
    FieldFacts{Field::station, "station", Kind::none},
    FieldFacts{Field::latitude, "latitude", Kind::none},
    FieldFacts{Field::longitude, "longitude", Kind::none},
    FieldFacts{Field::elevation, "elevation", Kind::none},
    FieldFacts{Field::rain_days, "rain_days", Kind::none},
    FieldFacts{Field::tmin, "tmin", Kind::temperature},
    FieldFacts{Field::tmax, "tmax", Kind::temperature},
    FieldFacts{Field::rain, "rain", Kind::length},
    FieldFacts{Field::radiation, "radiation", Kind::radiation},
    FieldFacts{Field::sunshine, "sunshine", Kind::duration},
    FieldFacts{Field::humidity, "humidity", Kind::share},
    FieldFacts{Field::wind, "wind", Kind::speed},
    FieldFacts{Field::temperature, "temperature", Kind::temperature},
    FieldFacts{Field::dew_point, "dew_point", Kind::temperature},
    FieldFacts{Field::vapour_pressure, "vapour_pressure", Kind::pressure},
    FieldFacts{Field::humidity_max, "humidity_max", Kind::share},
    FieldFacts{Field::humidity_min, "humidity_min", Kind::share},
    FieldFacts{Field::grass_minimum, "grass_minimum", Kind::temperature},
    FieldFacts{Field::soil_temperature, "soil_temperature", Kind::temperature},
    FieldFacts{Field::reference_et, "reference_et", Kind::length},
    FieldFacts{Field::snow_depth, "snow_depth", Kind::length},
};

struct Alias {
  std::string_view name;  ///< words joined by '_', lower case
  Field field;
  int rank;
};

// Words of the trade, of the national services' exports and of public weather services, as collected in
// docs/formats/weather.md. Rank: a day's total precipitation before rain alone; a date before a time stamp.
// A plain array: clang 14 cannot deduce the size of a std::array beyond 256.
constexpr Alias kAliases[] = {
    Alias{"date", Field::date, 0},
    Alias{"day_date", Field::date, 0},
    Alias{"obs_date", Field::date, 0},
    Alias{"observation_date", Field::date, 0},
    Alias{"local_date", Field::date, 0},
    Alias{"lst_date", Field::date, 0},
    Alias{"yyyymmdd", Field::date, 0},
    Alias{"yyyy_mm_dd", Field::date, 0},
    Alias{"year_doy", Field::date, 0},
    Alias{"date_time", Field::date, 1},
    Alias{"date/time", Field::date, 1},
    Alias{"datetime", Field::date, 1},
    Alias{"timestamp", Field::date, 1},
    Alias{"time_stamp", Field::date, 1},
    Alias{"valid_time", Field::date, 1},
    Alias{"valid", Field::date, 1},
    Alias{"datum", Field::date, 1},
    Alias{"time", Field::time, 0},
    Alias{"hour", Field::time, 1},
    Alias{"time_of_day", Field::time, 0},
    Alias{"local_time", Field::time, 0},
    Alias{"lst_time", Field::time, 0},
    Alias{"year", Field::year, 0},
    Alias{"yr", Field::year, 0},
    Alias{"yyyy", Field::year, 0},
    Alias{"month", Field::month, 0},
    Alias{"mon", Field::month, 0},
    Alias{"mo", Field::month, 0},
    Alias{"mm", Field::month, 1},
    Alias{"day", Field::day, 0},
    Alias{"dd", Field::day, 1},
    Alias{"day_of_month", Field::day, 0},
    Alias{"dy", Field::day, 1},
    Alias{"day_of_year", Field::day_of_year, 0},
    Alias{"doy", Field::day_of_year, 0},
    Alias{"yday", Field::day_of_year, 0},
    Alias{"julian_day", Field::day_of_year, 0},
    Alias{"jday", Field::day_of_year, 0},
    Alias{"unix_time", Field::unix_time, 0},
    Alias{"unixtime", Field::unix_time, 0},
    Alias{"epoch", Field::unix_time, 0},
    Alias{"usunits", Field::unit_system, 0},
    Alias{"us_units", Field::unit_system, 0},
    Alias{"station", Field::station, 0},
    Alias{"station_id", Field::station, 0},
    Alias{"location", Field::station, 0},
    Alias{"site", Field::station, 0},
    Alias{"city", Field::station, 1},
    Alias{"place", Field::station, 1},
    Alias{"station_name", Field::station, 1},
    Alias{"climate_id", Field::station, 0},
    Alias{"stn", Field::station, 0},
    Alias{"wban", Field::station, 1},
    Alias{"wbanno", Field::station, 0},
    Alias{"bureau_of_meteorology_station_number", Field::station, 0},
    Alias{"latitude", Field::latitude, 0},
    Alias{"lat", Field::latitude, 0},
    Alias{"longitude", Field::longitude, 0},
    Alias{"lon", Field::longitude, 0},
    Alias{"long", Field::longitude, 1},
    Alias{"lng", Field::longitude, 1},
    Alias{"elevation", Field::elevation, 0},
    Alias{"elev", Field::elevation, 0},
    Alias{"altitude", Field::elevation, 1},

    Alias{"tmin", Field::tmin, 0},
    Alias{"t_min", Field::tmin, 0},
    Alias{"temp_min", Field::tmin, 0},
    Alias{"min_temp", Field::tmin, 0},
    Alias{"tempmin", Field::tmin, 0},
    Alias{"mintemp", Field::tmin, 0},
    Alias{"mintp", Field::tmin, 0},
    Alias{"mint", Field::tmin, 0},
    Alias{"min_t", Field::tmin, 0},
    Alias{"temperature_min", Field::tmin, 0},
    Alias{"min_temperature", Field::tmin, 0},
    Alias{"minimum_temperature", Field::tmin, 0},
    Alias{"minimum_air_temperature", Field::tmin, 0},
    Alias{"temperature_minimum", Field::tmin, 0},
    Alias{"air_temperature_min", Field::tmin, 0},
    Alias{"air_temp_min", Field::tmin, 0},
    Alias{"min_air_temp", Field::tmin, 0},
    Alias{"min_air_temperature", Field::tmin, 0},
    Alias{"minimum_temp", Field::tmin, 0},
    Alias{"temp_low", Field::tmin, 0},
    Alias{"low_temp", Field::tmin, 0},
    Alias{"low_temperature", Field::tmin, 0},
    Alias{"temperature_low", Field::tmin, 0},
    Alias{"low", Field::tmin, 1},
    Alias{"lowest_temperature", Field::tmin, 0},
    Alias{"minimum", Field::tmin, 1},
    Alias{"min", Field::tmin, 1},
    Alias{"tn", Field::tmin, 0},
    Alias{"t_daily_min", Field::tmin, 0},
    Alias{"daily_min_temperature", Field::tmin, 0},
    Alias{"daily_minimum_temperature", Field::tmin, 0},
    Alias{"tmin_daily", Field::tmin, 0},
    Alias{"tasmin", Field::tmin, 0},

    Alias{"tmax", Field::tmax, 0},
    Alias{"t_max", Field::tmax, 0},
    Alias{"temp_max", Field::tmax, 0},
    Alias{"max_temp", Field::tmax, 0},
    Alias{"tempmax", Field::tmax, 0},
    Alias{"maxtemp", Field::tmax, 0},
    Alias{"maxtp", Field::tmax, 0},
    Alias{"maxt", Field::tmax, 0},
    Alias{"max_t", Field::tmax, 0},
    Alias{"temperature_max", Field::tmax, 0},
    Alias{"max_temperature", Field::tmax, 0},
    Alias{"maximum_temperature", Field::tmax, 0},
    Alias{"maximum_air_temperature", Field::tmax, 0},
    Alias{"temperature_maximum", Field::tmax, 0},
    Alias{"air_temperature_max", Field::tmax, 0},
    Alias{"air_temp_max", Field::tmax, 0},
    Alias{"max_air_temp", Field::tmax, 0},
    Alias{"max_air_temperature", Field::tmax, 0},
    Alias{"maximum_temp", Field::tmax, 0},
    Alias{"temp_high", Field::tmax, 0},
    Alias{"high_temp", Field::tmax, 0},
    Alias{"high_temperature", Field::tmax, 0},
    Alias{"temperature_high", Field::tmax, 0},
    Alias{"high", Field::tmax, 1},
    Alias{"highest_temperature", Field::tmax, 0},
    Alias{"maximum", Field::tmax, 1},
    Alias{"max", Field::tmax, 1},
    Alias{"tx", Field::tmax, 0},
    Alias{"t_daily_max", Field::tmax, 0},
    Alias{"daily_max_temperature", Field::tmax, 0},
    Alias{"daily_maximum_temperature", Field::tmax, 0},
    Alias{"tmax_daily", Field::tmax, 0},
    Alias{"tasmax", Field::tmax, 0},

    Alias{"precipitation", Field::rain, 0},
    Alias{"precip", Field::rain, 0},
    Alias{"prcp", Field::rain, 0},
    Alias{"ppt", Field::rain, 0},
    Alias{"pcp", Field::rain, 0},
    Alias{"prec", Field::rain, 0},
    Alias{"total_precip", Field::rain, 0},
    Alias{"total_precipitation", Field::rain, 0},
    Alias{"precipitation_sum", Field::rain, 0},
    Alias{"precipitation_amount", Field::rain, 0},
    Alias{"precipitation_total", Field::rain, 0},
    Alias{"precip_total", Field::rain, 0},
    Alias{"daily_precipitation", Field::rain, 0},
    Alias{"precip_amount", Field::rain, 0},
    Alias{"p_daily_calc", Field::rain, 0},
    Alias{"rr", Field::rain, 0},
    Alias{"rain", Field::rain, 1},
    Alias{"rainfall", Field::rain, 1},
    Alias{"rain_sum", Field::rain, 1},
    Alias{"total_rain", Field::rain, 1},
    Alias{"rainfall_amount", Field::rain, 1},
    Alias{"daily_rain", Field::rain, 1},
    Alias{"daily_rainfall", Field::rain, 1},
    Alias{"rain_total", Field::rain, 1},
    Alias{"rainfall_total", Field::rain, 1},
    Alias{"period_over_which_rainfall_was_measured", Field::rain_days, 0},

    Alias{"radiation", Field::radiation, 0},
    Alias{"solar_radiation", Field::radiation, 0},
    Alias{"global_radiation", Field::radiation, 0},
    Alias{"shortwave_radiation_sum", Field::radiation, 0},
    Alias{"shortwave_radiation", Field::radiation, 0},
    Alias{"srad", Field::radiation, 0},
    Alias{"radn", Field::radiation, 0},
    Alias{"rad", Field::radiation, 1},
    Alias{"rs", Field::radiation, 1},
    Alias{"solar", Field::radiation, 1},
    Alias{"solar_rad", Field::radiation, 0},
    Alias{"ghi", Field::radiation, 1},
    Alias{"solarad_daily", Field::radiation, 0},
    Alias{"solar_energy", Field::radiation, 1},
    Alias{"global_horizontal_irradiance", Field::radiation, 1},
    Alias{"global_solar_radiation", Field::radiation, 0},

    Alias{"sunshine", Field::sunshine, 0},
    Alias{"sunshine_hours", Field::sunshine, 0},
    Alias{"sunshine_duration", Field::sunshine, 0},
    Alias{"hours_of_sunshine", Field::sunshine, 0},
    Alias{"bright_sunshine", Field::sunshine, 0},
    Alias{"sun", Field::sunshine, 1},
    Alias{"sun_hours", Field::sunshine, 0},

    Alias{"humidity", Field::humidity, 0},
    Alias{"rh", Field::humidity, 1},
    Alias{"rh_mean", Field::humidity, 0},
    Alias{"mean_rh", Field::humidity, 0},
    Alias{"rhmean", Field::humidity, 0},
    Alias{"rh_avg", Field::humidity, 0},
    Alias{"avg_rh", Field::humidity, 0},
    Alias{"relative_humidity", Field::humidity, 0},
    Alias{"mean_relative_humidity", Field::humidity, 0},
    Alias{"relative_humidity_mean", Field::humidity, 0},
    Alias{"humidity_mean", Field::humidity, 0},
    Alias{"mean_humidity", Field::humidity, 0},
    Alias{"average_humidity", Field::humidity, 0},
    Alias{"hum", Field::humidity, 1},
    Alias{"outhumidity", Field::humidity, 0},
    Alias{"hum_out", Field::humidity, 0},
    Alias{"rel_hum", Field::humidity, 0},
    Alias{"rhum", Field::humidity, 0},
    Alias{"humidity_avg", Field::humidity, 0},
    Alias{"humidity_max", Field::humidity_max, 0},
    Alias{"rhmax", Field::humidity_max, 0},
    Alias{"rh_max", Field::humidity_max, 0},
    Alias{"max_rh", Field::humidity_max, 0},
    Alias{"max_humidity", Field::humidity_max, 0},
    Alias{"relative_humidity_max", Field::humidity_max, 0},
    Alias{"max_relative_humidity", Field::humidity_max, 0},
    Alias{"maximum_relative_humidity", Field::humidity_max, 0},
    Alias{"humidity_min", Field::humidity_min, 0},
    Alias{"rhmin", Field::humidity_min, 0},
    Alias{"rh_min", Field::humidity_min, 0},
    Alias{"min_rh", Field::humidity_min, 0},
    Alias{"min_humidity", Field::humidity_min, 0},
    Alias{"relative_humidity_min", Field::humidity_min, 0},
    Alias{"min_relative_humidity", Field::humidity_min, 0},
    Alias{"minimum_relative_humidity", Field::humidity_min, 0},

    Alias{"wind", Field::wind, 0},
    Alias{"wind_speed", Field::wind, 0},
    Alias{"windspeed", Field::wind, 0},
    Alias{"wind_speed_mean", Field::wind, 0},
    Alias{"windspeed_mean", Field::wind, 0},
    Alias{"mean_wind_speed", Field::wind, 0},
    Alias{"average_wind_speed", Field::wind, 0},
    Alias{"avg_wind_speed", Field::wind, 0},
    Alias{"wind_mean", Field::wind, 0},
    Alias{"wind_avg", Field::wind, 0},
    Alias{"wind_ave", Field::wind, 0},
    Alias{"wind_speed_avg", Field::wind, 0},
    Alias{"mean_wind", Field::wind, 0},
    Alias{"avg_wind", Field::wind, 0},
    Alias{"wdsp", Field::wind, 0},
    Alias{"wndsp", Field::wind, 0},
    Alias{"awnd", Field::wind, 0},
    Alias{"wspd", Field::wind, 0},
    Alias{"ws", Field::wind, 1},
    Alias{"u2", Field::wind, 0},

    Alias{"temperature", Field::temperature, 0},
    Alias{"temp", Field::temperature, 0},
    Alias{"air_temperature", Field::temperature, 0},
    Alias{"air_temp", Field::temperature, 0},
    Alias{"tavg", Field::temperature, 0},
    Alias{"tmean", Field::temperature, 0},
    Alias{"t_mean", Field::temperature, 0},
    Alias{"mean_temp", Field::temperature, 0},
    Alias{"mean_temperature", Field::temperature, 0},
    Alias{"temperature_mean", Field::temperature, 0},
    Alias{"temp_mean", Field::temperature, 0},
    Alias{"avg_temp", Field::temperature, 0},
    Alias{"temp_avg", Field::temperature, 0},
    Alias{"average_temperature", Field::temperature, 0},
    Alias{"outtemp", Field::temperature, 0},
    Alias{"temp_out", Field::temperature, 0},
    Alias{"outdoor_temperature", Field::temperature, 0},
    Alias{"t_daily_avg", Field::temperature, 0},
    Alias{"dry_bulb", Field::temperature, 1},

    Alias{"dew_point", Field::dew_point, 0},
    Alias{"dewpoint", Field::dew_point, 0},
    Alias{"tdew", Field::dew_point, 0},
    Alias{"dewp", Field::dew_point, 0},
    Alias{"dew_point_mean", Field::dew_point, 0},
    Alias{"dewpoint_mean", Field::dew_point, 0},
    Alias{"dew_point_temperature", Field::dew_point, 0},
    Alias{"dewpoint_temperature", Field::dew_point, 0},
    Alias{"mean_dew_point", Field::dew_point, 0},
    Alias{"dew", Field::dew_point, 1},
    Alias{"vapour_pressure", Field::vapour_pressure, 0},
    Alias{"vapor_pressure", Field::vapour_pressure, 0},
    Alias{"vapr", Field::vapour_pressure, 0},
    Alias{"actual_vapour_pressure", Field::vapour_pressure, 0},
    Alias{"gmin", Field::grass_minimum, 0},
    Alias{"grass_minimum", Field::grass_minimum, 0},
    Alias{"grass_min", Field::grass_minimum, 0},
    Alias{"grass_minimum_temperature", Field::grass_minimum, 0},
    Alias{"ground_minimum", Field::grass_minimum, 0},
    Alias{"et0", Field::reference_et, 0},
    Alias{"eto", Field::reference_et, 0},
    Alias{"et0_fao_evapotranspiration", Field::reference_et, 0},
    Alias{"referenceet", Field::reference_et, 0},
    Alias{"reference_et", Field::reference_et, 0},
    Alias{"etref", Field::reference_et, 0},
    Alias{"reference_evapotranspiration", Field::reference_et, 0},
    Alias{"snwd", Field::snow_depth, 0},
    Alias{"snow_depth", Field::snow_depth, 0},
    Alias{"snow_on_grnd", Field::snow_depth, 0},
};

constexpr std::array<std::string_view, 3> kSoilStarts{"soil_temp", "soil_temperature", "soiltemp"};

bool alphanumeric(char c) {
  return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || static_cast<unsigned char>(c) >= 0x80;
}

/// Lower-case words of a heading; everything else parts them. "%" and "/" stay, for the units.
std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> words;
  std::string word;
  const std::string low = lower_case(text);
  for (const char c : low) {
    if (alphanumeric(c) || c == '%' || (c == '/' && !word.empty())) {
      word += c;
      continue;
    }
    if (!word.empty()) words.push_back(std::exchange(word, {}));
  }
  if (!word.empty()) words.push_back(std::move(word));
  return words;
}

std::string joined(const std::vector<std::string>& words, std::size_t begin, std::size_t end) {
  std::string out;
  for (std::size_t i = begin; i < end; ++i) {
    if (i > begin) out += '_';
    out += words[i];
  }
  return out;
}

const Alias* alias_named(std::string_view name) {
  const auto found = std::ranges::find(kAliases, name, &Alias::name);
  return found == std::ranges::end(kAliases) ? nullptr : &*found;
}

/// "2m" or "10m" among the words: taken out and returned as metres.
std::optional<double> take_height(std::vector<std::string>& words) {
  for (auto word = words.begin(); word != words.end(); ++word) {
    if (word->size() < 2 || word->back() != 'm') continue;
    const auto metres = whole_of(std::string_view(*word).substr(0, word->size() - 1));
    if (!metres || *metres > 200) continue;
    words.erase(word);
    return static_cast<double>(*metres);
  }
  return std::nullopt;
}

/// The text outside brackets, and what stands in the last pair of them.
struct Bracketed {
  std::string outside;
  std::string inside;
};

Bracketed part_brackets(std::string_view text) {
  Bracketed out;
  const auto open = text.find_first_of("([{");
  if (open == std::string_view::npos) {
    out.outside = text;
    return out;
  }
  const auto close = text.find_first_of(")]}", open);
  out.outside = text.substr(0, open);
  out.inside = trimmed(text.substr(open + 1, close == std::string_view::npos ? close : close - open - 1));
  if (close != std::string_view::npos) {
    out.outside += ' ';
    out.outside += text.substr(close + 1);
  }
  return out;
}

void name_unit(Heading& heading, std::string_view unit) {
  heading.conversion = conversion_of(kind_of(heading.field), unit);
  if (!heading.conversion) heading.strange_unit = unit;
}

/// A soil temperature's depth: the words after its name ("10cm", "0_to_7cm", "5").
bool take_soil(const std::vector<std::string>& words, Heading& heading) {
  for (std::size_t count = 1; count <= std::min<std::size_t>(2, words.size()); ++count) {
    const std::string start = joined(words, 0, count);
    if (std::ranges::find(kSoilStarts, start) == kSoilStarts.end()) continue;
    heading.field = Field::soil_temperature;
    std::size_t end = words.size();
    if (end > count && conversion_of(Kind::temperature, words[end - 1])) name_unit(heading, words[--end]);
    heading.depth = joined(words, count, end);
    return true;
  }
  return false;
}

/// Finds the field among the words: all of them, or all but the last few when those name a unit that fits.
bool take_words(const std::vector<std::string>& words, Heading& heading) {
  if (const Alias* alias = alias_named(joined(words, 0, words.size()))) {
    heading.field = alias->field;
    heading.rank = alias->rank;
    return true;
  }
  for (std::size_t unit_words = 1; unit_words <= 4 && unit_words < words.size(); ++unit_words) {
    const std::size_t end = words.size() - unit_words;
    const Alias* alias = alias_named(joined(words, 0, end));
    if (alias == nullptr) continue;
    const Kind kind = kind_of(alias->field);
    const std::string unit = joined(words, end, words.size());
    const bool metres =
        alias->field == Field::elevation && (unit == "m" || unit == "metres" || unit == "meters");
    const auto conversion = conversion_of(kind, unit);
    if (!conversion && !metres) continue;
    heading.field = alias->field;
    heading.rank = alias->rank;
    heading.conversion = conversion;
    return true;
  }
  return false;
}

}  // namespace

std::string_view field_text(Field field) {
  const auto found = std::ranges::find(kFields, field, &FieldFacts::field);
  return found == kFields.end() ? "none" : found->name;
}

std::optional<Field> field_named(std::string_view name) {
  const auto found =
      std::ranges::find(kFields, lower_case(name), [](const FieldFacts& f) { return std::string(f.name); });
  return found == kFields.end() ? std::nullopt : std::optional(found->field);
}

Kind kind_of(Field field) {
  const auto found = std::ranges::find(kFields, field, &FieldFacts::field);
  return found == kFields.end() ? Kind::none : found->kind;
}

std::optional<Variable> variable_of(Field field) {
  switch (field) {
    case Field::tmin:
      return Variable::tmin;
    case Field::tmax:
      return Variable::tmax;
    case Field::rain:
      return Variable::rain;
    case Field::radiation:
      return Variable::radiation;
    case Field::sunshine:
      return Variable::sunshine;
    case Field::humidity:
      return Variable::humidity;
    case Field::wind:
      return Variable::wind;
    default:
      return std::nullopt;
  }
}

Heading read_heading(std::string_view text) {
  Heading heading;
  if (text.size() > 200) return heading;
  const Bracketed parts = part_brackets(text);
  std::string name = parts.outside;
  std::string unit = parts.inside;
  // A logger's "Temp, °F (serial 1)": the unit stands after the comma, the bracket holds something else.
  const auto comma = name.find(',');
  if (comma != std::string::npos) {
    unit = trimmed(std::string_view(name).substr(comma + 1));
    name.resize(comma);
  }
  std::vector<std::string> words = words_of(name);
  if (words.empty() || words.size() > 12) return heading;
  if (take_soil(words, heading)) {
    if (!unit.empty()) name_unit(heading, unit);
    return heading;
  }
  bool found = take_words(words, heading);
  if (!found) {
    heading.height_m = take_height(words);
    found = heading.height_m && !words.empty() && take_words(words, heading);
  }
  // "Latitude (y)" and "Date Time, GMT-05:00" name no unit; only quantities do.
  if (found && !unit.empty() && kind_of(heading.field) != Kind::none) name_unit(heading, unit);
  return heading;
}

}  // namespace sowtide::climate::detail
