// The description of the routes and the schemas it refers to, compiled in from docs/api.
#pragma once

#include <vector>

#include "serve/assets.hpp"

namespace sowtide::serve::detail {

/// "/api/openapi.json" and "/api/<name>.schema.json", so that the references of the one lead to the others.
[[nodiscard]] std::vector<Asset> api_documents();

}  // namespace sowtide::serve::detail
