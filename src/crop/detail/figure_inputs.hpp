// Inputs of a figure read one after another: the first problem is kept, and every input read is remembered
// for the answer, in the order read.
#pragma once

#include <optional>
#include <string>
#include <utility>

#include "base/explanation.hpp"
#include "base/figure.hpp"
#include "crop/crop.hpp"

namespace sowtide::crop::detail {

class FigureInputReader {
 public:
  FigureInputReader(const base::FigureDescription& description, const base::FigureInputs& inputs,
                    const CropLibrary& library);

  /// The crop named under "crop"; a harmless empty one after a problem.
  const Crop& crop();
  /// True when the person gave the key.
  [[nodiscard]] bool has(const std::string& key) const { return inputs_->contains(key); }
  double number(const std::string& key, double low, double high);
  std::optional<double> optional_number(const std::string& key, double low, double high);
  /// A whole number; wrong_type for another.
  int count(const std::string& key, int low, int high);
  int count_or(const std::string& key, int fallback, int low, int high);
  std::string text_or(const std::string& key, std::string fallback);

  [[nodiscard]] const std::optional<base::Problem>& problem() const { return problem_; }
  /// An answer that begins with the name and the inputs read so far.
  [[nodiscard]] base::Explanation answer() const;

 private:
  [[nodiscard]] std::string unit_of(const std::string& key) const;
  void keep(base::Problem problem);

  const base::FigureDescription* description_;
  const base::FigureInputs* inputs_;
  const CropLibrary* library_;
  std::vector<base::ExplainedField> read_;
  std::optional<base::Problem> problem_;
};

/// The citation behind a figure: its text in sources.toml, or the phrase itself, with the mark and the note.
[[nodiscard]] std::string citation(const CropLibrary& library, const Figure& figure);
[[nodiscard]] std::string citation(const CropLibrary& library, const std::string& source);

}  // namespace sowtide::crop::detail
