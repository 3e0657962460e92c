// What every weather reader owes for any bytes: a record that is sound in itself, or a problem with words;
// and a record that quality control, gap filling and merging can take.
#pragma once

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "climate/gaps.hpp"
#include "climate/merge.hpp"
#include "climate/quality.hpp"
#include "climate/readers.hpp"

namespace fuzz {

inline void require(bool holds) {
  if (!holds) std::abort();
}

inline std::string_view text_of(const std::uint8_t* data, std::size_t size) {
  return {reinterpret_cast<const char*>(data), size};
}

inline void require_sound(const sowtide::climate::WeatherRecord& record) {
  using sowtide::climate::ValueOrigin;
  for (const auto& series : record.series) {
    require(series.value.size() == record.day_count() && series.origin.size() == record.day_count());
    for (std::size_t i = 0; i < series.value.size(); ++i) {
      require(std::isnan(series.value[i]) == (series.origin[i] == ValueOrigin::missing));
      require(!std::isinf(series.value[i]));
    }
  }
}

inline void judge(const sowtide::base::Result<sowtide::climate::WeatherImport>& read) {
  if (!read) {
    require(!read.error().what.empty() && !read.error().remedy.empty());
    return;
  }
  require(read->record.day_count() > 0);
  require_sound(read->record);
  for (const auto& extra : read->extra) require(extra.value.size() == read->record.day_count());
  if (read->record.day_count() > 20000) return;  // two far dates make a long record, and a slow one here
  const auto checked = sowtide::climate::control_quality(read->record);
  require_sound(checked.record);
  const auto filled = sowtide::climate::fill_gaps(checked.record);
  require_sound(filled.record);
  require_sound(sowtide::climate::merge(read->record, filled.record).record);
}

}  // namespace fuzz
