#include "desk/packets.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <nlohmann/json.hpp>
#include <tuple>
#include <utility>

#include "book/stand_log.hpp"
#include "crop/counts.hpp"
#include "crop/emergence.hpp"
#include "crop/packet.hpp"
#include "desk/json_number.hpp"
#include "desk/message_json.hpp"
#include "desk/present.hpp"
#include "desk/stand_stage.hpp"

namespace sowtide::desk {
namespace {

using base::Date;
using Json = nlohmann::ordered_json;

constexpr double kDaysPerYear = 365.25;
// Shares of a fresh packet (common practice): from the first on it is as good as new, below the second it is
// not worth the bed it takes.
constexpr double kGoodShare = 0.8;
constexpr double kRenewShare = 0.5;
constexpr double kLeastPct = 0.1;
constexpr double kMostPct = 99.9;
/// Days of weather after a sowing in the open that decide how many come up.
constexpr int kEmergenceDays = 21;

/// Names of crops and varieties as the season knows them.
class Names {
 public:
  explicit Names(const Season& season) : season_(season) {}
  [[nodiscard]] std::string crop(const std::string& id) const {
    const auto found = season_.library->find(id);
    return found ? (*found)->name : id;
  }
  [[nodiscard]] std::string variety(const std::string& id) const {
    for (const crop::Variety& variety : season_.garden.varieties) {
      if (variety.id == id) return variety.name;
    }
    return id;
  }
  [[nodiscard]] std::string both(const std::string& crop_id, const std::string& variety_id) const {
    return variety_id.empty() ? crop(crop_id) : crop(crop_id) + " " + variety(variety_id);
  }

 private:
  const Season& season_;
};

double years_between(Date from, Date to) {
  return std::max(0.0, static_cast<double>((to - from).count()) / kDaysPerYear);
}

Message comes_up(const PacketState& state) {
  return {"come-up",
          {{"middle_share", state.germination_pct / 100.0},
           {"low_share", state.germination.p10 / 100.0},
           {"high_share", state.germination.p90 / 100.0}}};
}

/// What is wrong with a packet, if anything, by its germination today against a fresh one's.
void judge(PacketState& state, const crop::Crop& crop) {
  const double fresh_pct = std::max(1.0, state.fresh_pct);
  const double share = state.germination_pct / fresh_pct;
  const bool old = state.age_years > crop.seed.life_years;
  // A test costs nothing: untested seed that may well be good is not thrown away on its age alone.
  const bool may_be_good = state.tests.empty() && state.germination.p90 >= kGoodShare * fresh_pct;
  const Message now = comes_up(state);
  if (share < kRenewShare && !may_be_good) {
    state.verdict = PacketVerdict::renew;
    state.reason = {now, {"renew", {}}};
  } else if (share < kRenewShare || (state.tests.empty() && old)) {
    state.verdict = PacketVerdict::test_first;
    state.reason = {now,
                    {"test-first",
                     {{"age_years", state.age_years},
                      {"crop", crop.id},
                      {"crop_name", crop.name},
                      {"life_years", crop.seed.life_years.value}}}};
  } else if (share < kGoodShare) {
    state.verdict = PacketVerdict::sow_thicker;
    state.reason = {now, {"sow-thicker", {{"times", 1.0 / share}}}};
  } else {
    state.reason = {now, {"fresh-packet", {{"fresh_share", state.fresh_pct / 100.0}}}};
  }
}

/// The day from which a packet's age counts: 1 January; of pieces, whose first months of rest are in their
/// figures, the season for which they are sold: cloves autumn, tubers and slips spring, half a year later
/// south of the equator (chosen).
Date new_on(const crop::Crop& crop, const crop::Packet& packet, double latitude_deg) {
  if (!crop.seed.planting_piece) return base::date_of(packet.packed_year, 1, 1);
  const bool autumn_in_the_north = crop.sowing.overwinters;
  return base::date_of(packet.packed_year, autumn_in_the_north == (latitude_deg >= 0.0) ? 10 : 4, 1);
}

/// What a packet's age and keeping alone make of it.
base::Result<void> age_in_store(const crop::SeedFacts& seed, const crop::SeedKeeping& keeping, Date today,
                                PacketState& state) {
  state.age_years = years_between(state.new_on, today);
  state.fresh_pct =
      std::clamp(state.packet.germination_pct.value_or(seed.germination_pct), kLeastPct, kMostPct);
  auto belief = crop::PacketBelief::of_packet(seed, keeping, state.fresh_pct);
  if (!belief) return tl::unexpected(belief.error());
  belief->age(state.age_years);
  state.expected_pct = belief->mean_pct();
  state.by_equation = belief->by_equation();
  Message aged{state.by_equation ? "aged-by-equation" : "aged-by-life",
               {{"fresh_share", state.fresh_pct / 100.0},
                {"age_years", state.age_years},
                {"store_c", keeping.temp_c.value_or(crop::kOrdinaryStoreC)}}};
  if (state.by_equation) {
    aged.values.emplace_back("moisture_share", *keeping.moisture_pct / 100.0);
  } else {
    aged.values.emplace_back("life_years", seed.life_years.value);
  }
  aged.values.emplace_back("expected_share", state.expected_pct / 100.0);
  state.working.push_back(std::move(aged));
  return {};
}

/// What is believed of a packet after its age in store and its tests, told step by step.
base::Result<crop::PacketBelief> believed(const std::vector<book::SeedTest>& tests, Date today,
                                          const crop::SeedFacts& seed, const crop::SeedKeeping& keeping,
                                          PacketState& state) {
  auto belief = crop::PacketBelief::of_packet(seed, keeping, state.fresh_pct);
  if (!belief) return belief;
  Date from = state.new_on;
  for (const book::SeedTest& test : tests) {
    if (test.packet != state.packet.id) continue;
    belief->age(years_between(from, test.date));
    state.working.push_back({"tested",
                             {{"day", test.date},
                              {"before_share", belief->mean_pct() / 100.0},
                              {"seeds", belief->worth_seeds()},
                              {"came_up", 1.0 * test.came_up},
                              {"sown", 1.0 * test.sown}}});
    if (const auto ok = belief->learn({test.sown, test.came_up}); !ok) return tl::unexpected(ok.error());
    from = std::max(from, test.date);
    state.tests.push_back(test);
  }
  belief->age(years_between(from, today));
  return belief;
}

base::Result<PacketState> packet_state(const crop::CropLibrary& library,
                                       const std::vector<book::SeedTest>& tests, Date today,
                                       const crop::Packet& packet, const crop::SeedKeeping& keeping,
                                       double latitude_deg) {
  const auto found = library.find(packet.crop);
  if (!found) return tl::unexpected(found.error());
  const crop::SeedFacts& seed = (*found)->seed;
  PacketState state;
  state.packet = packet;
  state.new_on = new_on(**found, packet, latitude_deg);
  if (const auto ok = age_in_store(seed, keeping, today, state); !ok) return tl::unexpected(ok.error());
  auto belief = believed(tests, today, seed, keeping, state);
  if (!belief) return tl::unexpected(belief.error());
  state.germination_pct = belief->mean_pct();
  state.germination = belief->pct();
  state.working.push_back(comes_up(state));
  belief->age(1.0);
  state.next_season_pct = belief->mean_pct();
  judge(state, **found);
  state.seeds_left = packet.seeds;
  return state;
}

/// Packets that a stand may be sown from, the best choice first: those that are worth sowing, and the one
/// that is named.
std::vector<PacketState*> packets_for(std::vector<PacketState>& packets, const stand::StandPlan& plan) {
  std::vector<PacketState*> fit;
  for (PacketState& state : packets) {
    const bool worth_it = state.verdict != PacketVerdict::renew;
    const bool like = worth_it && crop::serves(state.packet, plan.crop, plan.variety);
    if (like || state.packet.id == plan.packet) fit.push_back(&state);
  }
  std::stable_sort(fit.begin(), fit.end(), [&](const PacketState* a, const PacketState* b) {
    const auto rank = [&](const PacketState* p) {
      return std::tuple(p->packet.id != plan.packet, p->packet.packed_year);
    };
    return rank(a) < rank(b);
  });
  return fit;
}

/// Takes seeds off the packets of a stand, the first choice first.
void take_seeds(const std::vector<PacketState*>& fit, double seeds) {
  for (PacketState* state : fit) {
    const double taken = state == fit.back() ? seeds : std::min(seeds, std::max(0.0, state->seeds_left));
    state->seeds_sown += taken;
    state->seeds_left = std::max(0.0, state->seeds_left - taken);
    seeds -= taken;
  }
}

/// What is sown already comes off the packets; what was sown from none that is written down comes off none.
void take_sown(const book::GardenState& garden, std::vector<PacketState>& packets) {
  for (const book::StandState& stand : garden.stands) {
    // Also where nothing came of it and bought plants stand in its place.
    const auto sown = garden.seeds_sown.find(stand.plan.id);
    if (sown == garden.seeds_sown.end()) continue;
    for (const auto& [packet, seeds] : sown->second) {
      stand::StandPlan as_sown = stand.plan;
      as_sown.packet = packet;
      take_seeds(packets_for(packets, as_sown), seeds);
    }
  }
}

/// Mean temperature where a stand will come up: of its tray, or of the air over the weather years.
double sowing_temp_c(const Season& season, const stand::StandPlan& plan) {
  for (const bed::Tray& tray : season.garden.trays) {
    const bool raised = plan.method == stand::Method::start_indoors && tray.id == plan.tray;
    if (raised && stand::is_inside(tray.place)) return tray.temp_c;
  }
  const auto& weather = season.weather;
  const auto from = (plan.sow - weather.first).count();
  double sum = 0.0;
  double count = 0.0;
  for (std::size_t m = 0; m < weather.member_count; ++m) {
    for (int d = 0; d < kEmergenceDays; ++d) {
      const auto day = from + d;
      if (day < 0 || day >= static_cast<std::int64_t>(weather.day_count)) continue;
      const std::size_t at = weather.at(m, static_cast<std::size_t>(day));
      sum += weather.mean_c(at);
      count += 1.0;
    }
  }
  return count > 0.0 ? sum / count : 15.0;
}

/// Seeds that bring a stand its clumps as often as wanted, at a germination: a clump of several counts with
/// half of its plants, as it does for the plan. Never fewer than the plan sows; as the plan has it where no
/// number brings it.
double seeds_wanted(const Season& season, const crop::Crop& crop, const stand::StandPlan& plan, double pct,
                    double service) {
  const double field = std::max(0.05, crop::final_fraction_at(crop, sowing_temp_c(season, plan)));
  const int each =
      crop.seed.planting_piece ? 1 : std::max(1, static_cast<int>(std::lround(plan.seeds_per_cell)));
  const int least_plants = crop::least_plants_of_clump(plan.plants_per_clump);
  const double planned = book::planned_seeds(plan, &crop);
  const auto cells =
      crop::cells_to_sow(crop.seed, std::max(1, plan.clumps), service, pct * field, each, least_plants);
  return cells ? std::max(static_cast<double>(*cells) * each, planned) : planned;
}

/// What is to be said of the packet that a sowing would be made from, the first that holds any seed.
std::vector<Message> doubt_of(const std::vector<PacketState*>& fit) {
  const auto first = std::find_if(fit.begin(), fit.end(), [](const PacketState* state) {
    return state->seeds_left - state->planned_seeds >= 1.0;
  });
  if (first == fit.end() || (*first)->verdict == PacketVerdict::good) return {};
  const PacketState& state = **first;
  std::vector<Message> doubt = state.reason;
  // The numbers of the plan reckon with the packet as it was new, and are told beside this.
  for (Message& message : doubt) {
    if (message.key == "sow-thicker") message.key = "sow-thicker-than-told";
  }
  doubt.front() = {"packet-comes-up", {{"packet", state.packet.id}}};
  for (const auto& value : comes_up(state).values) doubt.front().values.push_back(value);
  return doubt;
}

StandSeed stand_seed(const Season& season, const stand::StandPlan& plan, std::vector<PacketState>& packets,
                     const SeedBoxOptions& options) {
  StandSeed need{.stand = plan.id, .sow = plan.sow, .planned_seeds = book::planned_seeds(plan)};
  const auto crop = crop_of(season, plan);
  if (!crop) return need;
  need.planned_seeds = book::planned_seeds(plan, &*crop);
  const auto fit = packets_for(packets, plan);
  need.doubt = doubt_of(fit);
  double missing = 1.0;  // share of the stand that has no seed yet
  for (PacketState* state : fit) {
    if (state->verdict == PacketVerdict::renew) continue;
    const double whole = seeds_wanted(season, *crop, plan, state->germination_pct, options.service);
    const double free = std::max(0.0, state->seeds_left - state->planned_seeds);
    const double taken = std::min(std::ceil(missing * whole), std::floor(free));
    if (taken <= 0.0) continue;
    state->planned_seeds += taken;
    need.shares.push_back({state->packet.id, taken});
    need.seeds += taken;
    missing = std::max(0.0, missing - taken / whole);
    if (missing <= 0.0) return need;
  }
  const double fresh = seeds_wanted(season, *crop, plan, crop->seed.germination_pct, options.service);
  need.short_seeds = std::ceil(missing * fresh);
  need.seeds += need.short_seeds;
  return need;
}

std::vector<SeedNeed> needs_of(const Season& season, std::vector<PacketState>& packets,
                               const SeedBoxOptions& options) {
  std::vector<const stand::StandPlan*> planned;
  for (const book::StandState& stand : season.state.stands) {
    const bool sown_here = !to_be_bought(stand.plan, stand.facts);
    if (sown_here && stand_stage(stand.facts) == StandStage::planned) planned.push_back(&stand.plan);
  }
  std::stable_sort(planned.begin(), planned.end(),
                   [](const auto* a, const auto* b) { return a->sow < b->sow; });
  std::vector<SeedNeed> needs;
  std::map<std::pair<std::string, std::string>, std::size_t> index;
  for (const stand::StandPlan* plan : planned) {
    const auto [at, is_new] = index.try_emplace({plan->crop, plan->variety}, needs.size());
    if (is_new) needs.push_back({.crop = plan->crop, .variety = plan->variety, .first_sowing = plan->sow});
    SeedNeed& need = needs[at->second];
    need.stands.push_back(stand_seed(season, *plan, packets, options));
    const StandSeed& stand = need.stands.back();
    need.seeds += stand.seeds;
    need.short_seeds += stand.short_seeds;
    need.covered_seeds += stand.seeds - stand.short_seeds;
  }
  for (SeedNeed& need : needs) {
    const auto crop = season.library->find(need.crop);
    if (!crop || need.short_seeds <= 0.0) continue;
    const int seeds = static_cast<int>(std::ceil(need.short_seeds));
    need.buy = SeedToBuy{seeds, crop::grams_of_seed((*crop)->seed, seeds), (*crop)->seed.germination_pct};
  }
  return needs;
}

Json number(double value) {
  return json_number(value, 2);
}

std::string cited(const crop::CropLibrary& library, const std::string& source) {
  const auto found = library.sources.find(source);
  return found == library.sources.end() ? source : found->second;
}

Json sources_of(const Season& season, const PacketState& state) {
  Json list = Json::array();
  const auto found = season.library->find(state.packet.crop);
  if (!found) return list;
  const crop::SeedFacts& seed = (*found)->seed;
  if (state.by_equation && seed.viability) {
    list.push_back("R. H. Ellis and E. H. Roberts 1980, Annals of Botany 45:13-30");
    list.push_back(cited(*season.library, seed.viability->ke.source));
  } else {
    list.push_back(cited(*season.library, seed.life_years.source));
  }
  if (!state.packet.germination_pct) list.push_back(cited(*season.library, seed.germination_pct.source));
  if (!state.tests.empty())
    list.push_back("Bayes' rule on a grid, A. Gelman et al., Bayesian Data Analysis, section 2.4");
  return list;
}

/// Tubers and cloves: what the answers count as seeds are pieces.
bool is_planted_in_pieces(const Season& season, const std::string& id) {
  const auto crop = season.library->find(id);
  return crop && (*crop)->seed.planting_piece;
}

Json packet_json(const Season& season, const PacketState& s) {
  const Names names(season);
  const auto crop = season.library->find(s.packet.crop);
  Json tests = Json::array();
  for (const book::SeedTest& test : s.tests)
    tests.push_back({{"date", base::to_iso(test.date)}, {"sown", test.sown}, {"came_up", test.came_up}});
  const Units units = units_of(season.garden.units);
  Json working = Json::array();
  for (const Message& step : s.working) working.push_back(message_text(step, units, season.today));
  return {{"id", s.packet.id},
          {"crop", s.packet.crop},
          {"crop_name", names.crop(s.packet.crop)},
          {"variety", s.packet.variety},
          {"variety_name", names.variety(s.packet.variety)},
          {"packed_year", s.packet.packed_year},
          {"pieces", is_planted_in_pieces(season, s.packet.crop)},
          {"age_years", number(s.age_years)},
          {"stated_pct", s.packet.germination_pct ? number(*s.packet.germination_pct) : Json(nullptr)},
          {"fresh_pct", number(s.fresh_pct)},
          {"expected_pct", number(s.expected_pct)},
          {"ageing", s.by_equation ? "viability-equation" : "rule-of-thumb-life"},
          {"life_years", crop ? number((*crop)->seed.life_years) : Json(0)},
          {"tests", tests},
          {"germination_pct",
           {{"mean", number(s.germination_pct)},
            {"p10", number(s.germination.p10)},
            {"p50", number(s.germination.p50)},
            {"p90", number(s.germination.p90)}}},
          {"next_season", base::year_of(season.today) + 1},
          {"next_season_pct", number(s.next_season_pct)},
          {"verdict", packet_verdict_text(s.verdict)},
          {"reason", messages_text(s.reason, units, season.today)},
          {"said", messages_json(s.reason)},
          {"seeds_at_start", number(s.packet.seeds)},
          {"seeds_sown", number(s.seeds_sown)},
          {"seeds_left", number(s.seeds_left)},
          {"grams_left", crop ? number(crop::grams_of_seed((*crop)->seed, s.seeds_left)) : Json(0)},
          {"planned_seeds", number(s.planned_seeds)},
          {"seeds_after", number(s.seeds_left - s.planned_seeds)},
          {"working", working},
          {"working_said", messages_json(s.working)},
          {"source", sources_of(season, s)}};
}

Json need_json(const Season& season, const SeedNeed& need) {
  const Names names(season);
  Json stands = Json::array();
  for (const StandSeed& stand : need.stands) {
    Json shares = Json::array();
    for (const SeedShare& share : stand.shares)
      shares.push_back({{"packet", share.packet}, {"seeds", number(share.seeds)}});
    stands.push_back({{"stand", stand.stand},
                      {"sow", base::to_iso(stand.sow)},
                      {"seeds", number(stand.seeds)},
                      {"planned_seeds", number(stand.planned_seeds)},
                      {"packets", shares},
                      {"short_seeds", number(stand.short_seeds)}});
  }
  Json buy = nullptr;
  if (need.buy) {
    buy = {{"seeds", need.buy->seeds},
           {"grams", number(need.buy->grams)},
           {"germination_pct", number(need.buy->germination_pct)}};
  }
  return {{"crop", need.crop},
          {"crop_name", names.crop(need.crop)},
          {"variety", need.variety},
          {"variety_name", names.variety(need.variety)},
          {"pieces", is_planted_in_pieces(season, need.crop)},
          {"first_sowing", base::to_iso(need.first_sowing)},
          {"stands", stands},
          {"seeds", number(need.seeds)},
          {"covered_seeds", number(need.covered_seeds)},
          {"short_seeds", number(need.short_seeds)},
          {"buy", buy}};
}

std::string keeping_note(const crop::SeedKeeping& keeping, Units units) {
  const std::string temp = temperature_text(keeping.temp_c.value_or(crop::kOrdinaryStoreC), units);
  if (keeping.moisture_pct) {
    return fmt::format("taken to lie at {} and to hold {:.0f} % water; cooler and drier keeps longer", temp,
                       *keeping.moisture_pct);
  }
  return fmt::format(
      "taken to lie dry at {}, where half is left after the published life of its seed; how it really lies "
      "may "
      "double or halve that",
      temp);
}

}  // namespace

std::string_view packet_verdict_text(PacketVerdict verdict) noexcept {
  constexpr std::array<std::string_view, 4> kWords{"good", "sow-thicker", "test-first", "renew"};
  return kWords[static_cast<std::size_t>(verdict)];
}

std::map<std::string, double> seeds_gone(const crop::CropLibrary& library,
                                         const book::GardenDescription& garden,
                                         const book::GardenState& state, Date today) {
  std::vector<PacketState> packets;
  for (const crop::Packet& packet : garden.packets) {
    const auto known = packet_state(library, state.seed_tests, today, packet, {}, garden.site.latitude_deg);
    // Of a crop that the library lacks nothing is known but the count.
    packets.push_back(known ? *known : PacketState{.packet = packet, .seeds_left = packet.seeds});
  }
  take_sown(state, packets);
  std::map<std::string, double> gone;
  for (const PacketState& packet : packets) gone[packet.packet.id] = packet.packet.seeds - packet.seeds_left;
  return gone;
}

std::vector<crop::Packet> packets_worth_sowing(const crop::CropLibrary& library,
                                               const book::GardenDescription& garden,
                                               const book::GardenState& state, Date today) {
  std::vector<crop::Packet> worth;
  for (const crop::Packet& packet : garden.packets) {
    const auto known = packet_state(library, state.seed_tests, today, packet, {}, garden.site.latitude_deg);
    if (!known || known->verdict != PacketVerdict::renew) worth.push_back(packet);
  }
  return worth;
}

base::Result<SeedBox> seed_box(const Season& season, const SeedBoxOptions& options) {
  if (!(options.service > 0.0 && options.service < 1.0)) {
    return base::fail(base::ProblemCode::out_of_range, fmt::format("{} is not a chance", options.service),
                      {.field = "service"}, "Give a chance between 0 and 1, for example 0.9");
  }
  SeedBox box{.options = options};
  for (const crop::Packet& packet : season.garden.packets) {
    auto state = packet_state(*season.library, season.state.seed_tests, season.today, packet, options.keeping,
                              season.garden.site.latitude_deg);
    if (!state) return tl::unexpected(state.error());
    box.packets.push_back(std::move(*state));
  }
  take_sown(season.state, box.packets);
  box.needs = needs_of(season, box.packets, options);
  return box;
}

std::string packets_json(const Season& season, const SeedBox& box) {
  Json packets = Json::array();
  for (const PacketState& state : box.packets) packets.push_back(packet_json(season, state));
  Json needs = Json::array();
  for (const SeedNeed& need : box.needs) needs.push_back(need_json(season, need));
  const crop::SeedKeeping& keeping = box.options.keeping;
  const Json answer = {{"garden", season.garden.name},
                       {"today", base::to_iso(season.today)},
                       {"store",
                        {{"temp_c", keeping.temp_c.value_or(crop::kOrdinaryStoreC)},
                         {"moisture_pct", keeping.moisture_pct ? Json(*keeping.moisture_pct) : Json(nullptr)},
                         {"note", keeping_note(keeping, units_of(season.garden.units))}}},
                       {"service", box.options.service},
                       {"packets", packets},
                       {"needs", needs}};
  return answer.dump(2, ' ', false, Json::error_handler_t::replace);
}

namespace {

/// "85 seeds (0.9 g) of 85 %"; of tubers and cloves the pieces.
std::string buy_text(const Season& season, const SeedNeed& need) {
  const Units units = units_of(season.garden.units);
  const std::string weight = seed_weight_text(need.buy->grams, units);
  const crop::Crop* crop = season.library->named(need.crop);
  if (crop != nullptr && crop->seed.planting_piece)
    return fmt::format("{} ({})", counted(need.buy->seeds, "piece"), weight);
  // No scale for ounces shows so little, and packets are sold by the seed then.
  const bool by_seed = units == Units::us && is_trace(need.buy->grams, units);
  const std::string weighed = by_seed ? std::string() : fmt::format(" ({})", weight);
  return fmt::format("{}{} of {:.0f} %", counted(need.buy->seeds, "seed"), weighed,
                     need.buy->germination_pct);
}

}  // namespace

std::string packets_text(const Season& season, const SeedBox& box) {
  using Align = TextTable::Align;
  const Names names(season);
  const Units units = units_of(season.garden.units);
  std::string text = fmt::format("Seed of {} on {}\n\n", season.garden.name, base::to_iso(season.today));
  if (box.packets.empty()) text += "No packets are written down.\n";
  TextTable packets({"packet", "what", "of year", "comes up", "next year", "left", "planned", "verdict"},
                    {Align::left, Align::left, Align::right, Align::right, Align::right, Align::right,
                     Align::right, Align::left});
  for (const PacketState& s : box.packets) {
    packets.add(
        {s.packet.id, names.both(s.packet.crop, s.packet.variety), std::to_string(s.packet.packed_year),
         fmt::format("{:.0f} % ({:.0f}-{:.0f})", s.germination_pct, s.germination.p10, s.germination.p90),
         fmt::format("{:.0f} %", s.next_season_pct), fmt::format("{:.0f}", s.seeds_left),
         fmt::format("{:.0f}", s.planned_seeds), messages_text(s.reason, units, season.today)});
  }
  if (!box.packets.empty()) text += packets.text() + "\n";
  TextTable needs({"what", "first sown", "seeds", "in the box", "short", "buy"},
                  {Align::left, Align::left, Align::right, Align::right, Align::right, Align::left});
  for (const SeedNeed& need : box.needs) {
    needs.add({names.both(need.crop, need.variety), date_text(need.first_sowing, units, season.today),
               fmt::format("{:.0f}", need.seeds), fmt::format("{:.0f}", need.covered_seeds),
               fmt::format("{:.0f}", need.short_seeds),
               need.buy ? buy_text(season, need) : "-"});
  }
  if (box.needs.empty()) {
    text += "Nothing is planned and still to be sown.\n";
  } else {
    text += fmt::format(
        "For what is planned: at least what the plan sows, and so many that, at the germination told, every "
        "clump\ncomes up {} of the time, one of several plants with half of them or more:\n",
        percent_text(box.options.service));
    text += needs.text();
  }
  return text + fmt::format("\nSeed is {}.\n", keeping_note(box.options.keeping, units));
}

}  // namespace sowtide::desk
