// Any bytes: a PLACE file is read whole and within its ranges, or refused.
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "climate/site.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto place = sowtide::climate::read_place({reinterpret_cast<const char*>(data), size}, "fuzz");
  if (!place) return 0;
  if (!(place->site.latitude_deg >= -90.0 && place->site.latitude_deg <= 90.0)) std::abort();
  for (std::size_t month = 0; month < 12; ++month) {
    if (!(place->normals.tmin_c[month] <= place->normals.tmax_c[month])) std::abort();
  }
  return 0;
}
