// Reads the inputs of one figure and keeps the first problem, so that a figure reads as a list of its inputs.
#pragma once

#include <optional>
#include <string>

#include "base/date.hpp"
#include "base/explanation.hpp"
#include "base/figure.hpp"
#include "base/problem.hpp"

namespace sowtide::climate::detail {

/// After the reads, `problem()` tells whether any went wrong; values read before are then meaningless. What
/// was read is gathered as the inputs of the explanation.
class FigureReader {
 public:
  FigureReader(const base::FigureDescription& figure, const base::FigureInputs& inputs);

  [[nodiscard]] bool has(const std::string& key) const { return inputs_.contains(key); }
  [[nodiscard]] double number(const std::string& key, double low, double high);
  [[nodiscard]] double number_or(const std::string& key, double low, double high, double otherwise);
  [[nodiscard]] std::optional<double> maybe(const std::string& key, double low, double high);
  [[nodiscard]] base::Date date(const std::string& key);
  [[nodiscard]] std::string text_or(const std::string& key, std::string otherwise);

  /// Records a contradiction between inputs, or another problem of one of them.
  void refuse(base::ProblemCode code, const std::string& key, std::string what, std::string remedy = {});

  [[nodiscard]] const std::optional<base::Problem>& problem() const { return problem_; }
  [[nodiscard]] tl::unexpected<base::Problem> failure() const {
    return tl::unexpected<base::Problem>(*problem_);
  }
  /// An explanation with name and inputs filled in.
  [[nodiscard]] base::Explanation explanation() const { return explanation_; }

 private:
  [[nodiscard]] std::string unit_of(const std::string& key) const;
  void keep(base::Problem problem);

  const base::FigureDescription& figure_;
  const base::FigureInputs& inputs_;
  base::Explanation explanation_;
  std::optional<base::Problem> problem_;
};

/// Description of a figure of this room by its name; the name must exist.
[[nodiscard]] const base::FigureDescription& described(std::string_view name);

inline constexpr double kDegreesLatitude = 90.0;
inline constexpr double kLowestElevationM = -430.0;
inline constexpr double kHighestElevationM = 6000.0;
inline constexpr double kColdestC = -90.0;
inline constexpr double kHottestC = 60.0;

// Citations used by more than one figure.
inline constexpr const char* kFao56 =
    "R. G. Allen, L. S. Pereira, D. Raes and M. Smith 1998, Crop evapotranspiration: guidelines for "
    "computing crop water "
    "requirements, FAO Irrigation and Drainage Paper 56";
inline constexpr const char* kMeeus =
    "J. Meeus 1998, Astronomical Algorithms, 2nd edition, chapters 12, 22 and 25";
inline constexpr const char* kRedaAndreas =
    "I. Reda and A. Andreas 2004, Solar position algorithm for solar radiation applications, Solar Energy "
    "76:577-589";

}  // namespace sowtide::climate::detail
