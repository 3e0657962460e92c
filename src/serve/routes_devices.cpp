#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "desk/qr.hpp"
#include "serve/detail/body.hpp"
#include "serve/detail/json_fields.hpp"
#include "serve/detail/pair_page.hpp"
#include "serve/detail/routes.hpp"

namespace sowtide::serve::detail {
namespace {

using base::ProblemCode;
using nlohmann::json;

constexpr const char* kCookie = "sowtide_session";
/// Over TLS it has a name of its own: one that went over the network in the open does not count here, and a plain page
/// may not replace it, which browsers forbid anyway. The prefix is a promise that browsers hold a server to (RFC 6265bis:
/// Secure, this host alone).
constexpr const char* kSecureCookie = "__Host-sowtide_session";
constexpr int kUnauthorised = 401;
constexpr int kForbidden = 403;
constexpr int kTooMany = 429;
constexpr int kSeeOther = 303;
constexpr const char* kYearSeconds = "31536000";

base::Problem said(std::string what, std::string remedy) {
  return {.code = ProblemCode::usage, .what = std::move(what), .where = {}, .remedy = std::move(remedy)};
}

Response pair(const RouteContext& context, const Request& request) {
  const auto body = parse_body(request.body);
  if (!body) return problem_response(body.error());
  JsonFields fields(*body, "");
  std::string code;
  std::string name;
  fields.text("code", code, Need::must);
  fields.text("name", name);
  if (auto read = fields.finish(); !read) return problem_response(read.error());
  const auto outcome = context.devices.pairing.pair(code, name, context.garden.today());
  if (!outcome) return problem_response(outcome.error());
  using Kind = PairingOutcome::Kind;
  if (outcome->kind == Kind::too_many) {
    Response later = problem_response(kTooMany, said("too many codes were tried", "Wait a minute."));
    later.headers.emplace_back("Retry-After", "60");
    return later;
  }
  if (outcome->kind == Kind::wrong_code) {
    return problem_response(kForbidden, said("that is not the code, or it has run out",
                                             "Ask for a new code at the machine that serves the garden."));
  }
  Response paired = fresh_response(json{{"device", outcome->device}}.dump());
  const bool encrypted = context.server.encrypted();
  paired.headers.emplace_back("Set-Cookie", fmt::format("{}={}; Path=/; Max-Age={}; HttpOnly; SameSite=Strict{}",
                                                        encrypted ? kSecureCookie : kCookie, outcome->token, kYearSeconds,
                                                        encrypted ? "; Secure" : ""));
  return paired;
}

Response device_list(const RouteContext& context) {
  json list = json::array();
  for (const PairedDevice& device : context.devices.pairing.devices()) {
    list.push_back({{"id", device.id}, {"name", device.name}, {"paired_on", base::to_iso(device.paired_on)}});
  }
  return fresh_response(json{{"devices", list}}.dump(-1, ' ', false, json::error_handler_t::replace));
}

Response forget(const RouteContext& context, const Request& request) {
  if (auto done = context.devices.pairing.forget(request.captured.at("device")); !done)
    return problem_response(done.error());
  // Its stream of changes ends too; those of the others come back by themselves.
  context.server.end_streams();
  return device_list(context);
}

Response new_code(const RouteContext& context, const Request& request) {
  if (!request.from_this_machine) {
    return problem_response(kForbidden, said("a code is given only on the machine that serves",
                                             "Open the garden there, and ask for a code."));
  }
  if (context.devices.home_address.empty()) {
    base::Problem problem =
        said("the garden is served on this machine only", "Start it with: sowtide serve GARDEN --lan");
    problem.code = ProblemCode::contradiction;
    return problem_response(problem);
  }
  const PairingInvitation invitation = invite(context.devices, context.server);
  const auto code = desk::qr_code(invitation.url);
  if (!code) return problem_response(code.error());
  return fresh_response(json{
      {"code", invitation.code},
      {"url", invitation.url},
      {"svg", desk::qr_svg(*code, invitation.url)},
      {"minutes",
       kCodeLife.count()}}.dump());
}

}  // namespace

PairingInvitation invite(const Devices& devices, const HttpServer& server) {
  PairingInvitation invitation;
  invitation.code = devices.pairing.new_code();
  invitation.url = fmt::format("{}{}#{}", server.url(devices.home_address), kPairPage, invitation.code);
  return invitation;
}

std::optional<Response> refuse_unpaired(const Pairing& pairing, bool encrypted, const Request& request) {
  if (request.from_this_machine) return std::nullopt;
  const auto token = cookie_value(request.header("cookie"), encrypted ? kSecureCookie : kCookie);
  if (token && pairing.knows(*token)) return std::nullopt;
  if (request.path == "/api/pair") return std::nullopt;
  if (request.path.rfind("/api/", 0) == 0) {
    return problem_response(kUnauthorised, said("this device is not paired with the garden",
                                                "Open /pair and give the code that the terminal shows."));
  }
  if (request.path != "/" && request.path != "/index.html") return std::nullopt;
  Response elsewhere;
  elsewhere.status = kSeeOther;
  elsewhere.headers = {{"Location", kPairPage}, {"Cache-Control", "no-store"}};
  return elsewhere;
}

void add_device_routes(const RouteContext& context) {
  context.server.route("POST", "/api/pair",
                       [context](const Request& request) { return pair(context, request); });
  context.server.route("GET", "/api/devices", [context](const Request&) { return device_list(context); });
  context.server.route("POST", "/api/devices/code",
                       [context](const Request& request) { return new_code(context, request); });
  context.server.route("DELETE", "/api/devices/{device}",
                       [context](const Request& request) { return forget(context, request); });
}

}  // namespace sowtide::serve::detail
