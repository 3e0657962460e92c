#include "desk/since_plan.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <map>
#include <nlohmann/json.hpp>
#include <optional>
#include <utility>

#include "book/corrections.hpp"
#include "stand/places.hpp"

namespace sowtide::desk {
namespace {

/// What the kept answer says that its plan was made for.
struct Basis {
  std::int64_t last_entry = 0;
  std::map<std::string, double> amount_per_week;  ///< by want
};

std::optional<Basis> basis_of(const std::string& answer) {
  const auto json = nlohmann::json::parse(answer, nullptr, false);
  if (!json.is_object() || !json.contains("made_for")) return {};
  const nlohmann::json& made_for = json["made_for"];
  // The file may have been written by anything; what is no answer of ours says nothing.
  try {
    Basis basis{made_for.at("log_entry").get<std::int64_t>(), {}};
    for (const nlohmann::json& told : made_for.at("wants"))
      basis.amount_per_week[told.at("want").get<std::string>()] = told.at("amount_per_week").get<double>();
    return basis;
  } catch (const nlohmann::json::exception&) {
    return {};
  }
}

/// The last entry since then that stands and says something of the stand.
const book::Event* last_news(const std::string& stand, std::int64_t after,
                             const std::vector<book::Event>& events, const book::Corrections& corrections) {
  const book::Event* last = nullptr;
  for (const book::Event& event : events) {
    if (event.sequence <= after || event.stand != stand || event.kind == book::EventKind::noted ||
        event.kind == book::EventKind::corrected || corrections.removed(event.id))
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
    wants.push_back({{"want", want.id}, {"amount_per_week", want.amount_per_week}});
  json["made_for"] = {{"log_entry", before.last_entry}, {"wants", std::move(wants)}};
  return json.dump();
}

plan::SincePlan since_plan(const std::string& answer_before, const book::GardenDescription& garden,
                           const book::GardenState& state, const std::vector<book::Event>& events) {
  const auto basis = basis_of(answer_before);
  if (!basis) return {};
  plan::SincePlan since;
  const book::Corrections corrections = book::corrections_of(events);
  for (const book::StandState& stand : state.stands) {
    const book::Event* last = last_news(stand.plan.id, basis->last_entry, events, corrections);
    auto news = last == nullptr ? std::nullopt : news_of(stand, *last);
    if (news) since.stands.push_back(*std::move(news));
  }
  for (const plan::Want& want : garden.wants) {
    plan::WantNews news{want.id, {}};
    if (const auto before = basis->amount_per_week.find(want.id); before != basis->amount_per_week.end()) {
      news.before = want;
      news.before->amount_per_week = before->second;
    }
    if (!news.before || news.before->amount_per_week != want.amount_per_week)
      since.wants.push_back(std::move(news));
  }
  return since;
}

}  // namespace sowtide::desk
