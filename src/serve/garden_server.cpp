#include "serve/garden_server.hpp"

#include <chrono>
#include <thread>
#include <utility>

#include "book/garden_file.hpp"
#include "desk/json.hpp"
#include "serve/assets.hpp"
#include "serve/detail/garden_desk.hpp"
#include "serve/detail/plan_job.hpp"
#include "serve/detail/routes.hpp"
#include "serve/http_server.hpp"

namespace sowtide::serve {
namespace {

using base::ProblemCode;

constexpr auto kLookAtStop = std::chrono::milliseconds(50);
constexpr const char* kRevisionEvent = "revision";

void add_garden_routes(const detail::RouteContext& context) {
  detail::add_season_routes(context);
  detail::add_log_routes(context);
  detail::add_stand_routes(context);
  detail::add_plan_routes(context);
  detail::add_seed_routes(context);
  detail::add_judge_routes(context);
}

/// Tells listeners of what happens without their doing: a plan that ended, a write of the command line, which
/// may work on the same file.
void add_changes(const detail::RouteContext& context) {
  context.server.event_stream(detail::kChanges, [&garden = context.garden] {
    return std::pair<std::string, std::string>{kRevisionEvent, std::to_string(garden.seen_revision())};
  });
  context.server.on_tick([context] {
    if (const auto finished = context.plans.take_finished()) {
      base::Result<void> kept = *finished ? context.garden.file().set_planned_stands((**finished).stands)
                                          : tl::unexpected(finished->error());
      if (kept) kept = context.garden.file().set_plan_answer(desk::plan_json(**finished));
      context.server.publish(detail::kChanges, "plan", detail::plan_end_json(kept));
    }
    context.tell_changes();
  });
}

}  // namespace

void detail::RouteContext::tell_changes() const {
  if (garden.look_for_change())
    server.publish(kChanges, kRevisionEvent, std::to_string(garden.seen_revision()));
}

Response detail::fresh_response(std::string body) {
  return {.body = std::move(body), .headers = {{"Cache-Control", "no-store"}}};
}

base::Result<void> serve(const ServeOptions& options, const std::function<void(std::uint16_t)>& on_ready,
                         const std::atomic<bool>& stop) {
  if (options.lan) {
    return base::fail(ProblemCode::usage, "serving to the home network is not offered yet",
                      {.file = {}, .line = 0, .column = 0, .field = "lan"},
                      "Leave it out: the garden is served on this machine.");
  }
  auto assets =
      options.web.empty() ? base::Result<std::vector<Asset>>(built_in_assets()) : read_assets(options.web);
  if (!assets) return tl::unexpected(assets.error());
  auto file = book::GardenFile::open(options.garden);
  if (!file) return tl::unexpected(file.error());

  detail::GardenDesk garden(std::move(*file), options.today);
  garden.look_for_change();
  HttpServer server({.port = options.port});
  detail::PlanJob plans(
      [&server](const std::string& progress) { server.publish(detail::kChanges, "plan", progress); });
  server.assets(std::move(*assets));
  const detail::RouteContext context{server, garden, plans};
  add_garden_routes(context);
  add_changes(context);
  if (auto started = server.start(); !started) return started;
  on_ready(server.port());
  while (!stop) std::this_thread::sleep_for(kLookAtStop);
  plans.cancel();
  server.stop();
  return {};
}

}  // namespace sowtide::serve
