#include "book/event_check.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <string_view>

#include "base/csv.hpp"
#include "base/utf8.hpp"
#include "book/seed_test.hpp"
#include "book/size_word.hpp"
#include "book/store_place.hpp"
#include "book/words.hpp"

namespace sowtide::book {
namespace {

using base::fail;
using base::ProblemCode;

constexpr int kEarliestYear = 1900;
constexpr int kLatestYear = 2199;
constexpr double kMostPlants = 1e6;
constexpr double kMostGrams = 1e6;     // a tonne
constexpr double kMostFedGrams = 1e7;  // ten tonnes of compost
constexpr double kMostLitres = 1e6;
constexpr double kMostDiameter_mm = 2000.0;
/// Kitchen scales and guesses differ, but not by more than half (from memory).
constexpr double kMostOfALot = 1.5;
constexpr std::size_t kLongestText = 4000;

/// What an entry of a kind must or may carry.
struct KindRule {
  enum class Need { none, allowed, needed };
  Need stand = Need::none;
  bool whole_count = false;  ///< count is of plants or seeds
  bool needs_count = false;
  bool needs_grams = false;
  std::string_view one_of;  ///< of these, at least one must be there; for people
};

KindRule rule_of(EventKind kind) {
  using Need = KindRule::Need;
  switch (kind) {
    case EventKind::sown:
    case EventKind::set_out:
      return {.stand = Need::needed, .whole_count = true};
    case EventKind::counted:
    case EventKind::thinned:
      return {.stand = Need::needed, .whole_count = true, .needs_count = true};
    case EventKind::watered:
    case EventKind::fed:
      return {.stand = Need::allowed, .one_of = "a stand or a bed"};
    case EventKind::measured:
      return {.stand = Need::needed, .whole_count = true, .one_of = "grams, diameter_mm or a size as text"};
    case EventKind::picked:
      return {.stand = Need::needed, .one_of = "grams, count, or \"all\" or \"leaves\" as text"};
    case EventKind::stored:
      return {.stand = Need::needed, .needs_grams = true};
    case EventKind::eaten:
    case EventKind::discarded:
      return {.stand = Need::allowed, .one_of = "a stand or a lot"};
    case EventKind::noted:
      return {.stand = Need::allowed, .one_of = "a text"};
    case EventKind::corrected:
      return {.stand = Need::allowed, .one_of = "the id of an entry as target"};
    case EventKind::tested:
      return {.whole_count = true, .needs_count = true, .one_of = "a packet as target"};
  }
  return {};
}

bool has_one_of(const Event& event) {
  switch (event.kind) {
    case EventKind::watered:
    case EventKind::fed:
    case EventKind::eaten:
    case EventKind::discarded:
      return !event.stand.empty() || !event.target.empty();
    case EventKind::measured:
      return event.grams || event.diameter_mm || size_class_of(event.text);
    case EventKind::picked:
      return event.grams || event.count || says_all(event.text) || says_leaves(event.text);
    case EventKind::noted:
      return !event.text.empty();
    case EventKind::corrected:
    case EventKind::tested:
      return !event.target.empty();
    default:
      return true;
  }
}

tl::unexpected<base::Problem> bad(ProblemCode code, std::string what, std::string_view field,
                                  std::string remedy = {}) {
  return fail(code, std::move(what), {.field = std::string(field)}, std::move(remedy));
}

base::Result<void> check_amount(const std::optional<double>& amount, std::string_view field, double most,
                                bool whole) {
  if (!amount) return {};
  if (!std::isfinite(*amount) || *amount < 0.0 || *amount > most) {
    return bad(ProblemCode::out_of_range,
               fmt::format("is {}, must be 0 to {}", base::number_text(*amount), base::number_text(most)),
               field);
  }
  if (whole && *amount != std::floor(*amount)) {
    return bad(ProblemCode::out_of_range,
               fmt::format("is {}, must be a whole number", base::number_text(*amount)), field);
  }
  return {};
}

/// A plant that is measured is there, and so weighs something.
base::Result<void> check_measure(const Event& event) {
  if (event.kind != EventKind::measured) return {};
  for (const auto& [amount, field] :
       {std::pair{event.grams, "grams"}, std::pair{event.diameter_mm, "diameter_mm"}}) {
    if (amount && *amount == 0.0)
      return bad(ProblemCode::out_of_range, "is 0, must be more: what was measured is there", field,
                 "Where nothing stands log counted with a count of 0");
  }
  return {};
}

base::Result<void> check_amounts(const Event& event, const KindRule& rule) {
  const std::array<base::Result<void>, 4> checks{
      check_amount(event.count, "count", kMostPlants, rule.whole_count),
      check_amount(event.grams, "grams", event.kind == EventKind::fed ? kMostFedGrams : kMostGrams, false),
      check_amount(event.litres, "litres", kMostLitres, false),
      check_amount(event.diameter_mm, "diameter_mm", kMostDiameter_mm, false)};
  for (const auto& check : checks) {
    if (!check) return check;
  }
  if (auto checked = check_measure(event); !checked) return checked;
  const std::string kind(event_kind_text(event.kind));
  if (rule.needs_count && !event.count) {
    return bad(ProblemCode::missing_field, fmt::format("is needed for \"{}\"", kind), "count",
               "Give the number of plants");
  }
  if (rule.needs_grams && !event.grams) {
    return bad(ProblemCode::missing_field, fmt::format("is needed for \"{}\"", kind), "grams",
               "Give the weight in grams");
  }
  return {};
}

base::Result<void> check_texts(const Event& event) {
  if (!is_id(event.id)) {
    return bad(ProblemCode::out_of_range, fmt::format("\"{}\" is not an id", event.id.substr(0, 70)), "id",
               "Use 1 to 64 letters, digits, - and _");
  }
  if (!event.target.empty() && !is_id(event.target)) {
    return bad(ProblemCode::out_of_range, fmt::format("\"{}\" is not an id", event.target.substr(0, 70)),
               "target", "Use 1 to 64 letters, digits, - and _");
  }
  if (event.text.size() > kLongestText) {
    return bad(ProblemCode::too_large, fmt::format("is longer than {} bytes", kLongestText), "text",
               "Write it shorter");
  }
  if (base::first_bad_utf8(event.text) || event.text.find('\0') != std::string::npos) {
    return bad(ProblemCode::syntax, "is not plain UTF-8 text", "text");
  }
  const int year = base::year_of(event.date);
  if (year < kEarliestYear || year > kLatestYear) {
    return bad(ProblemCode::out_of_range,
               fmt::format("{} lies outside {} to {}", base::to_iso(event.date), kEarliestYear, kLatestYear),
               "date");
  }
  return {};
}

base::Result<void> check_stand(const Event& event, const KindRule& rule, const EventContext& context) {
  if (event.stand.empty()) {
    if (rule.stand != KindRule::Need::needed) return {};
    return bad(ProblemCode::missing_field, fmt::format("is needed for \"{}\"", event_kind_text(event.kind)),
               "stand", "Name the stand it was done to");
  }
  if (context.stands.contains(event.stand)) return {};
  return bad(ProblemCode::not_found,
             fmt::format("there is no stand \"{}\" in this garden", event.stand.substr(0, 70)), "stand",
             "Name one of its stands");
}

base::Result<void> check_bed_target(const Event& event, const EventContext& context) {
  if (event.target.empty() || context.beds.contains(event.target)) return {};
  return bad(ProblemCode::not_found, fmt::format("there is no bed \"{}\" in this garden", event.target),
             "target", "Name one of its beds, or the stand");
}

/// The lot of a name, unless what stored it was taken back.
const LotLog* lot_in_store(const EventContext& context, const std::string& name) {
  const auto found = context.lots.find(name);
  if (found == context.lots.end() || context.stand_logs.removed(found->second.entry)) return nullptr;
  return &found->second;
}

base::Result<void> check_taken_from(const LotLog& lot, const Event& event, const StandLogs& logs) {
  if (event.date < lot.stored) {
    return bad(ProblemCode::contradiction,
               fmt::format("the lot \"{}\" was stored on {} and cannot be {} on {}", event.target,
                           base::to_iso(lot.stored), event_kind_text(event.kind), base::to_iso(event.date)),
               "date", "Put the date right, or name the lot that was meant");
  }
  double taken = event.grams.value_or(0.0);
  for (const auto& [entry, grams] : lot.taken_g) taken += logs.removed(entry) ? 0.0 : grams;
  if (taken <= kMostOfALot * lot.grams) return {};
  return bad(ProblemCode::contradiction,
             fmt::format("{} g would be taken of the lot \"{}\", of which {} g were stored",
                         base::number_text(taken), event.target, base::number_text(lot.grams)),
             "grams", "Put the weight right, or name the lot that was meant");
}

base::Result<void> check_lot_target(const Event& event, const EventContext& context) {
  if (event.target.empty()) return {};
  if (const LotLog* lot = lot_in_store(context, event.target))
    return check_taken_from(*lot, event, context.stand_logs);
  return bad(ProblemCode::not_found, fmt::format("there is no lot \"{}\" in store", event.target), "target",
             "Name a lot that was stored before, or leave the target empty");
}

/// A lot is named by the target of a "stored" entry, or by its id.
const std::string& lot_of(const Event& event) {
  return event.target.empty() ? event.id : event.target;
}

base::Result<void> check_stored(const Event& event, const EventContext& context) {
  if (context.lots.contains(lot_of(event))) {
    return bad(ProblemCode::already_exists, fmt::format("a lot \"{}\" was stored before", lot_of(event)),
               "target", "Leave the target empty to name the lot by its entry");
  }
  if (store_place_of(event.text)) return {};
  return bad(
      ProblemCode::out_of_range, fmt::format("\"{}\" names no place of storage", event.text.substr(0, 60)),
      "text",
      says_frozen(event.text)
          ? "The places are kitchen, fridge and best; how long frozen food keeps is no figure of the crops, "
            "so log what goes "
            "into the freezer as eaten"
          : "Begin the text with kitchen (or pantry, larder), fridge, or best (or cellar, clamp, cold room)");
}

base::Result<void> check_packet_target(const Event& event, const EventContext& context) {
  if (context.packets.contains(event.target)) return {};
  return bad(ProblemCode::not_found, fmt::format("there is no packet \"{}\" in this garden", event.target),
             "target", "Name one of its packets");
}

/// A sowing may name the packet it was made from; of the stand's crop.
base::Result<void> check_sown(const Event& event, const EventContext& context) {
  if (event.target.empty()) return {};
  if (auto known = check_packet_target(event, context); !known) return known;
  const auto stand = context.stands.find(event.stand);
  const std::string& held = context.packets.find(event.target)->second;
  if (stand == context.stands.end() || stand->second == held) return {};
  return bad(ProblemCode::contradiction,
             fmt::format("packet \"{}\" is of {}, and stand {} is {}", event.target, held, event.stand,
                         stand->second),
             "target", "Name a packet of the stand's crop, or none");
}

base::Result<void> check_tested(const Event& event, const EventContext& context) {
  if (auto known = check_packet_target(event, context); !known) return known;
  const auto sown = seeds_tested_of(event.text);
  if (!sown) {
    return bad(ProblemCode::out_of_range,
               fmt::format("\"{}\" does not say how many seeds were tested", event.text.substr(0, 60)), "text",
               "Begin the text with the number laid out, for example: of 10");
  }
  if (*event.count <= *sown) return {};
  return bad(ProblemCode::contradiction,
             fmt::format("{} cannot come up of {}", base::number_text(*event.count), *sown), "count");
}

base::Result<void> check_target(const Event& event, const EventContext& context) {
  switch (event.kind) {
    case EventKind::watered:
    case EventKind::fed:
      return check_bed_target(event, context);
    case EventKind::stored:
      return check_stored(event, context);
    case EventKind::eaten:
    case EventKind::discarded:
      return check_lot_target(event, context);
    case EventKind::sown:
      return check_sown(event, context);
    case EventKind::tested:
      return check_tested(event, context);
    case EventKind::corrected:
      if (context.has_event && context.has_event(event.target)) return {};
      return bad(ProblemCode::not_found, fmt::format("there is no entry \"{}\" to correct", event.target),
                 "target", "Give the id of an entry that is in the log");
    default:
      return {};
  }
}

/// Puts entries with a sequence in its order, and gives those without one the next places.
base::Result<void> settle_sequence(std::vector<Event>& events, std::vector<std::size_t>& order) {
  order.resize(events.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::int64_t last = 0;
  for (const Event& event : events) last = std::max(last, event.sequence);
  for (Event& event : events) {
    if (event.sequence < 0) return bad(ProblemCode::out_of_range, "must be at least 1", "sequence");
    if (event.sequence == 0) event.sequence = ++last;
  }
  std::stable_sort(order.begin(), order.end(), [&events](std::size_t a, std::size_t b) {
    return events[a].sequence < events[b].sequence;
  });
  return {};
}

}  // namespace

EventContext EventContext::of(const GardenDescription& garden) {
  EventContext context;
  for (const auto& stand : garden.stands) context.stands.emplace(stand.id, stand.crop);
  for (const auto& bed : garden.beds) context.beds.insert(bed.id);
  for (const auto& packet : garden.packets) context.packets.emplace(packet.id, packet.crop);
  context.stand_logs = StandLogs::of(garden.stands);
  return context;
}

void EventContext::take(const Event& event) {
  if (event.kind == EventKind::stored) {
    lots.insert_or_assign(lot_of(event), LotLog{event.id, event.date, event.grams.value_or(0.0), {}});
  }
  const bool taken = event.kind == EventKind::eaten || event.kind == EventKind::discarded;
  if (const auto lot = lots.find(event.target); taken && lot != lots.end())
    lot->second.taken_g.emplace_back(event.id, event.grams.value_or(0.0));
  stand_logs.take(event);
}

base::Result<void> check_event(const Event& event, const EventContext& context) {
  const KindRule rule = rule_of(event.kind);
  if (auto checked = check_texts(event); !checked) return checked;
  if (auto checked = check_stand(event, rule, context); !checked) return checked;
  if (auto checked = check_amounts(event, rule); !checked) return checked;
  if (!has_one_of(event)) {
    return bad(ProblemCode::missing_field,
               fmt::format("\"{}\" needs {}", event_kind_text(event.kind), rule.one_of), "kind");
  }
  if (auto checked = check_target(event, context); !checked) return checked;
  return context.stand_logs.check(event);
}

base::Result<std::vector<Event>> check_log(const GardenDescription& garden, std::vector<Event> events,
                                           const std::function<base::Place(std::size_t)>& place) {
  std::vector<std::size_t> order;
  std::map<std::string, std::size_t, std::less<>> known;
  EventContext context = EventContext::of(garden);
  context.has_event = [&known](const std::string& id) { return known.contains(id); };
  const auto at_place = [&place](base::Problem problem, std::size_t index) {
    base::Place where = place ? place(index) : base::Place{};
    const std::string name = place ? "" : fmt::format("events[{}]", index);
    where.field = name.empty() ? problem.where.field : name + "." + problem.where.field;
    problem.where = std::move(where);
    return tl::make_unexpected(std::move(problem));
  };
  if (auto settled = settle_sequence(events, order); !settled) return at_place(settled.error(), 0);
  std::vector<Event> log;
  log.reserve(events.size());
  std::int64_t last = 0;
  for (const std::size_t index : order) {
    const Event& event = events[index];
    if (const auto before = known.find(event.id); before != known.end()) {
      if (same_content(event, log[before->second])) continue;
      return at_place({ProblemCode::contradiction,
                       fmt::format("two entries have the id \"{}\"", event.id),
                       {.field = "id"},
                       "Give each entry an id of its own"},
                      index);
    }
    if (auto checked = check_event(event, context); !checked) return at_place(checked.error(), index);
    if (event.sequence == last) {
      return at_place({ProblemCode::contradiction,
                       fmt::format("two entries have the sequence {}", event.sequence),
                       {.field = "sequence"},
                       "Leave the sequence out, or count upwards"},
                      index);
    }
    last = event.sequence;
    known.emplace(event.id, log.size());
    context.take(event);
    log.push_back(event);
  }
  return log;
}

}  // namespace sowtide::book
