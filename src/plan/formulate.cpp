#include "plan/formulate.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <numeric>
#include <set>
#include <utility>

namespace sowtide::plan {
namespace {

constexpr double kMillimetresPerMetre = 1000.0;

/// Length that one clump takes in a bed of the group, m.
double metres_per_clump(const GardenModel& model, const BedGroup& group, const Candidate& candidate) {
  const int across = clumps_across(model.beds[group.beds.front()], candidate);
  return candidate.spacing_mm / kMillimetresPerMetre / across;
}

/// Total length of the union of stretches of one bed, mm.
int union_length_mm(std::vector<std::pair<int, int>> stretches, int bed_length_mm) {
  std::sort(stretches.begin(), stretches.end());
  int total = 0, end = 0;
  for (const auto& [from, to] : stretches) {
    const int begin = std::max(from, end);
    const int stop = std::min(to, bed_length_mm);
    total += std::max(0, stop - begin);
    end = std::max(end, stop);
  }
  return total;
}

class Formulator {
 public:
  explicit Formulator(const GardenModel& model)
      : model_(model), scenario_count_(static_cast<double>(model.scenarios.size())) {}

  Formulation run() {
    add_clump_columns();
    add_bed_rows();
    add_family_rows();
    add_tray_rows();
    add_labour_rows();
    add_seed_rows();
    add_pools();
    return std::move(result_);
  }

 private:
  LinearProgram& program() { return result_.program; }
  std::string next_name(const char* prefix) { return prefix + std::to_string(name_count_++); }
  int new_row(const char* prefix, double lower, double upper) {
    return program().add_row({next_name(prefix), lower, upper});
  }
  int new_column(const char* prefix, double cost, double upper = kUnbounded, bool integer = false) {
    return program().add_column({next_name(prefix), cost, 0.0, upper, integer});
  }

  void add_clump_columns() {
    waste_price_.assign(model_.products.size(), model_.prices.waste);
    for (const Pool& pool : model_.pools) {
      for (const std::size_t p : pool.products) waste_price_[p] = pool.waste_price;
    }
    columns_of_.resize(model_.candidates.size());
    candidates_of_product_.resize(model_.products.size());
    for (std::size_t c = 0; c < model_.candidates.size(); ++c) {
      const Candidate& candidate = model_.candidates[c];
      const double cost = waste_price_[candidate.product] * mean_supply(model_, candidate);
      candidates_of_product_[candidate.product].push_back(c);
      for (std::size_t g = 0; g < model_.groups.size(); ++g) {
        const BedGroup& group = model_.groups[g];
        int most = 0;
        for (const std::size_t b : group.beds) {
          const bed::Bed& bed = model_.beds[b];
          if (may_stand(bed, candidate))
            most += clumps_in(candidate, clumps_across(bed, candidate), length_mm(bed));
        }
        if (most < 1) continue;
        const int column = new_column("y", cost, most, true);
        result_.clump_columns.push_back({c, g, column});
        columns_of_[c].push_back(column);
      }
    }
  }

  /// Free length of a group in a week, m: what fixed stands take is away.
  double free_metres(const BedGroup& group, int week) const {
    int free_mm = 0;
    for (const std::size_t b : group.beds) {
      std::vector<std::pair<int, int>> stretches;
      for (const TakenStretch& taken : model_.taken) {
        if (taken.bed == b && taken.first_week <= week && week <= taken.last_week) {
          stretches.emplace_back(taken.from_mm, taken.to_mm);
        }
      }
      free_mm += length_mm(model_.beds[b]) - union_length_mm(std::move(stretches), length_mm(model_.beds[b]));
    }
    return free_mm / kMillimetresPerMetre;
  }

  void add_bed_rows() {
    result_.bed_rows.assign(model_.groups.size(), std::vector<int>(model_.weeks, -1));
    for (std::size_t g = 0; g < model_.groups.size(); ++g) {
      for (std::size_t w = 0; w < model_.weeks; ++w) {
        std::vector<std::pair<int, double>> terms;
        for (const ClumpColumn& entry : result_.clump_columns) {
          const Candidate& candidate = model_.candidates[entry.candidate];
          const auto week = static_cast<int>(w);
          if (entry.group != g || week < candidate.bed_first_week || week > candidate.bed_last_week) continue;
          terms.emplace_back(entry.column, metres_per_clump(model_, model_.groups[g], candidate));
        }
        if (terms.empty()) continue;
        const int row = new_row("b", -kUnbounded, free_metres(model_.groups[g], static_cast<int>(w)));
        for (const auto& [column, metres] : terms) program().add_element(row, column, metres);
        result_.bed_rows[g][w] = row;
      }
    }
  }

  /// Length of a group that no candidate of the family may use at any time of the horizon, m.
  double closed_metres(const BedGroup& group, const std::string& family,
                       const std::vector<std::size_t>& candidates) const {
    int closed_mm = 0;
    const auto closes = [&](const auto& stretch) {
      return std::all_of(candidates.begin(), candidates.end(),
                         [&](std::size_t c) { return closes_for(model_.candidates[c], stretch); });
    };
    for (const std::size_t b : group.beds) {
      std::vector<std::pair<int, int>> stretches;
      for (const PastStretch& past : model_.past) {
        if (past.bed == b && past.family == family && closes(past))
          stretches.emplace_back(past.from_mm, past.to_mm);
      }
      for (const TakenStretch& taken : model_.taken) {
        if (taken.bed == b && taken.family == family && closes(taken))
          stretches.emplace_back(taken.from_mm, taken.to_mm);
      }
      closed_mm += union_length_mm(std::move(stretches), length_mm(model_.beds[b]));
    }
    return closed_mm / kMillimetresPerMetre;
  }
  bool closes_for(const Candidate& candidate, const PastStretch& past) const {
    return too_soon_after(model_, candidate, past);
  }
  bool closes_for(const Candidate& candidate, const TakenStretch& taken) const {
    return too_soon_after(candidate, taken.family, taken.first_week, taken.last_week);
  }

  /// Whether no two of the sowings can have the same ground one after the other: none rests for as few weeks
  /// as can lie between the first end and the last beginning.
  bool never_twice(const std::vector<std::size_t>& candidates) const {
    int last_begin = 0, first_end = static_cast<int>(model_.weeks);
    double least_rest = std::numeric_limits<double>::infinity();
    for (const std::size_t c : candidates) {
      last_begin = std::max(last_begin, model_.candidates[c].bed_first_week);
      first_end = std::min(first_end, model_.candidates[c].bed_last_week);
      least_rest = std::min(least_rest, rest_weeks_of(model_.candidates[c]));
    }
    return last_begin - first_end < least_rest;
  }

  /// A family stands at most once in the horizon on any stretch, when all its crops rest a year or more.
  void add_family_rows() {
    result_.family_rows.resize(model_.groups.size());
    std::map<std::string, std::vector<std::size_t>> families;
    for (std::size_t c = 0; c < model_.candidates.size(); ++c) {
      const double rest_weeks = rest_weeks_of(model_.candidates[c]);
      if (rest_weeks >= static_cast<double>(model_.told_weeks))
        families[model_.candidates[c].family].push_back(c);
    }
    std::erase_if(families, [&](const auto& each) { return !never_twice(each.second); });
    for (std::size_t g = 0; g < model_.groups.size(); ++g) {
      for (const auto& [family, candidates] : families) {
        double metres = -closed_metres(model_.groups[g], family, candidates);
        for (const std::size_t b : model_.groups[g].beds)
          metres += length_mm(model_.beds[b]) / kMillimetresPerMetre;
        const int row = new_row("f", -kUnbounded, metres);
        for (const ClumpColumn& entry : result_.clump_columns) {
          const Candidate& candidate = model_.candidates[entry.candidate];
          if (entry.group != g || !std::binary_search(candidates.begin(), candidates.end(), entry.candidate))
            continue;
          program().add_element(row, entry.column, metres_per_clump(model_, model_.groups[g], candidate));
        }
        result_.family_rows[g].push_back(row);
      }
    }
  }

  /// Cells in a tray, then cells on its mat.
  void add_tray_rows() {
    const std::size_t trays = model_.trays.size();
    const std::vector<std::vector<int>> taken = cells_taken(model_);
    result_.tray_rows.assign(taken.size(), std::vector<int>(model_.weeks, -1));
    for (std::size_t room = 0; room < taken.size(); ++room) {
      for (std::size_t w = 0; w < model_.weeks; ++w) {
        int row = -1;
        for (std::size_t c = 0; c < model_.candidates.size(); ++c) {
          const Candidate& candidate = model_.candidates[c];
          const auto week = static_cast<int>(w);
          if (candidate.tray != static_cast<int>(room % trays) || columns_of_[c].empty()) continue;
          const CellStay stay = cell_stays(model_, candidate)[room / trays];
          if (week < stay.first_week || week > stay.last_week) continue;
          // More may stand there than it has cells, as the log tells it: then there is room for nothing, and
          // no less.
          const int free = std::max(0, cells_in_room(model_, room) - taken[room][w]);
          if (row < 0) row = new_row(room < trays ? "t" : "m", -kUnbounded, free);
          for (const int column : columns_of_[c])
            program().add_element(row, column, least_cells_per_clump(candidate));
        }
        result_.tray_rows[room][w] = row;
      }
    }
  }

  /// Of one clump in a week: sowing or setting out, and picking in the mean of the weather years.
  double clump_hours(const Candidate& candidate, std::size_t week) const {
    double hours = model_.products[candidate.product].pick_hours * mean_of_years(model_, candidate.servings, week);
    if (candidate.sow_week == static_cast<int>(week)) hours += candidate.sow_hours;
    if (candidate.bed_first_week == static_cast<int>(week)) hours += candidate.bed_hours;
    return hours;
  }

  /// Hours of a week = easy hours + hard hours, the easy ones bounded.
  void add_labour_rows() {
    for (std::size_t w = 0; w < model_.weeks; ++w) {
      std::map<int, double> hours;
      for (std::size_t c = 0; c < model_.candidates.size(); ++c) {
        const double of_a_clump = clump_hours(model_.candidates[c], w);
        if (of_a_clump <= 0.0) continue;
        for (const int column : columns_of_[c]) hours[column] = of_a_clump;
      }
      const PlanPrices& prices = model_.prices;
      const double taken = model_.hours_taken[w];
      const double easy_left = std::max(0.0, prices.easy_hours - taken);
      program().offset += prices.easy_hour * (taken - std::max(0.0, taken - prices.easy_hours)) +
                          prices.hard_hour * std::max(0.0, taken - prices.easy_hours);
      if (hours.empty()) continue;
      const int row = new_row("l", -kUnbounded, 0.0);
      result_.labour_rows.push_back(row);
      for (const auto& [column, value] : hours) program().add_element(row, column, value);
      program().add_element(row, new_column("e", prices.easy_hour, easy_left), -1.0);
      program().add_element(row, new_column("h", prices.hard_hour), -1.0);
    }
  }

  /// Seeds drawn − seeds bought <= seeds in the box.
  void add_seed_rows() {
    if (model_.prices.seed <= 0.0) return;
    for (std::size_t lot = 0; lot < model_.seed_lots.size(); ++lot) {
      int row = -1;
      for (std::size_t c = 0; c < model_.candidates.size(); ++c) {
        if (model_.candidates[c].seed_lot != static_cast<int>(lot)) continue;
        for (const int column : columns_of_[c]) {
          if (row < 0) row = new_row("r", -kUnbounded, model_.seed_lots[lot].seeds);
          program().add_element(row, column, model_.candidates[c].seeds);
        }
      }
      if (row < 0) continue;
      program().add_element(row, new_column("q", model_.prices.seed), -1.0);
      result_.seed_rows.push_back(row);
    }
  }

  void add_pools() {
    for (std::size_t p = 0; p < model_.products.size(); ++p) {
      for (const std::size_t m : model_.scenarios) {
        for (std::size_t w = 0; w < model_.weeks; ++w) {
          program().offset += waste_price_[p] * model_.base_supply[p][m * model_.weeks + w] / scenario_count_;
        }
      }
      program().offset += waste_price_[p] * stored_servings(model_, p);
    }
    last_week_ = last_wanted_weeks(model_);
    result_.missing_columns.resize(model_.demands.size());
    for (const Pool& pool : model_.pools) {
      for (const std::size_t d : pool.demands) add_constant_part(pool, model_.demands[d]);
      const bool simple = pool.products.size() == 1 && pool.demands.size() == 1;
      for (const std::size_t m : model_.scenarios) {
        if (simple) {
          add_simple_pool(pool, m);
        } else {
          add_shared_pool(pool, m);
        }
      }
    }
  }

  /// Every serving used saves a wasted one; and what is wanted before anything can be had is missed for sure.
  void add_constant_part(const Pool& pool, const Demand& demand) {
    for (std::size_t w = 0; w < model_.weeks; ++w) {
      program().offset += w < pool.first_week ? price_in(demand, w) * demand.servings[w]
                                              : -pool.waste_price * demand.servings[w];
    }
  }

  double missing_cost(const Pool& pool, const Demand& demand, std::size_t week) const {
    return (price_in(demand, week) + pool.waste_price) / scenario_count_;
  }

  /// Stock left in the horizon's last week is not waste when wants go on.
  double stock_cost(std::size_t product, std::size_t week) const {
    const bool kept = week + 1 == model_.weeks && last_week_[product] == static_cast<int>(week);
    return kept ? -waste_price_[product] / scenario_count_ : 0.0;
  }

  int new_stock(const Pool& pool, std::size_t product, std::size_t member, std::size_t week) {
    const int column = new_column("i", stock_cost(product, week));
    const bool matters = static_cast<int>(week) < last_week_[product] || stock_cost(product, week) != 0.0;
    if (week >= first_old_week(model_, pool, product) && matters)
      result_.stock_columns.push_back({product, member, week, column});
    return column;
  }

  /// What there is in a week without any sowing: from what stands there, and in the first week from the store.
  double had_anyway(std::size_t product, std::size_t member, std::size_t week) const {
    const double base = model_.base_supply[product][member * model_.weeks + week];
    return week == 0 ? base + stored_servings(model_, product) : base;
  }

  void add_supply_terms(int row, std::size_t product, std::size_t member, std::size_t week) {
    const std::size_t at = member * model_.weeks + week;
    for (const std::size_t c : candidates_of_product_[product]) {
      const double servings = model_.candidates[c].servings[at];
      for (const int column : columns_of_[c]) program().add_element(row, column, servings);
    }
  }

  /// What a demand misses over the weeks of the plan − what is more than half of it <= half of what it asks
  /// for. `missing` are the columns of those weeks from the pool's first on; before, all is missed.
  void add_half_row(const Pool& pool, std::size_t d, const std::vector<int>& missing) {
    const Demand& demand = model_.demands[d];
    auto& known = result_.missing_columns[d];
    known.insert(known.end(), missing.begin(), missing.end());
    if (model_.prices.first_half <= 0.0) return;
    const auto first =
        demand.servings.begin() + static_cast<std::ptrdiff_t>(std::min(pool.first_week, model_.told_weeks));
    const double missed_before = std::accumulate(demand.servings.begin(), first, 0.0);
    const MissingMost most = missing_most(model_, demand);
    const int row = new_row("n", -kUnbounded, most.half - missed_before);
    for (const int column : missing) program().add_element(row, column, 1.0);
    program().add_element(row, new_column("z", most.price / scenario_count_), -1.0);
  }

  /// keep × stock before + supply + missing − stock after >= wanted
  void add_simple_pool(const Pool& pool, std::size_t member) {
    const std::size_t product = pool.products.front();
    const Demand& demand = model_.demands[pool.demands.front()];
    int stock_before = -1;
    std::vector<int> missing;
    for (std::size_t w = pool.first_week; static_cast<int>(w) <= last_week_[product]; ++w) {
      const int row = new_row("p", demand.servings[w] - had_anyway(product, member, w), kUnbounded);
      if (stock_before >= 0) program().add_element(row, stock_before, model_.products[product].keep_share);
      add_supply_terms(row, product, member, w);
      if (demand.servings[w] > 0.0) {
        const int column = new_column("s", missing_cost(pool, demand, w), demand.servings[w]);
        program().add_element(row, column, 1.0);
        if (w < model_.told_weeks) missing.push_back(column);
      }
      stock_before = new_stock(pool, product, member, w);
      program().add_element(row, stock_before, -1.0);
    }
    add_half_row(pool, pool.demands.front(), missing);
  }

  /// Each product: keep × stock before + supply − uses − stock after >= 0; each want: uses + missing >=
  /// wanted.
  void add_shared_pool(const Pool& pool, std::size_t member) {
    std::map<std::size_t, int> stock_before;
    std::map<std::size_t, std::vector<int>> missing;  // by demand
    for (std::size_t w = pool.first_week; w < model_.weeks; ++w) {
      std::map<std::size_t, int> product_row;
      for (const std::size_t product : pool.products) {
        if (static_cast<int>(w) > last_week_[product]) continue;
        const int row = new_row("p", -had_anyway(product, member, w), kUnbounded);
        const auto before = stock_before.find(product);
        if (before != stock_before.end())
          program().add_element(row, before->second, model_.products[product].keep_share);
        add_supply_terms(row, product, member, w);
        const int stock = new_stock(pool, product, member, w);
        program().add_element(row, stock, -1.0);
        stock_before[product] = stock;
        product_row[product] = row;
      }
      for (const std::size_t d : pool.demands) {
        const Demand& demand = model_.demands[d];
        if (demand.servings[w] <= 0.0) continue;
        const int row = new_row("w", demand.servings[w], kUnbounded);
        const int column = new_column("s", missing_cost(pool, demand, w), demand.servings[w]);
        program().add_element(row, column, 1.0);
        if (w < model_.told_weeks) missing[d].push_back(column);
        for (const std::size_t product : demand.products) {
          const int use = new_column("u", 0.0);
          program().add_element(product_row.at(product), use, -1.0);
          program().add_element(row, use, 1.0);
        }
      }
    }
    for (const std::size_t d : pool.demands) add_half_row(pool, d, missing[d]);
  }

  const GardenModel& model_;
  double scenario_count_;
  Formulation result_;
  std::vector<std::vector<int>> columns_of_;  ///< by candidate
  std::vector<std::vector<std::size_t>> candidates_of_product_;
  std::vector<int> last_week_;       ///< by product
  std::vector<double> waste_price_;  ///< by product
  int name_count_ = 0;
};

}  // namespace

namespace {

/// What of a table [member * weeks + week] is still good at the end of a week, of the picking of the last
/// weeks.
double still_good(const GardenModel& model, const StockColumn& stock, const std::vector<double>& table) {
  const Product& product = model.products[stock.product];
  const auto keep_weeks = static_cast<std::size_t>(product.keep_weeks);
  const std::size_t first = stock.week + 1 > keep_weeks ? stock.week + 1 - keep_weeks : 0;
  double good = 0.0;
  for (std::size_t w = first; w <= stock.week; ++w)
    good = product.keep_share * good + table[stock.member * model.weeks + w];
  return good;
}

/// stock − what each clump's picking of the last weeks still has good <= the same of what stands there
/// already and of what lay in store
void add_age_row(const GardenModel& model, Formulation& formulation, StockColumn& stock) {
  LinearProgram& program = formulation.program;
  const int row = program.add_row({"a" + std::to_string(program.rows.size()), -kUnbounded,
                                   still_good(model, stock, model.base_supply[stock.product]) +
                                       stored_still_good(model, stock.product, stock.week)});
  program.add_element(row, stock.column, 1.0);
  for (const ClumpColumn& entry : formulation.clump_columns) {
    const Candidate& candidate = model.candidates[entry.candidate];
    if (candidate.product == stock.product)
      program.add_element(row, entry.column, -still_good(model, stock, candidate.servings));
  }
  stock.limited = true;
}

/// By candidate: the clumps of a solution, parts of clumps too.
std::vector<double> clumps_of(const GardenModel& model, const Formulation& formulation,
                              const std::vector<double>& values) {
  std::vector<double> clumps(model.candidates.size(), 0.0);
  for (const ClumpColumn& entry : formulation.clump_columns)
    clumps[entry.candidate] += values[static_cast<std::size_t>(entry.column)];
  return clumps;
}

/// By product: all that is picked, [member * weeks + week].
std::vector<std::vector<double>> picked_of(const GardenModel& model, const std::vector<double>& clumps) {
  std::vector<std::vector<double>> picked = model.base_supply;
  for (std::size_t c = 0; c < clumps.size(); ++c) {
    if (clumps[c] <= 0.0) continue;
    const Candidate& candidate = model.candidates[c];
    std::vector<double>& table = picked[candidate.product];
    for (std::size_t i = 0; i < table.size(); ++i) table[i] += clumps[c] * candidate.servings[i];
  }
  return picked;
}

}  // namespace

std::size_t add_broken_age_rows(const GardenModel& model, Formulation& formulation,
                                const std::vector<double>& values) {
  constexpr double kTolerance = 1e-6;
  const auto picked = picked_of(model, clumps_of(model, formulation, values));
  std::size_t added = 0;
  for (StockColumn& stock : formulation.stock_columns) {
    if (stock.limited) continue;
    const double held = values[static_cast<std::size_t>(stock.column)];
    if (held <= kTolerance) continue;
    const double good =
        still_good(model, stock, picked[stock.product]) + stored_still_good(model, stock.product, stock.week);
    if (held <= good + kTolerance) continue;
    add_age_row(model, formulation, stock);
    ++added;
  }
  return added;
}

void add_all_age_rows(const GardenModel& model, Formulation& formulation) {
  for (StockColumn& stock : formulation.stock_columns) {
    if (!stock.limited) add_age_row(model, formulation, stock);
  }
}

base::Result<LinearSolution> solve_with_age_rows(const GardenModel& model, Formulation& formulation,
                                                 RelaxationSolver& solver) {
  auto solution = solver.solve();
  while (solution && add_broken_age_rows(model, formulation, solution->values) > 0)
    solution = solver.solve_again();
  return solution;
}

double least_cells_per_clump(const Candidate& candidate) {
  if (!candidate.cells_for_clumps || candidate.cells_for_clumps->size() < 2) return 1.0;
  const auto& table = *candidate.cells_for_clumps;
  double least = table[1];
  for (std::size_t n = 2; n < table.size(); ++n) least = std::min(least, table[n] / static_cast<double>(n));
  return least;
}

Formulation formulate(const GardenModel& model) {
  return Formulator(model).run();
}

ClumpCounts counts_of(const GardenModel& model, const Formulation& formulation,
                      const std::vector<double>& values) {
  ClumpCounts counts(model.candidates.size(), 0);
  for (const ClumpColumn& entry : formulation.clump_columns) {
    counts[entry.candidate] += static_cast<int>(std::lround(values[static_cast<std::size_t>(entry.column)]));
  }
  return counts;
}

}  // namespace sowtide::plan
