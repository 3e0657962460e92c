#include "desk/present.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <regex>

#include "base/quantity.hpp"

namespace sowtide::desk {
namespace {

constexpr std::array<std::string_view, 12> kMonths{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                   "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};

double fahrenheit(double celsius) {
  return celsius * 1.8 + 32.0;
}

/// Two digits for small numbers, whole ones from ten on: 3.4, 12, 350; never 8.0.
std::string rounded(double value) {
  constexpr double kTenAfterRounding = 9.95;
  if (std::abs(value) >= kTenAfterRounding) return fmt::format("{:.0f}", value);
  const std::string text = fmt::format("{:.1f}", value);
  return text.ends_with(".0") ? text.substr(0, text.size() - 2) : text;
}

/// Lengths are rounded from their whole millimetres, halves up: the end of a stretch and the start of the
/// next, equal but for the last bits of a double, are then told alike, here as on the page
/// (web/src/domain/units.ts).
long whole_millimetres(double metres) {
  return std::lround(metres * 1000.0);
}

long whole_inches(double metres) {
  return std::lround(static_cast<double>(whole_millimetres(metres)) / base::kMillimetresPerInch);
}

/// A gardener counts inches up to a yard.
bool in_feet(double metres) {
  return whole_inches(metres) >= 36;
}

std::string feet_text(double metres) {
  if (whole_millimetres(metres) < 0) return fmt::format("-{}", feet_text(-metres));
  const long inches = whole_inches(metres);
  return inches % 12 == 0 ? fmt::format("{} ft", inches / 12)
                          : fmt::format("{} ft {} in", inches / 12, inches % 12);
}

/// Characters of UTF-8 text (continuation bytes do not count).
std::size_t character_count(std::string_view text) {
  return static_cast<std::size_t>(std::count_if(
      text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

}  // namespace

Units units_of(std::string_view text) noexcept {
  return text == "us" ? Units::us : Units::metric;
}

std::string date_text(base::Date date, Units units, base::Date reference) {
  const std::string_view month = kMonths[static_cast<std::size_t>(base::month_of(date) - 1)];
  const int day = base::day_of_month(date);
  std::string text = units == Units::us ? fmt::format("{} {}", month, day) : fmt::format("{} {}", day, month);
  if (base::year_of(date) != base::year_of(reference)) {
    text += (units == Units::us ? ", " : " ") + std::to_string(base::year_of(date));
  }
  return text;
}

bool is_trace(double grams, Units units) noexcept {
  return grams > 0.0 && (units == Units::us ? grams / base::kGramsPerOunce < 0.05 : grams < 0.5);
}

std::string least_weight_text(Units units) {
  return units == Units::us ? "0.1 oz" : "1 g";
}

std::string weight_text(double grams, Units units) {
  if (grams < 0.0) return fmt::format("-{}", weight_text(-grams, units));
  if (is_trace(grams, units)) return "under " + least_weight_text(units);
  if (units == Units::us) {
    if (grams < base::kGramsPerPound) return rounded(grams / base::kGramsPerOunce) + " oz";
    return rounded(grams / base::kGramsPerPound) + " lb";
  }
  if (grams < 999.5) return fmt::format("{:.0f} g", grams);
  return rounded(grams / 1000.0) + " kg";
}

std::string seed_weight_text(double grams, Units units) {
  constexpr double kPinch_g = 10.0;
  if (units == Units::metric) return grams < kPinch_g ? fmt::format("{:.1f} g", grams) : weight_text(grams, units);
  const double ounces = grams / base::kGramsPerOunce;
  return ounces < 1.0 ? fmt::format("{:.2f} oz", ounces) : weight_text(grams, units);
}

std::string length_text(double metres, Units units) {
  if (whole_millimetres(metres) < 0) return fmt::format("-{}", length_text(-metres, units));
  if (units == Units::metric) {
    const long centimetres = (whole_millimetres(metres) + 5) / 10;
    return fmt::format("{}.{:02} m", centimetres / 100, centimetres % 100);
  }
  return in_feet(metres) ? feet_text(metres) : fmt::format("{} in", whole_inches(metres));
}

std::pair<std::string, std::string> stretch_texts(double from_m, double to_m, Units units) {
  if (units == Units::metric || !in_feet(to_m)) return {length_text(from_m, units), length_text(to_m, units)};
  return {feet_text(from_m), feet_text(to_m)};
}

std::string spacing_text(double millimetres, Units units) {
  if (units == Units::us) return rounded(millimetres / base::kMillimetresPerInch) + " in";
  if (millimetres < 29.5) return fmt::format("{:.0f} mm", millimetres);
  return rounded(millimetres / 10.0) + " cm";
}

std::string depth_text(double millimetres, Units units) {
  return units == Units::us ? spacing_text(millimetres, units) : fmt::format("{:.0f} mm", millimetres);
}

std::string volume_text(double litres, Units units) {
  return units == Units::us ? rounded(litres / base::kLitresPerUsGallon) + " gal" : rounded(litres) + " L";
}

std::string diameter_text(double millimetres, Units units) {
  return units == Units::us ? rounded(millimetres / base::kMillimetresPerInch) + " in"
                            : fmt::format("{:.0f} mm", millimetres);
}

std::string with_temperatures_in(const std::string& sentence, Units units) {
  if (units == Units::metric) return sentence;
  static const std::regex told(R"((\d+)(?: to (\d+))? °C)");
  const auto degrees_f = [](const std::ssub_match& celsius) {
    return fmt::format("{:.0f}", fahrenheit(std::stod(celsius.str())));
  };
  std::string text;
  auto rest = sentence.cbegin();
  for (std::sregex_iterator each(sentence.begin(), sentence.end(), told), none; each != none; ++each) {
    const std::smatch& match = *each;
    text.append(rest, match[0].first);
    text += degrees_f(match[1]) + (match[2].matched ? " to " + degrees_f(match[2]) : "") + " °F";
    rest = match[0].second;
  }
  return text.append(rest, sentence.cend());
}

std::string temperature_text(double celsius, Units units) {
  if (units == Units::us) return fmt::format("{:.0f} °F", fahrenheit(celsius));
  return rounded(celsius) + " °C";
}

std::string temperature_difference_text(double kelvin, Units units) {
  constexpr double kFahrenheitPerKelvin = 1.8;
  return units == Units::us ? fmt::format("{:.1f} °F", kelvin * kFahrenheitPerKelvin)
                            : fmt::format("{:.1f} °C", kelvin);
}

std::string counted(std::int64_t count, std::string_view one, std::string_view several) {
  if (count == 1) return fmt::format("1 {}", one);
  return several.empty() ? fmt::format("{} {}s", count, one) : fmt::format("{} {}", count, several);
}

std::string percent_text(double fraction) {
  return fmt::format("{:.0f} %", fraction * 100.0);
}

TextTable::TextTable(std::vector<std::string> header, std::vector<Align> align) : align_(std::move(align)) {
  align_.resize(header.size(), Align::left);
  rows_.push_back(std::move(header));
}

void TextTable::add(std::vector<std::string> row) {
  row.resize(align_.size());
  rows_.push_back(std::move(row));
}

std::string TextTable::text() const {
  std::vector<std::size_t> width(align_.size(), 0);
  for (const auto& row : rows_) {
    for (std::size_t c = 0; c < row.size(); ++c) width[c] = std::max(width[c], character_count(row[c]));
  }
  std::string out;
  for (std::size_t r = 0; r < rows_.size(); ++r) {
    std::string line;
    for (std::size_t c = 0; c < align_.size(); ++c) {
      const std::string pad(width[c] - character_count(rows_[r][c]), ' ');
      line += align_[c] == Align::right ? pad + rows_[r][c] : rows_[r][c] + pad;
      line += "  ";
    }
    line.erase(line.find_last_not_of(' ') + 1);
    out += line + "\n";
    if (r == 0) {
      std::string rule;
      for (const std::size_t w : width) rule += std::string(w, '-') + "  ";
      rule.erase(rule.find_last_not_of(' ') + 1);
      out += rule + "\n";
    }
  }
  return out;
}

}  // namespace sowtide::desk
