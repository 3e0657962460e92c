// The garden as the server knows it: the open file, today, and the season with the answers read off it.
#pragma once

#include <atomic>
#include <cstdint>
#include <functional>
#include <map>
#include <optional>
#include <string>

#include "base/date.hpp"
#include "book/garden_file.hpp"
#include "desk/season.hpp"
#include "serve/detail/plan_job.hpp"
#include "serve/http_server.hpp"

namespace sowtide::serve::detail {

/// All but `seen_revision` belongs to the server's worker thread.
class GardenDesk {
 public:
  /// `fixed_today`: nothing stands for the system's day, read anew for every answer.
  GardenDesk(book::GardenFile file, std::optional<base::Date> fixed_today);

  /// The revision last seen; from any thread.
  [[nodiscard]] std::int64_t seen_revision() const { return seen_revision_; }
  /// Reads the revision again; true when it changed since.
  bool look_for_change();

  [[nodiscard]] base::Date today() const;
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

  /// What the planner needs, as values of its own.
  [[nodiscard]] base::Result<PlanInput> plan_input();

 private:
  base::Result<void> refresh();

  book::GardenFile file_;
  std::optional<base::Date> fixed_today_;
  std::optional<desk::Season> season_;
  desk::SeasonCache cache_;
  std::int64_t season_revision_ = -1;
  std::map<std::string, std::string> answers_;
  std::atomic<std::int64_t> seen_revision_{0};
};

}  // namespace sowtide::serve::detail
