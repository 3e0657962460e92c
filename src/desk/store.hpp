// The store as it stands today: every lot with how long it keeps where it lies, the first to spoil first.
#pragma once

#include <string>

#include "desk/season.hpp"

namespace sowtide::desk {

/// {"garden","today","lots":[{"id","crop","crop_name","place","stored","grams","eat_by","age_days","good_share",
/// "life_days":{"kitchen","fridge","best"},"handling"}]}: weights in grams as logged (what was eaten or
/// thrown away taken off), days whole, shares 0 to 1. A lot of a crop that the library does not know has null
/// figures.
[[nodiscard]] std::string store_json(const Season& season);

/// The same as a table: lot, crop, place, weight left, since when, eat by.
[[nodiscard]] std::string store_text(const Season& season);

}  // namespace sowtide::desk
