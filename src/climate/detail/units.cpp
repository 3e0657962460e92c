#include "climate/detail/units.hpp"

#include <array>
#include <cctype>
#include <span>

#include "base/quantity.hpp"
#include "climate/detail/text_scan.hpp"
#include "climate/vapour.hpp"

namespace sowtide::climate::detail {

namespace {

struct UnitWord {
  std::string_view word;
  Conversion conversion;
};

constexpr Conversion kFahrenheit{1.0 / 1.8, -32.0 / 1.8, false};
constexpr Conversion kKelvin{1.0, -273.15, false};

constexpr std::array kTemperature{UnitWord{"c", {}},
                                  UnitWord{"celsius", {}},
                                  UnitWord{"centigrade", {}},
                                  UnitWord{"f", kFahrenheit},
                                  UnitWord{"fahrenheit", kFahrenheit},
                                  UnitWord{"k", kKelvin},
                                  UnitWord{"kelvin", kKelvin},
                                  UnitWord{"0.1c", {0.1, 0.0, false}},
                                  UnitWord{"tenthsc", {0.1, 0.0, false}}};

constexpr std::array kLength{UnitWord{"mm", {}},
                             UnitWord{"millimetre", {}},
                             UnitWord{"millimetres", {}},
                             UnitWord{"millimeter", {}},
                             UnitWord{"millimeters", {}},
                             UnitWord{"mm/d", {}},
                             UnitWord{"mm/day", {}},
                             UnitWord{"mmd-1", {}},
                             UnitWord{"mmday-1", {}},
                             UnitWord{"mmh2o", {}},
                             UnitWord{"l/m2", {}},
                             UnitWord{"lm2", {}},
                             UnitWord{"kg/m2", {}},
                             UnitWord{"kgm-2", {}},
                             UnitWord{"cm", {10.0, 0.0, false}},
                             UnitWord{"m", {1000.0, 0.0, false}},
                             UnitWord{"in", {25.4, 0.0, false}},
                             UnitWord{"inch", {25.4, 0.0, false}},
                             UnitWord{"inches", {25.4, 0.0, false}},
                             UnitWord{"\"", {25.4, 0.0, false}},
                             UnitWord{"0.01in", {0.254, 0.0, false}},
                             UnitWord{"0.1mm", {0.1, 0.0, false}},
                             UnitWord{"tenthsmm", {0.1, 0.0, false}}};

constexpr Conversion kWatts{kMegajoulesPerDayPerWatt, 0.0, true};
constexpr Conversion kWattHours{0.0036, 0.0, false};
constexpr Conversion kKilowattHours{3.6, 0.0, false};
constexpr Conversion kJoulesPerSquareCentimetre{0.01, 0.0, false};
constexpr Conversion kLangleys{0.04184, 0.0, false};  // thermochemical calorie a cm²

constexpr std::array kRadiation{UnitWord{"mj", {}},
                                UnitWord{"mj/m2", {}},
                                UnitWord{"mjm2", {}},
                                UnitWord{"mjm-2", {}},
                                UnitWord{"mj/m2/d", {}},
                                UnitWord{"mj/m2d", {}},
                                UnitWord{"mj/m2/day", {}},
                                UnitWord{"mj/m2day", {}},
                                UnitWord{"mjm2d", {}},
                                UnitWord{"mjm2day", {}},
                                UnitWord{"mjm-2d-1", {}},
                                UnitWord{"mjm-2day-1", {}},
                                UnitWord{"mj/sqm", {}},
                                UnitWord{"kj/m2", {0.001, 0.0, false}},
                                UnitWord{"kjm2", {0.001, 0.0, false}},
                                UnitWord{"kjm-2", {0.001, 0.0, false}},
                                UnitWord{"j/m2", {1e-6, 0.0, false}},
                                UnitWord{"jm-2", {1e-6, 0.0, false}},
                                UnitWord{"j/cm2", kJoulesPerSquareCentimetre},
                                UnitWord{"jcm2", kJoulesPerSquareCentimetre},
                                UnitWord{"jcm-2", kJoulesPerSquareCentimetre},
                                UnitWord{"w/m2", kWatts},
                                UnitWord{"wm2", kWatts},
                                UnitWord{"wm-2", kWatts},
                                UnitWord{"w/sqm", kWatts},
                                UnitWord{"w", kWatts},
                                UnitWord{"wh/m2", kWattHours},
                                UnitWord{"whm2", kWattHours},
                                UnitWord{"whm-2", kWattHours},
                                UnitWord{"kwh/m2", kKilowattHours},
                                UnitWord{"kwhm2", kKilowattHours},
                                UnitWord{"kwhm-2", kKilowattHours},
                                UnitWord{"kwh", kKilowattHours},
                                UnitWord{"kwh/m2/day", kKilowattHours},
                                UnitWord{"kw-hr/m2/day", kKilowattHours},
                                UnitWord{"ly", kLangleys},
                                UnitWord{"langley", kLangleys},
                                UnitWord{"langleys", kLangleys},
                                UnitWord{"cal/cm2", kLangleys}};

constexpr Conversion kMinutes{1.0 / 60.0, 0.0, false};
constexpr Conversion kSeconds{1.0 / 3600.0, 0.0, false};

constexpr std::array kDuration{UnitWord{"h", {}},
                               UnitWord{"hr", {}},
                               UnitWord{"hrs", {}},
                               UnitWord{"hour", {}},
                               UnitWord{"hours", {}},
                               UnitWord{"min", kMinutes},
                               UnitWord{"mins", kMinutes},
                               UnitWord{"minute", kMinutes},
                               UnitWord{"minutes", kMinutes},
                               UnitWord{"s", kSeconds},
                               UnitWord{"sec", kSeconds},
                               UnitWord{"second", kSeconds},
                               UnitWord{"seconds", kSeconds},
                               UnitWord{"0.1h", {0.1, 0.0, false}}};

constexpr std::array kShare{UnitWord{"%", {}},
                            UnitWord{"pct", {}},
                            UnitWord{"percent", {}},
                            UnitWord{"percents", {}},
                            UnitWord{"%rh", {}},
                            UnitWord{"rh", {}},
                            UnitWord{"fraction", {100.0, 0.0, false}},
                            UnitWord{"1", {100.0, 0.0, false}},
                            UnitWord{"0-1", {100.0, 0.0, false}}};

constexpr Conversion kKmh{1.0 / 3.6, 0.0, false};
constexpr Conversion kMph{kMetresPerSecondPerMph, 0.0, false};
constexpr Conversion kKnots{kMetresPerSecondPerKnot, 0.0, false};

constexpr std::array kSpeed{UnitWord{"m/s", {}},
                            UnitWord{"ms", {}},
                            UnitWord{"mps", {}},
                            UnitWord{"ms-1", {}},
                            UnitWord{"m/sec", {}},
                            UnitWord{"msec", {}},
                            UnitWord{"km/h", kKmh},
                            UnitWord{"kmh", kKmh},
                            UnitWord{"kmh-1", kKmh},
                            UnitWord{"kph", kKmh},
                            UnitWord{"km/hr", kKmh},
                            UnitWord{"kmhr", kKmh},
                            UnitWord{"kmph", kKmh},
                            UnitWord{"mph", kMph},
                            UnitWord{"mi/h", kMph},
                            UnitWord{"mp/h", kMph},
                            UnitWord{"miles/h", kMph},
                            UnitWord{"mi/hr", kMph},
                            UnitWord{"kt", kKnots},
                            UnitWord{"kts", kKnots},
                            UnitWord{"kn", kKnots},
                            UnitWord{"knot", kKnots},
                            UnitWord{"knots", kKnots},
                            UnitWord{"kmd", {1.0 / 86.4, 0.0, false}},
                            UnitWord{"km/d", {1.0 / 86.4, 0.0, false}},
                            UnitWord{"km/day", {1.0 / 86.4, 0.0, false}},
                            UnitWord{"ft/s", {base::kMetresPerFoot, 0.0, false}},
                            UnitWord{"0.1m/s", {0.1, 0.0, false}}};

constexpr std::array kPressure{UnitWord{"kpa", {}}, UnitWord{"hpa", {0.1, 0.0, false}},
                               UnitWord{"mbar", {0.1, 0.0, false}}, UnitWord{"mb", {0.1, 0.0, false}},
                               UnitWord{"pa", {0.001, 0.0, false}}};

std::span<const UnitWord> words_of(Kind kind) {
  switch (kind) {
    case Kind::temperature:
      return kTemperature;
    case Kind::length:
      return kLength;
    case Kind::radiation:
      return kRadiation;
    case Kind::duration:
      return kDuration;
    case Kind::share:
      return kShare;
    case Kind::speed:
      return kSpeed;
    case Kind::pressure:
      return kPressure;
    case Kind::none:
      break;
  }
  return {};
}

}  // namespace

std::string plain_unit(std::string_view unit) {
  // Degree signs (UTF-8, Latin-1, and UTF-8 read as Latin-1), superscripts, the single characters for degree
  // Celsius and Fahrenheit, and the minus sign, as byte sequences.
  constexpr std::array<std::pair<std::string_view, std::string_view>, 11> kReplaced{{{"\xC3\x82\xC2\xB0", ""},
                                                                                     {"\xC2\xB0", ""},
                                                                                     {"\xC2\xBA", ""},
                                                                                     {"\xE2\x84\x83", "c"},
                                                                                     {"\xE2\x84\x89", "f"},
                                                                                     {"\xC2\xB2", "2"},
                                                                                     {"\xC2\xB9", "1"},
                                                                                     {"\xE2\x81\xBB", "-"},
                                                                                     {"\xE2\x88\x92", "-"},
                                                                                     {"\xC2\xB7", ""},
                                                                                     {"\xB0", ""}}};
  std::string out;
  for (std::size_t i = 0; i < unit.size();) {
    bool replaced = false;
    for (const auto& [from, to] : kReplaced) {
      if (unit.substr(i, from.size()) != from) continue;
      out += to;
      i += from.size();
      replaced = true;
      break;
    }
    if (replaced) continue;
    const char c = unit[i++];
    if (c == ' ' || c == '^' || c == '*' || c == '_' || c == '\t') continue;
    out += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  }
  if (out.substr(0, 7) == "wmounit" && out.size() > 8) out = out.substr(8);
  if (out.substr(0, 7) == "degrees") out = out.substr(7);
  if (out.substr(0, 6) == "degree") out = out.substr(6);
  if (out.substr(0, 3) == "deg" && out.size() > 3) out = out.substr(3);
  while (!out.empty() && out.back() == '.') out.pop_back();
  return out;
}

std::optional<Conversion> conversion_of(Kind kind, std::string_view unit) {
  const std::string word = plain_unit(unit);
  for (const UnitWord& one : words_of(kind)) {
    if (one.word == word) return one.conversion;
  }
  return std::nullopt;
}

std::string_view known_units(Kind kind) {
  switch (kind) {
    case Kind::temperature:
      return "C, F, K or 0.1 C";
    case Kind::length:
      return "mm, cm, in or 0.1 mm";
    case Kind::radiation:
      return "MJ/m2, W/m2, kWh/m2, Wh/m2, J/cm2, kJ/m2 or langley";
    case Kind::duration:
      return "h, min or s";
    case Kind::share:
      return "% or fraction";
    case Kind::speed:
      return "m/s, km/h, mph or knots";
    case Kind::pressure:
      return "kPa, hPa or mbar";
    case Kind::none:
      break;
  }
  return "";
}

double wind_to_2m(double wind_ms, double height_m) {
  if (height_m == 2.0) return wind_ms;
  const auto low = wind_at_two_metres(base::MetresPerSecond::of(wind_ms), base::Metres::of(height_m));
  return low ? low->value() : wind_ms;
}

}  // namespace sowtide::climate::detail
