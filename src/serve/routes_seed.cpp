#include <fmt/format.h>

#include <optional>

#include "desk/garden_windows.hpp"
#include "desk/json.hpp"
#include "desk/nursery.hpp"
#include "desk/packets.hpp"
#include "serve/detail/query.hpp"
#include "serve/detail/routes.hpp"

namespace sowtide::serve::detail {
namespace {

base::Result<desk::SeedBoxOptions> seed_options(const Request& request) {
  desk::SeedBoxOptions options;
  const auto temp_c = number_asked(request, "temp_c");
  const auto moisture_pct = number_asked(request, "moisture_pct");
  const auto service = number_asked(request, "service");
  for (const auto* asked : {&temp_c, &moisture_pct, &service}) {
    if (!*asked) return tl::unexpected(asked->error());
  }
  options.keeping = {*temp_c, *moisture_pct};
  options.service = service->value_or(options.service);
  return options;
}

std::string key_of(const std::optional<double>& number) {
  return number ? fmt::format("{}", *number) : "";
}

Response packets(const RouteContext& context, const Request& request) {
  if (auto known = only_asked(request, {"temp_c", "moisture_pct", "service"}); !known)
    return problem_response(known.error());
  const auto options = seed_options(request);
  if (!options) return problem_response(options.error());
  const auto key = fmt::format("packets?{}&{}&{}", key_of(options->keeping.temp_c),
                               key_of(options->keeping.moisture_pct), options->service);
  return context.garden.answer(key, [&](const desk::Season& season) -> base::Result<std::string> {
    const auto box = desk::seed_box(season, *options);
    if (!box) return tl::unexpected(box.error());
    return desk::packets_json(season, *box);
  });
}

Response windows(const RouteContext& context, const Request& request) {
  if (auto known = only_asked(request, {"level"}); !known) return problem_response(known.error());
  const auto asked = number_asked(request, "level");
  if (!asked) return problem_response(asked.error());
  const double level = asked->value_or(0.5);
  return context.garden.answer(
      fmt::format("windows?{}", level), [&](const desk::Season& season) -> base::Result<std::string> {
        const auto found = desk::garden_windows(*season.library, season.garden, level);
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
