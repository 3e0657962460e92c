#include "climate/record.hpp"

#include <algorithm>
#include <cassert>
#include <limits>

namespace sowtide::climate {

void WeatherRecord::resize(base::Date from, base::Date to) {
  assert(from <= to);
  const auto new_count = static_cast<std::size_t>((to - from).count()) + 1;
  const std::size_t old_count = day_count();
  const auto shift = (first - from).count();  // where the old first day lands in the new span
  for (Series& one : series) {
    Series wider;
    wider.value.assign(new_count, std::numeric_limits<double>::quiet_NaN());
    wider.origin.assign(new_count, ValueOrigin::missing);
    for (std::size_t i = 0; i < old_count; ++i) {
      const auto place = static_cast<std::ptrdiff_t>(i) + shift;
      if (place < 0 || place >= static_cast<std::ptrdiff_t>(new_count)) continue;
      wider.value[static_cast<std::size_t>(place)] = one.value[i];
      wider.origin[static_cast<std::size_t>(place)] = one.origin[i];
    }
    one = std::move(wider);
  }
  first = from;
}

void WeatherRecord::set(Variable variable, base::Date date, double value, ValueOrigin origin) {
  assert(date >= first && date <= last());
  const auto index = static_cast<std::size_t>((date - first).count());
  Series& one = of(variable);
  one.value[index] = value;
  one.origin[index] = origin;
}

std::string station_name(const WeatherRecord& record) {
  return record.site.name.empty() ? "an unnamed station" : record.site.name;
}

}  // namespace sowtide::climate
