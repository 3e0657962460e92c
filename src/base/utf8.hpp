// UTF-8 as the Unicode standard defines it (table 3-7 of chapter 3): no overlong forms, no surrogates,
// nothing above U+10FFFF. For readers that must refuse other bytes, and say where they are.
#pragma once

#include <cstddef>
#include <optional>
#include <string_view>

namespace sowtide::base {

/// One decoded character.
struct Utf8Character {
  char32_t code = 0;
  std::size_t length = 1;  ///< bytes, 1..4
};

/// The character that begins at `offset`, or nothing when the bytes there are not UTF-8. `offset` lies in the
/// text.
[[nodiscard]] std::optional<Utf8Character> decode_utf8(std::string_view text, std::size_t offset) noexcept;

/// Offset of the first byte that is not UTF-8, or nothing when all is.
[[nodiscard]] std::optional<std::size_t> first_bad_utf8(std::string_view text) noexcept;

/// The beginning of a text, of so many bytes at most and without a part of a character at its end. Bytes that are not
/// UTF-8 are cut as they come.
[[nodiscard]] std::string_view utf8_prefix(std::string_view text, std::size_t most_bytes) noexcept;

/// The text without a leading byte-order mark.
[[nodiscard]] std::string_view without_byte_order_mark(std::string_view text) noexcept;

}  // namespace sowtide::base
