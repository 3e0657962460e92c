#include <fmt/format.h>

#include <string_view>

#include "desk/calendar.hpp"
#include "desk/garden_windows.hpp"
#include "desk/print/print.hpp"
#include "serve/detail/query.hpp"
#include "serve/detail/routes.hpp"

namespace sowtide::serve::detail {
namespace {

using base::ProblemCode;
namespace print = desk::print;

constexpr std::string_view kCalendar = "calendar";

base::Result<std::optional<desk::Units>> units_asked(const Request& request) {
  const auto word = request.asked("units");
  if (!word) return std::nullopt;
  if (*word == "metric") return desk::Units::metric;
  if (*word == "us") return desk::Units::us;
  return base::fail(ProblemCode::out_of_range, fmt::format("there are no units \"{}\"", word->substr(0, 40)),
                    {.field = "units"}, "Give metric or us");
}

base::Result<print::Options> options_asked(const RouteContext& context, const Request& request) {
  if (auto known = only_asked(request, {"paper", "units", "language", "label_size"}); !known)
    return tl::make_unexpected(known.error());
  print::Options options;
  const auto paper = print::parse_paper(request.asked("paper").value_or("a4"));
  if (!paper) {
    return base::fail(ProblemCode::out_of_range, "there is no such paper", {.field = "paper"}, "Give a4 or letter");
  }
  const auto units = units_asked(request);
  if (!units) return tl::make_unexpected(units.error());
  options.paper = *paper;
  options.units = *units;
  options.language = request.asked("language").value_or("en");
  options.label_grid = request.asked("label_size").value_or("");
  options.address = context.address_for(request);
  return options;
}

base::Result<std::string> handout_of(const desk::Season& season, const print::Options& options) {
  const auto weather = desk::typical_years(season.garden);
  if (!weather) return tl::make_unexpected(weather.error());
  return print::print_handout({.place = season.garden.name,
                               .weather = &*weather,
                               .library = season.library,
                               .today = season.today,
                               .crops = {},
                               .units = desk::units_of(season.garden.units)},
                              options);
}

Response printed(const RouteContext& context, const Request& request) {
  const std::string word = request.captured.at("kind");
  const auto kind = print::parse_kind(word);
  if (!kind && word != kCalendar) {
    return problem_response({.code = ProblemCode::not_found,
                             .what = fmt::format("there is no sheet \"{}\"", word.substr(0, 40)),
                             .where = {.file = {}, .line = 0, .column = 0, .field = "kind"},
                             .remedy = "Ask for labels, sowing-sheet, bed-sheets, season, table, handout or calendar."});
  }
  const auto options = options_asked(context, request);
  if (!options) return problem_response(options.error());
  const std::string key = fmt::format("print/{}?{}&{}&{}&{}&{}", word, static_cast<int>(options->paper),
                                      options->units ? static_cast<int>(*options->units) : -1, options->language,
                                      options->label_grid, options->address);
  Response response = context.garden.answer(key, [&](const desk::Season& season) -> base::Result<std::string> {
    if (!kind) {
      return desk::calendar_ics(season, {.language = options->language,
                                         .units = options->units,
                                         .address = options->address,
                                         .as_todos = false});
    }
    return kind == print::Kind::handout ? handout_of(season, *options) : print::print_season(season, *kind, *options);
  });
  constexpr int kOk = 200;
  if (response.status != kOk) return response;
  response.content_type = kind ? "application/pdf" : "text/calendar; charset=utf-8";
  response.headers.emplace_back("Content-Disposition",
                                fmt::format("inline; filename=\"{}.{}\"", word, kind ? "pdf" : "ics"));
  return response;
}

}  // namespace

void add_print_routes(const RouteContext& context) {
  context.server.route("GET", "/api/print/{kind}",
                       [context](const Request& request) { return printed(context, request); });
}

}  // namespace sowtide::serve::detail
