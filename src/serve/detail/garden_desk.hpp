// The garden as the server knows it: the open file, today, and the season with the answers read off it.
#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <mutex>
#include <optional>
#include <string>

#include "base/date.hpp"
#include "book/garden_file.hpp"
#include "desk/season.hpp"
#include "serve/detail/plan_job.hpp"
#include "serve/http_server.hpp"

namespace sowtide::serve::detail {

/// What all answers depend on: a write of the garden, and the turn of the day.
struct GardenMoment {
  std::int64_t revision = -1;
  base::Date today{};
  bool operator==(const GardenMoment&) const = default;
};

/// The calendar day at this machine's place.
[[nodiscard]] base::Date system_today();

/// All but `seen` belongs to the server's worker thread.
class GardenDesk {
 public:
  /// `day` gives today; it is asked anew for every answer.
  GardenDesk(book::GardenFile file, std::function<base::Date()> day);

  /// The revision and day last seen; from any thread.
  [[nodiscard]] GardenMoment seen() const;
  /// Reads the revision and the day again; true when one of them changed since.
  bool look_for_change();

  [[nodiscard]] base::Date today() const { return day_(); }
  /// The season of this revision and day, made anew when either changed. The pointer holds until the next
  /// call. Problems: those of the garden file and of desk::make_season.
  [[nodiscard]] base::Result<const desk::Season*> season();
  [[nodiscard]] base::Result<std::vector<book::Event>> events() const { return file_.events(); }
  /// The garden file, for writes; what is written is seen by the next `season()`.
  [[nodiscard]] book::GardenFile& file() { return file_; }

  /// An answer read off the season, computed once for each `key`, revision and day. The key names all that
  /// the answer depends on besides: the route with what was captured and asked ("outlook/s12").
  Response answer(const std::string& key,
                  const std::function<base::Result<std::string>(const desk::Season&)>& make);

  /// Keeps a plan that has come to its end, fitted to what the garden is by now (desk/plan_keeping.hpp).
  base::Result<desk::FittedPlan> keep_plan(const FinishedPlan& finished);
  /// Keeps a plan that was only to be tried in memory, until another plan is made, or it is forgotten.
  base::Result<void> try_plan(FinishedPlan finished);
  /// The plan tried last (docs/api/plan-trial.schema.json); empty without one.
  [[nodiscard]] const std::string& tried_plan() const { return tried_answer_; }
  /// Keeps the plan tried last in the garden file. Problems: not_found, contradiction (it was made for
  /// another garden).
  base::Result<desk::FittedPlan> keep_tried_plan();
  void forget_tried_plan();
  /// What the planner needs, as values of its own.
  [[nodiscard]] base::Result<PlanInput> plan_input();

 private:
  base::Result<void> refresh();

  book::GardenFile file_;
  std::function<base::Date()> day_;
  std::optional<desk::Season> season_;
  desk::SeasonCache cache_;
  GardenMoment season_moment_;
  std::optional<FinishedPlan> tried_;
  std::string tried_answer_;
  std::map<std::string, std::string> answers_;
  mutable std::mutex seen_mutex_;
  GardenMoment seen_;  ///< guarded
};

}  // namespace sowtide::serve::detail
