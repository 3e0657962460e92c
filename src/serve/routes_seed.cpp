#include <fmt/format.h>

#include <utility>

#include "base/csv.hpp"
#include "desk/garden_windows.hpp"
#include "desk/json.hpp"
#include "desk/nursery.hpp"
#include "desk/packets.hpp"
#include "serve/detail/routes.hpp"

namespace sowtide::serve::detail {
namespace {

/// A number of the query, or `otherwise` when it is not asked for.
base::Result<double> number_of(const Request& request, const std::string& name, double otherwise) {
  const auto found = request.query.find(name);
  if (found == request.query.end()) return otherwise;
  if (const auto number = base::parse_number(found->second)) return *number;
  return base::fail(base::ProblemCode::out_of_range,
                    fmt::format("\"{}\" is not a number", found->second.substr(0, 40)), {.field = name});
}

base::Result<desk::SeedBoxOptions> seed_options(const Request& request) {
  desk::SeedBoxOptions options;
  for (const auto& [name, into] :
       {std::pair{"temp_c", &options.store.temp_c}, std::pair{"moisture_pct", &options.store.moisture_pct},
        std::pair{"service", &options.service}}) {
    const auto number = number_of(request, name, *into);
    if (!number) return tl::unexpected(number.error());
    *into = *number;
  }
  return options;
}

Response packets(const RouteContext& context, const Request& request) {
  const auto options = seed_options(request);
  if (!options) return problem_response(options.error());
  const auto key =
      fmt::format("packets?{}&{}&{}", options->store.temp_c, options->store.moisture_pct, options->service);
  return context.garden.answer(key, [&](const desk::Season& season) -> base::Result<std::string> {
    const auto box = desk::seed_box(season, *options);
    if (!box) return tl::unexpected(box.error());
    return desk::packets_json(season, *box);
  });
}

Response windows(const RouteContext& context, const Request& request) {
  const auto level = number_of(request, "level", 0.5);
  if (!level) return problem_response(level.error());
  return context.garden.answer(
      fmt::format("windows?{}", *level), [&](const desk::Season& season) -> base::Result<std::string> {
        const auto found = desk::garden_windows(*season.library, season.garden, *level);
        if (!found) return tl::unexpected(found.error());
        return desk::windows_json(season.garden.name, *found, season.weather.source);
      });
}

}  // namespace

void add_seed_routes(const RouteContext& context) {
  HttpServer& server = context.server;
  server.route("GET", "/api/packets",
               [context](const Request& request) { return packets(context, request); });
  server.route("GET", "/api/windows",
               [context](const Request& request) { return windows(context, request); });
  server.route("GET", "/api/nursery", [context](const Request&) {
    return context.garden.answer("nursery", [](const desk::Season& season) -> base::Result<std::string> {
      const auto view = desk::nursery_view(season);
      if (!view) return tl::unexpected(view.error());
      return desk::nursery_json(season, *view);
    });
  });
}

}  // namespace sowtide::serve::detail
