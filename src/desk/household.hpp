// First wants for a household: so many people times what is published of what people eat. A place to start
// from; the page proposes the same (web/src/domain/wants.ts).
#pragma once

#include <string>
#include <vector>

#include "book/garden.hpp"
#include "crop/household.hpp"
#include "desk/present.hpp"

namespace sowtide::desk {

struct HouseholdAsked {
  int people = 2;
  std::vector<std::string> crops;  ///< ids or names; none: those that are eaten most
};

/// Of how many people a household may be, on the command line; both included.
inline constexpr int kFewestPeople = 1;
inline constexpr int kMostPeople = 1000;

struct ProposedWant {
  plan::Want want;  ///< with an id that is free in the garden
  const crop::HouseholdAmount* published =
      nullptr;  ///< nullptr: no amount is published, a serving a person is taken
};

/// A want for all the year for each crop that is asked for, or for the twelve that are eaten most of those in
/// the library that the garden has no want of yet. Amounts are whole tens of grams, or as ounces and pounds
/// are told. Problems: not_found for a crop, contradiction for one that is wanted already or asked for twice.
[[nodiscard]] base::Result<std::vector<ProposedWant>> proposed_wants(const crop::CropLibrary& library,
                                                                     const book::GardenDescription& garden,
                                                                     const HouseholdAsked& asked);

/// {"garden","people","added","wants":[{"id","crop","crop_name","amount_per_week","unit","from","to","published"}]}
[[nodiscard]] std::string household_json(const crop::CropLibrary& library,
                                         const book::GardenDescription& garden, int people,
                                         const std::vector<ProposedWant>& wants, bool added);

/// The same as a table, with the sources below.
[[nodiscard]] std::string household_text(const crop::CropLibrary& library,
                                         const book::GardenDescription& garden, int people,
                                         const std::vector<ProposedWant>& wants, bool added);

}  // namespace sowtide::desk
