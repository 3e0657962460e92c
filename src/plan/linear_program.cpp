#include "plan/linear_program.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/csv.hpp"

namespace sowtide::plan {
namespace {

using base::number_text;

/// The row letter of MPS: E, L, G, or N for a row that binds nothing. Ranged rows are L with a RANGES entry.
char row_letter(const LinearRow& row) {
  const bool has_lower = row.lower > -kUnbounded;
  const bool has_upper = row.upper < kUnbounded;
  if (has_lower && has_upper) return row.lower == row.upper ? 'E' : 'L';
  if (has_upper) return 'L';
  return has_lower ? 'G' : 'N';
}

std::vector<std::vector<LinearElement>> elements_by_column(const LinearProgram& program) {
  std::vector<std::vector<LinearElement>> by_column(program.columns.size());
  for (const LinearElement& element : program.elements) {
    by_column[static_cast<std::size_t>(element.column)].push_back(element);
  }
  return by_column;
}

/// Appends pieces one after another.
template <class... Pieces>
void append(std::string& text, const Pieces&... pieces) {
  (text.append(pieces), ...);
}

void append_entry(std::string& text, const std::string& a, const std::string& b, double value) {
  append(text, "    ", a, "  ", b, "  ", number_text(value), "\n");
}

std::string mps_columns(const LinearProgram& program) {
  std::string text = "COLUMNS\n";
  const auto by_column = elements_by_column(program);
  bool integer_open = false;
  int marker = 0;
  const auto switch_marker = [&](bool open) {
    append(text, "    marker", std::to_string(marker++), "  'MARKER'  ", open ? "'INTORG'" : "'INTEND'",
           "\n");
    integer_open = open;
  };
  for (std::size_t j = 0; j < program.columns.size(); ++j) {
    const LinearColumn& column = program.columns[j];
    if (column.integer != integer_open) switch_marker(column.integer);
    if (column.cost != 0.0 || by_column[j].empty()) append_entry(text, column.name, "cost", column.cost);
    for (const LinearElement& element : by_column[j]) {
      append_entry(text, column.name, program.rows[static_cast<std::size_t>(element.row)].name,
                   element.value);
    }
  }
  if (integer_open) switch_marker(false);
  // A right-hand side of the objective row is read with either sign by different solvers; a fixed column is
  // not.
  if (program.offset != 0.0) append_entry(text, "const", "cost", program.offset);
  return text;
}

std::string mps_right_hand_sides(const LinearProgram& program) {
  std::string text = "RHS\n";
  std::string ranges;
  for (const LinearRow& row : program.rows) {
    const char letter = row_letter(row);
    const double side = letter == 'G' ? row.lower : row.upper;
    if (letter != 'N' && side != 0.0) append_entry(text, "rhs", row.name, side);
    if (letter == 'L' && row.lower > -kUnbounded)
      append_entry(ranges, "rng", row.name, row.upper - row.lower);
  }
  return ranges.empty() ? text : text + "RANGES\n" + ranges;
}

std::string mps_bounds(const LinearProgram& program) {
  std::string text = "BOUNDS\n";
  for (const LinearColumn& column : program.columns) {
    if (column.lower == column.upper) {
      append(text, " FX bnd  ", column.name, "  ", number_text(column.lower), "\n");
      continue;
    }
    if (column.lower == -kUnbounded) {
      append(text, " MI bnd  ", column.name, "\n");
    } else if (column.lower != 0.0) {
      append(text, " LO bnd  ", column.name, "  ", number_text(column.lower), "\n");
    }
    if (column.upper < kUnbounded) {
      append(text, " UP bnd  ", column.name, "  ", number_text(column.upper), "\n");
    } else if (column.integer) {
      // Some readers take an integer column without an upper bound for a 0-1 column.
      append(text, " PL bnd  ", column.name, "\n");
    }
  }
  if (program.offset != 0.0) append(text, " FX bnd  const  1\n");
  return text;
}

/// " + 2.5 name" wrapped so that no line is longer than readers accept.
void append_term(std::string& text, std::size_t& line_begin, double value, const std::string& name) {
  constexpr std::size_t kLongestLine = 200;
  if (text.size() - line_begin > kLongestLine) {
    text += "\n  ";
    line_begin = text.size();
  }
  append(text, value < 0.0 ? " - " : " + ", number_text(std::abs(value)), " ", name);
}

std::vector<std::string> row_expressions(const LinearProgram& program) {
  std::vector<std::string> expressions(program.rows.size());
  std::vector<std::size_t> line_begins(program.rows.size(), 0);
  for (const LinearElement& element : program.elements) {
    const auto row = static_cast<std::size_t>(element.row);
    append_term(expressions[row], line_begins[row], element.value,
                program.columns[static_cast<std::size_t>(element.column)].name);
  }
  return expressions;
}

std::string lp_rows(const LinearProgram& program) {
  std::string text = "Subject To\n";
  const std::vector<std::string> expressions = row_expressions(program);
  for (std::size_t i = 0; i < program.rows.size(); ++i) {
    const LinearRow& row = program.rows[i];
    if (expressions[i].empty() || row_letter(row) == 'N') continue;
    if (row.lower == row.upper) {
      append(text, " ", row.name, ":", expressions[i], " = ", number_text(row.upper), "\n");
      continue;
    }
    if (row.upper < kUnbounded)
      append(text, " ", row.name, ":", expressions[i], " <= ", number_text(row.upper), "\n");
    if (row.lower > -kUnbounded) {
      const std::string suffix = row.upper < kUnbounded ? "_l" : "";
      append(text, " ", row.name, suffix, ":", expressions[i], " >= ", number_text(row.lower), "\n");
    }
  }
  return text;
}

std::string lp_bounds(const LinearProgram& program) {
  std::string text = "Bounds\n";
  for (const LinearColumn& column : program.columns) {
    if (column.lower == 0.0 && column.upper == kUnbounded) continue;
    const std::string lower = column.lower == -kUnbounded ? "-inf" : number_text(column.lower);
    const std::string upper = column.upper == kUnbounded ? "+inf" : number_text(column.upper);
    append(text, " ", lower, " <= ", column.name, " <= ", upper, "\n");
  }
  if (program.offset != 0.0) text += " const = 1\n";
  return text;
}

}  // namespace

int LinearProgram::add_column(LinearColumn column) {
  columns.push_back(std::move(column));
  return static_cast<int>(columns.size()) - 1;
}

int LinearProgram::add_row(LinearRow row) {
  rows.push_back(std::move(row));
  return static_cast<int>(rows.size()) - 1;
}

void LinearProgram::add_element(int row, int column, double value) {
  if (value != 0.0) elements.push_back({row, column, value});
}

double objective_of(const LinearProgram& program, const std::vector<double>& values) {
  double objective = program.offset;
  for (std::size_t j = 0; j < program.columns.size(); ++j) objective += program.columns[j].cost * values[j];
  return objective;
}

double violation_of(const LinearProgram& program, const std::vector<double>& values) {
  double worst = 0.0;
  for (std::size_t j = 0; j < program.columns.size(); ++j) {
    const LinearColumn& column = program.columns[j];
    worst = std::max({worst, column.lower - values[j], values[j] - column.upper});
    if (column.integer) worst = std::max(worst, std::abs(values[j] - std::round(values[j])));
  }
  std::vector<double> sums(program.rows.size(), 0.0);
  for (const LinearElement& element : program.elements) {
    sums[static_cast<std::size_t>(element.row)] +=
        element.value * values[static_cast<std::size_t>(element.column)];
  }
  for (std::size_t i = 0; i < sums.size(); ++i) {
    worst = std::max({worst, program.rows[i].lower - sums[i], sums[i] - program.rows[i].upper});
  }
  return worst;
}

std::string to_mps(const LinearProgram& program, const std::string& name) {
  std::string text;
  // "FREE" tells readers that guess the spacing from the first lines: CBC's crashed on a large program without it.
  append(text, "NAME          ", name, " FREE\nROWS\n N  cost\n");
  for (const LinearRow& row : program.rows)
    append(text, " ", std::string(1, row_letter(row)), "  ", row.name, "\n");
  append(text, mps_columns(program), mps_right_hand_sides(program), mps_bounds(program), "ENDATA\n");
  return text;
}

std::string to_lp_text(const LinearProgram& program, const std::string& name) {
  std::string text;
  append(text, "\\ ", name, "\nMinimize\n cost:");
  std::size_t line_begin = text.size();
  for (const LinearColumn& column : program.columns) {
    if (column.cost != 0.0) append_term(text, line_begin, column.cost, column.name);
  }
  if (program.offset != 0.0) append_term(text, line_begin, program.offset, "const");
  append(text, "\n", lp_rows(program), lp_bounds(program));
  std::string generals;
  for (const LinearColumn& column : program.columns) {
    if (column.integer) append(generals, " ", column.name, "\n");
  }
  if (!generals.empty()) append(text, "Generals\n", generals);
  append(text, "End\n");
  return text;
}

}  // namespace sowtide::plan
