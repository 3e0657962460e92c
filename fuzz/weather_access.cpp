#include "weather_common.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  fuzz::judge(sowtide::climate::read_ghcn_access(fuzz::text_of(data, size), "fuzz"));
  return 0;
}
