#include <fmt/format.h>

#include <optional>
#include <string>
#include <utility>

#include "desk/judgement.hpp"
#include "serve/detail/query.hpp"
#include "serve/detail/routes.hpp"

namespace sowtide::serve::detail {
namespace {

base::Result<desk::StandLook> look_asked(const Request& request) {
  desk::StandLook look;
  const auto from = date_asked(request, "from");
  if (!from) return tl::unexpected(from.error());
  const auto to = date_asked(request, "to");
  if (!to) return tl::unexpected(to.error());
  const auto step = whole_asked(request, "step_days", look.step_days, 1, 60);
  if (!step) return tl::unexpected(step.error());
  const auto clumps = whole_asked(request, "clumps", look.clumps, 1, 60);
  if (!clumps) return tl::unexpected(clumps.error());
  look.from = *from;
  look.to = *to;
  look.step_days = *step;
  look.clumps = *clumps;
  return look;
}

/// ?date=&largest_per_clump=&above_g=&keep_per_clump=&leaf_share=
base::Result<stand::Removal> removal_asked(const Request& request, base::Date today) {
  stand::Removal removal;
  const auto date = date_asked(request, "date");
  if (!date) return tl::unexpected(date.error());
  const auto largest = whole_asked(request, "largest_per_clump", 0, 0, 12);
  if (!largest) return tl::unexpected(largest.error());
  const auto above = number_asked(request, "above_g", 0.0, {0.0, 1e5});
  if (!above) return tl::unexpected(above.error());
  const auto keep = whole_asked(request, "keep_per_clump", 0, 0, 12);
  if (!keep) return tl::unexpected(keep.error());
  const auto leaf = number_asked(request, "leaf_share", 0.0, {0.0, 0.9});
  if (!leaf) return tl::unexpected(leaf.error());
  removal.date = date->value_or(today);
  removal.largest_per_clump = *largest;
  removal.above_g = *above;
  removal.keep_per_clump = *keep;
  removal.leaf_share = *leaf;
  return removal;
}

std::string text_of(const std::optional<base::Date>& date) {
  return date ? base::to_iso(*date) : "";
}

Response judged(const RouteContext& context, const Request& request, const std::string& stand) {
  if (auto known = only_asked(request, {"date"}); !known) return problem_response(known.error());
  const auto date = date_asked(request, "date");
  if (!date) return problem_response(date.error());
  return context.garden.answer(fmt::format("judge {} {}", text_of(*date), stand),
                               [&](const desk::Season& season) -> base::Result<std::string> {
                                 const base::Date day = date->value_or(season.today);
                                 const auto list = desk::judge_stands(season, stand, day);
                                 if (!list) return tl::unexpected(list.error());
                                 return desk::judge_json(season, *list, day);
                               });
}

Response pictured(const RouteContext& context, const Request& request) {
  if (auto known = only_asked(request, {"from", "to", "step_days", "clumps"}); !known)
    return problem_response(known.error());
  const auto look = look_asked(request);
  if (!look) return problem_response(look.error());
  const std::string& stand = request.captured.at("stand");
  const std::string key = fmt::format("picture {} {} {} {} {}", text_of(look->from), text_of(look->to),
                                      look->step_days, look->clumps, stand);
  return context.garden.answer(
      key, [&](const desk::Season& season) { return desk::picture_json(season, stand, *look); });
}

Response tried(const RouteContext& context, const Request& request) {
  if (auto known = only_asked(request, {"from", "to", "step_days", "clumps", "date", "largest_per_clump",
                                        "above_g", "keep_per_clump", "leaf_share"});
      !known)
    return problem_response(known.error());
  const auto look = look_asked(request);
  if (!look) return problem_response(look.error());
  const auto season = context.garden.season();
  if (!season) return problem_response(season.error());
  const auto removal = removal_asked(request, (*season)->today);
  if (!removal) return problem_response(removal.error());
  auto trial = desk::trial_json(**season, request.captured.at("stand"), *removal, *look);
  return trial ? fresh_response(std::move(*trial)) : problem_response(trial.error());
}

}  // namespace

void add_judge_routes(const RouteContext& context) {
  context.server.route("GET", "/api/judge",
                       [context](const Request& request) { return judged(context, request, {}); });
  context.server.route("GET", "/api/judge/{stand}", [context](const Request& request) {
    return judged(context, request, request.captured.at("stand"));
  });
  context.server.route("GET", "/api/stands/{stand}/picture",
                       [context](const Request& request) { return pictured(context, request); });
  context.server.route("GET", "/api/stands/{stand}/removal",
                       [context](const Request& request) { return tried(context, request); });
}

}  // namespace sowtide::serve::detail
