#include "desk/since_plan.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <iterator>
#include <map>
#include <nlohmann/json.hpp>
#include <optional>
#include <utility>

#include "book/corrections.hpp"
#include "book/words.hpp"
#include "stand/places.hpp"

namespace sowtide::desk {
namespace {

/// A want as the plan knew it.
struct KnownWant {
  double amount_per_week = 0.0;
  std::string asks_for;
};

/// What the kept answer says that its plan was made for.
struct Basis {
  std::int64_t last_entry = 0;
  std::map<std::string, KnownWant> wants;
};

/// What a want asks for, all but how much a week: "beet, grams, large, 06-15 to 11-15". Amounts are more or
/// less of the same only where these are equal.
std::string asked_for(const plan::Want& want) {
  return fmt::format(
      "{}{}{}, {}, {}, {} to {}{}", want.crop, want.group, want.variety.empty() ? "" : " " + want.variety,
      book::word_of(book::kWantUnitWords, want.unit), book::word_of(book::kSizeWords, want.size),
      base::to_text(want.from), base::to_text(want.to),
      want.total > 0.0 ? fmt::format(", {} in store", want.total) : "");
}

std::optional<Basis> basis_of(const std::string& answer) {
  const auto json = nlohmann::json::parse(answer, nullptr, false);
  if (!json.is_object() || !json.contains("made_for")) return {};
  const nlohmann::json& made_for = json["made_for"];
  // The file may have been written by anything; what is no answer of ours says nothing.
  try {
    Basis basis{made_for.at("log_entry").get<std::int64_t>(), {}};
    for (const nlohmann::json& told : made_for.at("wants"))
      basis.wants[told.at("want").get<std::string>()] = {told.at("amount_per_week").get<double>(),
                                                         told.value("asks_for", std::string{})};
    return basis;
  } catch (const nlohmann::json::exception&) {
    return {};
  }
}

/// Whether an entry tells how many plants stand.
bool tells_plants(book::EventKind kind) {
  using enum book::EventKind;
  return kind == counted || kind == thinned || kind == picked || kind == discarded || kind == set_out;
}

/// The last entry since then that stands and tells how many plants of the stand do.
const book::Event* last_news(const std::string& stand, std::int64_t after,
                             const std::vector<book::Event>& events, const book::Corrections& corrections) {
  const book::Event* last = nullptr;
  for (const book::Event& event : events) {
    if (event.sequence <= after || event.stand != stand || !tells_plants(event.kind) ||
        corrections.removed(event.id))
      continue;
    if (last == nullptr || event.date >= last->date) last = &event;
  }
  return last;
}

/// What the entry means for what the plan relied on; nothing where as many stand as were planned.
std::optional<plan::StandNews> news_of(const book::StandState& state, const book::Event& entry) {
  const stand::StandFacts& facts = state.facts;
  plan::StandNews news;
  news.as_planned = {state.plan, {}};
  news.as_planned.facts.sown = facts.sown;
  news.as_planned.facts.set_out = facts.set_out;
  news.date = entry.date;
  news.planned = static_cast<int>(std::lround(stand::planned_plants(state.plan)));
  news.plants = facts.finished ? 0 : stand::plants_left(state.plan, facts);
  const bool picked = facts.first_picked || facts.picked_g > 0.0;
  if (facts.finished) {
    news.kind = picked ? plan::StandNews::Kind::over : plan::StandNews::Kind::failed;
    return news;
  }
  // What was picked is gone as planned.
  if (picked || news.plants >= news.planned) return {};
  news.kind = plan::StandNews::Kind::fewer;
  return news;
}

}  // namespace

std::string answer_made_for(const std::string& answer, const PlannedFor& before) {
  auto json = nlohmann::ordered_json::parse(answer);
  auto wants = nlohmann::ordered_json::array();
  for (const plan::Want& want : before.wants)
    wants.push_back(
        {{"want", want.id}, {"amount_per_week", want.amount_per_week}, {"asks_for", asked_for(want)}});
  json["made_for"] = {{"log_entry", before.last_entry}, {"wants", std::move(wants)}};
  return json.dump();
}

plan::SincePlan since_plan(const std::string& answer_before, const book::GardenDescription& garden,
                           const std::vector<book::Event>& events, base::Date today) {
  const auto basis = basis_of(answer_before);
  if (!basis) return {};
  plan::SincePlan since;
  const book::Corrections corrections = book::corrections_of(events);
  std::vector<book::Event> known;
  std::copy_if(events.begin(), events.end(), std::back_inserter(known),
               [&](const book::Event& event) { return event.sequence <= basis->last_entry; });
  const book::GardenState then = book::fold(garden, known, today), now = book::fold(garden, events, today);
  for (std::size_t i = 0; i < now.stands.size(); ++i) {
    const book::Event* last = last_news(now.stands[i].plan.id, basis->last_entry, events, corrections);
    auto news = last == nullptr ? std::nullopt : news_of(now.stands[i], *last);
    const auto before = news ? news_of(then.stands[i], *last) : std::nullopt;
    const bool was_known = before && before->kind == news->kind && before->plants <= news->plants;
    if (news && !was_known) since.stands.push_back(*std::move(news));
  }
  for (const plan::Want& want : garden.wants) {
    const auto before = basis->wants.find(want.id);
    if (before == basis->wants.end()) {
      since.wants.push_back({want.id, {}});
    } else if (before->second.asks_for == asked_for(want) && !(want.total > 0.0) &&
               before->second.amount_per_week != want.amount_per_week) {
      since.wants.push_back({want.id, want});
      since.wants.back().before->amount_per_week = before->second.amount_per_week;
    }
  }
  return since;
}

}  // namespace sowtide::desk
