// The place of storage that a "stored" entry names in its text.
#pragma once

#include <optional>
#include <string_view>

#include "keep/storage.hpp"

namespace sowtide::book {

/// The place that a text begins with ("fridge, bottom drawer"): kitchen, fridge or best, or another name of
/// one of them (pantry, refrigerator, cellar, clamp, cold room …), in any letters. An empty text means the
/// fridge; nothing for any other beginning.
[[nodiscard]] std::optional<keep::StorePlace> store_place_of(std::string_view text) noexcept;

/// Whether a text begins as if what was stored were frozen ("freezer, second drawer"), which is no place of
/// these.
[[nodiscard]] bool says_frozen(std::string_view text) noexcept;

/// The word of a place in files and answers: "kitchen", "fridge", "best".
[[nodiscard]] std::string_view store_place_text(keep::StorePlace place) noexcept;

}  // namespace sowtide::book
