// The built-in places with monthly normals, as a list to choose from.
#pragma once

#include <string>
#include <string_view>

namespace sowtide::desk {

/// {"places":[{"name","latitude_deg","longitude_deg","elevation_m","country","source"}]}, by country and
/// name, those whose name or country holds the word, in any case; all for the empty word
/// (docs/api/places.schema.json).
[[nodiscard]] std::string places_json(std::string_view word = {});

/// The same as a table; where no name holds the word, how the nearest place is found.
[[nodiscard]] std::string places_text(std::string_view word = {});

}  // namespace sowtide::desk
