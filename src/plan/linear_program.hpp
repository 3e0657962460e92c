// A mixed-integer linear program as plain data, and its text in the two open exchange formats.
//
//     minimise  offset + sum cost_j x_j    with  row_lower_i <= sum a_ij x_j <= row_upper_i,  lower_j <= x_j
//     <= upper_j
#pragma once

#include <cstddef>
#include <limits>
#include <string>
#include <vector>

namespace sowtide::plan {

inline constexpr double kUnbounded = std::numeric_limits<double>::infinity();

struct LinearColumn {
  std::string name;  ///< at most 8 characters of [a-z0-9_], unique
  double cost = 0.0;
  double lower = 0.0;
  double upper = kUnbounded;
  bool integer = false;
};

struct LinearRow {
  std::string name;  ///< at most 8 characters of [a-z0-9_], unique
  double lower = -kUnbounded;
  double upper = kUnbounded;
};

/// One non-zero. No (row, column) pair may occur twice.
struct LinearElement {
  int row = 0;
  int column = 0;
  double value = 0.0;
};

struct LinearProgram {
  std::vector<LinearColumn> columns;
  std::vector<LinearRow> rows;
  std::vector<LinearElement> elements;
  double offset = 0.0;  ///< constant part of the objective

  /// Appends a column or row and returns its place.
  int add_column(LinearColumn column);
  int add_row(LinearRow row);
  void add_element(int row, int column, double value);
};

/// The objective of given column values, offset included.
[[nodiscard]] double objective_of(const LinearProgram& program, const std::vector<double>& values);

/// The largest violation of any row, bound or integrality by the values; 0 when they are feasible.
[[nodiscard]] double violation_of(const LinearProgram& program, const std::vector<double>& values);

/// The program as MPS text (the industry format, free spacing). The offset is a column `const` fixed at 1.
[[nodiscard]] std::string to_mps(const LinearProgram& program, const std::string& name);

/// The program in the LP text format (objective, subject to, bounds, generals). The offset is a column
/// `const` fixed at 1.
[[nodiscard]] std::string to_lp_text(const LinearProgram& program, const std::string& name);

}  // namespace sowtide::plan
