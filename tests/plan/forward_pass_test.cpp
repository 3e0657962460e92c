#include "plan/forward_pass.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <utility>

#include "base/random.hpp"
#include "plan/formulate.hpp"
#include "plan/solver.hpp"
#include "plan/synthetic_garden.hpp"

namespace sowtide::plan {
namespace {

/// The linear program's value when every row column is held at a count.
double program_value(const GardenModel& model, const std::vector<int>& rows_by_column, ClumpCounts& counts) {
  Formulation formulation = formulate(model);
  add_all_age_rows(model, formulation);
  counts.assign(model.candidates.size(), 0);
  for (std::size_t k = 0; k < formulation.clump_columns.size(); ++k) {
    const ClumpColumn& entry = formulation.clump_columns[k];
    LinearColumn& column = formulation.program.columns[static_cast<std::size_t>(entry.column)];
    column.lower = column.upper = rows_by_column[k];
    counts[entry.candidate] += rows_by_column[k];
  }
  // Room is not the question here: counts that would not fit must be judged alike.
  for (const auto* tables : {&formulation.bed_rows, &formulation.tray_rows, &formulation.family_rows}) {
    for (const auto& rows : *tables) {
      for (const int row : rows) {
        if (row >= 0) formulation.program.rows[static_cast<std::size_t>(row)].upper = kUnbounded;
      }
    }
  }
  RelaxationSolver solver(formulation.program);
  const auto solution = solver.solve();
  EXPECT_TRUE(solution.has_value());
  return solution ? solution->objective : 0.0;
}

GardenModel small_garden(std::uint64_t seed, bool group_wants) {
  SyntheticSize size;
  size.crops = 4;
  size.beds = 2;
  size.members = 5;
  size.scenarios = 3;
  size.week_step = 3;
  size.group_wants = group_wants;
  return synthetic_garden(seed, size);
}

std::vector<int> random_rows(const GardenModel& model) {
  const std::size_t columns = formulate(model).clump_columns.size();
  return *rc::gen::container<std::vector<int>>(columns, rc::gen::element(0, 0, 0, 1, 2));
}

// The walk through the weeks is the linear program's optimum when one product meets one want.
RC_GTEST_PROP(ForwardPass, EqualsTheLinearProgramWithClumpsFixed, ()) {
  GardenModel model = small_garden(*rc::gen::inRange<std::uint64_t>(0, 500), false);
  // Prices that fall with the weeks (as early as possible), and a want that minds waste more than others.
  for (Demand& demand : model.demands) {
    for (std::size_t w = 0; w < model.weeks; ++w)
      demand.week_factor.push_back(1.0 + 0.5 * static_cast<double>(model.weeks - w) / 52.0);
  }
  model.demands.front().waste_dislike = 3.0;
  model.prices.first_half = *rc::gen::element(0.0, 1.0, 3.0);
  finish_model(model);
  ClumpCounts counts;
  const double value = program_value(model, random_rows(model), counts);
  ForwardPass judge(model, model.scenarios);
  judge.set_counts(counts);
  RC_ASSERT(std::abs(judge.cost() - value) < 1e-6 * (1.0 + std::abs(value)));
}

// A fixed order of taking can lose against the program, which sees all weeks; it can never win.
RC_GTEST_PROP(ForwardPass, IsNeverBelowTheLinearProgramWhereWantsShareProducts, ()) {
  GardenModel model = small_garden(*rc::gen::inRange<std::uint64_t>(0, 500), true);
  model.prices.first_half = *rc::gen::element(0.0, 1.0);
  ClumpCounts counts;
  const double value = program_value(model, random_rows(model), counts);
  ForwardPass judge(model, model.scenarios);
  judge.set_counts(counts);
  RC_ASSERT(judge.cost() > value - 1e-6 * (1.0 + std::abs(value)));
  RC_ASSERT(judge.cost() < 1.25 * value + 1.0);
}

RC_GTEST_PROP(ForwardPass, ChangeIsTheDifferenceOfCosts, ()) {
  GardenModel model = small_garden(*rc::gen::inRange<std::uint64_t>(0, 500), *rc::gen::arbitrary<bool>());
  model.prices.first_half = *rc::gen::element(0.0, 1.0);
  ForwardPass judge(model, model.scenarios);
  for (int i = 0; i < 12; ++i) {
    const auto candidate = *rc::gen::inRange<std::size_t>(0, model.candidates.size());
    const int clumps = *rc::gen::inRange(-judge.counts()[candidate], 30);
    const double before = judge.cost();
    const double change = judge.change_by(candidate, clumps);
    RC_ASSERT(std::abs(judge.cost() - before) < 1e-12);
    judge.add(candidate, clumps);
    RC_ASSERT(std::abs(judge.cost() - before - change) < 1e-8 * (1.0 + std::abs(before)));
  }
  ForwardPass afresh(model, model.scenarios);
  afresh.set_counts(judge.counts());
  RC_ASSERT(std::abs(afresh.cost() - judge.cost()) < 1e-8 * (1.0 + afresh.cost()));
}

/// What a product brings in a weather year, with what lies in store, servings.
double supplied_in(const GardenModel& model, const ClumpCounts& counts, std::size_t product,
                   std::size_t member) {
  double sum = stored_servings(model, product);
  for (std::size_t i = member * model.weeks; i < (member + 1) * model.weeks; ++i) {
    sum += model.base_supply[product][i];
    for (std::size_t c = 0; c < counts.size(); ++c) {
      if (model.candidates[c].product == product) sum += counts[c] * model.candidates[c].servings[i];
    }
  }
  return sum;
}

// What was wanted was eaten or missed, and no more was eaten than there was.
RC_GTEST_PROP(ForwardPass, AccountsForEveryServing, ()) {
  const GardenModel model = small_garden(*rc::gen::inRange<std::uint64_t>(0, 500), false);
  ForwardPass judge(model, model.scenarios);
  ClumpCounts counts =
      *rc::gen::container<std::vector<int>>(model.candidates.size(), rc::gen::inRange(0, 10));
  judge.set_counts(counts);
  for (std::size_t d = 0; d < model.demands.size(); ++d) {
    const std::vector<double> missing = judge.missing(d);
    const std::size_t product = model.demands[d].products.front();
    for (std::size_t s = 0; s < judge.member_count(); ++s) {
      double eaten = 0.0;
      for (std::size_t w = 0; w < model.weeks; ++w) {
        const double missed = missing[s * model.weeks + w];
        const double asked = model.demands[d].servings[w];
        RC_ASSERT(missed >= -1e-12);
        RC_ASSERT(missed <= asked + 1e-12);
        eaten += asked - missed;
      }
      RC_ASSERT(eaten <= supplied_in(model, counts, product, model.scenarios[s]) + 1e-9 * (1.0 + eaten));
    }
  }
}

// Four servings are wanted, one in each of four weeks. With one and a half the want misses two and a half,
// half a one more than half of it; with three it misses one, and nothing counts twice. Worked by hand.
TEST(ForwardPass, CountsMoreWhatIsMissingOfTheFirstHalf) {
  GardenModel model;
  model.first_monday = base::date_of(2027, 1, 4);
  model.weeks = 4;
  model.member_count = 2;
  model.scenarios = {0, 1};
  model.products.push_back({"crop", "", stand::SizeGoal::large, 100.0, 0.5});
  model.demands.push_back({"want", 2.0, 100.0, {1.0, 1.0, 1.0, 1.0}, {0}});
  model.base_supply = {{1.0, 0.5, 0.0, 0.0, 1.0, 1.0, 1.0, 0.0}};
  finish_model(model);
  EXPECT_NEAR(ForwardPass(model, {0}).cost(), 2.0 * 2.5, 1e-12);
  model.prices.first_half = 1.0;
  EXPECT_NEAR(ForwardPass(model, {0}).cost(), 2.0 * 2.5 + 2.0 * 0.5, 1e-12);
  EXPECT_NEAR(ForwardPass(model, {1}).cost(), 2.0 * 1.0, 1e-12);
  EXPECT_NEAR(ForwardPass(model, {0, 1}).cost(), 4.0, 1e-12);
  EXPECT_NEAR(missing_most(model, model.demands.front()).cost_of(4.0), 4.0, 1e-12);
}

TEST(ForwardPass, EatsFromStoreWhatIsStillGood) {
  GardenModel model;
  model.first_monday = base::date_of(2027, 1, 4);
  model.weeks = 3;
  model.member_count = 1;
  model.scenarios = {0};
  model.products.push_back({"crop", "", stand::SizeGoal::large, 100.0, 0.5});
  model.demands.push_back({"want", 2.0, 100.0, {1.0, 1.0, 1.0}, {0}});
  model.base_supply = {{3.0, 0.0, 0.0}};
  finish_model(model);
  const ForwardPass judge(model, model.scenarios);
  // 3 picked, 1 eaten; 1 of 2 is good a week later and eaten; nothing is left in the third week.
  EXPECT_EQ(judge.missing(0), (std::vector<double>{0.0, 0.0, 1.0}));
  EXPECT_DOUBLE_EQ(judge.cost(), 2.0 + model.prices.waste);
}

/// The same cost worked out with a book of ages: every week's picking is a lot of its own, the oldest good
/// lot is eaten first, and what has been kept through all its weeks is thrown away.
double cost_by_lots(const GardenModel& model, const ClumpCounts& counts) {
  double cost = 0.0;
  for (const Demand& demand : model.demands) {
    const std::size_t p = demand.products.front();
    const Product& product = model.products[p];
    for (const std::size_t m : model.scenarios) {
      // The lots of the weeks before the plan lie in front, as they were a week before it.
      const auto before = static_cast<std::size_t>(product.keep_weeks);
      std::vector<double> lots(before + model.weeks, 0.0);
      double eaten = 0.0, picked = 0.0, left = 0.0;
      for (std::size_t age = 1; age < model.stored[p].size(); ++age) {
        lots[before - age] = model.stored[p][age] / product.keep_share;
        picked += model.stored[p][age];
      }
      for (std::size_t w = 0; w < model.weeks; ++w) {
        double& fresh = lots[before + w];
        fresh = model.base_supply[p][m * model.weeks + w];
        for (std::size_t c = 0; c < counts.size(); ++c) {
          if (model.candidates[c].product == p)
            fresh += counts[c] * model.candidates[c].servings[m * model.weeks + w];
        }
        picked += fresh;
        double missing = demand.servings[w];
        left = 0.0;
        for (std::size_t age = before + 1; age-- > 0;) {
          double& lot = lots[before + w - age];
          if (age > 0) lot *= product.keep_share;
          const double used = std::min(lot, missing);
          lot -= used;
          missing -= used;
          eaten += used;
          if (age < before) left += lot;
        }
        cost += price_in(demand, w) * missing / static_cast<double>(model.scenarios.size());
      }
      const double wanted_later = demand.servings.back() > 0.0 ? left : 0.0;
      cost += model.prices.waste * demand.waste_dislike * (picked - eaten - wanted_later) /
              static_cast<double>(model.scenarios.size());
    }
  }
  return cost;
}

/// A garden whose products keep for few weeks and often bear more than is eaten at once.
GardenModel garden_of_short_lives(std::uint64_t seed) {
  GardenModel model = small_garden(seed, false);
  model.prices.easy_hour = model.prices.hard_hour = 0.0;
  for (std::size_t p = 0; p < model.products.size(); ++p) {
    model.products[p].keep_weeks = 1 + static_cast<int>((seed + p) % 5);
    if ((seed + p) % 2 == 0) model.demands[p].servings.back() = 0.5;
    for (std::size_t i = 0; i < model.base_supply[p].size(); i += 3) model.base_supply[p][i] = 0.2;
  }
  finish_model(model);
  return model;
}

/// The walk, a book of lots and the program cost the same for a random plan of the garden.
void walk_book_and_program_agree(const GardenModel& model) {
  ClumpCounts counts;
  const double value = program_value(model, random_rows(model), counts);
  ForwardPass judge(model, model.scenarios);
  judge.set_counts(counts);
  const double by_lots = cost_by_lots(model, counts);
  RC_ASSERT(std::abs(judge.cost() - by_lots) < 1e-8 * (1.0 + by_lots));
  RC_ASSERT(std::abs(judge.cost() - value) < 1e-6 * (1.0 + std::abs(value)));
}

// The running sum of what is still good needs no book of ages, and neither does the program.
RC_GTEST_PROP(ForwardPass, EqualsABookOfLotsEatenOldestFirst, ()) {
  walk_book_and_program_agree(garden_of_short_lives(*rc::gen::inRange<std::uint64_t>(0, 500)));
}

/// The same with a store of lots of every age that may still be eaten, and wants from the first week on.
GardenModel garden_with_a_store(std::uint64_t seed) {
  GardenModel model = garden_of_short_lives(seed);
  base::RandomStream random(seed, "test.store");
  for (std::size_t p = 0; p < model.products.size(); ++p) {
    for (std::size_t w = 0; w < 8; ++w) model.demands[p].servings[w] += 0.4 * random.uniform();
    model.stored[p].assign(2 + random.below(static_cast<std::uint64_t>(model.products[p].keep_weeks)), 0.0);
    for (std::size_t age = 1; age < model.stored[p].size(); ++age)
      model.stored[p][age] = random.chance(0.3) ? 0.0 : 2.0 * random.uniform();
  }
  finish_model(model);
  return model;
}

// What lies in store has its own ages: the walk, the program and a book of lots agree.
RC_GTEST_PROP(Store, EqualsABookOfLotsEatenOldestFirst, ()) {
  walk_book_and_program_agree(garden_with_a_store(*rc::gen::inRange<std::uint64_t>(0, 500)));
}

RC_GTEST_PROP(Store, RowsOfAgeAddedWhereTheyAreBrokenGiveTheBoundOfAll, ()) {
  const GardenModel model = garden_with_a_store(*rc::gen::inRange<std::uint64_t>(0, 500));
  Formulation some = formulate(model), all = some;
  add_all_age_rows(model, all);
  RelaxationSolver solver(some.program), whole(all.program);
  const auto bound = solve_with_age_rows(model, some, solver);
  const auto bound_of_all = whole.solve();
  RC_ASSERT(bound.has_value() && bound_of_all.has_value());
  RC_ASSERT(std::abs(bound->objective - bound_of_all->objective) < 1e-4 * (1.0 + bound_of_all->objective));
}

// Kept apart as a product of its own, as where it lies in another place or a crop has several products: with one want
// it is eaten before what is picked anew, which comes to the same as one product.
RC_GTEST_PROP(Store, IsTheSameAsAProductOfItsOwn, ()) {
  const GardenModel model = garden_with_a_store(*rc::gen::inRange<std::uint64_t>(0, 500));
  GardenModel apart = model;
  for (std::size_t p = 0; p < model.products.size(); ++p) {
    apart.demands[p].products.push_back(apart.products.size());
    apart.products.push_back(model.products[p]);
    apart.products.back().store_only = true;
    apart.stored.push_back(std::exchange(apart.stored[p], {}));
  }
  finish_model(apart);
  ClumpCounts counts;
  const double value = program_value(apart, random_rows(apart), counts);
  ForwardPass judge(model, model.scenarios), judge_apart(apart, model.scenarios);
  judge.set_counts(counts);
  judge_apart.set_counts(counts);
  RC_ASSERT(std::abs(judge.cost() - judge_apart.cost()) < 1e-8 * (1.0 + judge.cost()));
  RC_ASSERT(std::abs(judge.cost() - value) < 1e-6 * (1.0 + std::abs(value)));
}

// Rows added where a solution breaks them leave the same bound as all of them at once.
RC_GTEST_PROP(AgeRows, AddedWhereTheyAreBrokenGiveTheBoundOfAll, ()) {
  const GardenModel model = garden_of_short_lives(*rc::gen::inRange<std::uint64_t>(0, 500));
  Formulation some = formulate(model), all = some;
  add_all_age_rows(model, all);
  RelaxationSolver solver(some.program), whole(all.program);
  const auto bound = solve_with_age_rows(model, some, solver);
  const auto bound_of_all = whole.solve();
  RC_ASSERT(bound.has_value() && bound_of_all.has_value());
  RC_ASSERT(std::abs(bound->objective - bound_of_all->objective) < 1e-4 * (1.0 + bound_of_all->objective));
  RC_ASSERT(add_broken_age_rows(model, some, bound->values) == 0U);
}

/// A garden with some seed of its first two crops, none of the others.
GardenModel garden_with_a_seed_box(std::uint64_t seed) {
  GardenModel model = small_garden(seed, false);
  model.prices.seed = 0.05;
  for (const Product& product : model.products)
    model.seed_lots.push_back({product.crop, product.variety, model.seed_lots.size() < 2 ? 6.0 : 0.0});
  for (Candidate& candidate : model.candidates) {
    candidate.seed_lot = static_cast<int>(candidate.product);
    candidate.seeds = candidate.tray >= 0 ? 1.25 : 2.0;
  }
  finish_model(model);
  return model;
}

// What the box does not hold is bought, in the walk as in the program.
RC_GTEST_PROP(ForwardPass, BuysWhatTheBoxDoesNotHold, ()) {
  const GardenModel model = garden_with_a_seed_box(*rc::gen::inRange<std::uint64_t>(0, 500));
  ClumpCounts counts;
  const double value = program_value(model, random_rows(model), counts);
  ForwardPass judge(model, model.scenarios);
  judge.set_counts(counts);
  RC_ASSERT(std::abs(judge.cost() - value) < 1e-6 * (1.0 + std::abs(value)));
  GardenModel free_seed = model;
  free_seed.prices.seed = 0.0;
  ForwardPass free_judge(free_seed, model.scenarios);
  free_judge.set_counts(counts);
  std::vector<double> drawn(model.seed_lots.size(), 0.0);
  for (std::size_t c = 0; c < counts.size(); ++c)
    drawn[model.candidates[c].product] += counts[c] * model.candidates[c].seeds;
  double bought = 0.0;
  for (std::size_t lot = 0; lot < drawn.size(); ++lot)
    bought += std::max(0.0, drawn[lot] - model.seed_lots[lot].seeds);
  RC_ASSERT(std::abs(judge.cost() - free_judge.cost() - 0.05 * bought) < 1e-9 * (1.0 + judge.cost()));
}

// Changes and trials count hours and seeds as judging afresh does.
RC_GTEST_PROP(ForwardPass, TrialsAreUndoneWhole, ()) {
  const GardenModel model = garden_with_a_seed_box(*rc::gen::inRange<std::uint64_t>(0, 500));
  ForwardPass judge(model, model.scenarios);
  for (int i = 0; i < 8; ++i) {
    const double before = judge.cost();
    const ClumpCounts counts_before = judge.counts();
    const auto candidate = *rc::gen::inRange<std::size_t>(0, model.candidates.size());
    const int clumps = *rc::gen::inRange(-judge.counts()[candidate], 30);
    const double alone = judge.change_by(candidate, clumps);
    judge.begin_trial();
    judge.add(candidate, clumps);
    RC_ASSERT(std::abs(judge.trial_change() - alone) < 1e-8 * (1.0 + std::abs(before)));
    const auto other = *rc::gen::inRange<std::size_t>(0, model.candidates.size());
    judge.add(other, 2);
    const double change = judge.trial_change();
    const bool keep = *rc::gen::arbitrary<bool>();
    judge.end_trial(keep);
    ForwardPass afresh(model, model.scenarios);
    afresh.set_counts(judge.counts());
    RC_ASSERT(std::abs(afresh.cost() - judge.cost()) < 1e-8 * (1.0 + before));
    if (keep) {
      RC_ASSERT(std::abs(judge.cost() - before - change) < 1e-8 * (1.0 + before));
    } else {
      RC_ASSERT(judge.cost() == before);
      RC_ASSERT(judge.counts() == counts_before);
    }
  }
}

TEST(ForwardPass, ThrowsAwayWhatIsTooOld) {
  GardenModel model;
  model.first_monday = base::date_of(2027, 1, 4);
  model.weeks = 4;
  model.member_count = 1;
  model.scenarios = {0};
  model.products.push_back({"crop", "", stand::SizeGoal::large, 100.0, 0.5, 2});
  model.demands.push_back({"want", 2.0, 100.0, {0.0, 0.0, 0.5, 1.0}, {0}});
  model.base_supply = {{8.0, 0.0, 0.0, 0.0}};
  finish_model(model);
  const ForwardPass judge(model, model.scenarios);
  // Of 8 picked, 2 are good two weeks later and half a one is eaten; a week later the rest is too old.
  EXPECT_EQ(judge.missing(0), (std::vector<double>{0.0, 0.0, 0.0, 1.0}));
  EXPECT_DOUBLE_EQ(judge.cost(), 2.0 + 7.5 * model.prices.waste);
}

TEST(Store, IsEatenAsLongAsItsOwnAgeAllows) {
  GardenModel model;
  model.first_monday = base::date_of(2027, 1, 4);
  model.weeks = 4;
  model.member_count = 1;
  model.scenarios = {0};
  model.products.push_back({"crop", "", stand::SizeGoal::large, 100.0, 0.5, 3});
  model.demands.push_back({"want", 2.0, 100.0, {1.0, 1.0, 1.0, 1.0}, {0}});
  // Three servings may be eaten this week for the last time, twelve until the week after the next.
  model.stored = {{0.0, 12.0, 0.0, 3.0}};
  finish_model(model);
  ForwardPass judge(model, model.scenarios);
  // One of the three is eaten; 6 of the twelve a week later, one eaten; 2.5, one eaten; the rest is too old.
  EXPECT_EQ(judge.missing(0), (std::vector<double>{0.0, 0.0, 0.0, 1.0}));
  EXPECT_DOUBLE_EQ(judge.cost(), 2.0 + 12.0 * model.prices.waste);
  model.stored = {{0.0, 0.0, 0.0, 15.0}};
  finish_model(model);
  judge = ForwardPass(model, model.scenarios);
  EXPECT_EQ(judge.missing(0), (std::vector<double>{0.0, 1.0, 1.0, 1.0}));
}

}  // namespace
}  // namespace sowtide::plan
