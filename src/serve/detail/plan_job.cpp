#include "serve/detail/plan_job.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <nlohmann/json.hpp>
#include <utility>

#include "crop/crop.hpp"
#include "desk/json.hpp"
#include "desk/message.hpp"
#include "desk/message_json.hpp"
#include "desk/planning.hpp"

namespace sowtide::serve::detail {
namespace {

using base::ProblemCode;
using nlohmann::json;

constexpr auto kBetweenReports = std::chrono::milliseconds(500);

struct PlanOption {
  const char* name;
  plan::OptionLimits limits;
  bool whole;
  void (*set)(plan::PlanOptions&, double);
};
constexpr std::array kOptions{
    PlanOption{"effort", plan::kPlanLimits.effort, false,
               [](plan::PlanOptions& o, double times) { o.search_longer(times); }},
    PlanOption{"time_limit_s", plan::kPlanLimits.time_limit_s, false,
               [](plan::PlanOptions& o, double s) { o.time_limit_s = s; }},
    PlanOption{"weeks", plan::kPlanLimits.weeks, true,
               [](plan::PlanOptions& o, double weeks) { o.weeks = static_cast<std::size_t>(weeks); }},
    PlanOption{"bad_years", plan::kPlanLimits.bad_years, false,
               [](plan::PlanOptions& o, double price) { o.prices.bad_years = price; }}};

base::Result<double> number_of(const json& value, const PlanOption& option) {
  const base::Place place{.file = {}, .line = 0, .column = 0, .field = option.name};
  if (!value.is_number()) return base::fail(ProblemCode::wrong_type, "must be a number", place);
  const double number = value.get<double>();
  const auto [least, most] = option.limits;
  if (!(number >= least && number <= most)) {
    return base::fail(ProblemCode::out_of_range, fmt::format("is {}, must be {} to {}", number, least, most), place,
                      "Give a number within");
  }
  if (option.whole && std::trunc(number) != number)
    return base::fail(ProblemCode::wrong_type, fmt::format("is {}, must be a whole number", number), place,
                      "Give it without a fraction");
  return number;
}

json finite_or_null(std::optional<double> value) {
  return value && std::isfinite(*value) ? json(*value) : json(nullptr);
}

/// {"state":"stopped"} where it was asked to stop before there was a plan, else
/// {"state":"failed","error":{…}}.
std::string plan_failed_json(const base::Problem& problem) {
  if (problem.code == ProblemCode::cancelled) return json{{"state", "stopped"}}.dump();
  json answer{{"state", "failed"}};
  answer.update(json::parse(desk::problem_json(problem)));
  return answer.dump();
}

}  // namespace

base::Result<plan::PlanOptions> read_plan_options(const json& told) {
  plan::PlanOptions options;
  if (!told.is_object()) {
    return base::fail(ProblemCode::syntax, "the options of a plan must be a JSON object", {},
                      "Send {} for the usual plan.");
  }
  for (const auto& [name, each] : told.items()) {
    const bool known = std::any_of(kOptions.begin(), kOptions.end(),
                                   [&](const PlanOption& option) { return name == option.name; });
    if (!known) {
      return base::fail(ProblemCode::unknown_field, "is not an option of a plan",
                        {.file = {}, .line = 0, .column = 0, .field = name},
                        "Known are effort, time_limit_s, weeks, bad_years, only_try and what_if.");
    }
  }
  // In their order: a time limit that is given outdoes that of an effort.
  for (const PlanOption& option : kOptions) {
    const auto given = told.find(option.name);
    if (given == told.end()) continue;
    const auto number = number_of(*given, option);
    if (!number) return tl::unexpected(number.error());
    option.set(options, *number);
  }
  return options;
}

std::string plan_tried_json(const base::Result<void>& end) {
  return end ? json{{"state", "tried"}}.dump() : plan_failed_json(end.error());
}

std::string plan_end_json(const base::Result<desk::FittedPlan>& end) {
  if (!end) return plan_failed_json(end.error());
  json notes = json::array(), said = json::array();
  for (const plan::Note& note : end->meanwhile) {
    notes.push_back(desk::sentence_text(note, desk::Units::metric, {}));
    said.push_back(json(desk::messages_json(note)));
  }
  const json answer{{"state", "done"}, {"notes", notes}, {"notes_said", said}};
  return answer.dump(-1, ' ', false, json::error_handler_t::replace);
}

PlanJob::PlanJob(std::function<void(const std::string&)> tell) : tell_(std::move(tell)) {}

PlanJob::~PlanJob() {
  cancel();
  if (thread_.joinable()) thread_.join();
}

base::Result<void> PlanJob::start(PlanInput input, plan::PlanOptions options) {
  {
    const std::lock_guard lock(mutex_);
    if (working_) {
      return base::fail(ProblemCode::contradiction, "a plan is being made already", {},
                        "Wait for it, or stop it with DELETE /api/plan.");
    }
    working_ = true;
  }
  if (thread_.joinable()) thread_.join();
  cancelled_ = false;
  thread_ = std::thread([this, given = std::move(input), options = std::move(options)]() mutable {
    run(std::move(given), std::move(options));
  });
  return {};
}

void PlanJob::run(PlanInput input, plan::PlanOptions options) {
  auto last_report = std::chrono::steady_clock::time_point{};
  options.progress = [this, &last_report,
                      only_try = input.trial.has_value()](const plan::PlanProgress& progress) {
    const auto now = std::chrono::steady_clock::now();
    if (now - last_report >= kBetweenReports) {
      last_report = now;
      tell_(json{{"state", "working"},
                 {"only_try", only_try},
                 {"seconds", finite_or_null(progress.seconds)},
                 {"laid_out", progress.laid_out},
                 {"objective", finite_or_null(progress.objective)},
                 {"bound", finite_or_null(progress.bound)}}
                .dump());
    }
    return !cancelled_;
  };
  base::Result<plan::Plan> plan = base::fail(ProblemCode::internal, "the planner ended without a plan");
  try {
    plan = desk::plan_garden(crop::built_in_library(), input.garden, input.events, input.today, options,
                             &memory_, input.answer_before);
  } catch (const std::exception& failure) {
    plan = base::fail(ProblemCode::internal, std::string("a defect of this program: ") + failure.what());
  }
  const std::lock_guard lock(mutex_);
  desk::PlannedFor before = desk::planned_for(input.garden, input.events);
  finished_ = FinishedPlan{std::move(plan), std::move(before), std::move(input)};
  working_ = false;
}

void PlanJob::cancel() {
  cancelled_ = true;
}

std::optional<FinishedPlan> PlanJob::take_finished() {
  const std::lock_guard lock(mutex_);
  return std::exchange(finished_, std::nullopt);
}

}  // namespace sowtide::serve::detail
