// How much of a crop people eat, as a first guess of what a household may want.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace sowtide::crop {

/// What one person of a whole country gets of a crop, fresh, before kitchen waste. An average over those who like it
/// and those who do not: a place to start from, not advice.
struct HouseholdAmount {
  std::string crop;  ///< id of the library
  double kg_per_person_year = 0.0;
  std::string source;
  std::string note;  ///< what is counted together; often empty

  [[nodiscard]] double grams_per_person_week() const;
};

/// The crops for which a published amount is known (data/household.csv), most eaten first. Beet is not among them: no
/// figure was found.
[[nodiscard]] const std::vector<HouseholdAmount>& household_amounts();

/// The amount of one crop; nullptr where none is published.
[[nodiscard]] const HouseholdAmount* household_amount(std::string_view crop);

}  // namespace sowtide::crop
