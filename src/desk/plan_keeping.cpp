#include "desk/plan_keeping.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <string_view>
#include <utility>

#include "book/corrections.hpp"
#include "book/garden_check.hpp"
#include "desk/json.hpp"
#include "desk/own_stand.hpp"
#include "desk/since_plan.hpp"
#include "desk/stand_room.hpp"
#include "stand/bought.hpp"

namespace sowtide::desk {
namespace {

using Ids = std::set<std::string, std::less<>>;

const stand::StandPlan* stand_of(const std::vector<stand::StandPlan>& stands, std::string_view id) {
  const auto found =
      std::find_if(stands.begin(), stands.end(), [id](const auto& each) { return each.id == id; });
  return found == stands.end() ? nullptr : &*found;
}

/// Of the stands that stay whatever a plan says.
struct Staying {
  std::vector<stand::StandPlan> all;
  std::vector<stand::StandPlan> by_hand;
  Ids since;  ///< ids of those that were begun, moved or put in since the plan was begun
};

Staying staying(const PlannedFor& before, const PlannedFor& now) {
  Staying stay;
  for (const stand::StandPlan& stand : now.stands) {
    const stand::StandPlan* was = stand_of(before.stands, stand.id);
    const bool is_begun = now.begun.contains(stand.id);
    const bool as_it_was = was != nullptr && *was == stand;
    if (!is_begun && as_it_was) continue;
    stay.all.push_back(stand);
    if (!is_begun) stay.by_hand.push_back(stand);
    if (!as_it_was || !before.begun.contains(stand.id)) stay.since.insert(stand.id);
  }
  return stay;
}

/// `why`: "place-taken-meanwhile", or "no-longer-fits" where bed, tray, packet or variety are gone.
plan::Note left_out(const crop::CropLibrary& library, const book::GardenDescription& garden,
                    const stand::StandPlan& stand, const char* why) {
  return {{why,
           {{"crop", stand.crop},
            {"crop_name", library.name_of(stand.crop)},
            {"clumps", static_cast<double>(stand.clumps)},
            {"sow", stand::begins_on(stand)},
            {"bed", bed_name(garden, stand.bed)}}}};
}

plan::Note stays_as_it_is(const crop::CropLibrary& library, const stand::StandPlan& stand) {
  return {{"stand-changed-meanwhile",
           {{"crop", stand.crop}, {"crop_name", library.name_of(stand.crop)}, {"stand", stand.id}}}};
}

/// Whether a plan says another thing of a stand than what stands there.
bool says_other(const stand::StandPlan& plan, const stand::StandPlan& stand) {
  return plan.sow != stand.sow || plan.clumps != stand.clumps || plan.bed != stand.bed ||
         plan.from_m != stand.from_m;
}

class Fitting {
 public:
  Fitting(const crop::CropLibrary& library, const PlannedFor& before, const book::GardenDescription& now,
          const std::vector<book::Event>& events)
      : library_(library),
        before_(before),
        now_(now),
        stay_(staying(before, planned_for(now, events))),
        names_(names_ever_given(now, events)) {}

  /// Takes the stands of the plan one by one, with a name of their own each; without what is there already
  /// and what the garden's beds, trays, packets and varieties no longer bear.
  void take(const plan::Plan& plan) {
    for (const stand::StandPlan& each : plan.stands) names_.take(each.id);
    for (const stand::StandPlan& planned : plan.stands) {
      const stand::StandPlan* holder = stand_of(stay_.all, planned.id);
      if (holder != nullptr && is_same_stand(planned, *holder)) {
        // Where the plan says what was done, the rest of it has been laid out beside that.
        if (says_other(planned, *holder))
          meanwhile_.push_back(stays_as_it_is(library_, *holder));
        else
          stay_.since.erase(planned.id);
        continue;
      }
      stand::StandPlan stand = planned;
      if (holder != nullptr) stand.id = names_.next();
      if (book::check_stand_plan(now_, stand, "stand")) {
        planned_as_[stand.id] = planned.id;
        taken_.push_back(std::move(stand));
      } else {
        meanwhile_.push_back(left_out(library_, now_, planned, "no-longer-fits"));
      }
    }
  }

  /// Leaves out what would stand where something is since the plan was begun.
  base::Result<void> make_way(const std::vector<book::Event>& events, base::Date today, SeasonCache* cache) {
    if (stay_.since.empty()) return {};
    book::GardenDescription garden = now_;
    garden.stands = stay_.all;
    garden.stands.insert(garden.stands.end(), taken_.begin(), taken_.end());
    const auto season = make_season(library_, std::move(garden), events, today, cache);
    if (!season) return tl::unexpected(season.error());
    std::erase_if(taken_, [&](const stand::StandPlan& stand) {
      if (!meets_new(shared_room(*season, stand.id))) return false;
      meanwhile_.push_back(left_out(library_, now_, stand, "place-taken-meanwhile"));
      return true;
    });
    return {};
  }

  [[nodiscard]] FittedPlan result(plan::Plan plan) && {
    std::map<std::string, plan::Note> reasons;
    for (const stand::StandPlan& stand : taken_) {
      const auto reason = plan.reasons.find(planned_as_[stand.id]);
      if (reason != plan.reasons.end()) reasons.emplace(stand.id, reason->second);
    }
    plan.reasons = std::move(reasons);
    plan.stands = std::move(taken_);
    plan.notes.insert(plan.notes.end(), meanwhile_.begin(), meanwhile_.end());
    return {std::move(plan), std::move(stay_.by_hand), std::move(meanwhile_)};
  }

 private:
  /// A plan goes on with the names of the plan before it: what has the name and the crop of a stand that
  /// nobody had begun is that stand.
  [[nodiscard]] bool is_same_stand(const stand::StandPlan& planned, const stand::StandPlan& holder) const {
    return planned.crop == holder.crop && !before_.begun.contains(holder.id) &&
           stand_of(before_.stands, holder.id) != nullptr;
  }

  [[nodiscard]] bool meets_new(const SharedRoom& room) const {
    const auto is_new = [this](const std::string& id) { return stay_.since.contains(id); };
    return std::any_of(room.begun.begin(), room.begun.end(), is_new) ||
           std::any_of(room.planned.begin(), room.planned.end(), is_new);
  }

  const crop::CropLibrary& library_;
  const PlannedFor& before_;
  const book::GardenDescription& now_;
  Staying stay_;
  stand::StandNames names_;
  std::vector<stand::StandPlan> taken_;
  std::map<std::string, std::string> planned_as_;  ///< by the name now
  std::vector<plan::Note> meanwhile_;
};

}  // namespace

PlannedFor planned_for(const book::GardenDescription& garden, const std::vector<book::Event>& events) {
  PlannedFor now{garden.stands, book::stands_of_log(events)};
  for (const book::Event& event : events) now.last_entry = std::max(now.last_entry, event.sequence);
  now.wants = garden.wants;
  return now;
}

base::Result<FittedPlan> fit_plan(const crop::CropLibrary& library, const PlannedFor& before, plan::Plan plan,
                                  const book::GardenDescription& now, const std::vector<book::Event>& events,
                                  base::Date today, SeasonCache* cache) {
  Fitting fitting(library, before, now, events);
  fitting.take(plan);
  if (auto free = fitting.make_way(events, today, cache); !free) return tl::unexpected(free.error());
  return std::move(fitting).result(std::move(plan));
}

base::Result<FittedPlan> keep_plan(book::GardenFile& file, const crop::CropLibrary& library,
                                   const PlannedFor& before, const plan::Plan& plan, base::Date today,
                                   SeasonCache* cache) {
  FittedPlan kept;
  const auto fit = [&](const book::GardenDescription& now,
                       const std::vector<book::Event>& events) -> base::Result<book::PlanToKeep> {
    auto fitted = fit_plan(library, before, plan, now, events, today, cache);
    if (!fitted) return tl::unexpected(fitted.error());
    kept = std::move(*fitted);
    std::vector<stand::StandPlan> stands = kept.by_hand;
    stands.insert(stands.end(), kept.plan.stands.begin(), kept.plan.stands.end());
    return book::PlanToKeep{std::move(stands), answer_made_for(plan_json(kept.plan), before)};
  };
  if (auto written = file.keep_plan(fit, today); !written) return tl::unexpected(written.error());
  return kept;
}

}  // namespace sowtide::desk
