#include "base/utf8.hpp"

namespace sowtide::base {
namespace {

unsigned char byte_at(std::string_view text, std::size_t offset) noexcept {
  return static_cast<unsigned char>(text[offset]);
}

/// Length that a first byte announces; 0 when it cannot begin a character.
std::size_t announced_length(unsigned char first) noexcept {
  if (first < 0x80) return 1;
  if (first < 0xC2) return 0;
  if (first < 0xE0) return 2;
  if (first < 0xF0) return 3;
  return first < 0xF5 ? 4 : 0;
}

char32_t smallest_of_length(std::size_t length) noexcept {
  if (length == 2) return 0x80;
  return length == 3 ? 0x800 : 0x10000;
}

}  // namespace

std::optional<Utf8Character> decode_utf8(std::string_view text, std::size_t offset) noexcept {
  const unsigned char first = byte_at(text, offset);
  const std::size_t length = announced_length(first);
  if (length == 1) return Utf8Character{first, 1};
  if (length == 0 || offset + length > text.size()) return std::nullopt;
  char32_t code = first & (0xFFU >> (length + 1));
  for (std::size_t i = 1; i < length; ++i) {
    const unsigned char next = byte_at(text, offset + i);
    if ((next & 0xC0U) != 0x80U) return std::nullopt;
    code = (code << 6U) | (next & 0x3FU);
  }
  const bool surrogate = code >= 0xD800 && code <= 0xDFFF;
  if (code < smallest_of_length(length) || surrogate || code > 0x10FFFF) return std::nullopt;
  return Utf8Character{code, length};
}

std::optional<std::size_t> first_bad_utf8(std::string_view text) noexcept {
  std::size_t offset = 0;
  while (offset < text.size()) {
    const auto character = decode_utf8(text, offset);
    if (!character) return offset;
    offset += character->length;
  }
  return std::nullopt;
}

std::string_view utf8_prefix(std::string_view text, std::size_t most_bytes) noexcept {
  if (text.size() <= most_bytes) return text;
  constexpr std::size_t kMostFollowing = 3;  // bytes of a character after its first
  for (std::size_t back = 0; back <= kMostFollowing && back <= most_bytes; ++back) {
    const bool continues = (byte_at(text, most_bytes - back) & 0xC0U) == 0x80U;
    if (!continues) return text.substr(0, most_bytes - back);
  }
  return text.substr(0, most_bytes);
}

std::string_view without_byte_order_mark(std::string_view text) noexcept {
  return text.starts_with("\xEF\xBB\xBF") ? text.substr(3) : text;
}

}  // namespace sowtide::base
