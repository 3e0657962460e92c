#include "book/store_place.hpp"

#include <algorithm>
#include <array>

#include "book/words.hpp"

namespace sowtide::book {
namespace {

constexpr std::array<std::string_view, 3> kPlaceWords{"kitchen", "fridge", "best"};

struct PlaceName {
  std::string_view name;
  keep::StorePlace place;
};

/// What people call their places: rooms as warm as the house, refrigerators, and those made to keep what was
/// grown.
constexpr std::array<PlaceName, 27> kPlaceNames{{
    {"kitchen", keep::StorePlace::kitchen},  {"pantry", keep::StorePlace::kitchen},
    {"larder", keep::StorePlace::kitchen},   {"cupboard", keep::StorePlace::kitchen},
    {"counter", keep::StorePlace::kitchen},  {"worktop", keep::StorePlace::kitchen},
    {"room", keep::StorePlace::kitchen},     {"indoors", keep::StorePlace::kitchen},
    {"fridge", keep::StorePlace::fridge},    {"refrigerator", keep::StorePlace::fridge},
    {"crisper", keep::StorePlace::fridge},   {"best", keep::StorePlace::best},
    {"cellar", keep::StorePlace::best},      {"root cellar", keep::StorePlace::best},
    {"basement", keep::StorePlace::best},    {"clamp", keep::StorePlace::best},
    {"cold room", keep::StorePlace::best},   {"cold store", keep::StorePlace::best},
    {"cool room", keep::StorePlace::best},   {"cool store", keep::StorePlace::best},
    {"cold cellar", keep::StorePlace::best}, {"store room", keep::StorePlace::best},
    {"storeroom", keep::StorePlace::best},   {"garage", keep::StorePlace::best},
    {"shed", keep::StorePlace::best},        {"loft", keep::StorePlace::best},
    {"sand", keep::StorePlace::best},
}};

}  // namespace

std::optional<keep::StorePlace> store_place_of(std::string_view text) noexcept {
  if (text.empty()) return keep::StorePlace::fridge;
  const auto* const found = std::find_if(
      kPlaceNames.begin(), kPlaceNames.end(),
      [text](const PlaceName& known) { return begins_with_word(text, known.name, " ,;:.\t\r\n"); });
  if (found == kPlaceNames.end()) return std::nullopt;
  return found->place;
}

bool says_frozen(std::string_view text) noexcept {
  constexpr std::array<std::string_view, 5> kWords{"freezer", "deep freezer", "deep freeze", "frozen",
                                                   "deep frozen"};
  return std::any_of(kWords.begin(), kWords.end(),
                     [text](std::string_view word) { return begins_with_word(text, word, " ,;:.\t\r\n"); });
}

std::string_view store_place_text(keep::StorePlace place) noexcept {
  return kPlaceWords[static_cast<std::size_t>(place)];
}

}  // namespace sowtide::book
