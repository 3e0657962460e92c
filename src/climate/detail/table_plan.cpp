// Which column is what: headings, unit line and options put together.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "climate/detail/table_reader.hpp"

namespace sowtide::climate::detail {

using base::fail;
using base::Problem;
using base::ProblemCode;

namespace {

constexpr std::array kWeatherFields{Field::tmin,          Field::tmax,
                                    Field::rain,          Field::radiation,
                                    Field::sunshine,      Field::humidity,
                                    Field::wind,          Field::temperature,
                                    Field::dew_point,     Field::vapour_pressure,
                                    Field::humidity_max,  Field::humidity_min,
                                    Field::grass_minimum, Field::reference_et,
                                    Field::snow_depth};

std::string listed(const std::vector<std::string>& names) {
  std::string out;
  std::size_t count = 0;
  for (const std::string& name : names) {
    if (count++ == 12) return out + ", ...";
    out += (out.empty() ? "" : ", ") + shown(name);
  }
  return out;
}

class Planner {
 public:
  Planner(const std::vector<std::string>& heading, int line, const std::vector<std::string>& units,
          const std::string& file, const ReadOptions& options)
      : heading_(heading), units_(units), where_{file, line, 0, ""}, options_(options) {}

  base::Result<TablePlan> plan() {
    for (std::size_t i = 0; i < heading_.size(); ++i) read_.push_back(read_heading(heading_[i]));
    add_unit_line();
    if (auto problem = apply_choices()) return tl::unexpected(*problem);
    if (auto problem = place_names()) return tl::unexpected(*problem);
    if (auto problem = place_weather()) return tl::unexpected(*problem);
    if (auto problem = check_rain_unit()) return tl::unexpected(*problem);
    if (auto problem = check_complete()) return tl::unexpected(*problem);
    for (std::size_t i = 0; i < heading_.size(); ++i) {
      if (read_[i].field == Field::none && !heading_[i].empty()) plan_.unread.push_back(heading_[i]);
    }
    return std::move(plan_);
  }

 private:
  void add_unit_line() {
    for (std::size_t i = 0; i < units_.size() && i < read_.size(); ++i) {
      if (units_[i].empty() || kind_of(read_[i].field) == Kind::none) continue;
      read_[i].conversion = conversion_of(kind_of(read_[i].field), units_[i]);
      if (!read_[i].conversion) read_[i].strange_unit = units_[i];
    }
  }

  std::optional<Problem> apply_choices() {
    for (const ColumnChoice& choice : options_.columns) {
      const auto column = column_named(heading_, choice.column);
      if (!column) {
        return at(ProblemCode::not_found, fmt::format("there is no column \"{}\"", shown(choice.column)),
                  choice.column, "The columns are: " + listed(heading_) + ".");
      }
      const auto field = field_named(choice.field);
      if (!field) {
        return at(
            ProblemCode::unknown_field, fmt::format("\"{}\" is not a field", shown(choice.field)),
            choice.column,
            "Fields are date, time, year, month, day, day_of_year, station, tmin, tmax, rain, radiation, "
            "sunshine, humidity, wind, temperature, dew_point and others; see docs/formats/weather.md.");
      }
      // A chosen column is the only one for its field.
      for (Heading& other : read_) {
        if (other.field == *field) other.field = Field::ignored;
      }
      Heading& read = read_[*column];
      if (read.field != *field && kind_of(read.field) != kind_of(*field)) read.conversion.reset();
      read.field = *field;
      read.strange_unit.clear();
      if (!choice.unit.empty()) {
        read.conversion = conversion_of(kind_of(*field), choice.unit);
        if (!read.conversion) read.strange_unit = choice.unit;
      }
    }
    return apply_units();
  }

  std::optional<Problem> apply_units() {
    for (const UnitChoice& choice : options_.units) {
      const auto field = field_named(choice.field);
      if (!field || kind_of(*field) == Kind::none) {
        return at(ProblemCode::unknown_field,
                  fmt::format("\"{}\" is not a field with a unit", shown(choice.field)), choice.field,
                  "Name tmin, tmax, rain, radiation, sunshine, humidity, wind or another field of weather.");
      }
      for (Heading& read : read_) {
        if (read.field != *field) continue;
        read.conversion = conversion_of(kind_of(*field), choice.unit);
        read.strange_unit = read.conversion ? "" : choice.unit;
      }
      if (!conversion_of(kind_of(*field), choice.unit)) return strange(choice.unit, *field, choice.field);
    }
    return std::nullopt;
  }

  /// The column of a field with the lowest rank; two of the same rank cannot be told apart.
  std::optional<Problem> find(Field field, std::optional<std::size_t>& place) {
    std::optional<std::size_t> rival;
    for (std::size_t i = 0; i < read_.size(); ++i) {
      if (read_[i].field != field) continue;
      if (!place || read_[i].rank < read_[*place].rank) {
        place = i;
        rival.reset();
      } else if (read_[i].rank == read_[*place].rank) {
        rival = i;
      }
    }
    const bool harmless = kind_of(field) == Kind::none && field != Field::date;  // two station columns, say
    if (!rival || harmless) return std::nullopt;
    return at(ProblemCode::ambiguous,
              fmt::format("two columns could be {}: \"{}\" and \"{}\"", field_text(field),
                          shown(heading_[*place]), shown(heading_[*rival])),
              field_text(field), "Name the one to read by the column option.");
  }

  std::optional<Problem> place_names() {
    const std::array<std::pair<Field, std::optional<std::size_t>*>, 13> names{
        {{Field::date, &plan_.date},
         {Field::time, &plan_.time},
         {Field::year, &plan_.year},
         {Field::month, &plan_.month},
         {Field::day, &plan_.day},
         {Field::day_of_year, &plan_.day_of_year},
         {Field::unix_time, &plan_.unix_time},
         {Field::unit_system, &plan_.unit_system},
         {Field::station, &plan_.station},
         {Field::rain_days, &plan_.rain_days},
         {Field::latitude, &plan_.latitude},
         {Field::longitude, &plan_.longitude},
         {Field::elevation, &plan_.elevation}}};
    for (const auto& [field, place] : names) {
      if (auto problem = find(field, *place)) return problem;
    }
    // "time" alone is how public weather services head their dates.
    if (!plan_.dated() && plan_.time) plan_.date = std::exchange(plan_.time, std::nullopt);
    if (!plan_.dated() && plan_.day) plan_.date = std::exchange(plan_.day, std::nullopt);
    return std::nullopt;
  }

  void add(std::size_t place, Field field) {
    Column column{
        .index = place, .field = field, .height_m = read_[place].height_m, .heading = heading_[place]};
    column.conversion = read_[place].conversion.value_or(Conversion{});
    column.bare = !read_[place].conversion;
    plan_.values.push_back(std::move(column));
  }

  std::optional<Problem> place_weather() {
    for (const Field field : kWeatherFields) {
      std::optional<std::size_t> place;
      if (auto problem = find(field, place)) return problem;
      if (!place) continue;
      if (!read_[*place].strange_unit.empty())
        return strange(read_[*place].strange_unit, field, heading_[*place]);
      add(*place, field);
    }
    for (std::size_t i = 0; i < read_.size(); ++i) {
      if (read_[i].field != Field::soil_temperature) continue;
      if (!read_[i].strange_unit.empty())
        return strange(read_[i].strange_unit, Field::soil_temperature, heading_[i]);
      add(i, Field::soil_temperature);
      plan_.values.back().heading = read_[i].depth;
    }
    return std::nullopt;
  }

  /// Degrees Fahrenheit beside rain without a unit: inches are as likely as millimetres.
  std::optional<Problem> check_rain_unit() {
    bool fahrenheit = false, bare_rain = false;
    std::string_view rain;
    for (const Column& column : plan_.values) {
      const auto& conversion = read_[column.index].conversion;
      const bool extreme = column.field == Field::tmin || column.field == Field::tmax;
      fahrenheit |= extreme && conversion && conversion->shift < -17.0 && conversion->shift > -18.0;
      if (column.field == Field::rain && !conversion) {
        bare_rain = true;
        rain = heading_[column.index];
      }
    }
    if (!fahrenheit || !bare_rain) return std::nullopt;
    return at(ProblemCode::ambiguous,
              fmt::format("the temperatures are in °F but \"{}\" names no unit", shown(rain)), "rain",
              "Name it in the heading, as in \"rain_in\" or \"rain_mm\", or by the unit option.");
  }

  std::optional<Problem> check_complete() {
    std::vector<std::string> named = heading_;
    if (!plan_.dated()) {
      return at(ProblemCode::missing_field, "no column holds the date", "date",
                "Head one column \"date\" (or year, month and day), or name it by the column option. The "
                "columns are: " +
                    listed(named) + ".");
    }
    if (plan_.values.empty()) {
      return at(ProblemCode::missing_field, "no column holds weather", "tmin",
                "Head the columns tmin, tmax, rain and so on, or name them by the column option. The columns "
                "are: " +
                    listed(named) + ".");
    }
    return std::nullopt;
  }

  Problem strange(std::string_view unit, Field field, std::string_view heading) const {
    return at(ProblemCode::wrong_unit,
              fmt::format("\"{}\" is not a unit of {}", shown(unit), field_text(field)), heading,
              fmt::format("Known are {}. Name one in the heading or by the unit option.",
                          known_units(kind_of(field))));
  }

  Problem at(ProblemCode code, std::string what, std::string_view field, std::string remedy) const {
    base::Place where = where_;
    where.field = shown(field);
    return {code, std::move(what), std::move(where), std::move(remedy)};
  }

  const std::vector<std::string>& heading_;
  const std::vector<std::string>& units_;
  base::Place where_;
  const ReadOptions& options_;
  std::vector<Heading> read_;
  TablePlan plan_;
};

}  // namespace

bool TablePlan::dated() const {
  return date || unix_time || (year && day_of_year) || (year && month && day);
}

base::Result<TablePlan> plan_table(const std::vector<std::string>& heading, int heading_line,
                                   const std::vector<std::string>& units_line, const std::string& file,
                                   const ReadOptions& options) {
  return Planner(heading, heading_line, units_line, file, options).plan();
}

}  // namespace sowtide::climate::detail
