// Makes weather files in memory for tests.
#pragma once

#include <fmt/format.h>

#include <string>
#include <vector>

#include "base/date.hpp"
#include "climate/record.hpp"

namespace sowtide::climate::test {

/// One `.dly` line; `days` holds value and the three flags of each day ("  -17  Z"), the rest is missing.
inline std::string dly_line(const std::string& station, int year, int month, const std::string& element,
                            const std::vector<std::string>& days) {
  std::string line = fmt::format("{}{:04}{:02}{}", station, year, month, element);
  for (std::size_t day = 0; day < 31; ++day) line += day < days.size() ? days[day] : std::string("-9999   ");
  return line + "\n";
}

inline std::string dly_slot(int value, const std::string& flags = "  Z") {
  return fmt::format("{:5}{}", value, flags);
}

/// A record in which every value is given by a function of the day's index.
template <class Low, class High, class Rain>
WeatherRecord make_record(base::Date first, std::size_t days, Low low, High high, Rain rain) {
  WeatherRecord record;
  record.resize(first, first + base::Days{static_cast<int>(days) - 1});
  for (std::size_t i = 0; i < days; ++i) {
    record.set(Variable::tmin, record.date_at(i), low(i), ValueOrigin::observed);
    record.set(Variable::tmax, record.date_at(i), high(i), ValueOrigin::observed);
    record.set(Variable::rain, record.date_at(i), rain(i), ValueOrigin::observed);
  }
  return record;
}

inline void forget(WeatherRecord& record, Variable variable, base::Date day) {
  record.set(variable, day, std::numeric_limits<double>::quiet_NaN(), ValueOrigin::missing);
}

}  // namespace sowtide::climate::test
