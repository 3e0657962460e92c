#include "climate/detail/ghcn.hpp"

#include <array>
#include <utility>

#include "base/quantity.hpp"
#include "climate/detail/units.hpp"

namespace sowtide::climate::detail {

namespace {

constexpr std::array<std::pair<std::string_view, GhcnElement>, 10> kElements{{
    {"TMAX", GhcnElement::tmax},
    {"TMIN", GhcnElement::tmin},
    {"PRCP", GhcnElement::rain},
    {"MDPR", GhcnElement::several_amount},
    {"DAPR", GhcnElement::several_days},
    {"AWND", GhcnElement::wind},
    {"TSUN", GhcnElement::sunshine},
    {"RHAV", GhcnElement::humidity},
    {"ADPT", GhcnElement::dew_point},
    {"SNWD", GhcnElement::snow_depth},
}};

constexpr int kMostSeveralDays = 62;

std::string_view quality_flag_text(char flag) {
  switch (flag) {
    case 'D':
      return "duplicate check";
    case 'G':
      return "gap check";
    case 'I':
      return "internal consistency check";
    case 'K':
      return "streak or frequent-value check";
    case 'L':
      return "check on the length of a multi-day period";
    case 'M':
      return "mega-consistency check";
    case 'N':
      return "naught check";
    case 'O':
      return "climatological outlier check";
    case 'R':
      return "lagged range check";
    case 'S':
      return "spatial consistency check";
    case 'T':
      return "temporal consistency check";
    case 'W':
      return "temperature too warm for snow";
    case 'X':
      return "bounds check";
    case 'Z':
      return "an investigation by hand";
    default:
      return "a check this program does not know";
  }
}

std::optional<Variable> variable_of(GhcnElement element) {
  switch (element) {
    case GhcnElement::tmax:
      return Variable::tmax;
    case GhcnElement::tmin:
      return Variable::tmin;
    case GhcnElement::rain:
      return Variable::rain;
    case GhcnElement::wind:
      return Variable::wind;
    case GhcnElement::sunshine:
      return Variable::sunshine;
    case GhcnElement::humidity:
      return Variable::humidity;
    default:
      return std::nullopt;
  }
}

}  // namespace

std::optional<GhcnElement> ghcn_element(std::string_view name) {
  for (const auto& [text, element] : kElements) {
    if (text == name) return element;
  }
  return std::nullopt;
}

double GhcnReader::in_our_units(GhcnElement element, double raw) const {
  const bool tenths = units_ == GhcnUnits::tenths, us = units_ == GhcnUnits::us;
  switch (element) {
    case GhcnElement::tmax:
    case GhcnElement::tmin:
    case GhcnElement::dew_point:
      return us ? base::Celsius::from_fahrenheit(raw).value() : tenths ? raw / 10.0 : raw;
    case GhcnElement::rain:
    case GhcnElement::several_amount:
      return us ? raw * base::kMillimetresPerInch : tenths ? raw / 10.0 : raw;
    case GhcnElement::wind: {
      const double wind_ms = us ? raw * kMetresPerSecondPerMph : tenths ? raw / 10.0 : raw;
      return wind_to_2m(wind_ms, builder_.options().wind_height_m.value_or(10.0));
    }
    case GhcnElement::sunshine:
      return raw / 60.0;
    case GhcnElement::snow_depth:
      return us ? raw * base::kMillimetresPerInch : raw;
    case GhcnElement::several_days:
    case GhcnElement::humidity:
      break;
  }
  return raw;
}

void GhcnReader::take_passed(GhcnElement element, base::Date day, double value, bool presumed) {
  if (const auto variable = variable_of(element)) {
    builder_.put(*variable, day, value, presumed ? ValueOrigin::estimated : builder_.options().origin);
    return;
  }
  if (element == GhcnElement::several_amount) several_[day].amount_mm = value;
  if (element == GhcnElement::several_days && value >= 1.0 && value <= kMostSeveralDays) {
    several_[day].days = static_cast<int>(value);
  }
  if (element == GhcnElement::dew_point)
    builder_.put_extra(builder_.extra("dew-point", "°C", "ADPT"), day, value);
  if (element == GhcnElement::snow_depth)
    builder_.put_extra(builder_.extra("snow-depth", "mm", "SNWD"), day, value);
}

void GhcnReader::take(GhcnElement element, base::Date day, double raw, char measurement_flag,
                      char quality_flag) {
  const double value = in_our_units(element, raw);
  if (quality_flag == ' ') {
    take_passed(element, day, value, measurement_flag == 'P');
    return;
  }
  ++flagged_;
  const auto variable = element == GhcnElement::several_amount ? Variable::rain : variable_of(element);
  if (variable) {
    builder_.put_flagged(*variable, day, value,
                         "the source marks it " + std::string(1, quality_flag) + ": failed the " +
                             std::string(quality_flag_text(quality_flag)));
  }
}

void GhcnReader::finish() {
  for (const auto& [day, several] : several_) {
    if (several.amount_mm && several.days > 0) {
      builder_.put_total(Variable::rain, day, several.days, *several.amount_mm);
    } else if (several.amount_mm) {
      builder_.find({day, Variable::rain, *several.amount_mm, "several-days", "removed",
                     "a total of an unknown number of days"});
    }
  }
  several_.clear();
}

}  // namespace sowtide::climate::detail
