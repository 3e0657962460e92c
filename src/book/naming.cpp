#include "book/naming.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <iterator>
#include <utility>
#include <vector>

#include "base/letters.hpp"
#include "base/nearest.hpp"

namespace sowtide::book {
namespace {

using base::ProblemCode;

constexpr std::size_t kLongestShown = 60;
/// More stands of one crop than this are not listed one by one.
constexpr std::size_t kMostListed = 12;

std::string shown(std::string_view typed) {
  return std::string(typed.substr(0, kLongestShown));
}

/// The one of the names that is typed so but for its capitals; nothing where none or several are.
template <class Things, class Name>
const typename Things::value_type* alike(const Things& things, std::string_view typed, Name name) {
  const typename Things::value_type* found = nullptr;
  for (const auto& each : things) {
    if (base::small_letters(name(each)) != base::small_letters(typed)) continue;
    if (found != nullptr) return nullptr;
    found = &each;
  }
  return found;
}

std::string listed(const std::vector<std::string>& names) {
  std::string list;
  for (std::size_t i = 0; i < std::min(names.size(), kMostListed); ++i) list += (i > 0 ? ", " : "") + names[i];
  return names.size() > kMostListed ? list + " …" : list;
}

/// The stands of the crop that was typed in place of a stand; the crop's id first.
std::pair<std::string, std::vector<std::string>> stands_of_crop(const GardenDescription& garden,
                                                                const crop::CropLibrary& library,
                                                                std::string_view typed) {
  std::pair<std::string, std::vector<std::string>> found;
  const crop::Crop* crop = library.named(typed);
  if (crop == nullptr) return found;
  found.first = crop->id;
  for (const stand::StandPlan& plan : garden.stands) {
    if (plan.crop == found.first) found.second.push_back(plan.id);
  }
  return found;
}

/// A bed was typed in place of a stand: what it is, and what stands there. Empty for any other word.
std::string bed_of_stand_typed(const GardenDescription& garden, std::string_view typed) {
  const auto bed = bed_named(garden, typed);
  if (!bed) return {};
  std::vector<std::string> stands;
  for (const stand::StandPlan& plan : garden.stands) {
    if (plan.bed == *bed) stands.push_back(plan.id);
  }
  const std::string there = stands.empty() ? std::string() : fmt::format("; its stands: {}", listed(stands));
  return fmt::format("{} is a bed; what is done to all of it is logged with --target {}{}", *bed, *bed,
                     there);
}

std::string meant_stand(const GardenDescription& garden, const crop::CropLibrary& library,
                        std::string_view typed) {
  if (const std::string bed = bed_of_stand_typed(garden, typed); !bed.empty()) return bed;
  const auto [crop, stands] = stands_of_crop(garden, library, typed);
  if (!stands.empty()) return fmt::format("Stands of {}: {}", crop, listed(stands));
  std::vector<std::string> names;
  for (const stand::StandPlan& plan : garden.stands) {
    names.push_back(plan.id);
    if (std::find(names.begin(), names.end(), plan.crop) == names.end()) names.push_back(plan.crop);
  }
  const std::string question = base::did_you_mean(base::small_letters(typed), names);
  return question + (question.empty() ? "" : " ") + "`sowtide outlook GARDEN` lists the stands";
}

/// Everyday words by their beginnings, for the kinds of entry that they mean (from memory). The first that
/// fits counts.
std::string_view other_word_of(std::string_view small) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 46> kOthers{
      {{"sow", "sown"},           {"seed", "sown"},
       {"transplant", "set-out"}, {"plant", "sown or set-out"},
       {"move", "set-out"},       {"harvest", "picked"},
       {"gather", "picked"},      {"dug", "picked"},
       {"dig", "picked"},         {"pull", "picked"},
       {"cut", "picked"},         {"die", "discarded"},
       {"dead", "discarded"},     {"kill", "discarded"},
       {"lost", "discarded"},     {"rot", "discarded"},
       {"bolt", "discarded"},     {"clear", "discarded"},
       {"remove", "discarded"},   {"threw", "discarded"},
       {"throw", "discarded"},    {"compost", "discarded"},
       {"ate", "eaten"},          {"eat", "eaten"},
       {"cook", "eaten"},         {"gave", "eaten"},
       {"sold", "eaten"},         {"came up", "counted"},
       {"emerge", "counted"},     {"germinat", "counted"},
       {"sprout", "counted"},     {"fertil", "fed"},
       {"manure", "fed"},         {"irrigat", "watered"},
       {"rain", "watered"},       {"weigh", "measured"},
       {"put away", "stored"},    {"froze", "discarded (of plants) or eaten (what goes into the freezer)"},
       {"weed", "noted"},         {"hoe", "noted"},
       {"mulch", "noted"},        {"prun", "noted"},
       {"stake", "noted"},        {"spray", "noted"},
       {"note", "noted"},         {"saw", "noted"}}};
  for (const auto& [begins, means] : kOthers) {
    if (small.starts_with(begins)) return means;
  }
  return {};
}

/// What things with an id and a name are called: one, several, and at the head of a list.
struct Kind {
  std::string_view one, several, heading;
};

/// The id of the one of the things that is typed by its id or its name.
template <class Things>
base::Result<std::string> id_of_named(const Things& things, std::string_view typed, const Kind& kind) {
  for (const auto& each : things) {
    if (each.id == typed) return each.id;
  }
  const auto* by_id = alike(things, typed, [](const auto& each) { return each.id; });
  if (by_id != nullptr) return by_id->id;
  const auto* by_name = alike(things, typed, [](const auto& each) { return each.name; });
  if (by_name != nullptr) return by_name->id;
  std::vector<std::string> names;
  std::vector<std::string> sharing;
  for (const auto& each : things) {
    names.insert(names.end(), {each.id, each.name});
    if (base::small_letters(each.name) == base::small_letters(typed)) sharing.push_back(each.id);
  }
  if (!sharing.empty()) {
    return base::fail(
        ProblemCode::ambiguous, fmt::format("several {} are called \"{}\"", kind.several, shown(typed)),
        {.field = std::string(kind.one)}, fmt::format("Name one by its id: {}", listed(sharing)));
  }
  const std::string question = base::did_you_mean(typed, names);
  return base::fail(ProblemCode::not_found, fmt::format("there is no {} \"{}\"", kind.one, shown(typed)),
                    {.field = std::string(kind.one)},
                    question.empty() ? fmt::format("{}: {}", kind.heading, listed(names)) : question);
}

std::string meant_kind(std::string_view small, const std::vector<std::string>& kinds) {
  const std::string_view other = other_word_of(small);
  if (!other.empty()) return fmt::format("Did you mean {}? ", other);
  const std::string question = base::did_you_mean(small, kinds);
  return question.empty() ? question : question + " ";
}

}  // namespace

base::Result<std::string> stand_named(const GardenDescription& garden, const crop::CropLibrary& library,
                                      std::string_view typed) {
  for (const stand::StandPlan& plan : garden.stands) {
    if (plan.id == typed) return plan.id;
  }
  const auto* found = alike(garden.stands, typed, [](const auto& plan) { return plan.id; });
  if (found != nullptr) return found->id;
  return base::fail(ProblemCode::not_found, fmt::format("there is no stand \"{}\"", shown(typed)),
                    {.field = "stand"}, meant_stand(garden, library, typed));
}

base::Result<std::string> bed_named(const GardenDescription& garden, std::string_view typed) {
  return id_of_named(garden.beds, typed, {"bed", "beds", "Beds"});
}

base::Result<std::string> tray_named(const GardenDescription& garden, std::string_view typed) {
  return id_of_named(garden.trays, typed, {"tray", "trays", "Trays"});
}

base::Result<std::string> variety_named(const GardenDescription& garden, std::string_view crop,
                                        std::string_view typed) {
  constexpr Kind kVariety{"variety", "varieties", "Varieties"};
  std::vector<crop::Variety> of_crop;
  std::copy_if(garden.varieties.begin(), garden.varieties.end(), std::back_inserter(of_crop),
               [crop](const crop::Variety& variety) { return variety.crop == crop; });
  auto named = id_of_named(of_crop, typed, kVariety);
  if (named || named.error().code == ProblemCode::ambiguous) return named;
  if (const auto of_another = id_of_named(garden.varieties, typed, kVariety)) {
    const auto other = std::find_if(garden.varieties.begin(), garden.varieties.end(),
                                    [&](const crop::Variety& variety) { return variety.id == *of_another; });
    return base::fail(ProblemCode::contradiction,
                      fmt::format("{} is a variety of {}, not of {}", other->name, other->crop, crop),
                      {.field = "variety"}, "Name a variety of the crop, or leave it out");
  }
  if (of_crop.empty())
    named.error().remedy = fmt::format("The garden has no variety of {}; leave it out", shown(crop));
  return named;
}

base::Result<EventKind> event_kind_named(std::string_view typed) {
  const std::string small = base::small_letters(typed);
  if (const auto kind = parse_event_kind(small)) return *kind;
  std::vector<std::string> kinds;
  for (int kind = 0; kind <= static_cast<int>(EventKind::tested); ++kind)
    kinds.emplace_back(event_kind_text(static_cast<EventKind>(kind)));
  std::string all;
  for (const std::string& kind : kinds) all += (all.empty() ? "" : ", ") + kind;
  return base::fail(ProblemCode::not_found, fmt::format("\"{}\" is no kind of log entry", shown(typed)),
                    {.field = "kind"}, meant_kind(small, kinds) + "Kinds: " + all);
}

}  // namespace sowtide::book
