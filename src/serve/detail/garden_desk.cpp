#include "serve/detail/garden_desk.hpp"

#include <chrono>
#include <ctime>
#include <utility>

#include "crop/crop.hpp"

namespace sowtide::serve::detail {
namespace {

/// Keys come from what is asked, so there may be any number of them.
constexpr std::size_t kMostAnswers = 1000;

}  // namespace

base::Date system_today() {
  const std::time_t now = std::chrono::system_clock::to_time_t(std::chrono::system_clock::now());
  std::tm local{};
  ::localtime_r(&now, &local);
  constexpr int kTmYearBase = 1900;
  return base::date_of(local.tm_year + kTmYearBase, local.tm_mon + 1, local.tm_mday);
}

GardenDesk::GardenDesk(book::GardenFile file, std::function<base::Date()> day)
    : file_(std::move(file)), day_(std::move(day)) {}

GardenMoment GardenDesk::seen() const {
  const std::lock_guard lock(seen_mutex_);
  return seen_;
}

bool GardenDesk::look_for_change() {
  const auto revision = file_.revision();
  if (!revision) return false;
  const GardenMoment now{*revision, today()};
  const std::lock_guard lock(seen_mutex_);
  return std::exchange(seen_, now) != now;
}

base::Result<const desk::Season*> GardenDesk::season() {
  if (auto fresh = refresh(); !fresh) return tl::unexpected(fresh.error());
  return &*season_;
}

Response GardenDesk::answer(const std::string& key,
                            const std::function<base::Result<std::string>(const desk::Season&)>& make) {
  if (auto fresh = refresh(); !fresh) return problem_response(fresh.error());
  const auto known = answers_.find(key);
  if (known != answers_.end()) return {.body = known->second, .headers = {}};
  if (answers_.size() >= kMostAnswers) answers_.clear();
  auto body = make(*season_);
  if (!body) return problem_response(body.error());
  return {.body = answers_.emplace(key, std::move(*body)).first->second, .headers = {}};
}

base::Result<desk::FittedPlan> GardenDesk::keep_plan(const FinishedPlan& finished) {
  if (!finished.plan) return tl::unexpected(finished.plan.error());
  auto kept =
      desk::keep_plan(file_, crop::built_in_library(), finished.before, *finished.plan, today(), &cache_);
  // What could not be written may be kept yet.
  if (kept) forget_tried_plan();
  return kept;
}

base::Result<void> GardenDesk::try_plan(FinishedPlan finished) {
  forget_tried_plan();
  if (!finished.plan) return tl::unexpected(finished.plan.error());
  if (auto fresh = refresh(); !fresh) return fresh;
  const PlanInput& input = finished.input;
  if (season_moment_ != GardenMoment{input.revision, input.today}) {
    return base::fail(base::ProblemCode::contradiction,
                      "the garden was changed while the plan was tried, so the two cannot be compared", {},
                      "Try it again.");
  }
  const auto after =
      desk::make_season(crop::built_in_library(), with_plan(input.garden, input.events, *finished.plan),
                        input.events, input.today, &cache_);
  if (!after) return tl::unexpected(after.error());
  tried_answer_ = plan_trial_json(*input.trial, *finished.plan, *season_, *after);
  tried_ = std::move(finished);
  return {};
}

base::Result<desk::FittedPlan> GardenDesk::keep_tried_plan() {
  if (!tried_) {
    return base::fail(base::ProblemCode::not_found, "there is no plan that was only tried", {},
                      "Make one by POST /api/plan with \"only_try\": true.");
  }
  if (!tried_->input.trial->changed.empty()) {
    return base::fail(base::ProblemCode::contradiction,
                      "the plan was tried with a garden that is not the one in the file", {},
                      "Change the garden by PUT /api/setup/{part}, then plan again.");
  }
  if (tried_->input.today != today()) {
    return base::fail(base::ProblemCode::contradiction,
                      "the plan was tried on " + base::to_iso(tried_->input.today) + ", and that day is past",
                      {}, "Try it again.");
  }
  return keep_plan(*tried_);
}

void GardenDesk::forget_tried_plan() {
  tried_.reset();
  tried_answer_.clear();
}

base::Result<PlanInput> GardenDesk::plan_input() {
  if (auto fresh = refresh(); !fresh) return tl::unexpected(fresh.error());
  auto all_events = file_.events();
  if (!all_events) return tl::unexpected(all_events.error());
  auto answer_before = file_.plan_answer();
  if (!answer_before) return tl::unexpected(answer_before.error());
  return PlanInput{season_->garden,         std::move(*all_events),    season_->today,
                   season_moment_.revision, std::move(*answer_before), std::nullopt};
}

base::Result<void> GardenDesk::refresh() {
  const auto revision = file_.revision();
  if (!revision) return tl::unexpected(revision.error());
  const GardenMoment now{*revision, today()};
  if (season_ && season_moment_ == now) return {};
  auto garden = file_.description();
  if (!garden) return tl::unexpected(garden.error());
  const auto all_events = file_.events();
  if (!all_events) return tl::unexpected(all_events.error());
  auto season = desk::make_season(crop::built_in_library(), std::move(*garden), *all_events, now.today, &cache_);
  if (!season) return tl::unexpected(season.error());
  season_ = std::move(*season);
  season_moment_ = now;
  answers_.clear();
  return {};
}

}  // namespace sowtide::serve::detail
