#include <algorithm>
#include <numeric>
#include <set>
#include <utility>

#include "crop/packet.hpp"
#include "keep/storage.hpp"
#include "plan/formulate.hpp"
#include "plan/labour.hpp"
#include "plan/notes.hpp"
#include "plan/preparation.hpp"
#include "stand/bought.hpp"

namespace sowtide::plan {
namespace {

using base::fail;
using base::ProblemCode;

constexpr double kGramsPerKilogram = 1000.0;
/// Ten bought plants bother as much as a packet of 250 seeds: a tray of them costs about as much in a shop
/// (common practice).
constexpr double kSeedsToAPlant = 25.0;

/// The products, the wants on the weeks, and the lots of seed of one garden.
class Products {
 public:
  explicit Products(Preparation& garden) : garden_(garden) {}

  base::Result<void> make() {
    for (const Want& want : garden_.input.wants) {
      const auto crops = crops_wanted(want);
      if (!crops) return tl::unexpected(crops.error());
      Demand demand;
      demand.want = want.id;
      for (const std::string& crop : *crops) {
        const bool bought = only_bought(want, crop);
        const auto product = product_of(crop, want.variety, want.size, bought);
        if (!product) return tl::unexpected(product.error());
        garden_.means[*product].bought = garden_.means[*product].bought || want.bought;
        garden_.means[*product].raised = garden_.means[*product].raised || !bought;
        demand.products.push_back(*product);
      }
      model().demands.push_back(std::move(demand));
    }
    if (auto ok = add_standing_products(); !ok) return ok;
    share_units();
    for (std::size_t d = 0; d < garden_.input.wants.size(); ++d)
      lay_on_weeks(garden_.input.wants[d], model().demands[d]);
    link_varieties();
    make_seed_lots();
    add_lot_of_plants();
    for (std::size_t p = 0; p < model().products.size(); ++p) {
      Product& product = model().products[p];
      product.pick_hours =
          picking_hours_per_kg(garden_.out.crops[p].harvest) * product.serving_g / kGramsPerKilogram;
    }
    return {};
  }

 private:
  [[nodiscard]] GardenModel& model() const { return garden_.out.model; }

  /// The best packet of a crop: of the variety asked for when one is; the one that held most, so that a new
  /// plan names the same while anything is in it.
  const crop::Packet* packet_for(const std::string& crop, const std::string& variety) const {
    const crop::Packet* best = nullptr;
    for (const crop::Packet& packet : garden_.input.packets) {
      if (!crop::serves(packet, crop, variety)) continue;
      const auto worth = [&](const crop::Packet& p) {
        return std::pair(seeds_left(garden_.input, p) > 0.0, p.seeds);
      };
      if (best == nullptr || worth(packet) > worth(*best)) best = &packet;
    }
    return best;
  }

  /// What is only bought is of no packet's variety.
  base::Result<std::size_t> product_of(const std::string& crop_id, const std::string& wanted_variety,
                                       stand::SizeGoal size, bool only_bought) {
    std::string variety = wanted_variety;
    const crop::Packet* packet = only_bought ? nullptr : packet_for(crop_id, variety);
    if (variety.empty() && packet != nullptr) variety = packet->variety;
    if (const auto known = sown_product(model(), crop_id, variety, size)) {
      if (packet != nullptr) garden_.out.packets[*known] = packet->id;
      return *known;
    }
    auto crop = garden_.crop_with(crop_id, variety);
    if (!crop) return tl::unexpected(crop.error());
    const std::size_t product = add_product(crop_id, variety, size, std::move(*crop));
    if (packet != nullptr) garden_.out.packets[product] = packet->id;
    return product;
  }

  std::size_t add_product(const std::string& crop_id, const std::string& variety, stand::SizeGoal size,
                          crop::Crop crop) {
    Product product{crop_id, variety, size, 100.0, 0.5};
    product.serving_g = grams_per_unit({.unit = WantUnit::servings}, crop);
    const keep::StorePlace place = keep::household_place(crop, garden_.input.cool_store);
    product.keep_share = keep::weekly_keep_share(crop, place);
    product.keep_weeks = keep::most_weeks(crop, place);
    model().products.push_back(product);
    garden_.out.crops.push_back(std::move(crop));
    garden_.out.product_notes.emplace_back();
    garden_.out.packets.emplace_back();
    garden_.means.emplace_back();
    return model().products.size() - 1;
  }

  /// Whether no other plants of the crop come into its beds for the want than bought ones.
  bool only_bought(const Want& want, const std::string& crop_id) const {
    const auto crop = garden_.input.library->find(crop_id);
    return want.bought && want.group.empty() && crop && (*crop)->nursery.can_transplant;
  }

  base::Result<std::vector<std::string>> crops_wanted(const Want& want) const {
    if (!want.crop.empty()) return std::vector<std::string>{want.crop};
    std::vector<std::string> crops;
    std::set<std::string> groups;
    for (const auto& [id, crop] : garden_.input.library->crops) {
      groups.insert(crop.groups.begin(), crop.groups.end());
      if (takes_crop(want, crop)) crops.push_back(id);
    }
    if (!crops.empty()) return crops;
    std::string known;
    for (const std::string& group : groups) known += (known.empty() ? "" : ", ") + group;
    return fail(ProblemCode::not_found, "no crop belongs to the group " + want.group, {"", 0, 0, "group"},
                "Known groups: " + known + ".");
  }

  /// What stands in the beds of a variety or at a size that nobody would sow anew feeds the wants that take
  /// it.
  base::Result<void> add_standing_products() {
    for (const FixedStand& fixed : garden_.input.fixed) {
      const stand::StandPlan& stand = fixed.plan;
      const auto crop = garden_.input.library->find(stand.crop);
      if (!crop) return tl::unexpected(crop.error());
      auto own_crop = garden_.crop_with(stand.crop, stand.variety);
      if (!own_crop) return tl::unexpected(own_crop.error());
      if (garden_.begins_beyond(fixed) || sown_product(model(), stand.crop, stand.variety, stand.size))
        continue;
      std::vector<std::size_t> takers;
      for (std::size_t d = 0; d < garden_.input.wants.size(); ++d) {
        if (takes(garden_.input.wants[d], **crop, stand.variety)) takers.push_back(d);
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
    return !garden_.input.wants[want].group.empty() && garden_.input.wants[want].unit != WantUnit::servings;
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
      for (std::size_t d = 0; d < garden_.input.wants.size(); ++d) {
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
                                      grams_per_unit(measure, garden_.out.crops[p]) /
                                      grams_per_unit(measure, garden_.out.crops[like[p]]);
    }
  }

  /// By what the crops that hang together with a first one are counted: a want in pieces of the size, or in
  /// grams.
  [[nodiscard]] Want measure_of(const std::vector<std::size_t>& like, std::size_t first) const {
    const Want by_weight{.unit = WantUnit::grams};
    std::optional<Want> measure;
    for (std::size_t d = 0; d < garden_.input.wants.size(); ++d) {
      const Want& want = garden_.input.wants[d];
      if (!sets_a_measure(d) || like[model().demands[d].products.front()] != first) continue;
      const bool alike = !measure || (measure->unit == want.unit && measure->size == want.size);
      measure = alike ? Want{.unit = want.unit, .size = want.size} : by_weight;
    }
    return measure.value_or(by_weight);
  }

  /// A want of any variety is met by every variety at its size.
  void link_varieties() {
    for (std::size_t d = 0; d < garden_.input.wants.size(); ++d) {
      const Want& want = garden_.input.wants[d];
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
    const double own_serving_g = grams_per_unit({.unit = WantUnit::servings}, garden_.out.crops[product]);
    demand.price = want.priority * demand.serving_g / own_serving_g;
    const double servings_per_unit = grams_per_unit(want, garden_.out.crops[product]) / demand.serving_g;
    demand.servings.clear();
    for (std::size_t w = 0; w < model().weeks; ++w) {
      const base::Date monday = garden_.out.grid.first_monday + base::Days{static_cast<int>(7 * w)};
      demand.servings.push_back(servings_per_unit * wanted_in_week(want, monday, garden_.input.today));
    }
    demand.waste_dislike = want.waste_dislike;
    if (want.early) prefer_early(demand);
    mind_less_beyond(demand);
  }

  /// What is wanted after the weeks of the plan counts less and less, down to nothing in the last: the
  /// farther off, the more a later plan can still do about it. Prices never rise with the weeks, so eating at
  /// once stays best.
  void mind_less_beyond(Demand& demand) const {
    const std::size_t told = model().told_weeks;
    const std::size_t after = model().weeks - told;
    if (after == 0) return;
    demand.week_factor.resize(model().weeks, 1.0);
    for (std::size_t k = 0; k < after; ++k)
      demand.week_factor[told + k] *= 1.0 - (static_cast<double>(k) + 0.5) / static_cast<double>(after);
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

  /// Where no packet is told nothing is known of the box, and seed costs nothing.
  void make_seed_lots() {
    if (garden_.input.packets.empty()) return;
    for (const Product& product : model().products) {
      const auto known = std::find_if(
          model().seed_lots.begin(), model().seed_lots.end(),
          [&](const SeedLot& lot) { return lot.crop == product.crop && lot.variety == product.variety; });
      garden_.seed_lot.push_back(static_cast<int>(known - model().seed_lots.begin()));
      if (known != model().seed_lots.end()) continue;
      SeedLot lot{product.crop, product.variety, 0.0};
      for (const crop::Packet& packet : garden_.input.packets) {
        if (crop::serves(packet, product.crop, product.variety))
          lot.seeds += seeds_left(garden_.input, packet);
      }
      model().seed_lots.push_back(std::move(lot));
    }
  }

  /// Bought plants draw on a lot of their own that holds nothing, so that each costs what so many seeds do.
  void add_lot_of_plants() {
    garden_.lot_of_plants = static_cast<int>(model().seed_lots.size());
    const bool any = std::any_of(garden_.means.begin(), garden_.means.end(),
                                 [](const Means& each) { return each.bought; });
    if (any) model().seed_lots.emplace_back();
  }

  Preparation& garden_;
};

}  // namespace

base::Result<void> make_products(Preparation& garden) {
  return Products(garden).make();
}

void add_totals(Preparation& garden) {
  for (std::size_t d = 0; d < garden.input.wants.size(); ++d) {
    const Want& want = garden.input.wants[d];
    if (want.total <= 0.0) continue;
    const auto due =
        week_of_total(want, garden.out.grid.first_monday, garden.out.model.told_weeks, garden.input.today);
    if (!due) {
      garden.out.notes.push_back({{"total-left-out", {{"want", want.id}, {"want_id", want.id}}}});
      continue;
    }
    Demand& demand = garden.out.model.demands[d];
    const auto can_lie = weeks_with_half(garden.out.model, demand);
    const double grams = want.total * grams_per_unit(want, garden.out.crops[demand.products.front()]);
    demand.servings[last_week_to_lie_in_store(want, garden.out.grid.first_monday, *due, can_lie)] +=
        grams / demand.serving_g;
  }
}

void ask_beyond_for_what_can_be_had(Preparation& garden) {
  GardenModel& model = garden.out.model;
  for (Demand& demand : model.demands) {
    const std::vector<bool> reachable = reachable_weeks(model, demand);
    for (std::size_t w = model.told_weeks; w < model.weeks; ++w) {
      if (!reachable[w]) demand.servings[w] = 0.0;
    }
  }
}

void draw_seed(const Preparation& garden, Candidate& candidate) {
  if (stand::bought_as_plants(candidate.sowing)) {
    candidate.seed_lot = garden.lot_of_plants;
    candidate.seeds = kSeedsToAPlant * candidate.sowing.plants_per_clump;
    return;
  }
  if (garden.seed_lot.empty()) return;
  candidate.seed_lot = garden.seed_lot[candidate.product];
  const double cells = candidate.tray >= 0 ? least_cells_per_clump(candidate) / candidate.tray_places : 1.0;
  candidate.seeds = cells * std::max(1.0, candidate.sowing.seeds_per_cell);
}

}  // namespace sowtide::plan
