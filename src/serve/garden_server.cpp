#include "serve/garden_server.hpp"

#include <chrono>
#include <ctime>
#include <map>
#include <nlohmann/json.hpp>
#include <thread>
#include <utility>

#include "book/garden_file.hpp"
#include "crop/crop.hpp"
#include "desk/json.hpp"
#include "desk/planning.hpp"
#include "desk/season.hpp"
#include "desk/site.hpp"
#include "desk/worklist.hpp"
#include "serve/assets.hpp"
#include "serve/detail/plan_job.hpp"
#include "serve/detail/stand_move.hpp"
#include "serve/http_server.hpp"

namespace sowtide::serve {
namespace {

using base::Problem;
using base::ProblemCode;

constexpr auto kLookAtStop = std::chrono::milliseconds(50);
constexpr const char* kChanges = "/api/changes";
constexpr const char* kRevisionEvent = "revision";

/// The calendar day at this machine's place.
base::Date system_today() {
  const std::time_t now = std::chrono::system_clock::to_time_t(std::chrono::system_clock::now());
  std::tm local{};
  ::localtime_r(&now, &local);
  constexpr int kTmYearBase = 1900;
  return base::date_of(local.tm_year + kTmYearBase, local.tm_mon + 1, local.tm_mday);
}

base::Result<std::string> stand_answer(const desk::Season& season, const std::string& id) {
  for (const book::StandState& state : season.state.stands) {
    if (state.plan.id == id) return desk::outlook_json(season, id);
  }
  return base::fail(ProblemCode::not_found, "there is no stand " + id + " in this garden",
                    {.file = {}, .line = 0, .column = 0, .field = "stand"},
                    "GET /api/outlook lists all stands.");
}

/// The garden as the server knows it. All but `seen_revision` belongs to the server's worker thread.
class GardenDesk {
 public:
  GardenDesk(book::GardenFile file, std::optional<base::Date> fixed_today)
      : file_(std::move(file)), fixed_today_(fixed_today) {}

  /// The revision last seen; from any thread.
  [[nodiscard]] std::int64_t seen_revision() const { return seen_revision_; }

  /// Reads the revision again; true when it changed since.
  bool look_for_change() {
    const auto revision = file_.revision();
    return revision && seen_revision_.exchange(*revision) != *revision;
  }

  /// An answer read off the season, computed once for each revision and day.
  Response answer(const std::string& key,
                  const std::function<base::Result<std::string>(const desk::Season&)>& make) {
    if (auto fresh = refresh(); !fresh) return problem_response(fresh.error());
    const auto known = answers_.find(key);
    if (known != answers_.end()) return {.body = known->second, .headers = {}};
    auto body = make(*season_);
    if (!body) return problem_response(body.error());
    return {.body = answers_.emplace(key, std::move(*body)).first->second, .headers = {}};
  }

  Response events() const {
    const auto events = file_.events();
    if (!events) return problem_response(events.error());
    return {.body = desk::events_json(*events), .headers = {}};
  }

  /// The outlook of one stand as it would be after a move; nothing is written.
  Response try_move(const std::string& id, const std::string& body) {
    auto moved = read_move(id, body);
    if (!moved) return problem_response(moved.error());
    // Only this stand is of interest, so only it is computed.
    book::GardenDescription garden = season_->garden;
    garden.stands = {*moved};
    auto events = file_.events();
    if (!events) return problem_response(events.error());
    std::erase_if(*events, [&id](const book::Event& event) { return event.stand != id; });
    const auto season =
        desk::make_season(crop::built_in_library(), std::move(garden), *events, season_->today);
    if (!season) return problem_response(season.error());
    return {.body = desk::outlook_json(*season, id), .headers = {{"Cache-Control", "no-store"}}};
  }

  /// Moves a stand for good, and answers with its outlook.
  Response move(const std::string& id, const std::string& body) {
    const auto moved = read_move(id, body);
    if (!moved) return problem_response(moved.error());
    if (const auto kept = file_.update_stand(*moved); !kept) return problem_response(kept.error());
    return answer("outlook/" + id, [&id](const desk::Season& season) { return stand_answer(season, id); });
  }

  /// What the planner needs, as values of its own.
  base::Result<detail::PlanInput> plan_input() {
    if (auto fresh = refresh(); !fresh) return tl::unexpected(fresh.error());
    auto events = file_.events();
    if (!events) return tl::unexpected(events.error());
    return detail::PlanInput{season_->garden, std::move(*events), season_->today};
  }

  base::Result<void> keep_plan(const plan::Plan& plan) { return file_.set_planned_stands(plan.stands); }

  Response append(const std::string& body) {
    const auto events = desk::parse_events_json(body);
    if (!events) return problem_response(events.error());
    const auto added = file_.append(*events);
    if (!added) return problem_response(added.error());
    const auto revision = file_.revision();
    if (!revision) return problem_response(revision.error());
    return {.body = nlohmann::json{{"added", *added}, {"revision", *revision}}.dump(),
            .headers = {{"Cache-Control", "no-store"}}};
  }

 private:
  base::Result<stand::StandPlan> read_move(const std::string& id, const std::string& body) {
    if (auto fresh = refresh(); !fresh) return tl::unexpected(fresh.error());
    return detail::moved_stand(*season_, id, body);
  }

  /// Makes the season anew when the garden or the day changed.
  base::Result<void> refresh() {
    const auto revision = file_.revision();
    if (!revision) return tl::unexpected(revision.error());
    const base::Date today = fixed_today_.value_or(system_today());
    if (season_ && season_->today == today && season_revision_ == *revision) return {};
    auto garden = file_.description();
    if (!garden) return tl::unexpected(garden.error());
    const auto events = file_.events();
    if (!events) return tl::unexpected(events.error());
    auto season = desk::make_season(crop::built_in_library(), std::move(*garden), *events, today);
    if (!season) return tl::unexpected(season.error());
    season_ = std::move(*season);
    season_revision_ = *revision;
    answers_.clear();
    return {};
  }

  book::GardenFile file_;
  std::optional<base::Date> fixed_today_;
  std::optional<desk::Season> season_;
  std::int64_t season_revision_ = -1;
  std::map<std::string, std::string> answers_;
  std::atomic<std::int64_t> seen_revision_{0};
};

void add_routes(HttpServer& server, GardenDesk& garden, detail::PlanJob& plans) {
  const auto tell_changes = [&server, &garden] {
    if (garden.look_for_change())
      server.publish(kChanges, kRevisionEvent, std::to_string(garden.seen_revision()));
  };
  server.route("GET", "/api/garden", [&garden](const Request&) {
    return garden.answer("garden", [](const desk::Season& season) { return desk::garden_json(season); });
  });
  server.route("GET", "/api/outlook", [&garden](const Request&) {
    return garden.answer("outlook", [](const desk::Season& season) { return desk::outlook_json(season); });
  });
  server.route("GET", "/api/outlook/{stand}", [&garden](const Request& request) {
    const std::string& id = request.captured.at("stand");
    return garden.answer("outlook/" + id,
                         [&id](const desk::Season& season) { return stand_answer(season, id); });
  });
  server.route("GET", "/api/today", [&garden](const Request&) {
    return garden.answer("today", [](const desk::Season& season) {
      return desk::worklist_json(season, desk::worklist(season));
    });
  });
  server.route("GET", "/api/site", [&garden](const Request&) {
    return garden.answer("site", [](const desk::Season& season) { return desk::site_json(season); });
  });
  server.route("GET", "/api/events", [&garden](const Request&) { return garden.events(); });
  server.route("POST", "/api/events", [&garden, tell_changes](const Request& request) {
    Response response = garden.append(request.body);
    tell_changes();
    return response;
  });
  server.route("POST", "/api/stands/{stand}/try", [&garden](const Request& request) {
    return garden.try_move(request.captured.at("stand"), request.body);
  });
  server.route("PUT", "/api/stands/{stand}", [&garden, tell_changes](const Request& request) {
    Response response = garden.move(request.captured.at("stand"), request.body);
    tell_changes();
    return response;
  });
  server.route("GET", "/api/plan", [&plans](const Request&) {
    const auto plan = plans.last_plan();
    // Nothing is no problem: a page that asks at its start should not have to report one.
    return plan ? Response{.body = desk::plan_json(*plan), .headers = {}}
                : Response{.status = 204, .body = {}, .headers = {}};
  });
  server.route("POST", "/api/plan", [&garden, &plans](const Request& request) {
    const auto options = detail::read_plan_options(request.body);
    if (!options) return problem_response(options.error());
    auto input = garden.plan_input();
    if (!input) return problem_response(input.error());
    if (auto started = plans.start(std::move(*input), *options); !started)
      return problem_response(started.error());
    return Response{
        .status = 202, .body = R"({"state":"working"})", .headers = {{"Cache-Control", "no-store"}}};
  });
  server.route("DELETE", "/api/plan", [&plans](const Request&) {
    plans.cancel();
    return Response{.body = R"({"state":"stopping"})", .headers = {{"Cache-Control", "no-store"}}};
  });
  server.event_stream(kChanges, [&garden] {
    return std::pair<std::string, std::string>{kRevisionEvent, std::to_string(garden.seen_revision())};
  });
  // The command line may write to the same file while this serves it.
  server.on_tick([&server, &garden, &plans, tell_changes] {
    if (const auto finished = plans.take_finished()) {
      const base::Result<void> kept =
          *finished ? garden.keep_plan(**finished) : tl::unexpected(finished->error());
      server.publish(kChanges, "plan", detail::plan_end_json(kept));
    }
    tell_changes();
  });
}

}  // namespace

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

  GardenDesk garden(std::move(*file), options.today);
  garden.look_for_change();
  HttpServer server({.port = options.port});
  detail::PlanJob plans(
      [&server](const std::string& progress) { server.publish(kChanges, "plan", progress); });
  server.assets(std::move(*assets));
  add_routes(server, garden, plans);
  if (auto started = server.start(); !started) return started;
  on_ready(server.port());
  while (!stop) std::this_thread::sleep_for(kLookAtStop);
  plans.cancel();
  server.stop();
  return {};
}

}  // namespace sowtide::serve
