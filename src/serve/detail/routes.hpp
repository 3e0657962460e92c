// The routes of a garden, one source file a subject: src/serve/routes_<subject>.cpp.
//
// To add a route: put it into the file of its subject (a new subject gets a file, one declaration here, and
// one line in `add_garden_routes` of garden_server.cpp), and write it into docs/api/openapi.json with the
// schema of its answer; a test fails for a route that is not in there.
#pragma once

#include <optional>
#include <string>

#include "serve/detail/garden_desk.hpp"
#include "serve/detail/plan_job.hpp"
#include "serve/garden_server.hpp"
#include "serve/http_server.hpp"
#include "serve/pairing.hpp"

namespace sowtide::serve::detail {

/// Where listeners hear of changes.
inline constexpr const char* kChanges = "/api/changes";

/// The devices of the home network, and where they find the garden.
struct Devices {
  Pairing& pairing;
  std::string home_address;  ///< "192.168.1.20" or a name; empty when the garden is served on this machine only
};

/// A new code, with the address that gives it by itself.
[[nodiscard]] PairingInvitation invite(const Devices& devices, const HttpServer& server);
/// The gate before everything: other machines must be paired. The pairing page and the page's files, which
/// hold nothing of the garden, are open to all.
[[nodiscard]] std::optional<Response> refuse_unpaired(const Pairing& pairing, bool encrypted, const Request& request);

/// What a route can reach. Handlers run one after another on the server's worker thread; all three outlive
/// them.
struct RouteContext {
  HttpServer& server;
  GardenDesk& garden;
  PlanJob& plans;
  const Devices& devices;

  /// Where labels, links and codes lead: the home network's address when there is one, else that under which this was
  /// asked; "https://192.168.1.20:8420", or empty when neither is known.
  [[nodiscard]] std::string address_for(const Request& request) const;
  /// To be called after a write: tells listeners the new revision and day, when one of them is new.
  void tell_changes() const;
  /// Keeps the plan that has come to its end, if one has, and tells listeners of that and of all other changes.
  void keep_finished_plan() const;
};

/// The answer that must not be kept: what a write or a trial gives back.
[[nodiscard]] Response fresh_response(std::string body);

/// /api/garden, /api/outlook, /api/today, /api/site: what is read off the season.
void add_season_routes(const RouteContext& context);
/// /api/events: the logbook.
void add_log_routes(const RouteContext& context);
/// /api/stands: moves of a stand, tried or made.
void add_stand_routes(const RouteContext& context);
/// /api/judge, and the picture of a stand's clumps with what taking some out would do.
void add_judge_routes(const RouteContext& context);
/// /api/plan.
void add_plan_routes(const RouteContext& context);

/// /api/packets, /api/windows, /api/nursery: from the packet to setting out.
void add_seed_routes(const RouteContext& context);
/// /api/store: lots, and what to eat first.
void add_store_routes(const RouteContext& context);
/// /api/print: the sheets of the garden as PDF, and its calendar.
void add_print_routes(const RouteContext& context);
/// /api/figure: one quantity worked out, with its working and source.
void add_figure_routes(const RouteContext& context);

/// /api/places and /api/setup: setting a garden up, and changing it later.
void add_setup_routes(const RouteContext& context);

/// /api/pair and /api/devices: devices of the home network.
void add_device_routes(const RouteContext& context);
/// All of the above, and the stream of changes.
void add_garden_routes(const RouteContext& context);

/// The outlook of one stand of a season; not_found without it.
[[nodiscard]] base::Result<std::string> stand_answer(const desk::Season& season, const std::string& id,
                                                     std::optional<base::Date> on = {});

}  // namespace sowtide::serve::detail
