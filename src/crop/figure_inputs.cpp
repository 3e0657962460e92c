#include "crop/detail/figure_inputs.hpp"

#include <fmt/format.h>

#include <cmath>

#include "base/csv.hpp"

namespace sowtide::crop::detail {

using base::ProblemCode;

FigureInputReader::FigureInputReader(const base::FigureDescription& description,
                                     const base::FigureInputs& inputs, const CropLibrary& library)
    : description_(&description), inputs_(&inputs), library_(&library) {
  if (auto ok = base::check_keys(description, inputs); !ok) problem_ = ok.error();
}

const Crop& FigureInputReader::crop() {
  static const Crop none{};
  const auto given = inputs_->find("crop");
  if (given == inputs_->end()) return none;
  const auto found = library_->find(given->second);
  if (!found) {
    keep(found.error());
    return none;
  }
  read_.push_back({"crop", (*found)->id, ""});
  return **found;
}

double FigureInputReader::number(const std::string& key, double low, double high) {
  const auto value = base::number_input(*inputs_, key, low, high);
  if (!value) {
    keep(value.error());
    return low;
  }
  read_.push_back({key, *value, unit_of(key)});
  return *value;
}

std::optional<double> FigureInputReader::optional_number(const std::string& key, double low, double high) {
  if (!has(key)) return std::nullopt;
  return number(key, low, high);
}

int FigureInputReader::count(const std::string& key, int low, int high) {
  const double value = number(key, low, high);
  if (std::floor(value) != value && !problem_) {
    keep({ProblemCode::wrong_type, fmt::format("{} is not a whole number", value), {.field = key}, ""});
    return low;
  }
  return static_cast<int>(value);
}

int FigureInputReader::count_or(const std::string& key, int fallback, int low, int high) {
  return has(key) ? count(key, low, high) : fallback;
}

std::string FigureInputReader::text_or(const std::string& key, std::string fallback) {
  const auto given = inputs_->find(key);
  if (given == inputs_->end()) return fallback;
  read_.push_back({key, given->second, ""});
  return given->second;
}

base::Explanation FigureInputReader::answer() const {
  base::Explanation made;
  made.name = description_->name;
  made.inputs = read_;
  return made;
}

std::string FigureInputReader::unit_of(const std::string& key) const {
  for (const base::FigureKey& known : description_->keys) {
    if (known.name == key) return known.unit;
  }
  return "";
}

void FigureInputReader::keep(base::Problem problem) {
  if (!problem_) problem_ = std::move(problem);
}

std::string citation(const CropLibrary& library, const std::string& source) {
  const auto found = library.sources.find(source);
  return found == library.sources.end() ? source : found->second;
}

std::string citation(const CropLibrary& library, const Figure& figure) {
  std::string text = citation(library, figure.source);
  if (figure.mark == Mark::memory && figure.source != "from memory") text += " (recalled, not read)";
  if (figure.mark == Mark::chosen) text += " (chosen or worked out from it)";
  if (!figure.note.empty()) text += "; " + figure.note;
  return text;
}

}  // namespace sowtide::crop::detail
