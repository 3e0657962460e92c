// The place of storage that a "stored" entry names in its text.
#pragma once

#include <optional>
#include <string_view>

#include "keep/storage.hpp"

namespace sowtide::book {

/// The place named by the first word of a text ("fridge, bottom drawer"): kitchen, fridge or best. An empty
/// text means the fridge; nothing for any other first word.
[[nodiscard]] std::optional<keep::StorePlace> store_place_of(std::string_view text) noexcept;

[[nodiscard]] std::string_view store_place_text(keep::StorePlace place) noexcept;

}  // namespace sowtide::book
