// Reads the parts of a garden that its owner sets up and changes in the page: place, beds, trays, wants,
// seed, what grew in earlier years.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>
#include <vector>

#include "base/problem.hpp"
#include "book/garden.hpp"

namespace sowtide::serve::detail {

/// The names of the parts: "about", "place", "beds", "trays", "wants", "varieties", "packets", "past".
[[nodiscard]] const std::vector<std::string>& garden_part_names();

/// Puts the part `name`, read from JSON (docs/api/garden-part.schema.json), into `garden` in place of what
/// was there. Lists are whole lists; an entry without an id gets one made from its name or crop. "place"
/// takes the name of a built-in place, or coordinates, for which the nearest built-in place lends its
/// normals: beyond 500 km only with "far_climate": true, and beyond 25 km its height must be given. Problems:
/// not_found (no such part, place), contradiction (another climate under an imported record, or that of a
/// station too far off), unknown_field, missing_field, wrong_type, out_of_range. Whether the whole
/// makes sense is checked by the garden file.
[[nodiscard]] base::Result<void> read_garden_part(book::GardenDescription& garden, const std::string& name,
                                                  const nlohmann::json& body);

/// {"name","units","cool_store","site","normals",…,"weather_days","beds","trays","wants","varieties","packets","past",
/// "stands":2,"events":17,"missing":[…]}: what is set up, whether or not a season can be computed from it
/// (docs/api/setup.schema.json).
[[nodiscard]] std::string setup_json(const book::GardenDescription& garden, std::size_t event_count);

}  // namespace sowtide::serve::detail
