#include "desk/qr.hpp"

#include <fmt/format.h>
#include <qrencode.h>

#include <memory>

namespace sowtide::desk {
namespace {

constexpr std::size_t kMostBytes = 2331;
constexpr unsigned kDarkBit = 1U;

struct QrDeleter {
  void operator()(QRcode* code) const { QRcode_free(code); }
};

std::string xml_text(std::string_view text) {
  std::string out;
  for (const char c : text) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      default:
        out += c;
    }
  }
  return out;
}

}  // namespace

base::Result<QrCode> qr_code(std::string_view text) {
  if (text.empty()) return base::fail(base::ProblemCode::empty, "there is no text to make a code of");
  if (text.size() > kMostBytes) {
    return base::fail(base::ProblemCode::too_large,
                      fmt::format("{} bytes do not fit into a code that holds {}", text.size(), kMostBytes));
  }
  const std::unique_ptr<QRcode, QrDeleter> made(QRcode_encodeData(
      static_cast<int>(text.size()), reinterpret_cast<const unsigned char*>(text.data()), 0, QR_ECLEVEL_M));
  if (!made) return base::fail(base::ProblemCode::internal, "the code could not be made");
  QrCode code;
  code.size = static_cast<std::size_t>(made->width);
  code.dark.resize(code.size * code.size);
  for (std::size_t i = 0; i < code.dark.size(); ++i) code.dark[i] = (made->data[i] & kDarkBit) != 0U;
  return code;
}

std::string qr_svg(const QrCode& code, std::string_view title) {
  const std::size_t side = code.size + 2 * kQrQuietModules;
  std::string path;
  for (std::size_t row = 0; row < code.size; ++row) {
    for (std::size_t column = 0; column < code.size; ++column) {
      if (!code.at(row, column)) continue;
      std::size_t end = column;
      while (end < code.size && code.at(row, end)) ++end;
      path += fmt::format("M{} {}h{}v1h-{}z", column + kQrQuietModules, row + kQrQuietModules, end - column,
                          end - column);
      column = end;
    }
  }
  return fmt::format(
      R"(<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {0} {0}" shape-rendering="crispEdges" role="img">)"
      R"(<title>{1}</title><path fill="#fff" d="M0 0h{0}v{0}H0z"/><path d="{2}"/></svg>)",
      side, xml_text(title), path);
}

std::string qr_text(const QrCode& code) {
  const std::size_t side = code.size + 2 * kQrQuietModules;
  const auto is_light = [&](std::size_t row, std::size_t column) {
    if (row >= side) return false;  // below an odd number of rows
    const bool quiet = row < kQrQuietModules || column < kQrQuietModules || row >= side - kQrQuietModules ||
                       column >= side - kQrQuietModules;
    return quiet || !code.at(row - kQrQuietModules, column - kQrQuietModules);
  };
  std::string text;
  for (std::size_t row = 0; row < side; row += 2) {
    for (std::size_t column = 0; column < side; ++column) {
      const bool lower = is_light(row + 1, column);
      text += is_light(row, column) ? (lower ? "█" : "▀") : (lower ? "▄" : " ");
    }
    text += '\n';
  }
  return text;
}

}  // namespace sowtide::desk
