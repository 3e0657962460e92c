#include "plan/limiting.hpp"

#include <algorithm>
#include <array>
#include <limits>

namespace sowtide::plan {
namespace {

constexpr std::size_t kKinds = static_cast<std::size_t>(Limiting::waste) + 1;

/// Of one clump of a sowing in a group of beds: what each thing takes of its worth, and that worth.
struct Takings {
  std::array<double, kKinds> by_kind{};
  double worth = 0.0;
  [[nodiscard]] double all() const {
    double sum = 0.0;
    for (const double each : by_kind) sum += each;
    return sum;
  }
};

/// By row of the program what it holds back; `nothing` where it is about what reaches the table.
std::vector<Limiting> kinds_of_rows(const GardenModel& model, const Formulation& formulation) {
  std::vector<Limiting> kinds(formulation.program.rows.size(), Limiting::nothing);
  const auto mark = [&kinds](const std::vector<int>& rows, Limiting kind) {
    for (const int row : rows) {
      if (row >= 0) kinds[static_cast<std::size_t>(row)] = kind;
    }
  };
  for (const auto& rows : formulation.bed_rows) mark(rows, Limiting::ground);
  for (const auto& rows : formulation.family_rows) mark(rows, Limiting::ground);
  for (std::size_t room = 0; room < formulation.tray_rows.size(); ++room)
    mark(formulation.tray_rows[room], room < model.trays.size() ? Limiting::cells : Limiting::mat);
  mark(formulation.labour_rows, Limiting::hours);
  mark(formulation.seed_rows, Limiting::seed);
  return kinds;
}

/// By column of clumps: what the rows take of a clump and what they give for it.
std::vector<Takings> takings_of_columns(const GardenModel& model, const Formulation& formulation,
                                        const LinearSolution& relaxation) {
  const std::vector<Limiting> kinds = kinds_of_rows(model, formulation);
  std::vector<Takings> takings(formulation.program.columns.size());
  for (const LinearElement& element : formulation.program.elements) {
    const auto row = static_cast<std::size_t>(element.row);
    Takings& own = takings[static_cast<std::size_t>(element.column)];
    const double given = relaxation.row_prices[row] * element.value;
    if (kinds[row] == Limiting::nothing) {
      own.worth += given;
    } else {
      own.by_kind[static_cast<std::size_t>(kinds[row])] -= given;
    }
  }
  return takings;
}

/// Of a clump's supply the share that nobody wants any more is waste: the rows of the table pay less for it
/// than the whole price of what is missing.
double wasted_worth(const GardenModel& model, const Demand& demand, const Candidate& candidate, double paid) {
  return std::max(0.0, demand.price * mean_supply(model, candidate) - paid);
}

Limiting largest_of(const Takings& takings) {
  // Less than this share of the worth is no limit; chosen.
  constexpr double kFelt = 0.05;
  if (takings.all() <= kFelt * takings.worth) return Limiting::nothing;
  const auto largest = std::max_element(takings.by_kind.begin(), takings.by_kind.end());
  return static_cast<Limiting>(largest - takings.by_kind.begin());
}

/// Of all that the relaxation sows for the demand; where it sows nothing, of what is nearest to being worth
/// it.
Takings takings_of_demand(const GardenModel& model, const Formulation& formulation,
                          const LinearSolution& relaxation, const std::vector<Takings>& by_column,
                          const Demand& demand) {
  constexpr double kSown = 1e-6;
  Takings sum, nearest;
  double least_reduced = std::numeric_limits<double>::infinity();
  bool any = false;
  for (const ClumpColumn& entry : formulation.clump_columns) {
    const Candidate& candidate = model.candidates[entry.candidate];
    if (!meets(demand, candidate.product)) continue;
    const auto column = static_cast<std::size_t>(entry.column);
    Takings own = by_column[column];
    const double cost = formulation.program.columns[column].cost;
    own.by_kind[static_cast<std::size_t>(Limiting::waste)] =
        wasted_worth(model, demand, candidate, own.worth - cost);
    own.worth = std::max(own.worth - cost, 0.0) + own.by_kind[static_cast<std::size_t>(Limiting::waste)];
    const double clumps = relaxation.values[column];
    // All the ground there is: no row of a bed has a price then, the bound of the sowing has.
    if (clumps >= formulation.program.columns[column].upper - kSown)
      own.by_kind[static_cast<std::size_t>(Limiting::ground)] += std::max(0.0, own.worth - own.all());
    if (clumps > kSown) {
      any = true;
      for (std::size_t k = 0; k < kKinds; ++k) sum.by_kind[k] += clumps * own.by_kind[k];
      sum.worth += clumps * own.worth;
    }
    const double reduced = (own.all() - own.worth) / std::max(own.worth, kSown);
    if (reduced >= least_reduced) continue;
    least_reduced = reduced;
    nearest = own;
  }
  return any ? sum : nearest;
}

}  // namespace

std::vector<double> missed_by(const GardenModel& model, const Formulation& formulation,
                              const LinearSolution& solution) {
  std::vector<double> missed(model.demands.size(), 0.0);
  for (const Pool& pool : model.pools) {
    for (const std::size_t d : pool.demands) {
      for (const int column : formulation.missing_columns[d])
        missed[d] += solution.values[static_cast<std::size_t>(column)];
      missed[d] /= static_cast<double>(model.scenarios.size());
      // Before anything can be had all is missed, and the program has no column for it.
      for (std::size_t w = 0; w < std::min(pool.first_week, model.told_weeks); ++w)
        missed[d] += model.demands[d].servings[w];
    }
  }
  return missed;
}

std::vector<Limiting> limiting_of(const GardenModel& model, const Formulation& formulation,
                                  const LinearSolution& relaxation, const std::vector<double>& missed) {
  constexpr double kMostlyMet = 0.5;
  const std::vector<double> missed_anyway = missed_by(model, formulation, relaxation);
  const std::vector<Takings> by_column = takings_of_columns(model, formulation, relaxation);
  std::vector<Limiting> limiting(model.demands.size(), Limiting::nothing);
  for (std::size_t d = 0; d < limiting.size(); ++d) {
    if (missed_anyway[d] < kMostlyMet * missed[d]) continue;
    limiting[d] = largest_of(takings_of_demand(model, formulation, relaxation, by_column, model.demands[d]));
  }
  return limiting;
}

}  // namespace sowtide::plan
