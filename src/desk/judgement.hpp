// Pull or wait, for the stands of a garden: the judgement of the stand room with what the rest of the
// household brings in (the kitchen's lack this week, the next stand that waits for the ground), the picture
// of a stand's clumps on any day, and the trial of taking plants out. Also their JSON
// (docs/api/judge.schema.json, stand-picture.schema.json, stand-removal.schema.json) and plain text.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "desk/pulling.hpp"
#include "desk/season.hpp"
#include "stand/judge.hpp"
#include "stand/picture.hpp"

namespace sowtide::desk {

/// One stand judged.
struct JudgedStand {
  stand::StandPlan plan;
  stand::StandFacts facts;
  stand::Judgement judgement;
  stand::JudgeNeeds needs;
  std::vector<std::string> short_wants;  ///< ids of the wants that lack something this week
  std::string next_stand;                ///< id of the stand that waits for the same ground, or empty
  std::optional<WhereTo> where_to = {};  ///< where it goes when all of it is taken, and not eaten this week
  std::string handling = {};             ///< then, of what keeps: how the crop is made ready to store
};

/// Judges one stand, or, with an empty id, all that stand in a bed on that day. `date` may lie up to a year
/// after the season's today; facts are those known today. not_found for an unknown stand; out_of_range as
/// stand::judge.
[[nodiscard]] base::Result<std::vector<JudgedStand>> judge_stands(const Season& season,
                                                                  const std::string& only, base::Date date);

/// One stand of the season judged on its today. Problems as judge_stands.
[[nodiscard]] base::Result<JudgedStand> judged_today(const Season& season, std::size_t stand);

[[nodiscard]] std::string judge_json(const Season& season, const std::vector<JudgedStand>& judged,
                                     base::Date date);
[[nodiscard]] std::string judge_text(const Season& season, const std::vector<JudgedStand>& judged,
                                     base::Date date);

/// The clumps of one stand by day. Nothing for `from`: today or the day of sowing; for `to`: the day by which
/// nine years in ten have taken the last of it, fourteen weeks on where nothing is expected of it, or the
/// last day of the weather.
struct StandLook {
  std::optional<base::Date> from, to;
  int step_days = 7;
  int clumps = 12;
};
[[nodiscard]] base::Result<std::string> picture_json(const Season& season, const std::string& stand,
                                                     const StandLook& look);
/// The same before and after taking plants or leaves out; nothing is written down.
[[nodiscard]] base::Result<std::string> trial_json(const Season& season, const std::string& stand,
                                                   const stand::Removal& removal, const StandLook& look);

}  // namespace sowtide::desk
