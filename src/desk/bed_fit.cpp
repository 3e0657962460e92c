#include "desk/bed_fit.hpp"

#include <fmt/format.h>

#include <string>

#include "stand/bed_length.hpp"

namespace sowtide::desk {
namespace {

using base::ProblemCode;

constexpr double kRoundingM = 1e-6;

base::Place field(std::string_view name) {
  return {.file = {}, .line = 0, .column = 0, .field = std::string(name)};
}

}  // namespace

base::Result<double> fitting_length_m(const bed::Bed& bed, const stand::StandPlan& plan, Units units,
                                      std::string_view too_long_field, std::string_view too_long_remedy) {
  const double length_m = stand::length_in_m(bed, plan);
  const std::string apart = spacing_text(plan.spacing_mm, units);
  if (!(length_m > 0.0)) {
    return base::fail(ProblemCode::infeasible,
                      fmt::format("{} is {} wide, too narrow for plants {} apart", bed.name,
                                  length_text(bed.width_m, units), apart),
                      field("bed"), "Take a wider bed");
  }
  if (length_m > bed.length_m + kRoundingM) {
    return base::fail(ProblemCode::infeasible,
                      fmt::format("{} at {} take {} of {}, which is {} long", plan.clumps, apart,
                                  length_text(length_m, units), bed.name, length_text(bed.length_m, units)),
                      field(too_long_field), std::string(too_long_remedy));
  }
  return length_m;
}

base::Result<void> check_within_bed(const bed::Bed& bed, double from_m, double to_m, Units units) {
  const bool within =
      from_m >= -kRoundingM && to_m <= bed.length_m + kRoundingM && to_m - from_m >= kRoundingM;
  if (within) return {};
  const auto [from, to] = stretch_texts(from_m, to_m, units);
  return base::fail(ProblemCode::out_of_range,
                    fmt::format("{} to {} does not lie in {}, which is {} long", from, to, bed.name,
                                length_text(bed.length_m, units)),
                    field("from_m"), "Keep the stand inside its bed");
}

}  // namespace sowtide::desk
