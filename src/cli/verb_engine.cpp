// figure, proof.
#include <fmt/format.h>
#include <fmt/ostream.h>

#include <algorithm>
#include <ostream>

#include "cli/verbs.hpp"
#include "desk/figures.hpp"
#include "desk/json.hpp"
#include "desk/proof.hpp"

namespace sowtide::cli {
namespace {

base::Result<base::FigureInputs> parse_inputs(const std::vector<std::string>& texts) {
  base::FigureInputs inputs;
  for (const std::string& text : texts) {
    const std::size_t equals = text.find('=');
    if (equals == std::string::npos || equals == 0) {
      return base::fail(base::ProblemCode::usage, fmt::format("\"{}\" is not key=value", text), {.field = "INPUTS"},
                        "Write for example temp_c=20");
    }
    if (!inputs.emplace(text.substr(0, equals), text.substr(equals + 1)).second) {
      return base::fail(base::ProblemCode::contradiction, "is given twice", {.field = text.substr(0, equals)});
    }
  }
  return inputs;
}

}  // namespace

base::Result<void> run_figure(const FigureOptions& options, Output& output) {
  if (options.list) {
    output.out << (output.json ? desk::figure_list_json() + "\n" : desk::figure_list_text());
    return {};
  }
  if (options.name.empty()) {
    return base::fail(base::ProblemCode::usage, "no figure is named", {.field = "NAME"}, "`sowtide figure --list` names them all");
  }
  const auto inputs = parse_inputs(options.inputs);
  if (!inputs) return tl::make_unexpected(inputs.error());
  const auto explained = desk::figure(options.name, *inputs);
  if (!explained) return tl::make_unexpected(explained.error());
  output.out << (output.json ? desk::explanation_json(*explained) + "\n" : desk::explanation_text(*explained));
  return {};
}

base::Result<void> run_proof(const ProofOptions& options, Output& output) {
  const auto rows = desk::prove(options.group);
  if (!rows) return tl::make_unexpected(rows.error());
  output.out << (output.json ? desk::proof_json(*rows) + "\n" : desk::proof_text(*rows));
  const auto failed = std::count_if(rows->begin(), rows->end(), [](const desk::ProofRow& row) {
    return row.judged && !row.pass && !row.known_miss;
  });
  if (failed > 0) {
    return base::fail(base::ProblemCode::contradiction,
                      fmt::format("{} of {} checks differ from the published figure by more than its tolerance and were not known to", failed, rows->size()),
                      {}, "The rows marked NO say by how much");
  }
  return {};
}

}  // namespace sowtide::cli
