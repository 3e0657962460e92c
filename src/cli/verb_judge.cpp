// judge: pull now or wait.
#include <ostream>

#include "cli/open.hpp"
#include "cli/verbs.hpp"
#include "desk/judgement.hpp"

namespace sowtide::cli {

base::Result<void> run_judge(const JudgeOptions& options, Output& output) {
  const auto season = open_season(options.garden, options.date);
  if (!season) return tl::unexpected(season.error());
  const auto stand = stand_typed(options.stand, season->garden, "STAND");
  if (!stand) return tl::unexpected(stand.error());
  const auto judged = desk::judge_stands(*season, *stand, options.date);
  if (!judged) {
    base::Problem problem = judged.error();
    problem.where.file = options.garden;
    return tl::unexpected(problem);
  }
  output.out << (output.json ? desk::judge_json(*season, *judged, options.date) + "\n"
                             : desk::judge_text(*season, *judged, options.date));
  return {};
}

}  // namespace sowtide::cli
