#include "climate/detail/figure_reader.hpp"

#include <algorithm>
#include <utility>

namespace sowtide::climate::detail {

FigureReader::FigureReader(const base::FigureDescription& figure, const base::FigureInputs& inputs)
    : figure_(figure), inputs_(inputs) {
  explanation_.name = figure.name;
  if (const auto checked = base::check_keys(figure, inputs); !checked) problem_ = checked.error();
}

double FigureReader::number(const std::string& key, double low, double high) {
  const auto value = base::number_input(inputs_, key, low, high);
  if (!value) {
    keep(value.error());
    return 0.0;
  }
  explanation_.inputs.push_back({key, *value, unit_of(key)});
  return *value;
}

double FigureReader::number_or(const std::string& key, double low, double high, double otherwise) {
  if (has(key)) return number(key, low, high);
  explanation_.inputs.push_back({key, otherwise, unit_of(key)});
  return otherwise;
}

std::optional<double> FigureReader::maybe(const std::string& key, double low, double high) {
  if (!has(key)) return std::nullopt;
  return number(key, low, high);
}

base::Date FigureReader::date(const std::string& key) {
  const auto found = inputs_.find(key);
  if (found == inputs_.end()) {
    refuse(base::ProblemCode::missing_field, key, "is needed", "Write a date as 2026-04-09");
    return {};
  }
  const auto date = base::parse_iso_date(found->second);
  if (!date) {
    base::Problem problem = date.error();
    problem.where.field = key;
    keep(std::move(problem));
    return {};
  }
  explanation_.inputs.push_back({key, base::to_iso(*date), unit_of(key)});
  return *date;
}

std::string FigureReader::text_or(const std::string& key, std::string otherwise) {
  const auto found = inputs_.find(key);
  std::string text = found == inputs_.end() ? std::move(otherwise) : found->second;
  explanation_.inputs.push_back({key, text, unit_of(key)});
  return text;
}

void FigureReader::refuse(base::ProblemCode code, const std::string& key, std::string what,
                          std::string remedy) {
  keep({code, std::move(what), {.field = key}, std::move(remedy)});
}

std::string FigureReader::unit_of(const std::string& key) const {
  const auto found = std::find_if(figure_.keys.begin(), figure_.keys.end(),
                                  [&key](const base::FigureKey& known) { return known.name == key; });
  return found == figure_.keys.end() ? std::string{} : found->unit;
}

void FigureReader::keep(base::Problem problem) {
  if (!problem_) problem_ = std::move(problem);
}

}  // namespace sowtide::climate::detail
