#include "desk/supply.hpp"

#include <algorithm>
#include <cstdint>
#include <map>
#include <numeric>
#include <optional>
#include <tuple>

#include "keep/storage.hpp"

namespace sowtide::desk {
namespace {

using base::Date;
using base::Days;

constexpr double kShortShare = 0.1;  // chosen

/// A stand that a product comes of.
struct Grower {
  const stand::Outlook* outlook = nullptr;  ///< null where it is asked what is lacking without it
  double had_g =
      0.0;  ///< picked this week beside what the outlook has of it, less what of it was stored or thrown away
};

/// All that comes of one crop and variety, or lies in one place of the store, with what keeps of it from week to week.
struct Product {
  const crop::Crop* crop = nullptr;
  std::string variety;
  bool lots = false;  ///< what lies in store already, of whatever variety
  double keep_share = 0.0;
  int keep_weeks = 1;                 ///< after that of its picking, in which it may still be eaten
  std::vector<double> stored_by_age;  ///< grams good today, by weeks since
  std::vector<Grower> growers;
};

struct Source {
  std::size_t product = 0;
  double grams_per_unit = 1.0;
};

/// A want with the products that meet it, in the order to take them.
struct Taker {
  std::size_t want = 0;
  std::vector<Source> sources;
};

void learn_keeping(const crop::Crop& crop, keep::StorePlace place, Product& product) {
  product.keep_share = keep::weekly_keep_share(crop, place);
  product.keep_weeks = keep::most_weeks(crop, place);
}

/// Puts a lot among those of its age. What is older than it keeps is still there today, for the last time.
void put_in_store(const keep::Lot& lot, Date today, Product& product) {
  const keep::LotLeft left = keep::left_of(*product.crop, lot, today);
  const auto age = static_cast<std::size_t>(left.weeks_old);
  product.stored_by_age.resize(std::max(product.stored_by_age.size(), age + 1), 0.0);
  product.stored_by_age[age] += left.good_g;
}

/// Grams of an entry; plants that were pulled and not weighed count as the outlook has them.
double grams_of(const book::FoodEntry& entry, const stand::Outlook& outlook) {
  return entry.grams + entry.plants * stand::plant_on_g(outlook, entry.date).p50;
}

/// What of the week's picking of a stand is in the kitchen and in no store. The outlook has that of today.
double had_this_week_g(const Season& season, std::size_t stand, bool outlook_counts) {
  double grams = 0.0;
  for (const book::FoodEntry& entry : season.state.food_of_week) {
    if (entry.stand != season.state.stands[stand].plan.id || entry.kind == book::EventKind::eaten) continue;
    const bool came_in = entry.kind == book::EventKind::picked;
    if (came_in && outlook_counts && entry.date >= season.today) continue;
    grams += (came_in ? 1.0 : -1.0) * grams_of(entry, season.outlooks[stand]);
  }
  return grams;
}

/// What of each crop was eaten out of the store this week: it has met its want, and no later week has it.
void add_eaten(const Season& season, std::vector<Product>& products) {
  std::map<std::string, double> eaten_g;
  for (const book::FoodEntry& entry : season.state.food_of_week) {
    if (entry.kind == book::EventKind::eaten) eaten_g[entry.crop] += entry.grams;
  }
  for (const auto& [id, grams] : eaten_g) {
    const auto crop = season.library->find(id);
    if (!crop) continue;
    Product product{.crop = *crop,
                    .variety = {},
                    .lots = true,
                    .keep_weeks = 0,
                    .stored_by_age = {0.0, grams},
                    .growers = {}};
    products.push_back(std::move(product));
  }
}

std::vector<Product> products_of(const Season& season, std::string_view without) {
  // What grows is kept where the household keeps it best; a lot keeps as it does where it lies.
  std::map<std::tuple<std::string, std::string, std::optional<keep::StorePlace>>, Product> found;
  for (std::size_t i = 0; i < season.state.stands.size(); ++i) {
    const stand::StandPlan& plan = season.state.stands[i].plan;
    const auto crop = season.library->find(plan.crop);
    if (!crop) continue;
    Product& product = found[{plan.crop, plan.variety, std::nullopt}];
    product.crop = *crop;
    product.variety = plan.variety;
    learn_keeping(**crop, keep::household_place(**crop, season.garden.cool_store), product);
    const bool counts = plan.id != without;
    product.growers.push_back({counts ? &season.outlooks[i] : nullptr, had_this_week_g(season, i, counts)});
  }
  for (const keep::Lot& lot : season.state.store) {
    const auto crop = season.library->find(lot.crop);
    if (!crop) continue;
    Product& product = found[{lot.crop, {}, lot.place}];
    product.crop = *crop;
    product.lots = true;
    learn_keeping(**crop, lot.place, product);
    put_in_store(lot, season.today, product);
  }
  std::vector<Product> products;
  for (auto& [key, product] : found) products.push_back(std::move(product));
  add_eaten(season, products);
  return products;
}

/// What lies in store is of no variety: it meets a want of any.
bool meets(const Product& product, const plan::Want& want) {
  return plan::takes(want, *product.crop, product.lots ? want.variety : product.variety);
}

std::vector<Taker> takers_of(const Season& season, const std::vector<Product>& products) {
  const std::vector<plan::Want>& wants = season.garden.wants;
  std::vector<Taker> takers;
  for (std::size_t w = 0; w < wants.size(); ++w) {
    Taker taker{w, {}};
    for (std::size_t p = 0; p < products.size(); ++p) {
      if (meets(products[p], wants[w]))
        taker.sources.push_back({p, plan::grams_per_unit(wants[w], *products[p].crop)});
    }
    std::stable_sort(taker.sources.begin(), taker.sources.end(), [&](const Source& a, const Source& b) {
      const Product& first = products[a.product];
      const Product& second = products[b.product];
      return std::tuple(first.keep_share, !first.lots) < std::tuple(second.keep_share, !second.lots);
    });
    takers.push_back(std::move(taker));
  }
  std::stable_sort(takers.begin(), takers.end(), [&](const Taker& a, const Taker& b) {
    const plan::Want& x = wants[a.want];
    const plan::Want& y = wants[b.want];
    const auto narrow = [](const plan::Want& want) {
      return want.crop.empty() ? 2 : (want.variety.empty() ? 1 : 0);
    };
    return std::make_tuple(-x.priority, narrow(x)) < std::make_tuple(-y.priority, narrow(y));
  });
  return takers;
}

/// Grams of a grower that become ready in a week of one weather year.
double ready_g(const stand::Outlook& outlook, std::size_t member, Date monday) {
  const stand::MemberTable& table = outlook.members;
  if (outlook.weeks.empty() || member >= table.member_count) return 0.0;
  const auto week = (monday - outlook.weeks.front().week_start).count() / 7;
  if (week < 0 || week >= static_cast<std::ptrdiff_t>(table.week_count)) return 0.0;
  return table.weekly_g[member * table.week_count + static_cast<std::size_t>(week)];
}

/// Grams of a product that come in fresh in a week of one weather year, in the first also what was picked in
/// it.
double fresh_g(const Product& product, std::size_t member, Date monday, bool is_first) {
  double grams = 0.0;
  for (const Grower& grower : product.growers) {
    const double ready = grower.outlook == nullptr ? 0.0 : ready_g(*grower.outlook, member, monday);
    grams += std::max(0.0, ready + (is_first ? grower.had_g : 0.0));
  }
  return grams;
}

/// By week: whether half of all that a taker's stands bring, or of what lies in store for it, is there and
/// still good in the mean of the weather years, were none of it eaten.
std::vector<bool> weeks_with_half(const std::vector<Product>& products, const Taker& taker,
                                  const WantSupply& supply, std::size_t members) {
  std::vector<bool> enough(supply.weeks.size(), false);
  for (const Source& source : taker.sources) {
    const Product& product = products[source.product];
    double had = std::accumulate(product.stored_by_age.begin(), product.stored_by_age.end(), 0.0);
    double all = had;
    std::vector<double> good;
    for (const SupplyWeek& week : supply.weeks) {
      double fresh = 0.0;
      for (std::size_t m = 0; m < members; ++m) fresh += fresh_g(product, m, week.monday, good.empty());
      fresh /= static_cast<double>(std::max<std::size_t>(1, members));
      had = (good.empty() ? had : product.keep_share * had) + fresh;
      all += fresh;
      good.push_back(had);
    }
    for (std::size_t w = 0; w < good.size(); ++w)
      enough[w] = enough[w] || (all > 0.0 && good[w] >= plan::kHalfStillGood * all);
  }
  return enough;
}

/// As in the plan: a total is wanted all at once, as late in its range as half of it can be good.
void add_total(const Season& season, const std::vector<Product>& products, const Taker& taker,
               WantSupply& supply) {
  const plan::Want& want = *supply.want;
  if (supply.weeks.empty() || want.total <= 0.0) return;
  const Date first = supply.weeks.front().monday;
  const auto due = plan::week_of_total(want, first, supply.weeks.size(), season.today);
  if (!due) return;
  const auto can_lie = weeks_with_half(products, taker, supply, season.weather.member_count);
  SupplyWeek& week = supply.weeks[plan::last_week_to_lie_in_store(want, first, *due, can_lie)];
  week.to_store = want.total;
  week.wanted += want.total;
  supply.wanted += want.total;
}

/// What reaches the table in one week of one weather year, in the want's units.
struct Reached {
  double units = 0.0;
  double from_store = 0.0;  ///< of that, what was there before the week
};

/// Grams taken from a stock, and the part of them that was there before the week.
struct Taken {
  double grams = 0.0;
  double kept_g = 0.0;
};

/// What there is of a product, by weeks since it was picked.
struct Stock {
  std::vector<double> by_age;

  /// Takes up to so many grams, the oldest first.
  Taken take(double wanted_g) {
    Taken taken;
    for (std::size_t age = by_age.size(); age-- > 0 && taken.grams < wanted_g;) {
      const double grams = std::min(by_age[age], wanted_g - taken.grams);
      by_age[age] -= grams;
      taken.grams += grams;
      if (age > 0) taken.kept_g += grams;
    }
    return taken;
  }

  /// A week later: a share is still good, and what is too old is thrown away.
  void grow_older(double keep_share, int keep_weeks) {
    for (double& grams : by_age) grams *= keep_share;
    by_age.insert(by_age.begin(), 0.0);
    by_age.resize(std::min(by_age.size(), static_cast<std::size_t>(keep_weeks) + 1));
  }
};

/// What is left of the week before, aged by a week, and what becomes ready in this one.
void next_week(const std::vector<Product>& products, std::size_t member, const SupplyWeek& week, bool is_first,
               std::vector<Stock>& stocks) {
  for (std::size_t p = 0; p < products.size(); ++p) {
    Stock& stock = stocks[p];
    if (!is_first) stock.grow_older(products[p].keep_share, products[p].keep_weeks);
    stock.by_age.resize(std::max<std::size_t>(1, stock.by_age.size()), 0.0);
    stock.by_age.front() += fresh_g(products[p], member, week.monday, is_first);
  }
}

/// Walks one weather year; `reached[want][week]` gets what reaches the table.
void walk(const std::vector<Product>& products, const std::vector<Taker>& takers,
          const std::vector<WantSupply>& wants, std::size_t member,
          std::vector<std::vector<Reached>>& reached) {
  std::vector<Stock> stocks;
  for (const Product& product : products) stocks.push_back({product.stored_by_age});
  const std::size_t weeks = wants.front().weeks.size();
  for (std::size_t w = 0; w < weeks; ++w) {
    next_week(products, member, wants.front().weeks[w], w == 0, stocks);
    for (const Taker& taker : takers) {
      const double wanted = wants[taker.want].weeks[w].wanted;
      Reached& week = reached[taker.want][w];
      for (const Source& source : taker.sources) {
        const double missing_g = std::max(0.0, wanted - week.units) * source.grams_per_unit;
        const Taken taken = stocks[source.product].take(missing_g);
        week.units += taken.grams / source.grams_per_unit;
        const bool lots = products[source.product].lots;
        week.from_store += (lots ? taken.grams : taken.kept_g) / source.grams_per_unit;
      }
      week.units = std::min(week.units, wanted);
    }
  }
}

std::vector<WantSupply> empty_weeks(const Season& season, std::size_t weeks) {
  const Date end = season.weather.first + Days{static_cast<int>(season.weather.day_count)};
  std::vector<WantSupply> wants;
  for (const plan::Want& want : season.garden.wants) {
    WantSupply supply{.want = &want};
    for (Date monday = base::week_start(season.today); supply.weeks.size() < weeks && monday + Days{7} <= end;
         monday += Days{7}) {
      // The whole of this week: what was eaten of it already counts too.
      supply.weeks.push_back({.monday = monday, .wanted = plan::wanted_in_week(want, monday, monday)});
      supply.wanted += supply.weeks.back().wanted;
    }
    wants.push_back(std::move(supply));
  }
  return wants;
}

void sum_up(const std::vector<Reached>& of_years, SupplyWeek& week) {
  const auto years = static_cast<double>(of_years.size());
  std::vector<double> sample;
  for (const Reached& year : of_years) {
    sample.push_back(year.units);
    week.mean_from_store += year.from_store / years;
    if (year.units < week.wanted * (1.0 - kShortShare)) week.short_chance += 1.0 / years;
  }
  week.mean_reaches = base::mean(sample);
  week.reaches = base::quantiles(std::move(sample));
}

}  // namespace

std::vector<WantSupply> supply_of_wants(const Season& season, std::size_t weeks, std::string_view without) {
  std::vector<WantSupply> wants = empty_weeks(season, weeks);
  if (wants.empty() || wants.front().weeks.empty()) return wants;
  const std::vector<Product> products = products_of(season, without);
  const std::vector<Taker> takers = takers_of(season, products);
  for (const Taker& taker : takers) add_total(season, products, taker, wants[taker.want]);
  const std::size_t week_count = wants.front().weeks.size();
  using Year = std::vector<std::vector<Reached>>;
  std::vector<Year> years(season.weather.member_count, Year(wants.size(), std::vector<Reached>(week_count)));
  for (std::size_t m = 0; m < years.size(); ++m) walk(products, takers, wants, m, years[m]);
  for (std::size_t d = 0; d < wants.size(); ++d) {
    for (std::size_t w = 0; w < week_count; ++w) {
      std::vector<Reached> of_years;
      for (const Year& year : years) of_years.push_back(year[d][w]);
      sum_up(of_years, wants[d].weeks[w]);
      wants[d].mean_reaches += wants[d].weeks[w].mean_reaches;
    }
  }
  return wants;
}

std::vector<double> lacking_in_week(const Season& season, Date day, std::string_view without) {
  const auto week =
      std::max<std::int64_t>(0, (base::week_start(day) - base::week_start(season.today)).count() / 7);
  const auto weeks = static_cast<std::size_t>(week) + 1;
  std::vector<double> lacking;
  for (const WantSupply& supply : supply_of_wants(season, weeks, without)) {
    const bool known = supply.weeks.size() == weeks;
    const double wanted = known ? supply.weeks.back().wanted : 0.0;
    const double missing = known ? wanted - supply.weeks.back().reaches.p50 : 0.0;
    lacking.push_back(missing > 0.0 && missing >= kShortShare * wanted ? missing : 0.0);
  }
  return lacking;
}

}  // namespace sowtide::desk
