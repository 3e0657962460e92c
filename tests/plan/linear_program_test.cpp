#include "plan/linear_program.hpp"

#include <gtest/gtest.h>

#include <OsiClpSolverInterface.hpp>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <optional>
#include <sstream>

#include "plan/formulate.hpp"
#include "plan/season_plan.hpp"
#include "plan/solver.hpp"
#include "plan/synthetic_garden.hpp"

namespace sowtide::plan {
namespace {

/// maximise 5 a + 4 b + 3 c as a minimisation; the example of V. Chvátal, Linear Programming (1983),
/// section 1.2: optimum 13 at a = 2, b = 0, c = 1.
LinearProgram textbook_program() {
  LinearProgram program;
  const int a = program.add_column({"a", -5.0});
  const int b = program.add_column({"b", -4.0});
  const int c = program.add_column({"c", -3.0});
  const int first = program.add_row({"r1", -kUnbounded, 5.0});
  const int second = program.add_row({"r2", -kUnbounded, 11.0});
  const int third = program.add_row({"r3", -kUnbounded, 8.0});
  const double table[3][3] = {{2, 3, 1}, {4, 1, 2}, {3, 4, 2}};
  for (int j = 0; j < 3; ++j) {
    program.add_element(first, j, table[0][j]);
    program.add_element(second, j, table[1][j]);
    program.add_element(third, j, table[2][j]);
  }
  static_cast<void>(a), static_cast<void>(b), static_cast<void>(c);
  return program;
}

/// Objective that GLPK's solver finds for a file, or nothing when it is not installed or fails.
std::optional<double> glpk_objective(const std::string& text, const std::string& format,
                                     const std::string& name) {
  if (std::system("command -v glpsol > /dev/null 2>&1") != 0) return {};
  const auto directory = std::filesystem::temp_directory_path();
  const std::string file = (directory / (name + ".txt")).string();
  const std::string answer = (directory / (name + ".out")).string();
  std::ofstream(file) << text;
  const std::string command =
      "glpsol " + format + " " + file + " -w " + answer + " --tmlim 60 --mipgap 1e-9 > /dev/null 2>&1";
  if (std::system(command.c_str()) != 0) return {};
  // "s mip <rows> <columns> <status> <objective>" or "s bas <rows> <columns> <primal> <dual> <objective>"
  std::ifstream in(answer);
  for (std::string line; std::getline(in, line);) {
    if (line.empty() || line.front() != 's') continue;
    const std::size_t last = line.find_last_of(' ');
    return std::stod(line.substr(last + 1));
  }
  return {};
}

TEST(RelaxationSolver, SolvesATextbookExample) {
  const LinearProgram program = textbook_program();
  RelaxationSolver solver(program);
  const auto solution = solver.solve();
  ASSERT_TRUE(solution.has_value());
  EXPECT_NEAR(solution->objective, -13.0, 1e-9);
  EXPECT_NEAR(solution->values[0], 2.0, 1e-9);
  EXPECT_NEAR(solution->values[1], 0.0, 1e-9);
  EXPECT_NEAR(solution->values[2], 1.0, 1e-9);
  // Duals of the same example (Chvátal 1983, chapter 5): 1, 0, 1 for the maximisation.
  EXPECT_NEAR(solution->row_prices[0], -1.0, 1e-9);
  EXPECT_NEAR(solution->row_prices[1], 0.0, 1e-9);
  EXPECT_NEAR(solution->row_prices[2], -1.0, 1e-9);
}

TEST(RelaxationSolver, AnswersForAProgramWithNothingInIt) {
  LinearProgram program;
  program.offset = 3.5;
  RelaxationSolver solver(program);
  const auto solution = solver.solve();
  ASSERT_TRUE(solution.has_value());
  EXPECT_DOUBLE_EQ(solution->objective, 3.5);
  EXPECT_TRUE(solver.dive().complete);
}

TEST(RelaxationSolver, SaysSoWhenNothingCanSatisfyTheRows) {
  LinearProgram program;
  const int x = program.add_column({"x", 1.0, 0.0, 1.0, false});
  program.add_element(program.add_row({"r", 2.0, kUnbounded}), x, 1.0);
  RelaxationSolver solver(program);
  const auto solution = solver.solve();
  ASSERT_FALSE(solution.has_value());
  EXPECT_EQ(solution.error().code, base::ProblemCode::infeasible);
}

TEST(Dive, EndsInWholeNumbersThatSatisfyEveryRow) {
  for (std::uint64_t seed = 1; seed <= 5; ++seed) {
    SyntheticSize size;
    size.crops = 5;
    size.beds = 3;
    size.members = size.scenarios = 3;
    size.week_step = 2;
    const GardenModel model = synthetic_garden(seed, size);
    const Formulation formulation = formulate(model);
    RelaxationSolver solver(formulation.program);
    const auto relaxation = solver.solve();
    ASSERT_TRUE(relaxation.has_value());
    const DiveResult dive = solver.dive();
    ASSERT_TRUE(dive.complete);
    EXPECT_LT(violation_of(formulation.program, dive.solution.values), 1e-6);
    EXPECT_GE(dive.solution.objective, relaxation->objective - 1e-7);
    // Bounds are as they were: solving again gives the same bound.
    const auto again = solver.solve();
    ASSERT_TRUE(again.has_value());
    EXPECT_NEAR(again->objective, relaxation->objective, 1e-6);
  }
}

SyntheticSize size_for_glpk() {
  SyntheticSize size;
  size.crops = 3;
  size.beds = 2;
  size.members = size.scenarios = 2;
  size.week_step = 3;
  size.weeks = 40;
  return size;
}

/// GLPK's relaxations of the written program and ours are one.
void expect_read_alike(const GardenModel& model) {
  Formulation formulation = formulate(model);
  RelaxationSolver solver(formulation.program);
  // Ours has the rows of age that it needed, theirs has all of them.
  const auto relaxation = solve_with_age_rows(model, formulation, solver);
  ASSERT_TRUE(relaxation.has_value());
  add_all_age_rows(model, formulation);
  LinearProgram relaxed = formulation.program;
  for (LinearColumn& column : relaxed.columns) column.integer = false;
  const auto mps = glpk_objective(to_mps(relaxed, "garden"), "--freemps", "sowtide_relaxed_mps");
  if (!mps) GTEST_SKIP() << "glpsol (Debian package glpk-utils) is not installed";
  const auto lp = glpk_objective(to_lp_text(relaxed, "garden"), "--lp", "sowtide_relaxed_lp");
  ASSERT_TRUE(lp.has_value());
  EXPECT_NEAR(*lp, relaxation->objective, 1e-5 * std::abs(relaxation->objective));
  EXPECT_NEAR(*mps, relaxation->objective, 1e-5 * std::abs(relaxation->objective));
}

TEST(ExchangeText, IsReadAlikeByGlpkInBothFormats) {
  expect_read_alike(synthetic_garden(4, size_for_glpk()));
}

TEST(ExchangeText, IsReadAlikeByGlpkWithAMat) {
  SyntheticSize size = size_for_glpk();
  size.crops = 6;
  const auto bound_of = [](const GardenModel& model) {
    const Formulation formulation = formulate(model);
    return RelaxationSolver(formulation.program).solve()->objective;
  };
  const double without = bound_of(synthetic_garden(4, size));
  size.mat_cells = 1;
  const GardenModel model = synthetic_garden(4, size);
  EXPECT_GT(bound_of(model), without + 1e-3) << "a garden in which the mat does not matter";
  expect_read_alike(model);
}

TEST(ExchangeText, IsReadAlikeByGlpkWithAStore) {
  GardenModel model = synthetic_garden(4, size_for_glpk());
  for (std::size_t p = 0; p < model.products.size(); ++p) {
    model.products[p].keep_weeks = 4;
    model.stored[p] = {0.0, 3.0, 0.0, 2.0, 1.0};
    for (std::size_t w = 0; w < 6; ++w) model.demands[p].servings[w] = 0.8;
  }
  finish_model(model);
  expect_read_alike(model);
}

TEST(ExchangeText, IsReadAlikeByGlpkWhereTheFirstHalfCountsMore) {
  GardenModel model = synthetic_garden(4, size_for_glpk());
  const Formulation plain = formulate(model);
  model.prices.first_half = 1.0;
  const Formulation with_it = formulate(model);
  EXPECT_GT(RelaxationSolver(with_it.program).solve()->objective,
            RelaxationSolver(plain.program).solve()->objective + 1e-3);
  expect_read_alike(model);
}

// The reader of COIN-OR, at the size of a real garden: all columns, rows and elements arrive, and its
// relaxation is ours.
TEST(RelaxationSolver, AgreesWithCoinOrOnTheWrittenProgram) {
  const Formulation formulation = formulate(synthetic_garden(3, {.crops = 20, .beds = 6}));
  const std::string file = (std::filesystem::temp_directory_path() / "sowtide_coin.mps").string();
  std::ofstream(file) << to_mps(formulation.program, "garden");
  OsiClpSolverInterface reader;
  reader.messageHandler()->setLogLevel(0);
  ASSERT_EQ(reader.readMps(file.c_str(), ""), 0);
  const int offset_columns = formulation.program.offset == 0.0 ? 0 : 1;
  EXPECT_EQ(reader.getNumRows(), static_cast<int>(formulation.program.rows.size()));
  EXPECT_EQ(reader.getNumCols(), static_cast<int>(formulation.program.columns.size()) + offset_columns);
  EXPECT_EQ(reader.getNumElements(), static_cast<int>(formulation.program.elements.size()));
  reader.initialSolve();
  RelaxationSolver solver(formulation.program);
  const auto relaxation = solver.solve();
  ASSERT_TRUE(relaxation.has_value());
  EXPECT_NEAR(reader.getObjValue(), relaxation->objective, 1e-6 * std::abs(relaxation->objective));
}

// GLPK's proven optimum of the whole-number model lies between our bound and our placed plan.
TEST(SolvedModel, EnclosesTheOptimumThatGlpkProves) {
  for (const std::uint64_t seed : {1U, 2U, 3U}) {
    SyntheticSize size;
    size.crops = 3;
    size.beds = 1;
    size.members = size.scenarios = 2;
    size.week_step = 4;
    size.weeks = 40;
    size.tray_cells = 0;
    GardenModel model = synthetic_garden(seed, size);
    model.prices.first_half = seed == 2U ? 1.0 : 0.0;
    // Parts of a row are plans too: the model that GLPK gets counts single clumps.
    Formulation formulation = formulate(model);
    add_all_age_rows(model, formulation);
    const auto optimum = glpk_objective(to_mps(formulation.program, "garden"), "--freemps", "sowtide_whole");
    if (!optimum) GTEST_SKIP() << "glpsol (Debian package glpk-utils) is not installed";
    const auto solved = solve_model(model, {});
    ASSERT_TRUE(solved.has_value());
    EXPECT_LE(solved->bound, *optimum + 1e-6 * std::abs(*optimum));
    // The program knows neither half rows nor which stretch a family has used: no placed plan is below its
    // optimum.
    EXPECT_GE(solved->objective, *optimum - 1e-6 * std::abs(*optimum)) << "seed " << seed;
    EXPECT_TRUE(layout_faults(model, solved->stands).empty());
  }
}

}  // namespace
}  // namespace sowtide::plan
