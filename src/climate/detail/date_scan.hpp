// Dates and times of day as people and programs write them.
#pragma once

#include <optional>
#include <string_view>

#include "climate/detail/text_scan.hpp"
#include "climate/readers.hpp"

namespace sowtide::climate::detail {

/// A date as written, before the order of its parts is known.
struct WrittenDate {
  enum class Order {
    settled,   ///< year, month and day are known (year first, month by name, YYYYMMDD, year and day of year)
    undecided  ///< `first` and `second` are day and month in one order or the other; or, where `third` has two
               ///< figures, all three are year, month and day
  };
  Order order = Order::settled;
  int year = 0, month = 0, day = 0;
  int first = 0, second = 0, third = 0;
  bool short_year = false;           ///< two figures, taken as 1970 to 2069
  std::optional<int> minute_of_day;  ///< when a time of day follows
};

/// Reads "2024-05-31", "2024/5/31", "20240531", "2024-152" (day of year), "31.5.2024", "5/31/24",
/// "31-may-2024", "May 31, 2024", each with or without a time of day after a blank or T ("14:30", "2:30 PM",
/// "14:30:00Z", "1430"). Nothing for any other text. Does not check that the day exists.
[[nodiscard]] std::optional<WrittenDate> scan_date(std::string_view text);

/// "14:30", "14:30:15", "2:30 pm", "24:00", "1430", "7"; minutes after midnight, 0..1440.
[[nodiscard]] std::optional<int> scan_time(std::string_view text);

/// Whether the parts of an undecided date can stand in an order: no thirteenth month, no 32nd day.
[[nodiscard]] bool may_be(const WrittenDate& date, DateForm form);

/// The calendar day, once the order is known (`automatic` stands for settled dates only).
[[nodiscard]] std::optional<base::Date> settle(const WrittenDate& date, DateForm form);

}  // namespace sowtide::climate::detail
