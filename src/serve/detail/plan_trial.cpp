#include "serve/detail/plan_trial.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <nlohmann/json.hpp>
#include <string_view>
#include <utility>

#include "book/corrections.hpp"
#include "book/garden_check.hpp"
#include "crop/crop.hpp"
#include "desk/json.hpp"
#include "desk/table.hpp"
#include "serve/detail/garden_parts.hpp"

namespace sowtide::serve::detail {
namespace {

using base::ProblemCode;
using nlohmann::json;

constexpr const char* kOnlyTry = "only_try";
constexpr const char* kWhatIf = "what_if";
/// Place and seed make another year of everything that stands: they are set up, not tried.
constexpr std::array<std::string_view, 3> kParts{"beds", "trays", "wants"};

base::Place at(std::string field) {
  return {.file = {}, .line = 0, .column = 0, .field = std::move(field)};
}

base::Result<bool> take_only_try(json& told) {
  const auto given = told.find(kOnlyTry);
  if (given == told.end()) return false;
  if (!given->is_boolean()) return base::fail(ProblemCode::wrong_type, "must be true or false", at(kOnlyTry));
  const bool only_try = given->get<bool>();
  told.erase(given);
  return only_try;
}

/// Puts other parts into the garden; gives their names.
base::Result<std::vector<std::string>> put_parts(const json& parts, book::GardenDescription& garden) {
  std::vector<std::string> names;
  if (!parts.is_object())
    return base::fail(ProblemCode::wrong_type, "must be an object of the garden's parts", at(kWhatIf));
  for (const auto& [name, part] : parts.items()) {
    if (std::find(kParts.begin(), kParts.end(), name) == kParts.end()) {
      return base::fail(ProblemCode::unknown_field, "is no part of a garden that can be tried",
                        at(fmt::format("{}.{}", kWhatIf, name)),
                        fmt::format("It may be {}.", fmt::join(kParts, ", ")));
    }
    if (auto read = read_garden_part(garden, name, part); !read) return tl::unexpected(read.error());
    names.push_back(name);
  }
  if (auto known = book::check_against(crop::built_in_library(), garden); !known)
    return tl::unexpected(known.error());
  if (auto sound = book::check_description(garden); !sound) return tl::unexpected(sound.error());
  return names;
}

}  // namespace

base::Result<std::optional<PlanTrial>> take_plan_trial(json& told, book::GardenDescription& garden) {
  // What is no object is refused where the options are read.
  if (!told.is_object()) return std::nullopt;
  const auto only_try = take_only_try(told);
  if (!only_try) return tl::unexpected(only_try.error());
  const auto what_if = told.find(kWhatIf);
  if (what_if == told.end()) return *only_try ? std::optional<PlanTrial>(PlanTrial{}) : std::nullopt;
  if (!*only_try) {
    return base::fail(ProblemCode::contradiction, "a plan of another garden cannot be kept", at(kWhatIf),
                      "Add \"only_try\": true, or change the garden by PUT /api/setup/{part} first.");
  }
  auto changed = put_parts(*what_if, garden);
  if (!changed) return tl::unexpected(changed.error());
  told.erase(kWhatIf);
  return PlanTrial{std::move(*changed)};
}

book::GardenDescription with_plan(book::GardenDescription garden, const std::vector<book::Event>& events,
                                  const plan::Plan& plan) {
  const auto begun = book::stands_of_log(events);
  std::erase_if(garden.stands, [&begun](const stand::StandPlan& stand) { return !begun.contains(stand.id); });
  garden.stands.insert(garden.stands.end(), plan.stands.begin(), plan.stands.end());
  return garden;
}

std::string plan_trial_json(const PlanTrial& trial, const plan::Plan& plan, const desk::Season& before,
                            const desk::Season& after) {
  const nlohmann::ordered_json answer{{"changed", trial.changed},
                                      {"plan", nlohmann::ordered_json::parse(desk::plan_json(plan))},
                                      {"garden", nlohmann::ordered_json::parse(desk::garden_json(after))},
                                      {"outlook", nlohmann::ordered_json::parse(desk::outlook_json(after))},
                                      {"before", nlohmann::ordered_json::parse(desk::table_json(before))},
                                      {"after", nlohmann::ordered_json::parse(desk::table_json(after))}};
  return answer.dump();
}

}  // namespace sowtide::serve::detail
