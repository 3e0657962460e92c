// A stand lived day by day in one weather year after another; the work behind `simulate`.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "stand/detail/plant_grid.hpp"
#include "stand/simulate.hpp"
#include "stand/told_emergence.hpp"

namespace sowtide::stand::detail {

/// What one member needs besides the grid; made once per stand, used for every member.
class Simulator {
 public:
  Simulator(const CropWeather& weather, const StandPlan& plan, const StandFacts& facts,
            const std::optional<RaisingPlace>& raising, const SimulationOptions& options);
  void run(std::size_t member, StandLives& lives);
  [[nodiscard]] double plants() const { return plants_; }
  [[nodiscard]] double sampled_plants() const { return sampled_plants_; }
  [[nodiscard]] const std::vector<std::uint8_t>& open_sides() const { return open_sides_; }
  [[nodiscard]] const PlantGrid& grid() const { return grid_; }

 private:
  // Set-up.
  void draw_plants(std::uint64_t seed);
  void rank_plants();
  void set_constants();

  // One member.
  void reset();
  bool emerge();
  void move_emergence(const ToldEmergence& told);
  [[nodiscard]] int earliest_set_out() const;
  [[nodiscard]] double tray_age_cd(int day) const;
  bool find_set_out();
  void live(StandLives& lives);
  [[nodiscard]] double stress(std::size_t day) const;
  void forcing_of(std::size_t day);
  bool endure(std::size_t day);
  void measure();
  void harvest(std::size_t day);
  void leave_as_logged(std::size_t day);
  [[nodiscard]] bool worth_picking() const;
  /// Bulbs, tubers, and fruit that comes in once, which ripens on the plant.
  [[nodiscard]] bool ripens_at_once() const {
    using enum crop::HarvestedPart;
    const crop::HarvestedPart part = crop_.harvest.part;
    return crop_.harvest.style == crop::HarvestStyle::once &&
           (part == bulb || part == tuber || part == fruit);
  }
  [[nodiscard]] double counted_g(double weight_g) const;
  [[nodiscard]] double least_wanted_g() const;
  [[nodiscard]] double left_worth_taking_g() const;
  void pull_by_size(std::size_t day);
  void pull_all(std::size_t day, double least_g);
  void pull_as_wanted(std::size_t day);
  void begin_to_pull(std::size_t day);
  [[nodiscard]] bool large_enough_to_begin(std::size_t day) const;
  [[nodiscard]] std::int64_t likely_end_by_age(std::size_t day) const;
  void take_over_days(std::size_t day, std::size_t days, double grams_of_sample);
  void cut(std::size_t day);
  void cut_as_wanted(std::size_t day);
  void cut_tops(double share, std::size_t day);
  void fill_fruit(std::size_t day);
  void pick_ripe(std::size_t day);
  [[nodiscard]] double gather_ripe();
  void lose_overripe(std::size_t day);
  void finish(std::size_t day, Limit limit);
  void bring_in(std::size_t day);
  void end_unpicked(std::size_t day);
  [[nodiscard]] double unripe_g() const;
  [[nodiscard]] double worth_having_g(double had_g) const;
  void judge_success();
  void remove_by_hand();
  double take_leaves(double share);
  void take_greens(const PlantsTaken& taken);
  void thin_to(int keep);
  void credit_weighed();
  void take_observed(std::size_t day);
  void take_entry(const PlantsTaken& taken, std::size_t day);
  void take_plants(const PlantsTaken& taken, std::size_t day);
  void take_cut(const PlantsTaken& taken, std::size_t day);
  void take_fruit(const PlantsTaken& taken, std::size_t day);
  void take_by_weight(double grams);
  double take_out_one(bool largest);
  void place_clumps();
  [[nodiscard]] std::size_t extreme_plant(bool largest) const;
  void set_zones(double zone_m2, bool in_bed);
  void watch(std::size_t day, StandLives& lives);
  void take(std::size_t day, double grams_per_sample);
  void weigh();
  [[nodiscard]] double mean_fresh_g() const;
  [[nodiscard]] double standing_or_picked_g() const {
    return crop_.harvest.style == crop::HarvestStyle::picked ? ripe_g_ : mean_fresh_g();
  }
  [[nodiscard]] double air_c(std::size_t at) const;
  [[nodiscard]] std::size_t at(std::size_t day) const { return member_ * days_ + day; }
  [[nodiscard]] base::Date date_of(std::size_t day) const {
    return weather_.ensemble().first + base::Days{static_cast<int>(day)};
  }
  [[nodiscard]] std::int64_t day_of(base::Date date) const {
    return (date - weather_.ensemble().first).count();
  }
  [[nodiscard]] bool in_tray(std::size_t day) const {
    return indoors_ && (life_->set_out_day < 0 || static_cast<int>(day) < life_->set_out_day);
  }

  const CropWeather& weather_;
  const crop::Crop& crop_;
  const StandPlan& plan_;
  const StandFacts& facts_;
  const RaisingPlace raising_;
  const SimulationOptions options_;
  const std::size_t days_;
  bool indoors_ = false;
  bool waits_ = false;  ///< in the ground, until it is wanted
  bool in_open_sun_ = true;
  BedLight bed_light_;
  std::size_t sow_day_ = 0;
  double goal_g_ = 0.0;
  double dry_to_fresh_g_ = 0.0;
  double top_share_ = 0.0;
  double zone_m2_ = 0.0, cell_m2_ = 0.0;
  double plants_ = 0.0, sampled_plants_ = 0.0;
  double grams_of_sample_ = 0.0;  ///< whole stand over sample

  PlantGrid grid_;
  PlantConstants constants_;
  std::vector<double> seed_offset_, start_leaf_g_, planted_;
  std::vector<std::uint8_t> open_sides_;
  std::int64_t last_observed_pick_ = -1;  ///< until then what was really pulled counts, nothing else
  std::int64_t rule_from_ =
      0;  ///< the plan's rule picks from this day on; before it only the log tells of picking

  // State of the member being lived.
  std::size_t member_ = 0;
  MemberLife* life_ = nullptr;
  double* plant_g_ = nullptr;
  double* taken_g_ = nullptr;
  DayForcing forcing_;
  FreshWeights fresh_;
  double age_cd_ = 0.0, organ_age_cd_ = 0.0;  ///< of the median plant
  double alive_ = 1.0;                        ///< share not killed by cold
  double vernal_ = 0.0, bolting_cd_ = 0.0, heat_ = 0.0;
  double shock_cd_ = 0.0;  ///< thermal time still lost to the shock of setting out
  double taken_plants_ = 0.0;
  double by_rule_g_ = 0.0, by_rule_plants_ = 0.0;  ///< of the sample: pulled by the plan's rule
  std::int64_t pull_to_ = -1;  ///< day by which a stand that is pulled little by little is out; -1: not begun
  double pull_per_day_ = 0.0, pull_quota_ = 0.0;  ///< plants of the sample
  double missed_g_ = 0.0;  ///< per plant sown for: ready before the rule picks, and not in the log
  double regrowth_ = 0.0;
  std::int64_t last_cut_day_ = 0;
  double left_standing_g_ = 0.0;  ///< of the sample, after the last weekly cut of leaf that waits
  double removed_g_ = 0.0, removed_plants_ = 0.0, greens_g_ = 0.0;
  double unthinned_plants_ = 0.0;                             ///< of the sample, less what was thinned away
  std::size_t next_observed_ = 0;                             ///< place in the facts' taken
  double observed_debt_ = 0.0;                                ///< of a sample plant, not yet taken out
  std::vector<double> set_weight_, set_mass_g_, set_age_cd_;  ///< fruit cohorts by day of setting
  std::size_t oldest_set_ = 0;
  std::vector<std::size_t> ripe_on_;  ///< day of ripening of the cohorts that are ripe, in their order
  double ripe_g_ = 0.0;               ///< per plant, picked so far
  int days_since_pick_ = 0;
  int pick_interval_ = 1;
  bool done_ = false;
  bool killed_ = false;  ///< done, by a night: nothing of it stands any more
};

}  // namespace sowtide::stand::detail
