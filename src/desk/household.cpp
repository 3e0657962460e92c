#include "desk/household.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <set>

#include "base/quantity.hpp"
#include "book/words.hpp"

namespace sowtide::desk {
namespace {

using Json = nlohmann::ordered_json;

/// So many crops make a varied first list that is still quick to go through (chosen).
constexpr std::size_t kProposedCrops = 12;
/// The average behind an amount is no finer (chosen).
constexpr double kGramStep = 10.0;

/// As weights are told on the person's scales: whole ounces below a pound, tenths of a pound below ten, then
/// pounds.
double told_g(double grams, Units units) {
  if (units == Units::metric) return std::max(kGramStep, std::round(grams / kGramStep) * kGramStep);
  const bool in_pounds = grams >= base::kGramsPerPound;
  const double unit_g = in_pounds ? base::kGramsPerPound : base::kGramsPerOunce;
  const double value = grams / unit_g;
  const bool in_tenths = in_pounds ? value < 10.0 : value < 1.0;
  const double parts = in_tenths ? 10.0 : 1.0;
  return std::max(1.0, std::round(value * parts)) / parts * unit_g;
}

bool is_wanted(const book::GardenDescription& garden, const std::string& crop) {
  return std::any_of(garden.wants.begin(), garden.wants.end(),
                     [&](const plan::Want& want) { return want.crop == crop; });
}

std::string free_id(const book::GardenDescription& garden, const std::string& crop) {
  const auto taken = [&](const std::string& id) {
    return std::any_of(garden.wants.begin(), garden.wants.end(),
                       [&](const plan::Want& want) { return want.id == id; });
  };
  std::string id = crop;
  for (int number = 2; taken(id); ++number) id = fmt::format("{}-{}", crop, number);
  return id;
}

ProposedWant proposed(const book::GardenDescription& garden, const std::string& crop, int people) {
  ProposedWant proposal{{.id = free_id(garden, crop), .crop = crop}, crop::household_amount(crop)};
  if (proposal.published != nullptr) {
    proposal.want.amount_per_week =
        told_g(people * proposal.published->grams_per_person_week(), units_of(garden.units));
  } else {
    proposal.want.amount_per_week = people;
    proposal.want.unit = plan::WantUnit::servings;
  }
  return proposal;
}

base::Result<std::vector<std::string>> crops_asked(const crop::CropLibrary& library,
                                                   const book::GardenDescription& garden,
                                                   const std::vector<std::string>& typed) {
  std::vector<std::string> crops;
  std::set<std::string> seen;
  for (const std::string& name : typed) {
    const auto crop = library.find(name);
    if (!crop) return tl::make_unexpected(crop.error());
    const std::string& id = (*crop)->id;
    if (is_wanted(garden, id)) {
      return base::fail(base::ProblemCode::contradiction,
                        fmt::format("the garden has a want of \"{}\" already", id), {.field = "CROP"},
                        "Change its amount on the page, or in the text of an export");
    }
    if (!seen.insert(id).second)
      return base::fail(base::ProblemCode::contradiction, fmt::format("\"{}\" is named twice", id),
                        {.field = "CROP"}, "Name it once");
    crops.push_back(id);
  }
  return crops;
}

std::vector<std::string> crops_eaten_most(const crop::CropLibrary& library,
                                          const book::GardenDescription& garden) {
  std::vector<std::string> crops;
  for (const crop::HouseholdAmount& each : crop::household_amounts()) {
    if (crops.size() == kProposedCrops) break;
    if (library.crops.contains(each.crop) && !is_wanted(garden, each.crop)) crops.push_back(each.crop);
  }
  return crops;
}

std::string amount_text(const plan::Want& want, Units units) {
  if (want.unit == plan::WantUnit::servings) return counted(std::lround(want.amount_per_week), "serving");
  return weight_text(want.amount_per_week, units);
}

std::string published_text(const ProposedWant& proposal, Units units) {
  if (proposal.published == nullptr) return "none published";
  const std::string note =
      proposal.published->note.empty() ? "" : fmt::format(" ({})", proposal.published->note);
  return weight_text(proposal.published->grams_per_person_week(), units) + note;
}

std::string sources_text(const std::vector<ProposedWant>& wants) {
  std::set<std::string> sources;
  for (const ProposedWant& proposal : wants) {
    if (proposal.published != nullptr) sources.insert(proposal.published->source);
  }
  std::string text;
  for (const std::string& source : sources) text += fmt::format("Source: {}.\n", source);
  return text;
}

}  // namespace

base::Result<std::vector<ProposedWant>> proposed_wants(const crop::CropLibrary& library,
                                                       const book::GardenDescription& garden,
                                                       const HouseholdAsked& asked) {
  std::vector<std::string> crops = crops_eaten_most(library, garden);
  if (!asked.crops.empty()) {
    auto typed = crops_asked(library, garden, asked.crops);
    if (!typed) return tl::make_unexpected(typed.error());
    crops = std::move(*typed);
  }
  std::vector<ProposedWant> wants;
  for (const std::string& crop : crops) wants.push_back(proposed(garden, crop, asked.people));
  return wants;
}

std::string household_json(const crop::CropLibrary& library, const book::GardenDescription& garden,
                           int people, const std::vector<ProposedWant>& wants, bool added) {
  Json list = Json::array();
  for (const ProposedWant& proposal : wants) {
    const plan::Want& want = proposal.want;
    Json published = nullptr;
    if (proposal.published != nullptr) {
      published = {{"grams_per_person_week", proposal.published->grams_per_person_week()},
                   {"source", proposal.published->source},
                   {"note", proposal.published->note}};
    }
    list.push_back({{"id", want.id},
                    {"crop", want.crop},
                    {"crop_name", library.name_of(want.crop)},
                    {"amount_per_week", want.amount_per_week},
                    {"unit", book::word_of(book::kWantUnitWords, want.unit)},
                    {"from", base::to_text(want.from)},
                    {"to", base::to_text(want.to)},
                    {"published", std::move(published)}});
  }
  return Json{{"garden", garden.name}, {"people", people}, {"added", added}, {"wants", std::move(list)}}.dump(
      2, ' ', false, Json::error_handler_t::replace);
}

std::string household_text(const crop::CropLibrary& library, const book::GardenDescription& garden,
                           int people, const std::vector<ProposedWant>& wants, bool added) {
  if (wants.empty())
    return "The garden has a want of every crop with a published amount. Name a crop for more.\n";
  const Units units = units_of(garden.units);
  TextTable table({"want", "a week", "published, a person a week"},
                  {TextTable::Align::left, TextTable::Align::right});
  for (const ProposedWant& proposal : wants) {
    table.add({library.name_of(proposal.want.crop), amount_text(proposal.want, units),
               published_text(proposal, units)});
  }
  return fmt::format(
      "{} for {}, all the year: what people eat on average, a place to start from. The plan fills the weeks "
      "that can be.\n\n{}\n{}{}\n",
      added ? "Added" : "First wants", counted(people, "person", "people"), table.text(), sources_text(wants),
      added ? "Change amounts and weeks on the page, or in the text of an export. Next: sowtide plan GARDEN"
            : "Nothing is kept yet: --add adds them to the garden.");
}

}  // namespace sowtide::desk
