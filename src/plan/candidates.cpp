#include <algorithm>
#include <utility>

#include "base/parallel.hpp"
#include "plan/preparation.hpp"
#include "plan/sowing_judge.hpp"
#include "plan/ways.hpp"
#include "stand/bought.hpp"

namespace sowtide::plan {
namespace {

/// One more is laid out when this goes out of scope, be it looked at or left out.
class Counted {
 public:
  explicit Counted(ChoiceCount& count) : count_(count) {}
  ~Counted() { count_.add(1); }
  Counted(const Counted&) = delete;
  Counted& operator=(const Counted&) = delete;

 private:
  ChoiceCount& count_;
};

/// Looks at every way in every week, and keeps what is worth considering.
class Choices {
 public:
  explicit Choices(Preparation& garden) : garden_(garden) {}

  base::Result<void> make() {
    const std::vector<Way> ways = ways_to_raise(garden_);
    note_lack_of_trays(ways);
    const std::size_t weeks = model().told_weeks;
    std::vector<SowingNote> seen(ways.size() * weeks);
    garden_.count.expect(seen.size());
    std::vector<std::optional<Candidate>> made = look_at(ways, seen);
    if (garden_.count.cancelled()) return cancelled();
    for (std::size_t i = 0; i < made.size(); ++i) {
      if (!seen[i].looked_at) continue;
      ProductNote& note = garden_.out.product_notes[ways[i / weeks].product];
      ++note.tried;
      if (seen[i].success >= note.best_success) {
        note.best_success = seen[i].success;
        if (!seen[i].limits.empty()) note.limits = seen[i].limits;
      }
      note.beyond = note.beyond || seen[i].beyond;
      if (!made[i]) {
        const Way& way = ways[i / weeks];
        garden_.out.refused.push_back({.product = way.product,
                                       .tray = way.tray,
                                       .bought = stand::bought_as_plants(way.like),
                                       .sun = way.bed.sun,
                                       .week = static_cast<int>(i % weeks),
                                       .limits = seen[i].limits,
                                       .beyond = seen[i].beyond});
        continue;
      }
      ++note.promising;
      model().candidates.push_back(std::move(*made[i]));
    }
    drop_dominated(model().candidates);
    for (const Candidate& candidate : model().candidates) ++garden_.out.product_notes[candidate.product].kept;
    return {};
  }

 private:
  [[nodiscard]] GardenModel& model() const { return garden_.out.model; }

  /// Every `step`th week from `first` on.
  struct SowingWeeks {
    std::size_t first = 0, step = 1;
    bool always = true;  ///< looked at even without time
  };

  bool has_time() const { return !garden_.watch.has_time || garden_.watch.has_time(); }

  /// For the notes: what only a tray would raise, in a garden that has none, or none with the cells for a
  /// clump.
  void note_lack_of_trays(const std::vector<Way>& ways) {
    for (std::size_t p = 0; p < garden_.out.product_notes.size(); ++p) {
      if (garden_.out.crops[p].nursery.can_direct_sow || garden_.is_bought(p)) continue;
      const auto raises = [p](const Way& way) { return way.product == p; };
      const auto has_cells = [&](const Way& way) {
        return raises(way) && way.cells && way.cells->size() > 1;
      };
      ProductNote& note = garden_.out.product_notes[p];
      note.lacks_tray = std::none_of(ways.begin(), ways.end(), raises);
      note.lacks_cells = !note.lacks_tray && std::none_of(ways.begin(), ways.end(), has_cells);
    }
  }

  /// Whether the plan before sows so in that week: such a sowing is looked at whatever the time, or the plan
  /// would fall with it. Of what it leaves standing the same sowing, pulled, too: that tells when it is
  /// ready.
  bool is_promised(const Way& way, std::size_t week) const {
    const Product& product = model().products[way.product];
    const base::Date monday = garden_.out.grid.first_monday + base::Days{static_cast<int>(7 * week)};
    return std::any_of(
        garden_.input.earlier.begin(), garden_.input.earlier.end(), [&](const stand::StandPlan& stand) {
          return base::week_start(stand::begins_on(stand)) == monday && stand.crop == product.crop &&
                 stand.variety == product.variety && stand.size == product.size &&
                 stand.method == way.like.method && stand.tray == way.like.tray &&
                 (!way.pulled || stand.pick_weeks > 0) && garden_.has_light(stand, way.bed.sun);
        });
  }

  /// Every way in every week, as long as there is time; always in every fourth week and where the plan before sows.
  std::vector<std::optional<Candidate>> look_at(const std::vector<Way>& ways, std::vector<SowingNote>& seen) {
    const std::size_t weeks = model().told_weeks;
    std::vector<std::optional<Candidate>> made(seen.size());
    // What is left standing asks when the same sowing, pulled, was ready.
    std::vector<std::size_t> pulled, left_standing;
    for (std::size_t i = 0; i < ways.size(); ++i) (ways[i].pulled ? left_standing : pulled).push_back(i);
    for (const SowingWeeks& stage : {SowingWeeks{0, 4, true}, {2, 4, false}, {1, 2, false}}) {
      const std::size_t count = (weeks + stage.step - 1 - stage.first) / stage.step;
      for (const auto& some : {pulled, left_standing}) {
        base::parallel_for(some.size() * count, [&](std::size_t k) {
          const std::size_t week = stage.first + k % count * stage.step;
          const Way& way = ways[some[k / count]];
          if (garden_.count.cancelled()) return;
          const Counted counted(garden_.count);
          if (!stage.always && !has_time() && !is_promised(way, week)) return;
          const std::size_t i = some[k / count] * weeks + week;
          const int ready = way.pulled ? seen[*way.pulled * weeks + week].ready_week : kNeverReady;
          made[i] = judge_sowing(garden_, way, week, ready, seen[i]);
          seen[i].looked_at = true;
        });
      }
    }
    note_unseen(seen);
    return made;
  }

  void note_unseen(const std::vector<SowingNote>& seen) {
    const auto looked_at =
        std::count_if(seen.begin(), seen.end(), [](const SowingNote& n) { return n.looked_at; });
    if (static_cast<std::size_t>(looked_at) == seen.size()) return;
    garden_.out.notes.push_back(
        {{"choices-cut-short",
          {{"seen", static_cast<double>(looked_at)}, {"of", static_cast<double>(seen.size())}}}});
  }

  Preparation& garden_;
};

}  // namespace

base::Result<void> make_candidates(Preparation& garden) {
  return Choices(garden).make();
}

}  // namespace sowtide::plan
