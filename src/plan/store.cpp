#include "plan/store.hpp"

#include <algorithm>
#include <map>
#include <optional>
#include <utility>

#include "plan/notes.hpp"

namespace sowtide::plan {
namespace {

class StoreEntry {
 public:
  StoreEntry(const PlanInput& input, PreparedGarden& garden)
      : input_(input), garden_(garden), model_(garden.model), sown_products_(model_.products.size()) {}

  void run() {
    model_.stored.resize(model_.products.size());
    for (const keep::Lot& lot : input_.store) {
      const auto crop = input_.library->find(lot.crop);
      if (crop) add_lot(**crop, lot);
    }
    for (const auto& [crop, counted] : counted_) garden_.notes.push_back({counted_said(crop, counted)});
  }

 private:
  /// Of a crop: what is counted on, and the last day on which any of it may be eaten.
  struct Counted {
    double good_g = 0.0;
    base::Date last_day{};
    std::vector<keep::LotAdvice> lots;
  };

  /// What counts of a crop, and how much of it is still good on the day that the page of the store tells
  /// last.
  [[nodiscard]] base::Message counted_said(const std::string& crop, const Counted& counted) const {
    base::Message said{"store-counted",
                       {{"crop", crop},
                        {"crop_name", crop_name(input_, crop)},
                        {"total_g", counted.good_g},
                        {"to", counted.last_day}}};
    base::Date eat_by = input_.today;
    for (const keep::LotAdvice& advice : counted.lots) eat_by = std::max(eat_by, advice.eat_by);
    if (eat_by == input_.today) return said;
    double good_g = 0.0;
    for (const keep::LotAdvice& advice : counted.lots) {
      const auto days = static_cast<double>((eat_by - advice.lot.stored).count());
      good_g += advice.lot.grams * keep::good_share(**input_.library->find(crop), advice.lot.place, days);
    }
    said.values.emplace_back("eat_by", eat_by);
    said.values.emplace_back("good_then_g", good_g);
    return said;
  }

  void add_lot(const crop::Crop& crop, const keep::Lot& lot) {
    const keep::LotLeft left = keep::left_of(crop, lot, input_.today);
    const auto product = left.good_g > 0.0 ? product_for(crop, lot.place) : std::nullopt;
    if (!product || model_.products[*product].keep_share <= 0.0) return;
    const double servings = left.good_g / model_.products[*product].serving_g;
    if (left.weeks_old == 0) {
      for (std::size_t m = 0; m < model_.member_count; ++m)
        model_.base_supply[*product][m * model_.weeks] += servings;
    } else {
      std::vector<double>& by_age = model_.stored[*product];
      const auto age = static_cast<std::size_t>(left.weeks_old);
      by_age.resize(std::max(by_age.size(), age + 1), 0.0);
      by_age[age] += servings;
    }
    const int weeks_left = model_.products[*product].keep_weeks - left.weeks_old;
    Counted& counted = counted_[lot.crop];
    counted.good_g += left.good_g;
    counted.lots.push_back(keep::eat_first({lot}, *input_.library).front());
    const int last_week = std::min(weeks_left, std::max(0, last_wanted_weeks(model_)[*product]));
    counted.last_day = std::max(counted.last_day, model_.first_monday + base::Days{7 * last_week + 6});
  }

  /// The product that a lot belongs to; nothing when no want asks for the crop.
  std::optional<std::size_t> product_for(const crop::Crop& crop, keep::StorePlace place) {
    const auto known = own_.find({crop.id, place});
    if (known != own_.end()) return known->second;
    std::vector<std::size_t> sown;
    for (std::size_t p = 0; p < sown_products_; ++p) {
      if (model_.products[p].crop == crop.id) sown.push_back(p);
    }
    if (sown.empty()) return {};
    const double keep_share = keep::weekly_keep_share(crop, place);
    const int keep_weeks = keep::most_weeks(crop, place);
    const Product& first = model_.products[sown.front()];
    const bool alike = first.keep_share == keep_share && first.keep_weeks == keep_weeks;
    const std::size_t product =
        sown.size() == 1 && alike ? sown.front() : new_product(sown, keep_share, keep_weeks);
    own_[{crop.id, place}] = product;
    return product;
  }

  /// A product of what lies in store only, for all wants that take any of the crop's others.
  std::size_t new_product(const std::vector<std::size_t>& sown, double keep_share, int keep_weeks) {
    const std::size_t place = model_.products.size();
    const std::size_t like = sown.front();
    Product product = model_.products[like];
    product.variety.clear();
    product.keep_share = keep_share;
    product.keep_weeks = keep_weeks;
    product.pick_hours = 0.0;
    product.store_only = true;
    model_.products.push_back(std::move(product));
    model_.base_supply.emplace_back(model_.member_count * model_.weeks, 0.0);
    model_.stored.emplace_back();
    garden_.crops.push_back(garden_.crops[like]);
    garden_.product_notes.emplace_back();
    garden_.packets.emplace_back();
    for (Demand& demand : model_.demands) {
      const bool takes = std::any_of(demand.products.begin(), demand.products.end(), [&](std::size_t p) {
        return std::find(sown.begin(), sown.end(), p) != sown.end();
      });
      if (takes) demand.products.push_back(place);
    }
    return place;
  }

  const PlanInput& input_;
  PreparedGarden& garden_;
  GardenModel& model_;
  std::size_t sown_products_;
  std::map<std::pair<std::string, keep::StorePlace>, std::size_t> own_;  ///< by crop and place
  std::map<std::string, Counted> counted_;                              ///< by crop
};

}  // namespace

void add_store(const PlanInput& input, PreparedGarden& garden) {
  StoreEntry(input, garden).run();
}

}  // namespace sowtide::plan
