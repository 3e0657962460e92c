// A text as a QR code (ISO/IEC 18004), for labels and for pairing: the dark modules, and the same as an SVG
// picture.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem.hpp"

namespace sowtide::desk {

/// The modules of a code, without the quiet zone around it.
struct QrCode {
  std::size_t size = 0;    ///< modules along a side
  std::vector<bool> dark;  ///< row by row from the top left, size x size
  [[nodiscard]] bool at(std::size_t row, std::size_t column) const { return dark[row * size + column]; }
};

/// Light modules that a reader wants on every side (ISO/IEC 18004: four).
inline constexpr std::size_t kQrQuietModules = 4;

/// The smallest code that holds `text` as bytes, at error correction level M (about 15 % may be lost to mud).
/// Fails `empty` for no text and `too_large` beyond 2331 bytes, the most that the standard holds at this
/// level.
[[nodiscard]] base::Result<QrCode> qr_code(std::string_view text);

/// The code as an SVG document with its quiet zone, one path, black on white; `title` is its accessible name.
[[nodiscard]] std::string qr_svg(const QrCode& code, std::string_view title);

/// The code for a terminal, in half blocks (two rows a line): light is drawn and dark left out, as terminals
/// are dark; with its quiet zone.
[[nodiscard]] std::string qr_text(const QrCode& code);

}  // namespace sowtide::desk
