// Serves one garden: the web app, the answers of desk/json.hpp, the log, and a stream of changes.
//
// The answers are described by the schemas docs/api/*.schema.json; an OpenAPI document is not written yet.
#pragma once

#include <atomic>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>

#include "base/date.hpp"
#include "base/problem.hpp"

namespace sowtide::serve {

struct ServeOptions {
  std::string garden;               ///< path of the garden file
  std::uint16_t port = 0;           ///< 0: any free one
  std::string web;                  ///< directory of a built web app; empty: the one compiled in
  std::optional<base::Date> today;  ///< nothing: the system's day, read anew for every answer
  bool lan = false;                 ///< not offered yet: a usage problem when set
};

/// Serves on 127.0.0.1 until `stop` becomes true, looking at it several times a second; `on_ready` is called
/// once with the port. What was acknowledged is in the garden file. Problems: those of opening the garden
/// file, a taken port, no web app, `lan`.
[[nodiscard]] base::Result<void> serve(const ServeOptions& options,
                                       const std::function<void(std::uint16_t)>& on_ready,
                                       const std::atomic<bool>& stop);

}  // namespace sowtide::serve
