// A plant's size as it was observed, as JSON.
#pragma once

#include <nlohmann/json.hpp>

#include "book/garden.hpp"
#include "desk/json_number.hpp"

namespace sowtide::desk {

/// {"date", "weight_g", "told"}: `told` is how it was told (weighed, felt, by eye …).
[[nodiscard]] inline nlohmann::ordered_json observed_size_json(const book::SizeObserved& observed) {
  return {{"date", base::to_iso(observed.date)},
          {"weight_g", json_number(observed.weight_g)},
          {"told", book::size_told_text(observed.told)}};
}

}  // namespace sowtide::desk
