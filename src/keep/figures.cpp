#include "keep/figures.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <string>
#include <utility>

#include "keep/storage.hpp"

namespace sowtide::keep {
namespace {

using base::Explanation;
using base::FigureInputs;
using base::ProblemCode;

constexpr double kLongestDays = 3650.0;

struct NamedPlace {
  std::string_view name;
  StorePlace place;
  std::string_view text;
  crop::Figure crop::Keeping::*life_days;
};

constexpr std::array<NamedPlace, 3> kPlaces{{
    {"kitchen", StorePlace::kitchen, "at room temperature", &crop::Keeping::kitchen_days},
    {"fridge", StorePlace::fridge, "in a kitchen refrigerator, 4 to 7 °C, in a bag",
     &crop::Keeping::fridge_days},
    {"best", StorePlace::best, "at the best temperature and humidity", &crop::Keeping::best_days},
}};

base::Result<const NamedPlace*> place_input(const FigureInputs& inputs) {
  const std::string& name = inputs.find("place")->second;
  const auto found = std::find_if(kPlaces.begin(), kPlaces.end(),
                                  [&name](const NamedPlace& each) { return each.name == name; });
  if (found != kPlaces.end()) return &*found;
  return base::fail(ProblemCode::not_found, fmt::format("there is no place of storage \"{}\"", name),
                    {.file = {}, .line = 0, .column = 0, .field = "place"}, "Say kitchen, fridge or best.");
}

std::string cited(const crop::CropLibrary& library, const crop::Figure& figure) {
  const auto found = library.sources.find(figure.source);
  std::string text = found == library.sources.end() ? figure.source : found->second;
  if (!figure.note.empty()) text += fmt::format(" ({})", figure.note);
  return text;
}

std::string life_line(const crop::Crop& crop, const NamedPlace& place, const crop::Figure& life) {
  std::string line = fmt::format("{} keeps {:g} days {}", crop.name, life.value, place.text);
  if (life.low && life.high)
    line += fmt::format("; published values run from {:g} to {:g}", *life.low, *life.high);
  return line;
}

void add_place(Explanation& answer, const crop::CropLibrary& library, const crop::Crop& crop,
               const NamedPlace& place) {
  const crop::Figure& life = crop.keeping.*place.life_days;
  answer.result.push_back({"life_days", storage_life_days(crop, place.place), "d"});
  if (life.low) answer.result.push_back({"life_days_low", *life.low, "d"});
  if (life.high) answer.result.push_back({"life_days_high", *life.high, "d"});
  answer.working.push_back(life_line(crop, place, life));
  answer.source.push_back(cited(library, life));
  const crop::Figure& chilling = crop.keeping.chilling_c;
  if (place.place == StorePlace::fridge && chilling.value > 0.0) {
    answer.result.push_back({"injured_below_c", chilling.value, "°C"});
    answer.working.push_back(fmt::format("it is injured by cold below {:g} °C", chilling.value));
    answer.source.push_back(cited(library, chilling));
  }
}

void add_share(Explanation& answer, const crop::Crop& crop, const NamedPlace& place, double days) {
  const double share = good_share(crop, place.place, days);
  answer.result.push_back({"good_share", share, ""});
  answer.working.push_back(
      fmt::format("half of a lot is still good at the end of its life: 2^(-{:g} / {:g}) = {:.2f}", days,
                  storage_life_days(crop, place.place), share));
  answer.source.emplace_back("docs/models/plan.md, Store (an assumption of ours: from memory)");
}

base::Result<Explanation> storage_life(const base::FigureDescription& figure, const FigureInputs& inputs,
                                       const crop::CropLibrary& library) {
  const auto crop = library.find(inputs.find("crop")->second);
  if (!crop) return tl::unexpected(crop.error());
  const auto place = place_input(inputs);
  if (!place) return tl::unexpected(place.error());
  Explanation answer;
  answer.name = figure.name;
  for (const base::FigureKey& key : figure.keys) {
    if (const auto found = inputs.find(key.name); found != inputs.end())
      answer.inputs.push_back({key.name, found->second, key.unit});
  }
  add_place(answer, library, **crop, **place);
  if (inputs.find("days") != inputs.end()) {
    const auto days = base::number_input(inputs, "days", 0.0, kLongestDays);
    if (!days) return tl::unexpected(days.error());
    add_share(answer, **crop, **place, *days);
  }
  return answer;
}

}  // namespace

const std::vector<base::FigureDescription>& keep_figures() {
  static const std::vector<base::FigureDescription> all{
      {"storage-life",
       "How long a crop keeps in a place, and the share of a lot still good after some days",
       {{"crop", "", true, "a crop of the library, for example beet"},
        {"place", "", true, "kitchen, fridge or best"},
        {"days", "d", false, "since it was stored"}},
       "crop=beet place=fridge days=7"}};
  return all;
}

base::Result<Explanation> keep_figure(std::string_view name, const FigureInputs& inputs,
                                      const crop::CropLibrary& library) {
  for (const base::FigureDescription& figure : keep_figures()) {
    if (figure.name != name) continue;
    if (const auto known = base::check_keys(figure, inputs); !known) return tl::unexpected(known.error());
    return storage_life(figure, inputs, library);
  }
  return base::fail(ProblemCode::not_found, fmt::format("there is no figure \"{}\"", name), {},
                    "See figure --list.");
}

}  // namespace sowtide::keep
