#include "serve/garden_server.hpp"

#include <fmt/format.h>

#include <chrono>
#include <thread>
#include <utility>

#include "book/garden_file.hpp"
#include "serve/assets.hpp"
#include "serve/detail/api_documents.hpp"
#include "serve/detail/garden_desk.hpp"
#include "serve/detail/home_address.hpp"
#include "serve/detail/pair_page.hpp"
#include "serve/detail/plan_job.hpp"
#include "serve/detail/routes.hpp"
#include "serve/http_server.hpp"

namespace sowtide::serve {
namespace {

using base::ProblemCode;

constexpr auto kLookAtStop = std::chrono::milliseconds(50);
constexpr const char* kRevisionEvent = "revision";

/// {"revision":12,"today":"2027-04-20"}
std::string moment_json(const detail::GardenMoment& moment) {
  return fmt::format(R"({{"revision":{},"today":"{}"}})", moment.revision, base::to_iso(moment.today));
}

/// Tells listeners of what happens without their doing: a plan that ended, a new day, a write of the command line, which
/// may work on the same file.
void add_changes(const detail::RouteContext& context) {
  context.server.event_stream(detail::kChanges, [&garden = context.garden] {
    return std::pair<std::string, std::string>{kRevisionEvent, moment_json(garden.seen())};
  });
  context.server.on_tick([context, made_for = detail::GardenMoment{}]() mutable {
    context.keep_finished_plan();
    // The season of a large garden takes seconds. It is made in idle time, once for a revision and day, so that the
    // next page need not wait for it; what it lacks is told there.
    const detail::GardenMoment seen = context.garden.seen();
    if (std::exchange(made_for, seen) != seen) static_cast<void>(context.garden.season());
  });
}

base::Result<Pairing> open_pairing(const ServeOptions& options) {
  auto pairing = Pairing::open(options.garden + ".devices");
  if (!pairing || !options.forget_devices) return pairing;
  for (const PairedDevice& device : pairing->devices()) {
    if (auto forgotten = pairing->forget(device.id); !forgotten) return tl::unexpected(forgotten.error());
  }
  return pairing;
}

tl::unexpected<base::Problem> no_home_network() {
  return base::fail(ProblemCode::usage, "this machine has no address in a home network",
                    {.file = {}, .line = 0, .column = 0, .field = "--lan"},
                    "Connect it, or leave --lan out to serve on this machine alone.");
}

/// Under which devices of the home network find the garden: an address of this machine; with a certificate one that it
/// names, or else a name in it. Empty without a home network to serve.
base::Result<std::string> home_address_for(const ServeOptions& options) {
  if (!options.lan) return std::string();
  const auto addresses = detail::home_addresses();
  if (addresses.empty()) return no_home_network();
  if (!options.certificate) return addresses.front();
  for (const std::string& address : addresses) {
    if (options.certificate->has(address)) return address;
  }
  if (const std::string name = detail::local_name(); options.certificate->has(name)) return name;
  for (const std::string& name : options.certificate->names) {
    if (name != "localhost" && !detail::parse_address(name)) return name;
  }
  return base::fail(ProblemCode::contradiction,
                    fmt::format("the certificate does not name {}, where devices find this machine", addresses.front()),
                    {.field = "--certificate"},
                    "Make a new one with `sowtide certificate DIRECTORY`; phones that trust the authority need nothing new");
}

}  // namespace

void detail::add_garden_routes(const RouteContext& context) {
  add_season_routes(context);
  add_log_routes(context);
  add_stand_routes(context);
  add_plan_routes(context);
  add_setup_routes(context);
  add_judge_routes(context);
  add_seed_routes(context);
  add_store_routes(context);
  add_print_routes(context);
  add_figure_routes(context);
  add_device_routes(context);
  add_changes(context);
}

void detail::RouteContext::tell_changes() const {
  if (garden.look_for_change())
    server.publish(kChanges, kRevisionEvent, moment_json(garden.seen()));
}

void detail::RouteContext::keep_finished_plan() const {
  if (auto finished = plans.take_finished()) {
    server.publish(kChanges, "plan",
                   finished->input.trial ? plan_tried_json(garden.try_plan(std::move(*finished)))
                                         : plan_end_json(garden.keep_plan(*finished)));
  }
  tell_changes();
}

std::string detail::RouteContext::address_for(const Request& request) const {
  if (!devices.home_address.empty()) return server.url(devices.home_address);
  const std::string& host = request.header("host");
  return host.empty() ? host : fmt::format("{}://{}", server.encrypted() ? "https" : "http", host);
}

Response detail::fresh_response(std::string body) {
  return {.body = std::move(body), .headers = {{"Cache-Control", "no-store"}}};
}

base::Result<void> serve(const ServeOptions& options, const std::function<void(const std::string&)>& on_ready,
                         const std::atomic<bool>& stop) {
  const auto home_address = home_address_for(options);
  if (!home_address) return tl::unexpected(home_address.error());
  auto assets =
      options.web.empty() ? base::Result<std::vector<Asset>>(built_in_assets()) : read_assets(options.web);
  if (!assets) return tl::unexpected(assets.error());
  auto file = book::GardenFile::open(options.garden);
  if (!file) return tl::unexpected(file.error());

  auto pairing = open_pairing(options);
  if (!pairing) return tl::unexpected(pairing.error());

  detail::GardenDesk garden(std::move(*file), [fixed = options.today] { return fixed ? *fixed : detail::system_today(); });
  garden.look_for_change();
  HttpServer server({.port = options.port, .home_network = options.lan, .certificate = options.certificate});
  server.on_defect(options.on_defect);
  detail::PlanJob plans(
      [&server](const std::string& progress) { server.publish(detail::kChanges, "plan", progress); });
  server.assets(std::move(*assets));
  server.assets(detail::api_documents());
  server.assets(detail::pair_page());
  const detail::Devices devices{*pairing, *home_address};
  detail::add_garden_routes({server, garden, plans, devices});
  server.gate(
      [&devices, encrypted = server.encrypted()](const Request& request) {
        return detail::refuse_unpaired(devices.pairing, encrypted, request);
      });
  if (auto started = server.start(); !started) return started;
  on_ready(server.url("127.0.0.1"));
  if (options.lan && options.on_invitation) options.on_invitation(detail::invite(devices, server));
  while (!stop) std::this_thread::sleep_for(kLookAtStop);
  plans.cancel();
  server.stop();
  return {};
}

}  // namespace sowtide::serve
