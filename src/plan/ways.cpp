#include "plan/ways.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "crop/emergence.hpp"
#include "plan/sowing_judge.hpp"
#include "stand/bought.hpp"

namespace sowtide::plan {
namespace {

/// Nine times in ten there are cells enough.
constexpr double kCellService = 0.9;
/// Chance to find an open or a half-full place does not need more seeds than this in one cell.
constexpr int kMostSeedsPerCell = 8;

/// The ways to raise what is wanted in one garden.
class Ways {
 public:
  explicit Ways(const Preparation& garden) : garden_(garden) {}

  std::vector<Way> all() const {
    std::vector<Way> ways;
    for (std::size_t p = 0; p < model().products.size(); ++p) {
      if (garden_.means[p].raised) add_raised_ways(p, ways);
      if (garden_.is_bought(p)) ways.push_back(bought_way(p));
    }
    add_ways_to_leave_standing(ways);
    add_ways_by_light(ways);
    for (Way& way : ways) way.bed.rows_across = most_rows_across(way);
    return ways;
  }

 private:
  [[nodiscard]] const GardenModel& model() const { return garden_.out.model; }

  /// Over which weeks a stand that waits in the ground is pulled.
  struct PickSpan {
    std::optional<base::YearSpan> wanted;  ///< nothing: from when the first are ready
    int weeks = 0;
    bool operator==(const PickSpan&) const = default;
  };

  /// Sown in place or in a tray of the garden.
  void add_raised_ways(std::size_t p, std::vector<Way>& ways) const {
    const crop::Crop& crop = garden_.out.crops[p];
    if (crop.nursery.can_direct_sow) ways.push_back(direct_way(p));
    if (!crop.nursery.can_transplant) return;
    for (std::size_t t = 0; t < garden_.input.trays.size(); ++t) {
      if (garden_.input.trays[t].cells > 0) ways.push_back(tray_way(p, t));
    }
  }

  /// As the wants of the product have it: the weeks of the year in which it is wanted, be they few; what is
  /// wanted nearly all year is pulled from when it is ready on, over a winter's weeks. Both figures are
  /// chosen.
  std::vector<PickSpan> pick_spans(std::size_t product) const {
    constexpr int kNearlyAllYear_d = 300;
    constexpr int kWinterWeeks = 20;
    std::vector<PickSpan> spans;
    for (std::size_t d = 0; d < garden_.input.wants.size(); ++d) {
      if (!meets(model().demands[d], product)) continue;
      const base::YearSpan wanted{garden_.input.wants[d].from, garden_.input.wants[d].to};
      int days = 0;
      for (int k = 0; k < 365; ++k)
        days += base::contains(wanted, base::month_day_of(garden_.input.today + base::Days{k})) ? 1 : 0;
      PickSpan span{wanted, std::clamp((days + 6) / 7, 1, stand::kMostPickWeeks)};
      if (days >= kNearlyAllYear_d) span = {std::nullopt, kWinterWeeks};
      if (std::find(spans.begin(), spans.end(), span) == spans.end()) spans.push_back(span);
    }
    return spans;
  }

  /// Besides pulling each plant as it reaches its size: what waits in the ground stands until it is wanted.
  void add_ways_to_leave_standing(std::vector<Way>& ways) const {
    const std::size_t count = ways.size();
    for (std::size_t i = 0; i < count; ++i) {
      if (!stand::stands_in_ground(garden_.out.crops[ways[i].product])) continue;
      for (const PickSpan& span : pick_spans(ways[i].product)) {
        Way standing = ways[i];
        standing.wanted = span.wanted;
        standing.pulled = i;
        standing.like.pick_weeks = span.weeks;
        ways.push_back(std::move(standing));
      }
    }
  }

  /// The light of the beds in which the crop is looked at: what it wants, and one step less, for what it then
  /// gives is reckoned with; full sun where there is no such bed. Two steps less is no place for it (common
  /// practice).
  std::vector<bed::SunClass> lights_for(const crop::Crop& crop) const {
    using enum bed::SunClass;
    std::vector<bed::SunClass> lights;
    for (const bed::SunClass sun : {full, partial, shade}) {
      const bool bears = sun != shade || crop.place.sun == crop::SunNeed::partial;
      const bool there = std::any_of(garden_.input.beds.begin(), garden_.input.beds.end(),
                                     [sun](const bed::Bed& bed) { return bed.sun == sun; });
      if (bears && there) lights.push_back(sun);
    }
    if (lights.empty()) lights.push_back(full);
    return lights;
  }

  /// In less sun a crop gives less, and later: in a garden that has several lights it is looked at in each.
  void add_ways_by_light(std::vector<Way>& ways) const {
    const std::size_t count = ways.size();
    std::vector<std::size_t> first_shaded(count);
    for (std::size_t i = 0; i < count; ++i) {
      const auto lights = lights_for(garden_.out.crops[ways[i].product]);
      ways[i].bed.sun = lights.front();
      first_shaded[i] = ways.size();
      for (std::size_t k = 1; k < lights.size(); ++k) {
        Way shaded = ways[i];
        shaded.bed.sun = lights[k];
        if (shaded.pulled) shaded.pulled = first_shaded[*shaded.pulled] + k - 1;
        ways.push_back(std::move(shaded));
      }
    }
  }

  /// Rows across the widest bed in which it may stand: a candidate is not told its bed, and there the fewest
  /// of its clumps are at an edge. 0 where it may stand nowhere.
  int most_rows_across(const Way& way) const {
    Candidate like;
    like.sowing = way.like;
    like.product = way.product;
    like.sun = way.bed.sun;
    describe_needs(garden_.out.crops[like.product], like);
    int rows = 0;
    for (const bed::Bed& bed : garden_.input.beds) {
      if (may_stand(bed, like)) rows = std::max(rows, clumps_across(bed, like));
    }
    return rows;
  }

  stand::StandPlan common_plan(std::size_t p) const {
    const Product& product = model().products[p];
    const crop::Place& place = garden_.out.crops[p].place;
    stand::StandPlan plan;
    plan.crop = product.crop;
    plan.variety = product.variety;
    plan.size = product.size;
    plan.clumps = kJudgedClumps;
    plan.spacing_mm =
        product.size == stand::SizeGoal::small ? place.spacing_small_mm : place.spacing_large_mm;
    plan.packet = garden_.out.packets[p];
    return plan;
  }

  Way direct_way(std::size_t p) const {
    Way way{.product = p, .like = common_plan(p)};
    way.like.method = stand::Method::direct_sow;
    way.like.plants_per_clump = 1.0;
    way.like.spacing_mm = std::max(10.0, std::ceil(way.like.spacing_mm - 1e-9));
    way.like.seeds_per_cell = seeds_for(p, 1.0, true);
    way.like.cells = kJudgedClumps;
    return way;
  }

  /// Bought plants come one by one, as common practice is; no seed of the garden's is sown for them.
  Way bought_way(std::size_t p) const {
    Way way{.product = p, .like = common_plan(p)};
    way.like.method = stand::Method::start_indoors;
    way.like.spacing_mm = std::max(10.0, std::ceil(way.like.spacing_mm - 1e-9));
    way.like.packet.clear();
    return way;
  }

  Way tray_way(std::size_t p, std::size_t t) const {
    const crop::Crop& crop = garden_.out.crops[p];
    Way way{.product = p, .like = common_plan(p), .tray = static_cast<int>(t)};
    const double plants = std::max(1.0, crop.nursery.plants_per_clump.value);
    way.like.method = stand::Method::start_indoors;
    way.like.plants_per_clump = plants;
    way.like.spacing_mm = std::max(10.0, std::ceil(way.like.spacing_mm * std::sqrt(plants) - 1e-9));
    way.like.tray = garden_.input.trays[t].id;
    way.like.seeds_per_cell = seeds_for(p, plants, false);
    way.places = places_in(crop, garden_.input.trays[t]);
    way.cells = cell_table(p, garden_.input.trays[t], way, plants);
    way.like.cells = kJudgedClumps;
    return way;
  }

  double germination_pct(std::size_t p) const {
    const auto found =
        std::find_if(garden_.input.packets.begin(), garden_.input.packets.end(),
                     [&](const crop::Packet& packet) { return packet.id == garden_.out.packets[p]; });
    if (!garden_.out.packets[p].empty() && found != garden_.input.packets.end() && found->germination_pct)
      return *found->germination_pct;
    return garden_.out.crops[p].seed.germination_pct;
  }

  /// Fewest seeds to a cell that give three quarters of the plants wanted on average; sown in place at least
  /// two, since a gap in the row cannot be filled from a spare cell. Of tubers, cloves and slips one: each is
  /// looked at before it is planted, and two would grow into each other.
  double seeds_for(std::size_t p, double plants, bool in_place) const {
    if (garden_.out.crops[p].seed.planting_piece) return 1.0;
    int seeds = in_place ? 2 : 1;
    for (; seeds < kMostSeedsPerCell; ++seeds) {
      const std::vector<double> chance =
          crop::seedlings_per_cell(garden_.out.crops[p].seed, seeds, germination_pct(p));
      double mean = 0.0;
      for (std::size_t n = 0; n < chance.size(); ++n) mean += static_cast<double>(n) * chance[n];
      if (mean >= 0.75 * plants) break;
    }
    return seeds;
  }

  std::shared_ptr<const std::vector<int>> cell_table(std::size_t p, const bed::Tray& tray, const Way& way,
                                                     double plants) const {
    const crop::Crop& crop = garden_.out.crops[p];
    const auto seeds = static_cast<int>(way.like.seeds_per_cell);
    const int least_plants = crop::least_plants_of_clump(plants);
    auto table = std::make_shared<std::vector<int>>(1, 0);
    for (int clumps = 1; clumps <= tray.cells; ++clumps) {
      const auto cells =
          crop::cells_to_sow(crop.seed, clumps, kCellService, germination_pct(p), seeds, least_plants);
      if (!cells || *cells * way.places > tray.cells) break;
      table->push_back(*cells * way.places);
    }
    return table;
  }

  const Preparation& garden_;
};

}  // namespace

std::vector<Way> ways_to_raise(const Preparation& garden) {
  return Ways(garden).all();
}

}  // namespace sowtide::plan
