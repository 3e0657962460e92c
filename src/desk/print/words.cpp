#include "desk/print/words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <sstream>
#include <stdexcept>

#include "base/quantity.hpp"
#include "base/toml.hpp"

namespace sowtide::desk::print {

namespace detail {
/// The files of src/desk/print/texts, made by the build.
const std::map<std::string, std::string_view>& print_texts();
}  // namespace detail

namespace {

/// Two levels: [section] key = "text".
Catalogue read_catalogue(const std::string& name, std::string_view text) {
  const auto document = base::parse_toml(text, name + ".toml");
  if (!document) throw std::logic_error(base::to_text(document.error()));
  Catalogue out;
  for (const base::TomlMember& section : std::get<base::TomlMembers>(document->data)) {
    for (const base::TomlMember& entry : std::get<base::TomlMembers>(section.second.data)) {
      out.emplace(section.first + "." + entry.first, std::get<std::string>(entry.second.data));
    }
  }
  return out;
}

const std::map<std::string, Catalogue>& all_catalogues() {
  static const std::map<std::string, Catalogue> catalogues = [] {
    std::map<std::string, Catalogue> read;
    for (const auto& [name, text] : detail::print_texts()) read.emplace(name, read_catalogue(name, text));
    return read;
  }();
  return catalogues;
}

std::string word(const std::string& list, int index) {
  std::istringstream words(list);
  std::string found;
  for (int i = 0; i < index; ++i) words >> found;
  return found;
}

bool is_digit(char c) {
  return std::isdigit(static_cast<unsigned char>(c)) != 0;
}

}  // namespace

std::vector<std::string> languages() {
  std::vector<std::string> names;
  for (const auto& [name, catalogue] : all_catalogues()) names.push_back(name);
  return names;
}

base::Result<const Catalogue*> catalogue(std::string_view language) {
  const auto found = all_catalogues().find(std::string(language));
  if (found != all_catalogues().end()) return &found->second;
  std::string known;
  for (const std::string& name : languages()) known += (known.empty() ? "" : ", ") + name;
  return base::fail(base::ProblemCode::not_found, fmt::format("there are no texts in \"{}\"", language),
                    {.field = "--language"}, "There are: " + known);
}

const std::string* Words::find(std::string_view key) const {
  const auto found = catalogue_->find(key);
  return found == catalogue_->end() ? nullptr : &found->second;
}

std::string Words::say(std::string_view key, Values values) const {
  const std::string* pattern = find(key);
  if (pattern == nullptr) return fmt::format("⟦{}⟧", key);
  std::string out;
  for (std::size_t i = 0; i < pattern->size(); ++i) {
    const std::size_t end = (*pattern)[i] == '{' ? pattern->find('}', i) : std::string::npos;
    if (end == std::string::npos) {
      out += (*pattern)[i];
      continue;
    }
    const std::string_view name = std::string_view(*pattern).substr(i + 1, end - i - 1);
    const auto* value =
        std::find_if(values.begin(), values.end(), [name](const auto& v) { return v.first == name; });
    out += value == values.end() ? fmt::format("⟦{}⟧", name) : value->second;
    i = end;
  }
  return out;
}

std::string Words::localised(std::string text) const {
  const std::string mark = say("number.decimal");
  for (std::size_t i = 1; i + 1 < text.size(); ++i) {
    if (text[i] == '.' && is_digit(text[i - 1]) && is_digit(text[i + 1])) text[i] = mark.front();
  }
  return text;
}

std::string Words::month(int month) const {
  return word(say("date.months"), month);
}
std::string Words::full_month(int month) const {
  return word(say("date.full_months"), month);
}

std::string Words::day(base::Date date, base::Date reference) const {
  if (base::year_of(date) != base::year_of(reference)) return long_day(date);
  return day(base::month_day_of(date));
}

std::string Words::day(base::MonthDay day) const {
  return say(units_ == Units::us ? "date.day_us" : "date.day",
             {{"day", std::to_string(day.day)}, {"month", month(day.month)}});
}

std::string Words::long_day(base::Date date) const {
  return say(units_ == Units::us ? "date.long_us" : "date.long",
             {{"day", std::to_string(base::day_of_month(date))},
              {"month", month(base::month_of(date))},
              {"year", std::to_string(base::year_of(date))}});
}

std::string Words::days(base::Date from, base::Date to, base::Date reference) const {
  if (from == to) return day(from, reference);
  const bool same_month =
      base::year_of(from) == base::year_of(to) && base::month_of(from) == base::month_of(to);
  if (same_month && base::year_of(from) == base::year_of(reference)) {
    return say(units_ == Units::us ? "date.within_month_us" : "date.within_month",
               {{"from", std::to_string(base::day_of_month(from))},
                {"to", std::to_string(base::day_of_month(to))},
                {"month", month(base::month_of(from))}});
  }
  return say("date.range", {{"from", day(from, reference)}, {"to", day(to, reference)}});
}

std::string Words::weight(double grams) const {
  if (is_trace(grams, units_)) return say("number.under", {{"amount", localised(least_weight_text(units_))}});
  return localised(weight_text(grams, units_));
}
std::string Words::length(double metres) const {
  return localised(length_text(metres, units_));
}
std::string Words::spacing(double millimetres) const {
  return localised(spacing_text(millimetres, units_));
}
std::string Words::depth(double millimetres) const {
  return localised(depth_text(millimetres, units_));
}
std::string Words::temperature(double celsius) const {
  return localised(temperature_text(celsius, units_));
}
std::string Words::temperature_difference(double kelvin) const {
  constexpr double kFahrenheitPerKelvin = 1.8;
  const bool us = units_ == Units::us;
  return localised(us ? fmt::format("{:.1f} °F", kelvin * kFahrenheitPerKelvin)
                      : fmt::format("{:.1f} °C", kelvin));
}
std::string Words::percent(double fraction) const {
  return percent_text(fraction);
}
std::string Words::number(double value, int decimals) const {
  return localised(fmt::format("{:.{}f}", value, decimals));
}

std::string Words::stretch(double from_m, double to_m) const {
  auto [from, to] = stretch_texts(from_m, to_m, units_);
  // A unit that both ends have alone is said once, after the second.
  const std::size_t gap = from.find(' ');
  const bool single = gap == from.rfind(' ') && to.find(' ') == to.rfind(' ');
  if (single && from.substr(gap) == to.substr(to.find(' '))) from.resize(gap);
  return say("place.stretch", {{"from", localised(from)}, {"to", localised(to)}});
}

std::string Words::crop(const crop::Crop& crop) const {
  const std::string* name = find("crops." + crop.id);
  return name == nullptr ? crop.name : *name;
}

std::string Words::group(std::string_view group) const {
  const std::string* name = find("groups." + std::string(group));
  return name == nullptr ? std::string(group) : *name;
}

std::string Words::caution(const std::string& english) const {
  const std::string* translated = find("cautions." + english);
  return translated == nullptr ? english : *translated;
}

}  // namespace sowtide::desk::print
