#include "plan/candidates.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <numeric>
#include <set>
#include <utility>

#include "base/csv.hpp"
#include "base/parallel.hpp"
#include "base/quantile.hpp"
#include "crop/emergence.hpp"
#include "crop/packet.hpp"
#include "keep/storage.hpp"
#include "plan/formulate.hpp"
#include "plan/labour.hpp"
#include "plan/notes.hpp"
#include "plan/store.hpp"
#include "stand/bought.hpp"
#include "stand/places.hpp"
#include "stand/stay.hpp"

namespace sowtide::plan {
namespace {

using base::fail;
using base::ProblemCode;

/// A sowing that succeeds in fewer than this share of the weather years is not proposed.
constexpr double kLeastSuccess = 0.3;
/// Nine times in ten there are cells enough.
constexpr double kCellService = 0.9;
/// Chance to find an open or a half-full place does not need more seeds than this in one cell.
constexpr int kMostSeedsPerCell = 8;
/// A cell may be smaller than is usual for the crop by a quarter of its area before two are needed.
constexpr double kCellAreaSlack = 0.25;
/// Ten bought plants bother as much as a packet of 250 seeds: a tray of them costs about as much in a shop
/// (common practice).
constexpr double kSeedsToAPlant = 25.0;
/// Clumps of the stand that is lived to judge one clump.
constexpr int kJudgedClumps = 100;
constexpr double kGramsPerKilogram = 1000.0;
/// The bed is kept until so many of the weather years have finished with it.
constexpr double kStayQuantile = 0.9;

int week_of_day(int day) {
  return day >= 0 ? day / 7 : -((-day + 6) / 7);
}

/// Quantile over the members for which it happens; kNeverDay when it happens in none.
int day_quantile(const std::vector<int>& days, double p) {
  std::vector<double> sample;
  for (const int day : days) {
    if (day != kNeverDay) sample.push_back(day);
  }
  if (sample.empty()) return kNeverDay;
  std::sort(sample.begin(), sample.end());
  return static_cast<int>(std::lround(base::quantile_of_sorted(sample, p)));
}

class Preparation {
 public:
  Preparation(const PlanInput& input, const PlanOptions& options, const std::function<bool()>& go_on)
      : input_(input), options_(options), go_on_(go_on) {}

  base::Result<PreparedGarden> run(const SourceMaker& make_source) {
    if (auto ok = check(); !ok) return tl::unexpected(ok.error());
    make_grid();
    if (auto ok = make_products(); !ok) return tl::unexpected(ok.error());
    if (auto ok = collect_crops(); !ok) return tl::unexpected(ok.error());
    source_ = make_source(source_crops_, out_.grid);
    model().member_count = source_->member_count();
    choose_scenarios();
    model().base_supply.assign(model().products.size(),
                               std::vector<double>(model().member_count * model().weeks, 0.0));
    model().tray_taken.assign(model().trays.size(), std::vector<int>(model().weeks, 0));
    model().mat_taken = model().tray_taken;
    if (auto ok = add_fixed(); !ok) return tl::unexpected(ok.error());
    count_picking_of_fixed();
    add_past();
    make_candidates();
    add_totals();
    ask_beyond_for_what_can_be_had();
    add_promised();
    add_store(input_, out_);
    finish_model(model());
    out_.source = std::move(source_);
    return std::move(out_);
  }

 private:
  GardenModel& model() { return out_.model; }

  base::Result<void> check() const {
    if (input_.library == nullptr || input_.weather == nullptr) {
      return fail(ProblemCode::internal, "planning needs a crop library and a weather ensemble");
    }
    if (options_.weeks == 0 || options_.weeks > 520 || options_.scenarios == 0) {
      return fail(ProblemCode::out_of_range, "a plan covers 1 to 520 weeks and at least one weather year",
                  {"", 0, 0, "weeks"}, "Ask for a year (52 weeks) and 10 scenarios.");
    }
    std::set<std::string> ids;
    for (const Want& want : input_.wants) {
      if (!std::isfinite(want.amount_per_week) || want.amount_per_week < 0.0) {
        return fail(ProblemCode::out_of_range, "want " + want.id + " asks for an impossible amount a week",
                    {"", 0, 0, "amount_per_week"}, "Give an amount of 0 or more.");
      }
      if (!(want.priority > 0.0) || !std::isfinite(want.priority)) {
        return fail(ProblemCode::out_of_range, "want " + want.id + " has a priority that is not above 0",
                    {"", 0, 0, "priority"}, "Give a priority from 0.1 to 10.");
      }
      if (!std::isfinite(want.total) || want.total < 0.0) {
        return fail(ProblemCode::out_of_range, "want " + want.id + " asks for an impossible total",
                    {"", 0, 0, "total"}, "Give a total of 0 or more.");
      }
      if (!(want.waste_dislike >= 0.0) || want.waste_dislike > 20.0) {
        return fail(ProblemCode::out_of_range, "want " + want.id + " has a waste dislike outside 0 to 20",
                    {"", 0, 0, "waste_dislike"}, "1 is usual; give more where nothing must spoil.");
      }
      if (!ids.insert(want.id).second) {
        return fail(ProblemCode::already_exists, "two wants are called " + want.id, {"", 0, 0, "id"},
                    "Rename one.");
      }
      if (want.crop.empty() == want.group.empty()) {
        return fail(ProblemCode::contradiction,
                    "want " + want.id + " must name a crop or a group, and not both", {"", 0, 0, "crop"},
                    "Keep one of them.");
      }
    }
    return {};
  }

  void make_grid() {
    out_.grid.first_monday = base::week_start(input_.today);
    const auto end = input_.weather->first + base::Days{static_cast<int>(input_.weather->day_count)};
    const auto covered = (end - out_.grid.first_monday).count() / 7;
    out_.grid.weeks = static_cast<std::size_t>(std::clamp<std::int64_t>(
        covered, 1, static_cast<std::int64_t>(options_.weeks + options_.weeks_after)));
    if (out_.grid.weeks < options_.weeks) {
      out_.notes.push_back({{"weather-ends",
                             {{"weeks", static_cast<double>(out_.grid.weeks)},
                              {"asked", static_cast<double>(options_.weeks)}}}});
    }
    model().first_monday = out_.grid.first_monday;
    model().latitude_deg = input_.weather->site.latitude_deg;
    model().weeks = out_.grid.weeks;
    model().told_weeks = std::min(out_.grid.weeks, options_.weeks);
    model().beds = input_.beds;
    model().trays = input_.trays;
    model().prices = options_.prices;
  }

  // ---- products and demands

  /// The best packet of a crop: of the variety asked for when one is; the one that held most, so that a new
  /// plan names the same while anything is in it.
  const crop::Packet* packet_for(const std::string& crop, const std::string& variety) const {
    const crop::Packet* best = nullptr;
    for (const crop::Packet& packet : input_.packets) {
      if (!crop::serves(packet, crop, variety)) continue;
      const auto worth = [&](const crop::Packet& p) {
        return std::pair(seeds_left(input_, p) > 0.0, p.seeds);
      };
      if (best == nullptr || worth(packet) > worth(*best)) best = &packet;
    }
    return best;
  }

  base::Result<crop::Crop> crop_with(const std::string& id, const std::string& variety) const {
    const auto found = input_.library->find(id);
    if (!found) return tl::unexpected(found.error());
    crop::Crop result = **found;
    if (!variety.empty()) {
      const auto match = std::find_if(input_.varieties.begin(), input_.varieties.end(),
                                      [&](const crop::Variety& v) { return v.id == variety; });
      if (match == input_.varieties.end() || match->crop != id) {
        return fail(ProblemCode::not_found, "there is no variety " + variety + " of " + id,
                    {"", 0, 0, "variety"}, "Describe the variety in the garden, or leave the field empty.");
      }
      result = crop::with_variety(result, *match);
    }
    result.id = crop_key(id, variety);
    return result;
  }

  /// What is only bought is of no packet's variety.
  base::Result<std::size_t> product_of(const std::string& crop_id, const std::string& wanted_variety,
                                       stand::SizeGoal size, bool only_bought) {
    std::string variety = wanted_variety;
    const crop::Packet* packet = only_bought ? nullptr : packet_for(crop_id, variety);
    if (variety.empty() && packet != nullptr) variety = packet->variety;
    if (const auto known = sown_product(model(), crop_id, variety, size)) {
      if (packet != nullptr) out_.packets[*known] = packet->id;
      return *known;
    }
    auto crop = crop_with(crop_id, variety);
    if (!crop) return tl::unexpected(crop.error());
    const std::size_t product = add_product(crop_id, variety, size, std::move(*crop));
    if (packet != nullptr) out_.packets[product] = packet->id;
    return product;
  }

  std::size_t add_product(const std::string& crop_id, const std::string& variety, stand::SizeGoal size,
                          crop::Crop crop) {
    Product product{crop_id, variety, size, 100.0, 0.5};
    product.serving_g = grams_per_unit({.unit = WantUnit::servings}, crop);
    const keep::StorePlace place = keep::household_place(crop, input_.cool_store);
    product.keep_share = keep::weekly_keep_share(crop, place);
    product.keep_weeks = keep::most_weeks(crop, place);
    model().products.push_back(product);
    out_.crops.push_back(std::move(crop));
    out_.product_notes.emplace_back();
    out_.packets.emplace_back();
    means_.emplace_back();
    return model().products.size() - 1;
  }

  /// Whether no other plants of the crop come into its beds for the want than bought ones.
  bool only_bought(const Want& want, const std::string& crop_id) const {
    const auto crop = input_.library->find(crop_id);
    return want.bought && want.group.empty() && crop && (*crop)->nursery.can_transplant;
  }

  base::Result<std::vector<std::string>> crops_wanted(const Want& want) const {
    if (!want.crop.empty()) return std::vector<std::string>{want.crop};
    std::vector<std::string> crops;
    std::set<std::string> groups;
    for (const auto& [id, crop] : input_.library->crops) {
      groups.insert(crop.groups.begin(), crop.groups.end());
      if (takes_crop(want, crop)) crops.push_back(id);
    }
    if (!crops.empty()) return crops;
    std::string known;
    for (const std::string& group : groups) known += (known.empty() ? "" : ", ") + group;
    return fail(ProblemCode::not_found, "no crop belongs to the group " + want.group, {"", 0, 0, "group"},
                "Known groups: " + known + ".");
  }

  base::Result<void> make_products() {
    for (const Want& want : input_.wants) {
      const auto crops = crops_wanted(want);
      if (!crops) return tl::unexpected(crops.error());
      Demand demand;
      demand.want = want.id;
      for (const std::string& crop : *crops) {
        const bool bought = only_bought(want, crop);
        const auto product = product_of(crop, want.variety, want.size, bought);
        if (!product) return tl::unexpected(product.error());
        means_[*product].bought = means_[*product].bought || want.bought;
        means_[*product].raised = means_[*product].raised || !bought;
        demand.products.push_back(*product);
      }
      model().demands.push_back(std::move(demand));
    }
    if (auto ok = add_standing_products(); !ok) return ok;
    share_units();
    for (std::size_t d = 0; d < input_.wants.size(); ++d) lay_on_weeks(input_.wants[d], model().demands[d]);
    link_varieties();
    make_seed_lots();
    add_lot_of_plants();
    for (std::size_t p = 0; p < model().products.size(); ++p) {
      Product& product = model().products[p];
      product.pick_hours =
          picking_hours_per_kg(out_.crops[p].harvest) * product.serving_g / kGramsPerKilogram;
    }
    return {};
  }

  /// What stands in the beds of a variety or at a size that nobody would sow anew feeds the wants that take
  /// it.
  base::Result<void> add_standing_products() {
    for (const FixedStand& fixed : input_.fixed) {
      const stand::StandPlan& stand = fixed.plan;
      const auto crop = input_.library->find(stand.crop);
      if (!crop) return tl::unexpected(crop.error());
      auto own_crop = crop_with(stand.crop, stand.variety);
      if (!own_crop) return tl::unexpected(own_crop.error());
      if (fixed.facts.finished || begins_beyond(fixed) ||
          sown_product(model(), stand.crop, stand.variety, stand.size))
        continue;
      std::vector<std::size_t> takers;
      for (std::size_t d = 0; d < input_.wants.size(); ++d) {
        if (takes(input_.wants[d], **crop, stand.variety)) takers.push_back(d);
      }
      if (takers.empty()) continue;
      const std::size_t product = add_product(stand.crop, stand.variety, stand.size, std::move(*own_crop));
      for (const std::size_t d : takers) model().demands[d].products.push_back(product);
    }
    return {};
  }

  /// Whether a want of several crops counts them by one measure, weight or the piece. By the serving each
  /// counts by its own as it is.
  [[nodiscard]] bool sets_a_measure(std::size_t want) const {
    return !input_.wants[want].group.empty() && input_.wants[want].unit != WantUnit::servings;
  }

  /// A want of a group in grams weighs its crops gram by gram: they get one common serving, that of the first
  /// of all that hang together by such wants. In pieces each counts by its own piece: their servings are as
  /// many pieces each as that of the first. Where wants of both kinds share crops, or pieces small and large,
  /// the crops are weighed.
  void share_units() {
    std::vector<std::size_t> like(model().products.size());
    std::iota(like.begin(), like.end(), 0U);
    for (bool changed = true; changed;) {
      changed = false;
      for (std::size_t d = 0; d < input_.wants.size(); ++d) {
        if (!sets_a_measure(d)) continue;
        const auto& products = model().demands[d].products;
        std::size_t first = like.size();
        for (const std::size_t p : products) first = std::min(first, like[p]);
        for (const std::size_t p : products) changed = std::exchange(like[p], first) != first || changed;
      }
    }
    // The first of each has itself, so none is overwritten before it is read.
    for (std::size_t p = 0; p < like.size(); ++p) {
      const Want measure = measure_of(like, like[p]);
      model().products[p].serving_g = model().products[like[p]].serving_g *
                                      grams_per_unit(measure, out_.crops[p]) /
                                      grams_per_unit(measure, out_.crops[like[p]]);
    }
  }

  /// By what the crops that hang together with a first one are counted: a want in pieces of the size, or in
  /// grams.
  [[nodiscard]] Want measure_of(const std::vector<std::size_t>& like, std::size_t first) const {
    const Want by_weight{.unit = WantUnit::grams};
    std::optional<Want> measure;
    for (std::size_t d = 0; d < input_.wants.size(); ++d) {
      const Want& want = input_.wants[d];
      if (!sets_a_measure(d) || like[model_const().demands[d].products.front()] != first) continue;
      const bool alike = !measure || (measure->unit == want.unit && measure->size == want.size);
      measure = alike ? Want{.unit = want.unit, .size = want.size} : by_weight;
    }
    return measure.value_or(by_weight);
  }

  /// A want of any variety is met by every variety at its size.
  void link_varieties() {
    for (std::size_t d = 0; d < input_.wants.size(); ++d) {
      const Want& want = input_.wants[d];
      if (want.crop.empty() || !want.variety.empty()) continue;
      auto& products = model().demands[d].products;
      for (std::size_t p = 0; p < model().products.size(); ++p) {
        const Product& product = model().products[p];
        const bool fits = product.crop == want.crop && product.size == want.size;
        if (fits && std::find(products.begin(), products.end(), p) == products.end()) products.push_back(p);
      }
    }
  }

  void lay_on_weeks(const Want& want, Demand& demand) {
    const std::size_t product = demand.products.front();
    demand.serving_g = model().products[product].serving_g;
    // The price is that of one of the crop's own servings; where a group shares a unit it is scaled to it.
    const double own_serving_g = grams_per_unit({.unit = WantUnit::servings}, out_.crops[product]);
    demand.price = want.priority * demand.serving_g / own_serving_g;
    const double servings_per_unit = grams_per_unit(want, out_.crops[product]) / demand.serving_g;
    demand.servings.clear();
    for (std::size_t w = 0; w < model().weeks; ++w) {
      const base::Date monday = out_.grid.first_monday + base::Days{static_cast<int>(7 * w)};
      demand.servings.push_back(servings_per_unit * wanted_in_week(want, monday, input_.today));
    }
    demand.waste_dislike = want.waste_dislike;
    if (want.early) prefer_early(demand);
    mind_less_beyond(demand);
  }

  /// What is wanted after the weeks of the plan counts less and less, down to nothing in the last: the
  /// farther off, the more a later plan can still do about it. Prices never rise with the weeks, so eating at
  /// once stays best.
  void mind_less_beyond(Demand& demand) const {
    const std::size_t told = model_const().told_weeks;
    const std::size_t after = model_const().weeks - told;
    if (after == 0) return;
    demand.week_factor.resize(model_const().weeks, 1.0);
    for (std::size_t k = 0; k < after; ++k)
      demand.week_factor[told + k] *= 1.0 - (static_cast<double>(k) + 0.5) / static_cast<double>(after);
  }

  /// What is to lie in store is wanted all at once, in the last week of the range in which half of what a
  /// sowing brings can be good; where none can be, in that of the last day. Until then it keeps as the crop
  /// keeps.
  void add_totals() {
    for (std::size_t d = 0; d < input_.wants.size(); ++d) {
      const Want& want = input_.wants[d];
      if (want.total <= 0.0) continue;
      const auto due = week_of_total(want, out_.grid.first_monday, model().told_weeks, input_.today);
      if (!due) {
        out_.notes.push_back({{"total-left-out", {{"want", want.id}, {"want_id", want.id}}}});
        continue;
      }
      Demand& demand = model().demands[d];
      const auto can_lie = weeks_with_half(model(), demand);
      const double grams = want.total * grams_per_unit(want, out_.crops[demand.products.front()]);
      demand.servings[last_week_to_lie_in_store(want, out_.grid.first_monday, *due, can_lie)] +=
          grams / demand.serving_g;
    }
  }

  /// In the first wanted week a serving counts for half as much again, falling to the usual within eight
  /// weeks. A choice of this project; prices never rise with the weeks, so eating at once stays best.
  void prefer_early(Demand& demand) const {
    constexpr double kEarlyBonus = 0.5;
    constexpr double kEarlyWeeks = 8.0;
    const auto first =
        std::find_if(demand.servings.begin(), demand.servings.end(), [](double s) { return s > 0.0; });
    const auto first_week = static_cast<double>(first - demand.servings.begin());
    demand.week_factor.clear();
    for (std::size_t w = 0; w < demand.servings.size(); ++w) {
      const double weeks = std::clamp(static_cast<double>(w) - first_week, 0.0, kEarlyWeeks);
      demand.week_factor.push_back(1.0 + kEarlyBonus * (1.0 - weeks / kEarlyWeeks));
    }
  }

  // ---- seed

  /// Where no packet is told nothing is known of the box, and seed costs nothing.
  void make_seed_lots() {
    if (input_.packets.empty()) return;
    for (const Product& product : model().products) {
      const auto known = std::find_if(
          model().seed_lots.begin(), model().seed_lots.end(),
          [&](const SeedLot& lot) { return lot.crop == product.crop && lot.variety == product.variety; });
      seed_lot_.push_back(static_cast<int>(known - model().seed_lots.begin()));
      if (known != model().seed_lots.end()) continue;
      SeedLot lot{product.crop, product.variety, 0.0};
      for (const crop::Packet& packet : input_.packets) {
        if (crop::serves(packet, product.crop, product.variety)) lot.seeds += seeds_left(input_, packet);
      }
      model().seed_lots.push_back(std::move(lot));
    }
  }

  /// Bought plants draw on a lot of their own that holds nothing, so that each costs what so many seeds do.
  void add_lot_of_plants() {
    lot_of_plants_ = static_cast<int>(model().seed_lots.size());
    const bool any = std::any_of(means_.begin(), means_.end(), [](const Means& each) { return each.bought; });
    if (any) model().seed_lots.emplace_back();
  }

  void draw_seed(Candidate& candidate) const {
    if (stand::bought_as_plants(candidate.sowing)) {
      candidate.seed_lot = lot_of_plants_;
      candidate.seeds = kSeedsToAPlant * candidate.sowing.plants_per_clump;
      return;
    }
    if (seed_lot_.empty()) return;
    candidate.seed_lot = seed_lot_[candidate.product];
    const double cells = candidate.tray >= 0 ? least_cells_per_clump(candidate) / candidate.tray_places : 1.0;
    candidate.seeds = cells * std::max(1.0, candidate.sowing.seeds_per_cell);
  }

  // ---- what is there already

  base::Result<void> collect_crops() {
    for (const crop::Crop& crop : out_.crops) add_source_crop(crop);
    for (const FixedStand& fixed : input_.fixed) {
      auto crop = crop_with(fixed.plan.crop, fixed.plan.variety);
      if (!crop) return tl::unexpected(crop.error());
      add_source_crop(*crop);
    }
    return {};
  }

  void add_source_crop(const crop::Crop& crop) {
    const bool known = std::any_of(source_crops_.begin(), source_crops_.end(),
                                   [&](const crop::Crop& c) { return c.id == crop.id; });
    if (!known) source_crops_.push_back(crop);
  }

  /// Evenly over the members, so that early and late years of a record are both there.
  void choose_scenarios() {
    const std::size_t members = model().member_count;
    const std::size_t count = std::min(options_.scenarios, members);
    for (std::size_t s = 0; s < count; ++s) model().scenarios.push_back(s * members / count);
  }

  const bed::Tray* tray_named(const std::string& id) const {
    const auto found = std::find_if(input_.trays.begin(), input_.trays.end(),
                                    [&](const bed::Tray& t) { return t.id == id; });
    return found == input_.trays.end() ? nullptr : &*found;
  }

  std::optional<std::size_t> bed_named(const std::string& id) const {
    for (std::size_t b = 0; b < input_.beds.size(); ++b) {
      if (input_.beds[b].id == id) return b;
    }
    return {};
  }

  base::Result<void> add_fixed() {
    std::vector<base::Result<SowingLife>> lives(input_.fixed.size());
    base::parallel_for(input_.fixed.size(), [&](std::size_t i) {
      const FixedStand& fixed = input_.fixed[i];
      lives[i] = SowingLife{};
      if (begins_beyond(fixed)) return;
      const auto crop = crop_with(fixed.plan.crop, fixed.plan.variety);
      lives[i] = source_->life(*crop, fixed.plan, fixed.facts,
                               stand::raising_of(fixed.plan, tray_named(fixed.plan.tray)),
                               stand::bed_place(input_.beds, fixed.plan));
    });
    for (std::size_t i = 0; i < lives.size(); ++i) {
      if (!lives[i]) return tl::unexpected(lives[i].error());
      if (begins_beyond(input_.fixed[i]))
        out_.notes.push_back({{"stand-beyond-plan", {{"stand", input_.fixed[i].plan.id}}}});
      take_room(input_.fixed[i], *lives[i]);
      add_supply(input_.fixed[i], *lives[i]);
    }
    return {};
  }

  /// The day by which so many of the years for which it happens have it; nothing where it happens in none.
  std::optional<base::Date> date_quantile(const std::vector<int>& days, double share) const {
    const int day = day_quantile(days, share);
    return day == kNeverDay ? std::nullopt : std::optional(out_.grid.first_monday + base::Days{day});
  }

  int grid_week(base::Date day) const {
    return week_of_day(static_cast<int>((day - out_.grid.first_monday).count()));
  }

  /// Whether a stand begins after all weeks of the grid: no weather is made up for it, so that its place is
  /// kept and nothing of it counts.
  bool begins_beyond(const FixedStand& fixed) const {
    const base::Date begin = fixed.facts.sown.value_or(stand::begins_on(fixed.plan));
    return grid_week(begin) >= static_cast<int>(out_.grid.weeks);
  }

  void take_room(const FixedStand& fixed, const SowingLife& life) {
    const bool raised = fixed.plan.method == stand::Method::start_indoors;
    const base::Date sown = fixed.facts.sown.value_or(fixed.plan.sow);
    const int first_week = grid_week(sown);
    /// When so many of the years have set it out, or when that was decided.
    const auto set_out_by = [&](double share) {
      const auto expected = date_quantile(life.set_out_day, share);
      return std::max(sown,
                      stand::goes_out_on(fixed.plan, fixed.facts, expected, input_.today).value_or(sown));
    };
    const base::Date enters = raised ? set_out_by(0.5) : sown;
    const int last_week_in_tray = grid_week(set_out_by(kStayQuantile));
    take_cells(fixed, first_week, last_week_in_tray, model().tray_taken);
    take_cells(fixed, first_week, last_week_on_mat(life, last_week_in_tray), model().mat_taken);
    const auto bed = bed_named(fixed.plan.bed);
    if (!bed) {
      if (!fixed.facts.finished) {
        out_.notes.push_back({{"stand-without-bed", {{"stand", fixed.plan.id}}}});
      }
      return;
    }
    int last_week = grid_week(stand::leaves_bed_on(enters, date_quantile(life.end_day, kStayQuantile)));
    if (fixed.facts.finished) last_week = std::min(last_week, -1);
    TakenStretch taken{*bed, static_cast<int>(std::lround(fixed.plan.from_m * 1000.0)),
                       static_cast<int>(std::lround(fixed.plan.to_m * 1000.0)), grid_week(enters), last_week};
    taken.stand = fixed.plan.id;
    taken.crop = fixed.plan.crop;
    if (const auto crop = input_.library->find(fixed.plan.crop)) {
      taken.family = (*crop)->family;
      taken.feeder = (*crop)->place.feeder;
      taken.height_m = (*crop)->place.height_m.value;
      taken.needs_sun = (*crop)->place.sun == crop::SunNeed::full;
    }
    model().taken.push_back(std::move(taken));
  }

  /// Whether the tray stands on a heat mat that has not room for all its cells.
  static bool has_small_mat(const bed::Tray& tray) {
    return tray.place == bed::TrayPlace::heat_mat && tray.mat_cells > 0;
  }

  /// Until nine in ten years have half of the seed up it stands on the mat; at most to the end of its stay.
  static int last_week_on_mat(const SowingLife& life, int stay_last_week) {
    const int up = day_quantile(life.emerge_day, kStayQuantile);
    return up == kNeverDay ? stay_last_week : std::min(week_of_day(up), stay_last_week);
  }

  /// What was sown stands in the tray as a sowing to choose does: with the room that its seedlings ask for.
  void take_cells(const FixedStand& fixed, int first_week, int last_week,
                  std::vector<std::vector<int>>& taken) {
    if (fixed.facts.finished || fixed.facts.set_out || fixed.plan.method != stand::Method::start_indoors)
      return;
    const auto crop = input_.library->find(fixed.plan.crop);
    for (std::size_t t = 0; t < input_.trays.size(); ++t) {
      if (input_.trays[t].id != fixed.plan.tray) continue;
      const int places = crop ? places_in(**crop, input_.trays[t]) : 1;
      for (int w = std::max(0, first_week); w <= last_week && w < static_cast<int>(model().weeks); ++w) {
        taken[t][static_cast<std::size_t>(w)] += stand::places_of(fixed.plan) * places;
      }
    }
  }

  void add_supply(const FixedStand& fixed, const SowingLife& life) {
    if (fixed.facts.finished) return;
    const stand::StandPlan& stand = fixed.plan;
    const auto product = sown_product(model(), stand.crop, stand.variety, stand.size);
    if (!product) return;
    for (std::size_t i = 0; i < life.weekly_g.size(); ++i)
      model().base_supply[*product][i] += life.weekly_g[i] / model().products[*product].serving_g;
  }

  /// Picking what stands there already takes hours too, the mean of the model's years.
  void count_picking_of_fixed() {
    model().hours_taken.assign(model().weeks, 0.0);
    for (std::size_t p = 0; p < model().products.size(); ++p) {
      for (std::size_t w = 0; w < model().weeks; ++w)
        model().hours_taken[w] +=
            model().products[p].pick_hours * mean_of_years(model(), model().base_supply[p], w);
    }
  }

  void add_past() {
    for (const bed::PastCrop& past : input_.past) {
      const auto bed = bed_named(past.bed);
      if (!bed) continue;
      model().past.push_back({*bed, static_cast<int>(std::lround(past.from_m * 1000.0)),
                              static_cast<int>(std::lround(past.to_m * 1000.0)), past.family, past.year});
    }
  }

  // ---- candidates

  /// A way to raise a product, before the week is chosen.
  struct Way {
    std::size_t product = 0;
    stand::StandPlan like;                    ///< without its days
    /// It stands for these days of the year; nothing: it is pulled, or from ready on, without them.
    std::optional<base::YearSpan> wanted;
    std::optional<std::size_t> pulled;  ///< place of the way that it is but for standing on
    int tray = -1;
    std::shared_ptr<const std::vector<int>> cells;
    int places = 1;
    stand::BedPlace bed;
  };

  static constexpr int kNeverReady = -1;

  struct SowingNote {
    double success = 0.0;
    std::string limits;
    bool beyond = false;
    bool looked_at = false;
    int ready_week = kNeverReady;  ///< in which half of those that give something have begun
  };

  /// Every `step`th week from `first` on.
  struct SowingWeeks {
    std::size_t first = 0, step = 1;
    bool always = true;  ///< looked at even without time
  };

  bool is_bought(std::size_t p) const { return means_[p].bought && out_.crops[p].nursery.can_transplant; }

  /// Sown in place or in a tray of the garden.
  void add_raised_ways(std::size_t p, std::vector<Way>& ways) const {
    const crop::Crop& crop = out_.crops[p];
    if (crop.nursery.can_direct_sow) ways.push_back(direct_way(p));
    if (!crop.nursery.can_transplant) return;
    for (std::size_t t = 0; t < input_.trays.size(); ++t) {
      if (input_.trays[t].cells > 0) ways.push_back(tray_way(p, t));
    }
  }

  std::vector<Way> ways_to_raise() const {
    std::vector<Way> ways;
    for (std::size_t p = 0; p < model_const().products.size(); ++p) {
      if (means_[p].raised) add_raised_ways(p, ways);
      if (is_bought(p)) ways.push_back(bought_way(p));
    }
    add_ways_to_leave_standing(ways);
    add_ways_by_light(ways);
    for (Way& way : ways) way.bed.rows_across = most_rows_across(way);
    return ways;
  }

  /// Over which weeks a stand that waits in the ground is pulled.
  struct PickSpan {
    std::optional<base::YearSpan> wanted;  ///< nothing: from when the first are ready
    int weeks = 0;
    bool operator==(const PickSpan&) const = default;
  };

  /// As the wants of the product have it: the weeks of the year in which it is wanted, be they few; what is
  /// wanted nearly all year is pulled from when it is ready on, over a winter's weeks. Both figures are
  /// chosen.
  std::vector<PickSpan> pick_spans(std::size_t product) const {
    constexpr int kNearlyAllYear_d = 300;
    constexpr int kWinterWeeks = 20;
    std::vector<PickSpan> spans;
    for (std::size_t d = 0; d < input_.wants.size(); ++d) {
      if (!meets(model_const().demands[d], product)) continue;
      const base::YearSpan wanted{input_.wants[d].from, input_.wants[d].to};
      int days = 0;
      for (int k = 0; k < 365; ++k)
        days += base::contains(wanted, base::month_day_of(input_.today + base::Days{k})) ? 1 : 0;
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
      if (!stand::stands_in_ground(out_.crops[ways[i].product])) continue;
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
      const bool there = std::any_of(input_.beds.begin(), input_.beds.end(),
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
      const auto lights = lights_for(out_.crops[ways[i].product]);
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

  /// Whether a planned stand stands in beds of the light; one without a bed may.
  bool has_light(const stand::StandPlan& stand, bed::SunClass sun) const {
    const auto bed = bed_named(stand.bed);
    return !bed || input_.beds[*bed].sun == sun;
  }

  /// The first such day after another.
  static base::Date next_day(base::MonthDay day, base::Date after) {
    const base::Date same_year = base::in_year(day, base::year_of(after));
    return same_year > after ? same_year : base::in_year(day, base::year_of(after) + 1);
  }

  /// When a stand that is left standing is pulled.
  struct Pulling {
    base::Date from{};
    int weeks = 0;
  };

  /// While it is wanted. What is ready within those weeks is pulled from then on, for as long as they last;
  /// what is ready before or after them waits until they come.
  static Pulling pulling_of(const Way& way, base::Date begin, std::optional<base::Date> ready) {
    const base::Date from = ready.value_or(begin);
    base::Date first = base::in_year(way.wanted->from, base::year_of(from));
    if (first > from) first = base::in_year(way.wanted->from, base::year_of(from) - 1);
    base::Date last = base::in_year(way.wanted->to, base::year_of(first));
    if (last < first) last = base::in_year(way.wanted->to, base::year_of(first) + 1);
    if (!ready || from > last) return {next_day(way.wanted->from, from), way.like.pick_weeks};
    const int weeks = static_cast<int>((last - from).count()) / 7 + 1;
    return {from, std::min(weeks, stand::kMostPickWeeks)};
  }

  /// For the notes: what only a tray would raise, in a garden that has none, or none with the cells for a
  /// clump.
  void note_lack_of_trays(const std::vector<Way>& ways) {
    for (std::size_t p = 0; p < out_.product_notes.size(); ++p) {
      if (out_.crops[p].nursery.can_direct_sow || is_bought(p)) continue;
      const auto raises = [p](const Way& way) { return way.product == p; };
      const auto has_cells = [&](const Way& way) {
        return raises(way) && way.cells && way.cells->size() > 1;
      };
      ProductNote& note = out_.product_notes[p];
      note.lacks_tray = std::none_of(ways.begin(), ways.end(), raises);
      note.lacks_cells = !note.lacks_tray && std::none_of(ways.begin(), ways.end(), has_cells);
    }
  }

  /// Whether the plan before sows so in that week: such a sowing is looked at whatever the time, or the plan
  /// would fall with it. Of what it leaves standing the same sowing, pulled, too: that tells when it is
  /// ready.
  bool is_promised(const Way& way, std::size_t week) const {
    const Product& product = model_const().products[way.product];
    const base::Date monday = out_.grid.first_monday + base::Days{static_cast<int>(7 * week)};
    return std::any_of(input_.earlier.begin(), input_.earlier.end(), [&](const stand::StandPlan& stand) {
      return base::week_start(stand::begins_on(stand)) == monday && stand.crop == product.crop &&
             stand.variety == product.variety && stand.size == product.size &&
             stand.method == way.like.method && stand.tray == way.like.tray &&
             (!way.pulled || stand.pick_weeks > 0) && has_light(stand, way.bed.sun);
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
          if (!stage.always && go_on_ && !go_on_() && !is_promised(way, week)) return;
          const std::size_t i = some[k / count] * weeks + week;
          const int ready = way.pulled ? seen[*way.pulled * weeks + week].ready_week : kNeverReady;
          made[i] = judge_sowing(way, week, ready, seen[i]);
          seen[i].looked_at = true;
        });
      }
    }
    note_unseen(seen);
    return made;
  }

  void make_candidates() {
    const std::vector<Way> ways = ways_to_raise();
    note_lack_of_trays(ways);
    const std::size_t weeks = model().told_weeks;
    std::vector<SowingNote> seen(ways.size() * weeks);
    std::vector<std::optional<Candidate>> made = look_at(ways, seen);
    for (std::size_t i = 0; i < made.size(); ++i) {
      if (!seen[i].looked_at) continue;
      ProductNote& note = out_.product_notes[ways[i / weeks].product];
      ++note.tried;
      if (seen[i].success >= note.best_success) {
        note.best_success = seen[i].success;
        if (!seen[i].limits.empty()) note.limits = seen[i].limits;
      }
      note.beyond = note.beyond || seen[i].beyond;
      if (!made[i]) {
        const Way& way = ways[i / weeks];
        out_.refused.push_back({.product = way.product,
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
    for (const Candidate& candidate : model().candidates) ++out_.product_notes[candidate.product].kept;
  }

  void note_unseen(const std::vector<SowingNote>& seen) {
    const auto looked_at =
        std::count_if(seen.begin(), seen.end(), [](const SowingNote& n) { return n.looked_at; });
    if (static_cast<std::size_t>(looked_at) == seen.size()) return;
    out_.notes.push_back(
        {{"choices-cut-short",
          {{"seen", static_cast<double>(looked_at)}, {"of", static_cast<double>(seen.size())}}}});
  }

  /// Rows across the widest bed in which it may stand: a candidate is not told its bed, and there the fewest of its
  /// clumps are at an edge. 0 where it may stand nowhere.
  int most_rows_across(const Way& way) const {
    Candidate like;
    like.sowing = way.like;
    like.product = way.product;
    like.sun = way.bed.sun;
    describe_needs(like);
    int rows = 0;
    for (const bed::Bed& bed : input_.beds) {
      if (may_stand(bed, like)) rows = std::max(rows, clumps_across(bed, like));
    }
    return rows;
  }

  stand::StandPlan common_plan(std::size_t p) const {
    const Product& product = model_const().products[p];
    const crop::Place& place = out_.crops[p].place;
    stand::StandPlan plan;
    plan.crop = product.crop;
    plan.variety = product.variety;
    plan.size = product.size;
    plan.clumps = kJudgedClumps;
    plan.spacing_mm =
        product.size == stand::SizeGoal::small ? place.spacing_small_mm : place.spacing_large_mm;
    plan.packet = out_.packets[p];
    return plan;
  }
  const GardenModel& model_const() const { return out_.model; }

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
    const crop::Crop& crop = out_.crops[p];
    Way way{.product = p, .like = common_plan(p), .tray = static_cast<int>(t)};
    const double plants = std::max(1.0, crop.nursery.plants_per_clump.value);
    way.like.method = stand::Method::start_indoors;
    way.like.plants_per_clump = plants;
    way.like.spacing_mm = std::max(10.0, std::ceil(way.like.spacing_mm * std::sqrt(plants) - 1e-9));
    way.like.tray = input_.trays[t].id;
    way.like.seeds_per_cell = seeds_for(p, plants, false);
    way.places = places_in(crop, input_.trays[t]);
    way.cells = cell_table(p, input_.trays[t], way, plants);
    way.like.cells = kJudgedClumps;
    return way;
  }

  double germination_pct(std::size_t p) const {
    const auto found = std::find_if(input_.packets.begin(), input_.packets.end(),
                                    [&](const crop::Packet& packet) { return packet.id == out_.packets[p]; });
    if (!out_.packets[p].empty() && found != input_.packets.end() && found->germination_pct)
      return *found->germination_pct;
    return out_.crops[p].seed.germination_pct;
  }

  /// Fewest seeds to a cell that give three quarters of the plants wanted on average; sown in place at least
  /// two, since a gap in the row cannot be filled from a spare cell. Of tubers, cloves and slips one: each is
  /// looked at before it is planted, and two would grow into each other.
  double seeds_for(std::size_t p, double plants, bool in_place) const {
    if (out_.crops[p].seed.planting_piece) return 1.0;
    int seeds = in_place ? 2 : 1;
    for (; seeds < kMostSeedsPerCell; ++seeds) {
      const std::vector<double> chance =
          crop::seedlings_per_cell(out_.crops[p].seed, seeds, germination_pct(p));
      double mean = 0.0;
      for (std::size_t n = 0; n < chance.size(); ++n) mean += static_cast<double>(n) * chance[n];
      if (mean >= 0.75 * plants) break;
    }
    return seeds;
  }

  /// Cells of a tray that one cell's worth of the crop takes, by area.
  static int places_in(const crop::Crop& crop, const bed::Tray& tray) {
    const double ratio = crop.nursery.cell_width_mm / std::max(1.0, tray.cell_width_mm);
    return std::max(1, static_cast<int>(std::ceil(ratio * ratio - kCellAreaSlack)));
  }

  std::shared_ptr<const std::vector<int>> cell_table(std::size_t p, const bed::Tray& tray, const Way& way,
                                                     double plants) const {
    const crop::Crop& crop = out_.crops[p];
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

  /// The week in which half of the years that give something have first given it.
  int ready_week(const SowingLife& life) const {
    const std::size_t weeks = out_.grid.weeks;
    std::vector<int> first;
    for (auto year = life.weekly_g.begin(); year != life.weekly_g.end();
         year += static_cast<std::ptrdiff_t>(weeks)) {
      const auto end = year + static_cast<std::ptrdiff_t>(weeks);
      const auto given = std::find_if(year, end, [](double grams) { return grams > 0.0; });
      if (given != end) first.push_back(static_cast<int>(given - year));
    }
    if (first.empty()) return kNeverReady;
    const auto middle = first.begin() + static_cast<std::ptrdiff_t>(first.size() / 2);
    std::nth_element(first.begin(), middle, first.end());
    return *middle;
  }

  std::optional<Candidate> judge_sowing(const Way& way, std::size_t week, int ready_week_pulled,
                                        SowingNote& note) const {
    Candidate candidate;
    candidate.sowing = way.like;
    const base::Date monday = out_.grid.first_monday + base::Days{static_cast<int>(7 * week)};
    const base::Date begin = std::max(monday, input_.today);
    candidate.sowing.sow = begin;
    if (stand::bought_as_plants(way.like))
      stand::set_out_as_bought(candidate.sowing, begin, out_.crops[way.product]);
    if (way.wanted) {
      std::optional<base::Date> ready;
      if (ready_week_pulled != kNeverReady)
        ready = out_.grid.first_monday + base::Days{7 * ready_week_pulled};
      const Pulling pulling = pulling_of(way, begin, ready);
      candidate.sowing.pick_from = pulling.from;
      candidate.sowing.pick_weeks = pulling.weeks;
    }
    if (way.cells && way.cells->size() < 2) return {};
    const bed::Tray* tray = way.tray >= 0 ? &input_.trays[static_cast<std::size_t>(way.tray)] : nullptr;
    const stand::SowingDay day = source_->sowing_day(out_.crops[way.product], candidate.sowing);
    note = {.success = day.success, .limits = std::string(stand::limit_text(day.limit))};
    if (!day.in_window) return {};
    const auto life = source_->life(out_.crops[way.product], candidate.sowing, {},
                                    stand::raising_of(candidate.sowing, tray), way.bed);
    if (!life) return {};
    note = {.success = life->success, .limits = life->limits, .ready_week = ready_week(*life)};
    if (life->success < kLeastSuccess) return {};
    candidate.product = way.product;
    candidate.sun = way.bed.sun;
    candidate.success = life->success;
    candidate.sow_week = static_cast<int>(week);
    candidate.tray = way.tray;
    candidate.cells_for_clumps = way.cells;
    candidate.tray_places = way.places;
    note.beyond = !set_times(candidate, *life) || !set_supply(candidate, *life) || can_wait(candidate);
    if (note.beyond) return {};
    describe(candidate);
    candidate.sowing.planned_c = life->warmth_c;
    return candidate;
  }

  /// When it needs a tray and a bed; false when that lies outside the plan's weeks.
  bool set_times(Candidate& candidate, const SowingLife& life) const {
    const int end_day = day_quantile(life.end_day, kStayQuantile);
    if (end_day == kNeverDay) return false;
    candidate.bed_first_week = candidate.sow_week;
    if (candidate.tray >= 0) {
      const int set_out = day_quantile(life.set_out_day, 0.5);
      if (set_out == kNeverDay) return false;
      candidate.bed_first_week = std::max(candidate.sow_week, week_of_day(set_out));
      candidate.tray_first_week = candidate.sow_week;
      candidate.tray_last_week =
          std::max(candidate.sow_week, week_of_day(day_quantile(life.set_out_day, kStayQuantile)));
      if (has_small_mat(input_.trays[static_cast<std::size_t>(candidate.tray)]))
        candidate.mat_last_week =
            std::max(candidate.sow_week, last_week_on_mat(life, candidate.tray_last_week));
    }
    candidate.bed_last_week = std::max(candidate.bed_first_week, week_of_day(end_day));
    return candidate.bed_first_week < static_cast<int>(out_.grid.weeks);
  }

  /// What decides in which beds it may stand, and beside what.
  void describe_needs(Candidate& candidate) const {
    const crop::Crop& crop = out_.crops[candidate.product];
    candidate.family = crop.family;
    candidate.rotation_years = crop.place.rotation_years;
    candidate.stands_part_shade = crop.place.sun == crop::SunNeed::partial;
    candidate.feeder = crop.place.feeder;
    candidate.height_m = crop.place.height_m.value;
    candidate.spacing_mm = static_cast<int>(std::lround(candidate.sowing.spacing_mm));
    if (crop.place.least_block)
      candidate.least_clumps = static_cast<int>(
          std::ceil(*crop.place.least_block / std::max(1.0, candidate.sowing.plants_per_clump) - 1e-9));
  }

  void describe(Candidate& candidate) const {
    describe_needs(candidate);
    const bool bought = stand::bought_as_plants(candidate.sowing);
    candidate.sow_hours = bought ? 0.0 : candidate.tray >= 0 ? kSowCellHours : kSowInPlaceHours;
    candidate.bed_hours = bought || candidate.tray >= 0 ? kSetOutHours : 0.0;
    draw_seed(candidate);
  }

  /// What one clump brings while the bed is its own; false when that is nothing.
  bool set_supply(Candidate& candidate, const SowingLife& life) const {
    const std::size_t weeks = out_.grid.weeks;
    const double per_clump = 1.0 / (kJudgedClumps * model_const().products[candidate.product].serving_g);
    candidate.servings.assign(life.weekly_g.size(), 0.0);
    double sum = 0.0;
    for (std::size_t i = 0; i < life.weekly_g.size(); ++i) {
      if (static_cast<int>(i % weeks) > candidate.bed_last_week) continue;
      candidate.servings[i] = life.weekly_g[i] * per_clump;
      sum += candidate.servings[i];
    }
    candidate.expected_servings = sum * static_cast<double>(weeks) /
                                  static_cast<double>(std::max<std::size_t>(1, life.weekly_g.size()));
    return sum > 0.0;
  }

  /// Whether it is sown in the second half of the plan for the time after it alone: then the next plan sows
  /// it.
  bool can_wait(const Candidate& candidate) const {
    const GardenModel& model = model_const();
    if (2 * static_cast<std::size_t>(candidate.sow_week) < model.told_weeks) return false;
    for (std::size_t i = 0; i < candidate.servings.size(); ++i) {
      if (candidate.servings[i] > 0.0 && i % model.weeks < model.told_weeks) return false;
    }
    return true;
  }

  /// After the weeks of the plan only what its sowings can bring is asked for: the rest is no matter of it.
  void ask_beyond_for_what_can_be_had() {
    for (Demand& demand : model().demands) {
      const std::vector<bool> reachable = reachable_weeks(model(), demand);
      for (std::size_t w = model().told_weeks; w < model().weeks; ++w) {
        if (!reachable[w]) demand.servings[w] = 0.0;
      }
    }
  }

  // ---- what an earlier plan said

  /// The sowing of the model that is nearest to a planned stand: same product, method and tray, within a
  /// week.
  std::optional<std::size_t> candidate_like(const stand::StandPlan& planned) const {
    std::optional<std::size_t> nearest;
    auto least = std::make_pair(2, 0);
    for (std::size_t c = 0; c < model_const().candidates.size(); ++c) {
      const Candidate& candidate = model_const().candidates[c];
      const stand::StandPlan& sowing = candidate.sowing;
      if (sowing.crop != planned.crop || sowing.variety != planned.variety || sowing.size != planned.size ||
          sowing.method != planned.method || sowing.tray != planned.tray ||
          !stand_alike(sowing.pick_weeks, planned.pick_weeks) || !has_light(planned, *candidate.sun))
        continue;
      const auto distance =
          std::make_pair(std::abs(candidate.sow_week - grid_week(stand::begins_on(planned))),
                         std::abs(sowing.pick_weeks - planned.pick_weeks));
      if (distance >= least) continue;
      least = distance;
      nearest = c;
    }
    return nearest;
  }

  /// The warmth that a planned sowing would meet by the weather as it is known now.
  std::optional<double> warmth_now(const stand::StandPlan& planned) const {
    const base::Date begin = stand::begins_on(planned);
    if (!planned.planned_c || begin < input_.today) return {};
    return source_->warmth_c(planned.method, begin);
  }

  void add_promised() {
    for (const stand::StandPlan& planned : input_.earlier) {
      out_.earlier_c.push_back(warmth_now(planned));
      const auto bed = bed_named(planned.bed);
      const bool is_past = stand::begins_on(planned) < input_.today;
      const auto candidate = is_past ? std::nullopt : candidate_like(planned);
      if (!bed || !candidate || planned.clumps <= 0) continue;
      model().promised.push_back(
          {*candidate, *bed, static_cast<int>(std::lround(planned.from_m * 1000.0)), planned.clumps});
    }
  }

  const PlanInput& input_;
  const PlanOptions& options_;
  const std::function<bool()>& go_on_;
  PreparedGarden out_;
  std::vector<crop::Crop> source_crops_;
  /// How a product comes into its beds, as the wants that name it have it.
  struct Means {
    bool raised = false, bought = false;
  };
  std::vector<Means> means_;   ///< by product
  int lot_of_plants_ = -1;
  std::vector<int> seed_lot_;  ///< by product; empty where nothing is known of the seed box
  std::unique_ptr<SowingSource> source_;
};

/// Whether `a` is at least as good as `b` in room, tray, work and every week of every weather year, in the same
/// beds.
bool at_least_as_good(const Candidate& a, const Candidate& b) {
  if (a.sun != b.sun) return false;
  if (a.spacing_mm > b.spacing_mm || a.bed_first_week < b.bed_first_week || a.bed_last_week > b.bed_last_week)
    return false;
  if (a.sow_hours + a.bed_hours > b.sow_hours + b.bed_hours || a.seeds > b.seeds) return false;
  if (a.tray >= 0) {
    if (a.mat_last_week > b.mat_last_week) return false;
    if (a.tray != b.tray || a.tray_first_week < b.tray_first_week || a.tray_last_week > b.tray_last_week)
      return false;
  }
  return std::equal(a.servings.begin(), a.servings.end(), b.servings.begin(), b.servings.end(),
                    [](double x, double y) { return x >= y; });
}

bool may_be_bought(const PlanInput& input, const crop::Crop& crop) {
  return std::any_of(input.wants.begin(), input.wants.end(),
                     [&crop](const Want& want) { return want.bought && takes_crop(want, crop); });
}

}  // namespace

bool stand_alike(int pick_weeks, int other_pick_weeks) {
  return (pick_weeks > 0) == (other_pick_weeks > 0);
}

SowingKey key_of(const Candidate& candidate) {
  return {.product = candidate.product,
          .tray = candidate.tray,
          .bought = stand::bought_as_plants(candidate.sowing),
          .sun = candidate.sun,
          .week = candidate.sow_week,
          .pick_weeks = candidate.sowing.pick_weeks};
}

std::optional<std::size_t> sowing_of(const GardenModel& model, const SowingKey& key) {
  std::optional<std::size_t> nearest;
  int least = 0;
  for (std::size_t c = 0; c < model.candidates.size(); ++c) {
    const SowingKey other = key_of(model.candidates[c]);
    const bool same_light = !key.sun || !other.sun || key.sun == other.sun;
    if (other.product != key.product || other.tray != key.tray || other.bought != key.bought || !same_light ||
        other.week != key.week || !stand_alike(other.pick_weeks, key.pick_weeks))
      continue;
    const int apart = std::abs(other.pick_weeks - key.pick_weeks);
    if (nearest && apart >= least) continue;
    least = apart;
    nearest = c;
  }
  return nearest;
}

const RefusedSowing* refused_as(const PreparedGarden& garden, const SowingKey& key) {
  const auto refused =
      std::find_if(garden.refused.begin(), garden.refused.end(), [&](const RefusedSowing& other) {
        return other.product == key.product && other.tray == key.tray && other.bought == key.bought &&
               (!key.sun || other.sun == key.sun) && other.week == key.week;
      });
  return refused == garden.refused.end() ? nullptr : &*refused;
}

base::Date weather_needed_from(const PlanInput& input) {
  int longest_days = 0;
  for (const auto& [id, crop] : input.library->crops) {
    if (!crop.nursery.can_transplant || !may_be_bought(input, crop)) continue;
    longest_days = std::max(longest_days, stand::raising_days(crop));
    for (const crop::Variety& variety : input.varieties) {
      if (variety.crop == id)
        longest_days = std::max(longest_days, stand::raising_days(crop::with_variety(crop, variety)));
    }
  }
  base::Date first = std::min(base::week_start(input.today), input.today - base::Days{longest_days});
  for (const FixedStand& fixed : input.fixed)
    first = std::min(first, fixed.facts.sown.value_or(fixed.plan.sow));
  return base::week_start(first);
}

double seeds_left(const PlanInput& input, const crop::Packet& packet) {
  const auto gone = input.seeds_gone.find(packet.id);
  return std::max(0.0, packet.seeds - (gone == input.seeds_gone.end() ? 0.0 : gone->second));
}

double wanted_in_week(const Want& want, base::Date monday, base::Date from) {
  constexpr int kWeekDays = 7;
  int days = 0;
  for (int k = 0; k < kWeekDays; ++k) {
    const base::Date day = monday + base::Days{k};
    if (day >= from && base::contains({want.from, want.to}, base::month_day_of(day))) ++days;
  }
  return want.amount_per_week * days / kWeekDays;
}

std::optional<std::size_t> week_of_total(const Want& want, base::Date first_monday, std::size_t weeks,
                                         base::Date today) {
  constexpr std::size_t kWeekDays = 7;
  if (want.total <= 0.0) return std::nullopt;
  for (std::size_t d = 0; d < kWeekDays * weeks; ++d) {
    const base::Date day = first_monday + base::Days{static_cast<int>(d)};
    if (day >= today && day == base::in_year(want.to, base::year_of(day))) return d / kWeekDays;
  }
  return std::nullopt;
}

std::size_t last_week_to_lie_in_store(const Want& want, base::Date first_monday, std::size_t due,
                                      const std::vector<bool>& can_lie) {
  const base::YearSpan range{want.from, want.to};
  for (std::size_t w = due;; --w) {
    const base::Date sunday = first_monday + base::Days{static_cast<int>(7 * w) + 6};
    if (w != due && !base::contains(range, base::month_day_of(sunday))) return due;
    if (can_lie[w]) return w;
    if (w == 0) return due;
  }
}

bool takes_crop(const Want& want, const crop::Crop& crop) {
  if (!want.crop.empty()) return want.crop == crop.id;
  return std::find(crop.groups.begin(), crop.groups.end(), want.group) != crop.groups.end();
}

bool takes(const Want& want, const crop::Crop& crop, const std::string& variety) {
  const bool any_variety = want.crop.empty() || want.variety.empty();
  return takes_crop(want, crop) && (any_variety || want.variety == variety);
}

double grams_per_unit(const Want& want, const crop::Crop& crop) {
  constexpr double kLeastEdible = 0.05;
  const crop::Harvest& harvest = crop.harvest;
  switch (want.unit) {
    case WantUnit::grams:
      return 1.0;
    case WantUnit::servings:
      return std::max(1.0, harvest.serving_g.value) /
             std::clamp(harvest.edible_fraction.value, kLeastEdible, 1.0);
    case WantUnit::pieces:
      return std::max(1.0, want.size == stand::SizeGoal::small ? harvest.small_g.value : harvest.large_g.value);
  }
  return 1.0;
}

base::Result<PreparedGarden> prepare_garden(const PlanInput& input, const PlanOptions& options,
                                            const SourceMaker& make_source,
                                            const std::function<bool()>& go_on) {
  return Preparation(input, options, go_on).run(make_source);
}

std::size_t drop_dominated(std::vector<Candidate>& candidates) {
  std::vector<bool> dropped(candidates.size(), false);
  for (std::size_t b = 0; b < candidates.size(); ++b) {
    for (std::size_t a = 0; a < candidates.size() && !dropped[b]; ++a) {
      if (a == b || dropped[a] || candidates[a].product != candidates[b].product) continue;
      dropped[b] = at_least_as_good(candidates[a], candidates[b]);
    }
  }
  std::vector<Candidate> kept;
  for (std::size_t c = 0; c < candidates.size(); ++c) {
    if (!dropped[c]) kept.push_back(std::move(candidates[c]));
  }
  const std::size_t count = candidates.size() - kept.size();
  candidates = std::move(kept);
  return count;
}

}  // namespace sowtide::plan
