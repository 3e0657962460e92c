#include "plan/notes.hpp"

#include <algorithm>
#include <map>

#include "crop/packet.hpp"
#include "stand/bought.hpp"
#include "stand/places.hpp"

namespace sowtide::plan {
namespace {

/// A want that gets this share of what it asks for is called met.
constexpr double kMetShare = 0.95;

const Demand* demand_of(const GardenModel& model, const std::string& want) {
  const auto found = std::find_if(model.demands.begin(), model.demands.end(),
                                  [&](const Demand& d) { return d.want == want; });
  return found == model.demands.end() ? nullptr : &*found;
}

bool has_bed(const GardenModel& model, const Candidate& candidate) {
  return std::any_of(model.beds.begin(), model.beds.end(),
                     [&](const bed::Bed& bed) { return may_stand(bed, candidate); });
}

/// Whether what limits a want is that nothing can be ready: most of what is missing falls into such weeks,
/// and in the others, if there are any, the want gets most of what it asks for.
bool limited_by_its_weeks(const GardenModel& model, const Demand& demand, const Plan& plan) {
  const std::vector<bool> reachable = reachable_weeks(model, demand);
  double wanted_when_reachable = 0.0, missing_when_reachable = 0.0, missing = 0.0;
  for (std::size_t w = 0; w < model.told_weeks; ++w) {
    if (reachable[w]) wanted_when_reachable += demand.servings[w] * demand.serving_g;
  }
  for (const Shortage& shortage : plan.shortages) {
    if (shortage.want != demand.want) continue;
    const auto week = static_cast<std::size_t>((shortage.week_start - model.first_monday).count() / 7);
    missing += shortage.grams;
    if (reachable[week]) missing_when_reachable += shortage.grams;
  }
  return missing_when_reachable < 0.5 * missing && missing_when_reachable <= 0.5 * wanted_when_reachable;
}

/// The part of what is missing that falls into weeks in which most weather years have enough.
double share_of_bad_weather(const Demand& demand, const Plan& plan) {
  double missing = 0.0, by_weather = 0.0;
  for (const Shortage& shortage : plan.shortages) {
    if (shortage.want != demand.want) continue;
    missing += shortage.grams;
    if (shortage.probability <= 0.5) by_weather += shortage.grams;
  }
  return missing > 0.0 ? by_weather / missing : 0.0;
}

/// Where sowings of the next season alone succeed, their harvest lies beyond the plan, and this season's are
/// spoilt.
base::Message no_way_reason(const PreparedGarden& garden, const Demand& demand) {
  const auto lacks_tray = [&garden](std::size_t p) { return garden.product_notes[p].lacks_tray; };
  if (std::all_of(demand.products.begin(), demand.products.end(), lacks_tray))
    return {"no-tray-to-raise-it", {}};
  const auto lacks_cells = [&garden](std::size_t p) {
    return garden.product_notes[p].lacks_tray || garden.product_notes[p].lacks_cells;
  };
  if (std::all_of(demand.products.begin(), demand.products.end(), lacks_cells))
    return {"no-cells-to-raise-it", {}};
  std::string limits;
  bool beyond = false;
  for (const std::size_t p : demand.products) {
    const ProductNote& note = garden.product_notes[p];
    beyond = beyond || note.beyond;
    if (limits.empty() && !note.limits.empty()) limits = note.limits;
  }
  if (beyond) {
    return limits.empty() ? base::Message{"harvest-after-plan", {}}
                          : base::Message{"too-late-this-season", {{"cause", limits}}};
  }
  return limits.empty() ? base::Message{"no-week", {}}
                        : base::Message{"no-week-often-enough", {{"cause", limits}}};
}

const char* taken(Limiting limiting) {
  switch (limiting) {
    case Limiting::ground:
      return "beds-taken";
    case Limiting::cells:
      return "cells-taken";
    case Limiting::mat:
      return "mat-taken";
    case Limiting::hours:
      return "hours-taken";
    case Limiting::seed:
      return "seed-to-be-bought";
    case Limiting::waste:
      return "more-comes-when-enough";
    case Limiting::nothing:
      return "only-small-stands-left";
  }
  return "beds-taken";
}

base::Message reason_for(const PreparedGarden& garden, const Demand& demand, const Plan& plan,
                         Limiting limiting) {
  const GardenModel& model = garden.model;
  bool any = false, any_bed = false;
  for (const Candidate& candidate : model.candidates) {
    if (!meets(demand, candidate.product)) continue;
    any = true;
    any_bed = any_bed || has_bed(model, candidate);
  }
  if (model.beds.empty()) return {"no-bed", {}};
  if (!any) return no_way_reason(garden, demand);
  if (!any_bed) return {"no-bed-for-it", {}};
  if (limited_by_its_weeks(model, demand, plan)) return {"not-ready-then", {}};
  if (share_of_bad_weather(demand, plan) > 0.5) return {"weather-of-some-years", {}};
  return {taken(limiting), {}};
}

/// What a want asks for, in words; its id too where another want asks for the same.
std::string want_name(const PlanInput& input, const std::string& id) {
  const auto word = [&input](const Want& want) {
    const auto variety = std::find_if(input.varieties.begin(), input.varieties.end(),
                                      [&](const crop::Variety& v) { return v.id == want.variety; });
    if (variety != input.varieties.end()) return crop_name(input, variety->crop) + " " + variety->name;
    return want.crop.empty() ? want.group : crop_name(input, want.crop);
  };
  const auto found =
      std::find_if(input.wants.begin(), input.wants.end(), [&](const Want& want) { return want.id == id; });
  if (found == input.wants.end()) return id;
  const std::string name = word(*found);
  const auto alike = std::count_if(input.wants.begin(), input.wants.end(),
                                   [&](const Want& want) { return word(want) == name; });
  return alike > 1 ? name + " (" + id + ")" : name;
}

void note_wants(const PreparedGarden& garden, const PlanInput& input, const Plan& plan,
                const std::vector<Limiting>& limiting, std::vector<Note>& notes) {
  for (const auto& [want, wanted_g] : plan.wanted_g) {
    const Demand* demand = demand_of(garden.model, want);
    const double supplied_g = plan.supplied_g.at(want);
    if (demand == nullptr || wanted_g <= 0.0 || supplied_g >= kMetShare * wanted_g) continue;
    notes.push_back({{"want-short",
                      {{"want", want_name(input, want)},
                       {"want_id", want},
                       {"met_share", supplied_g / wanted_g},
                       {"wanted_g", wanted_g}}},
                     reason_for(garden, *demand, plan,
                                limiting[static_cast<std::size_t>(demand - garden.model.demands.data())])});
  }
}

/// Packets that a sowing of the crop and variety can draw on; those of another variety count where none is
/// asked for.
std::vector<const crop::Packet*> packets_of(const PlanInput& input, const std::string& crop,
                                            const std::string& variety) {
  std::vector<const crop::Packet*> found;
  for (const crop::Packet& packet : input.packets) {
    if (crop::serves(packet, crop, variety)) found.push_back(&packet);
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const auto* a, const auto* b) { return a->seeds > b->seeds; });
  return found;
}

/// What the box is short of; all that it has no packet of in one note. Where it tells of no packet at all
/// nothing is known of it.
void note_seed(const PlanInput& input, const Plan& plan, std::vector<Note>& notes) {
  if (input.packets.empty()) return;
  const std::size_t before = notes.size();
  Note to_buy;
  std::map<std::pair<std::string, std::string>, double> sown;
  for (const stand::StandPlan& stand : plan.stands) {
    if (!stand::bought_as_plants(stand))
      sown[{stand.crop, stand.variety}] += stand::places_of(stand) * stand.seeds_per_cell;
  }
  for (const auto& [kind, seeds] : sown) {
    const auto packets = packets_of(input, kind.first, kind.second);
    double held = 0.0;
    for (const crop::Packet* packet : packets) held += seeds_left(input, *packet);
    if (seeds <= held) continue;
    if (packets.empty()) {
      to_buy.push_back(
          {"seed-to-buy",
           {{"crop", kind.first}, {"crop_name", crop_name(input, kind.first)}, {"sown", seeds}}});
    } else {
      notes.push_back({{"packet-too-small",
                        {{"crop", kind.first},
                         {"crop_name", crop_name(input, kind.first)},
                         {"packet", packets.front()->id},
                         {"seeds", held},
                         {"sown", seeds}}}});
    }
  }
  const bool short_of_seed = notes.size() > before || !to_buy.empty();
  if (!to_buy.empty()) notes.push_back(std::move(to_buy));
  if (short_of_seed) notes.push_back({{"seed-reckons-more", {}}});
}

}  // namespace

std::string crop_name(const PlanInput& input, const std::string& id) {
  if (input.library == nullptr) return id;
  const auto found = input.library->crops.find(id);
  return found == input.library->crops.end() || found->second.name.empty() ? id : found->second.name;
}

namespace {

/// What a sowing brings on average in a week, as a share of all that it brings.
double fresh_share(const GardenModel& model, const Candidate& candidate, std::size_t week) {
  if (!(candidate.expected_servings > 0.0)) return 0.0;
  return mean_of_years(model, candidate.servings, week) / candidate.expected_servings;
}

}  // namespace

std::vector<bool> reachable_weeks(const GardenModel& model, const Demand& demand) {
  // A fortieth of what a clump brings in all, still good: less is not looked at as food. Chosen.
  constexpr double kLeastShareHad = 0.025;
  std::vector<double> stock(model.weeks, 0.0);
  for (const Candidate& candidate : model.candidates) {
    if (!meets(demand, candidate.product) || !has_bed(model, candidate)) continue;
    const Product& product = model.products[candidate.product];
    double kept = 0.0;
    int age = 0;  // weeks since what is kept was picked
    for (std::size_t w = 0; w < model.weeks; ++w) {
      const double fresh = fresh_share(model, candidate, w);
      kept = ++age <= product.keep_weeks ? product.keep_share * kept : 0.0;
      if (fresh >= kept) {
        kept = fresh;
        age = 0;
      }
      stock[w] = std::max(stock[w], kept);
    }
  }
  std::vector<bool> reachable;
  for (const double share : stock) reachable.push_back(share > kLeastShareHad);
  return reachable;
}

std::vector<bool> weeks_with_half(const GardenModel& model, const Demand& demand) {
  std::vector<bool> enough(model.weeks, false);
  for (const Candidate& candidate : model.candidates) {
    if (!meets(demand, candidate.product) || !has_bed(model, candidate)) continue;
    double good = 0.0;
    for (std::size_t w = 0; w < model.weeks; ++w) {
      good = model.products[candidate.product].keep_share * good + fresh_share(model, candidate, w);
      if (good >= kHalfStillGood) enough[w] = true;
    }
  }
  return enough;
}

std::vector<Note> notes_on_empty_beds(const GardenModel& model, const std::vector<PlacedStand>& stands) {
  // A bed that is used for less than this share of its ground and weeks is told of. Chosen.
  constexpr double kLittleUse = 0.1;
  std::vector<double> used_mm_weeks(model.beds.size(), 0.0);
  const auto use = [&](std::size_t bed, int from_mm, int to_mm, int first_week, int last_week) {
    const int first = std::max(0, first_week);
    const int last = std::min(static_cast<int>(model.told_weeks) - 1, last_week);
    used_mm_weeks[bed] += static_cast<double>(to_mm - from_mm) * std::max(0, last - first + 1);
  };
  for (const TakenStretch& taken : model.taken)
    use(taken.bed, taken.from_mm, taken.to_mm, taken.first_week, taken.last_week);
  for (const PlacedStand& stand : stands) {
    const Candidate& candidate = model.candidates[stand.candidate];
    const int length = stretch_mm(candidate, clumps_across(model.beds[stand.bed], candidate), stand.clumps);
    use(stand.bed, 0, length, candidate.bed_first_week, candidate.bed_last_week);
  }
  std::vector<Note> notes;
  // Where nothing can be sown at all, the wants say so.
  if (model.candidates.empty()) return notes;
  for (std::size_t b = 0; b < model.beds.size(); ++b) {
    const bed::Bed& bed = model.beds[b];
    const double used = used_mm_weeks[b] / (length_mm(bed) * static_cast<double>(model.told_weeks));
    if (used >= kLittleUse) continue;
    const std::string& name = bed.name.empty() ? bed.id : bed.name;
    notes.push_back(used > 0.0 ? Note{{"bed-little-used", {{"bed", name}, {"used_share", used}}}}
                               : Note{{"bed-unused", {{"bed", name}}}});
  }
  return notes;
}

void name_wants(const PlanInput& input, Note& note) {
  for (base::Message& message : note) {
    for (auto& [name, value] : message.values) {
      const auto* id = name == "want" ? std::get_if<std::string>(&value) : nullptr;
      if (id != nullptr) value = want_name(input, *id);
    }
  }
}

std::vector<Note> notes_on_limits(const PreparedGarden& garden, const PlanInput& input, const Plan& plan,
                                  const std::vector<Limiting>& limiting) {
  std::vector<Note> notes;
  note_wants(garden, input, plan, limiting, notes);
  note_seed(input, plan, notes);
  return notes;
}

}  // namespace sowtide::plan
