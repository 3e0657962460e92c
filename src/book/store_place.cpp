#include "book/store_place.hpp"

#include <algorithm>
#include <array>

namespace sowtide::book {
namespace {

constexpr std::array<std::string_view, 3> kPlaceWords{"kitchen", "fridge", "best"};

}  // namespace

std::optional<keep::StorePlace> store_place_of(std::string_view text) noexcept {
  if (text.empty()) return keep::StorePlace::fridge;
  const std::string_view word = text.substr(0, text.find_first_of(" ,;:.\t\r\n"));
  const auto* const found = std::find(kPlaceWords.begin(), kPlaceWords.end(), word);
  if (found == kPlaceWords.end()) return std::nullopt;
  return static_cast<keep::StorePlace>(found - kPlaceWords.begin());
}

std::string_view store_place_text(keep::StorePlace place) noexcept {
  return kPlaceWords[static_cast<std::size_t>(place)];
}

}  // namespace sowtide::book
