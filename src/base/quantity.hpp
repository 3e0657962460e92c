// Quantities with their unit in the type.
//
// A quantity is made and read by name, never by accident:
//     Millimetres depth = Millimetres::of(13.0);    double metres = depth.value() / 1000.0;
//     Celsius t = Celsius::from_fahrenheit(65.0);   KelvinDifference d = t - Celsius::of(5.0);
// Every quantity is a plain double in memory (static_assert below). Inner loops may use arrays of double
// whose name ends in the unit (`tmin_c`); at a room's door they are wrapped again.
#pragma once

#include <compare>
#include <string_view>
#include <type_traits>

namespace sowtide::base {

/// A linear quantity: it can be added, scaled, and divided by its like. `Unit::symbol` names the unit.
template <class Unit>
class Quantity {
 public:
  constexpr Quantity() noexcept = default;
  [[nodiscard]] static constexpr Quantity of(double value) noexcept { return Quantity(value); }
  [[nodiscard]] constexpr double value() const noexcept { return value_; }
  [[nodiscard]] static constexpr std::string_view symbol() noexcept { return Unit::symbol; }

  friend constexpr Quantity operator+(Quantity a, Quantity b) noexcept { return of(a.value_ + b.value_); }
  friend constexpr Quantity operator-(Quantity a, Quantity b) noexcept { return of(a.value_ - b.value_); }
  friend constexpr Quantity operator-(Quantity a) noexcept { return of(-a.value_); }
  friend constexpr Quantity operator*(Quantity a, double s) noexcept { return of(a.value_ * s); }
  friend constexpr Quantity operator*(double s, Quantity a) noexcept { return of(a.value_ * s); }
  friend constexpr Quantity operator/(Quantity a, double s) noexcept { return of(a.value_ / s); }
  friend constexpr double operator/(Quantity a, Quantity b) noexcept { return a.value_ / b.value_; }
  constexpr Quantity& operator+=(Quantity b) noexcept {
    value_ += b.value_;
    return *this;
  }
  constexpr Quantity& operator-=(Quantity b) noexcept {
    value_ -= b.value_;
    return *this;
  }
  friend constexpr auto operator<=>(Quantity, Quantity) noexcept = default;

 private:
  constexpr explicit Quantity(double value) noexcept : value_(value) {}
  double value_ = 0.0;
};

namespace unit {
struct KelvinDifference { static constexpr std::string_view symbol = "K"; };
struct ThermalTime { static constexpr std::string_view symbol = "°C d"; };
struct Millimetres { static constexpr std::string_view symbol = "mm"; };
struct Metres { static constexpr std::string_view symbol = "m"; };
struct SquareMetres { static constexpr std::string_view symbol = "m²"; };
struct Grams { static constexpr std::string_view symbol = "g"; };
struct Hours { static constexpr std::string_view symbol = "h"; };
struct Degrees { static constexpr std::string_view symbol = "°"; };
struct DailyRadiation { static constexpr std::string_view symbol = "MJ/m²/d"; };
struct MillimetresPerDay { static constexpr std::string_view symbol = "mm/d"; };
struct MetresPerSecond { static constexpr std::string_view symbol = "m/s"; };
struct Kilopascals { static constexpr std::string_view symbol = "kPa"; };
}  // namespace unit

using KelvinDifference = Quantity<unit::KelvinDifference>;
using ThermalTime = Quantity<unit::ThermalTime>;  ///< degree-days above a stated base
using Millimetres = Quantity<unit::Millimetres>;
using Metres = Quantity<unit::Metres>;
using SquareMetres = Quantity<unit::SquareMetres>;
using Grams = Quantity<unit::Grams>;
using Hours = Quantity<unit::Hours>;
using Degrees = Quantity<unit::Degrees>;  ///< an angle: latitude, elevation of the sun
using DailyRadiation = Quantity<unit::DailyRadiation>;
using MillimetresPerDay = Quantity<unit::MillimetresPerDay>;
using MetresPerSecond = Quantity<unit::MetresPerSecond>;
using Kilopascals = Quantity<unit::Kilopascals>;

/// A temperature on the Celsius scale. A point, not an amount: two can be subtracted, not added.
class Celsius {
 public:
  constexpr Celsius() noexcept = default;
  [[nodiscard]] static constexpr Celsius of(double value) noexcept { return Celsius(value); }
  [[nodiscard]] static constexpr Celsius from_fahrenheit(double f) noexcept { return of((f - 32.0) / 1.8); }
  [[nodiscard]] constexpr double value() const noexcept { return value_; }
  [[nodiscard]] constexpr double fahrenheit() const noexcept { return value_ * 1.8 + 32.0; }
  friend constexpr KelvinDifference operator-(Celsius a, Celsius b) noexcept {
    return KelvinDifference::of(a.value_ - b.value_);
  }
  friend constexpr Celsius operator+(Celsius a, KelvinDifference d) noexcept { return of(a.value_ + d.value()); }
  friend constexpr Celsius operator-(Celsius a, KelvinDifference d) noexcept { return of(a.value_ - d.value()); }
  friend constexpr auto operator<=>(Celsius, Celsius) noexcept = default;

 private:
  constexpr explicit Celsius(double value) noexcept : value_(value) {}
  double value_ = 0.0;
};

static_assert(sizeof(Celsius) == sizeof(double) && std::is_trivially_copyable_v<Celsius>);
static_assert(sizeof(Metres) == sizeof(double) && std::is_trivially_copyable_v<Metres>);

// Exact by definition: international yard and pound agreement of 1959; 1 US gallon = 231 cubic inches.
inline constexpr double kMillimetresPerInch = 25.4;
inline constexpr double kMetresPerFoot = 0.3048;
inline constexpr double kGramsPerPound = 453.59237;
inline constexpr double kGramsPerOunce = kGramsPerPound / 16.0;
inline constexpr double kLitresPerUsGallon = 3.785411784;

}  // namespace sowtide::base
