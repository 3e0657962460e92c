// Any bytes: the garden reader gives a problem, or a garden whose text reads back as the same garden. The bytes after a
// NUL, if there is one, are read as its log.
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "book/garden_file.hpp"
#include "book/log_csv.hpp"

namespace {

void require(bool holds) {
  if (!holds) std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  namespace book = sowtide::book;
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  const auto cut = bytes.find('\0');
  const auto text = book::parse_garden_toml(bytes.substr(0, cut), "fuzz");
  if (!text) {
    require(!text.error().what.empty());
    return 0;
  }
  const std::string written = book::garden_toml(text->garden, {});
  const auto again = book::parse_garden_toml(written, "again");
  require(again.has_value());
  require(book::garden_toml(again->garden, {}) == written);
  if (cut == std::string_view::npos) return 0;
  const auto log = book::read_log_csv(bytes.substr(cut + 1), "log", text->garden);
  if (!log) return 0;
  const auto log_again = book::read_log_csv(book::log_csv(*log), "log again", text->garden);
  require(log_again.has_value() && book::log_csv(*log_again) == book::log_csv(*log));
  book::fold(text->garden, *log, sowtide::base::date_of(2026, 6, 1), {});
  return 0;
}
