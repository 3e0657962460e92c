#include "base/problem.hpp"

#include <utility>

namespace sowtide::base {

std::string_view problem_code_text(ProblemCode code) noexcept {
  switch (code) {
    case ProblemCode::file_missing: return "file-missing";
    case ProblemCode::file_unreadable: return "file-unreadable";
    case ProblemCode::empty: return "empty";
    case ProblemCode::syntax: return "syntax";
    case ProblemCode::unknown_field: return "unknown-field";
    case ProblemCode::missing_field: return "missing-field";
    case ProblemCode::wrong_type: return "wrong-type";
    case ProblemCode::wrong_unit: return "wrong-unit";
    case ProblemCode::out_of_range: return "out-of-range";
    case ProblemCode::contradiction: return "contradiction";
    case ProblemCode::ambiguous: return "ambiguous";
    case ProblemCode::not_found: return "not-found";
    case ProblemCode::already_exists: return "already-exists";
    case ProblemCode::too_large: return "too-large";
    case ProblemCode::insufficient_data: return "insufficient-data";
    case ProblemCode::wrong_version: return "wrong-version";
    case ProblemCode::storage: return "storage";
    case ProblemCode::infeasible: return "infeasible";
    case ProblemCode::cancelled: return "cancelled";
    case ProblemCode::usage: return "usage";
    case ProblemCode::internal: return "internal";
  }
  return "internal";
}

tl::unexpected<Problem> fail(ProblemCode code, std::string what, Place where, std::string remedy) {
  return tl::make_unexpected(Problem{code, std::move(what), std::move(where), std::move(remedy)});
}

std::string to_text(const Problem& problem) {
  std::string text;
  const Place& where = problem.where;
  if (!where.file.empty()) text += where.file + ":";
  if (where.line > 0) text += std::to_string(where.line) + ":";
  if (where.line > 0 && where.column > 0) text += std::to_string(where.column) + ":";
  if (!text.empty()) text += " ";
  if (!where.field.empty()) text += where.field + ": ";
  text += problem.what;
  if (!problem.remedy.empty()) text += ". " + problem.remedy;
  return text;
}

}  // namespace sowtide::base
