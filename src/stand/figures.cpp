#include "stand/figures.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <optional>

#include "climate/ensemble.hpp"
#include "climate/places.hpp"
#include "crop/figures.hpp"
#include "crop/organ_size.hpp"
#include "stand/detail/figure_stand.hpp"
#include "stand/garden_yield.hpp"
#include "stand/simulate.hpp"

namespace sowtide::stand {
namespace {

using base::Explanation;
using base::FigureDescription;
using base::FigureInputs;
using base::FigureKey;
using detail::begin_answer;
using detail::felt_weather;
using detail::figure_stand;
using detail::figure_weather;
using detail::FigureStand;
using detail::kLintul;
using detail::kModel;
using detail::number_or;

const FigureKey kCrop{"crop", "", true, "a crop of the library, for example beet"};
const FigureKey kPlace{"place", "", true,
                       "a built-in place with monthly normals, for example \"Olympia WA\""};
const FigureKey kDate{"date", "", true, "day of sowing, YYYY-MM-DD"};
const FigureKey kWater{"water", "", false,
                       "growth as a share of that of a plant never short of water, 0 to 1; 1 when left out"};
const FigureKey kNitrogen{"nitrogen", "", false, "the same for nitrogen; the worse of the two counts"};

/// Plants this many times as far apart as the crop's wide spacing stand beyond every trial known here
/// (chosen).
constexpr double kBeyondTrials = 2.0;

base::Result<Explanation> light_figure(Explanation answer, const FigureInputs& inputs) {
  const auto lai = base::number_input(inputs, "lai", 0.0, 30.0);
  if (!lai) return tl::unexpected(lai.error());
  const auto k = base::number_input(inputs, "k", 0.01, 1.5);
  if (!k) return tl::unexpected(k.error());
  const auto solar = number_or(inputs, "solar_mj_m2", 0.0, 0.0, 45.0);
  if (!solar) return tl::unexpected(solar.error());
  const double share = light_interception(*lai, *k);
  answer.result.push_back({"share", share, ""});
  answer.working.push_back(fmt::format("1 - exp(-{} · {}) = {:.4f}", *k, *lai, share));
  if (*solar > 0.0) {
    answer.result.push_back({"caught_par", 0.5 * *solar * share, "MJ/m²/d"});
    answer.working.push_back(
        fmt::format("half of {} MJ/m²/d is PAR: {:.4f} MJ/m²/d caught", *solar, 0.5 * *solar * share));
  }
  answer.source = {kLintul};
  return answer;
}

/// Growth held back evenly by the keys water and nitrogen, where they are given.
base::Result<SimulationOptions> held_back(const FigureInputs& inputs,
                                          const climate::WeatherEnsemble& ensemble) {
  SimulationOptions options;
  for (const auto& [key, factor] :
       {std::pair{&kWater, &options.water_factor}, std::pair{&kNitrogen, &options.nitrogen_factor}}) {
    if (!inputs.contains(key->name)) continue;
    const auto share = base::number_input(inputs, key->name, 0.0, 1.0);
    if (!share) return tl::unexpected(share.error());
    factor->assign(ensemble.member_count * ensemble.day_count, *share);
  }
  return options;
}

StandLives lives_left_standing(const CropWeather& weather, const FigureStand& stand, const crop::Crop& crop,
                               SimulationOptions options) {
  options.leave_standing = crop.harvest.style != crop::HarvestStyle::picked;
  return simulate(weather, stand.plan, {}, RaisingPlace{}, options);
}

base::Quantiles weight_on(const StandLives& lives, std::size_t day) {
  std::vector<double> sample;
  for (std::size_t m = 0; m < lives.members.size(); ++m)
    sample.push_back(lives.plant_g[m * lives.day_count + day]);
  return base::quantiles(std::move(sample));
}

/// The day asked for by `days`, if any: the middle weight, and the diameter of a root or bulb of that weight.
base::Result<void> tell_day(Explanation& answer, const FigureInputs& inputs, const StandLives& lives,
                            const crop::Crop& crop) {
  if (!inputs.contains("days")) return {};
  const auto day = number_or(inputs, "days", 0.0, 0.0, static_cast<double>(lives.day_count - 1));
  if (!day) return tl::unexpected(day.error());
  const double weight_g = weight_on(lives, static_cast<std::size_t>(*day)).p50;
  answer.result.push_back({"weight_then_g", weight_g, "g"});
  if (const auto diameter = crop::diameter_from_weight(crop, weight_g))
    answer.result.push_back({"diameter_then_mm", *diameter, "mm"});
  return {};
}

/// Days from sowing until the stand, picked as a grower picks, gives its first harvest; years without one do
/// not count.
void tell_first_pick(Explanation& answer, const CropWeather& weather, const FigureStand& stand,
                     const SimulationOptions& options) {
  const auto sown = static_cast<double>((stand.plan.sow - stand.ensemble.first).count());
  std::vector<double> days;
  for (const auto& life : simulate(weather, stand.plan, {}, RaisingPlace{}, options).members)
    if (life.first_pick_day >= 0) days.push_back(life.first_pick_day - sown);
  if (days.empty()) {
    answer.result.push_back({"first_pick_days", "never", ""});
    return;
  }
  const base::Quantiles first = base::quantiles(std::move(days));
  answer.result.push_back({"first_pick_days", first.p50, "d after sowing"});
  answer.result.push_back({"first_pick_p10_days", first.p10, "d after sowing"});
  answer.result.push_back({"first_pick_p90_days", first.p90, "d after sowing"});
}

base::Result<Explanation> growth_figure(Explanation answer, const FigureInputs& inputs,
                                        const crop::CropLibrary& library, const crop::Crop& crop,
                                        const climate::WeatherRecord* record) {
  const auto date = base::parse_iso_date(inputs.find("date")->second);
  if (!date) return tl::unexpected(date.error());
  const auto stand = figure_stand(inputs, crop, record, *date);
  if (!stand) return tl::unexpected(stand.error());
  const auto options = held_back(inputs, stand->ensemble);
  if (!options) return tl::unexpected(options.error());
  const CropWeather weather = felt_weather(*stand, crop);
  const StandLives lives = lives_left_standing(weather, *stand, crop, *options);
  std::vector<double> days, p10, p50, p90, diameters;
  for (std::size_t day = 0; day < lives.day_count && day <= 210; day += 7) {
    const auto weight = weight_on(lives, day);
    days.push_back(static_cast<double>(day));
    p10.push_back(weight.p10);
    p50.push_back(weight.p50);
    p90.push_back(weight.p90);
    if (const auto diameter = crop::diameter_from_weight(crop, weight.p50)) diameters.push_back(*diameter);
  }
  answer.result = {
      {"day", days, "d after sowing"}, {"weight_g", p50, "g"}, {"p10_g", p10, "g"}, {"p90_g", p90, "g"}};
  if (!diameters.empty()) answer.result.push_back({"diameter_mm", diameters, "mm"});
  if (auto ok = tell_day(answer, inputs, lives, crop); !ok) return tl::unexpected(ok.error());
  tell_first_pick(answer, weather, *stand, *options);
  answer.working = {fmt::format(
      "mean fresh weight of the {} of a plant, {} plants a clump, clumps {} mm apart, over {} "
      "weather years ({}), nothing pulled meanwhile",
      crop.harvest.style == crop::HarvestStyle::picked ? "fruit picked so far" : "harvested part",
      stand->plan.plants_per_clump, stand->plan.spacing_mm, lives.members.size(), stand->ensemble.source)};
  answer.source = {kModel, kLintul, crop::figure_citation(library, crop.growth.radiation_use_g_per_mj)};
  return answer;
}

// A shorter ensemble is enough for a mean; two years hold an autumn sowing to its end.
constexpr std::size_t kYieldMembers = 8;
constexpr std::size_t kYieldDays = 730;

base::Result<Explanation> yield_figure(Explanation answer, const FigureInputs& inputs,
                                       const crop::CropLibrary& library, const crop::Crop& crop) {
  const auto place = climate::find_place(inputs.find("place")->second);
  if (!place) return tl::unexpected(place.error());
  climate::EnsembleOptions options;
  options.first = base::date_of(2026, 1, 1);
  options.day_count = kYieldDays;
  options.member_count = kYieldMembers;
  RowPlanting row = usual_row(crop);
  for (const auto& [key, length_mm] :
       {std::pair{"in_row_mm", &row.in_row_mm}, {"row_spacing_mm", &row.row_mm}}) {
    const auto given = number_or(inputs, key, *length_mm, 5.0, 5000.0);
    if (!given) return tl::unexpected(given.error());
    *length_mm = *given;
  }
  const auto ensemble = climate::ensemble_from_normals(*place, options);
  const CropWeather weather(crop, std::make_shared<const SeasonWeather>(ensemble));
  const GardenYield found = garden_yield(weather);
  if (!(found.kg_m2 > 0.0)) {
    return base::fail(base::ProblemCode::infeasible,
                      fmt::format("no sowing of {} succeeds in {}", crop.id, place->site.name),
                      {.field = "place"}, "Take a place whose climate suits the crop");
  }
  answer.result = {{"yield_kg_m2", found.kg_m2, "kg/m²"},
                   {"row_kg_m", row_yield_kg_m(weather, row), "kg/m"},
                   {"days", found.days, "d from sowing to the last pick"}};
  answer.working = {
      fmt::format("sown or raised in trays on 24 days of the year, {} mm apart on the square; best sown {}, "
                  "in {:.0f} % of {} made "
                  "weather years with a harvest worth having",
                  crop.place.spacing_large_mm.value, base::to_text(base::month_day_of(found.best.sow)),
                  100.0 * found.best.success, kYieldMembers),
      "the median of the sowing days that do at least seven tenths as well as the best",
      fmt::format("the row: plants {:.4g} mm apart, rows {:.4g} mm apart", row.in_row_mm, row.row_mm)};
  answer.source = {kModel, crop::figure_citation(library, crop.growth.radiation_use_g_per_mj)};
  return answer;
}

struct FigureSowing {
  base::Date sow{};
  double days = 100.0;
  std::optional<Method> method = {};  ///< none: in place where the crop allows it
};

/// The day of sowing asked for; or one on which the crop does well, how it is sown then and the days to its
/// last pick.
base::Result<FigureSowing> figure_sowing(const FigureInputs& inputs, const crop::Crop& crop,
                                         const climate::WeatherRecord* record) {
  if (const auto given = inputs.find("date"); given != inputs.end()) {
    const auto date = base::parse_iso_date(given->second);
    if (!date) return tl::unexpected(date.error());
    return FigureSowing{.sow = *date};
  }
  climate::EnsembleOptions options;
  options.first = base::date_of(2026, 1, 1);
  options.day_count = kYieldDays;
  options.member_count = kYieldMembers;
  const auto ensemble = figure_weather(inputs, record, options);
  if (!ensemble) return tl::unexpected(ensemble.error());
  const GardenYield found = garden_yield(CropWeather(crop, std::make_shared<const SeasonWeather>(*ensemble)));
  if (!(found.kg_m2 > 0.0)) {
    return base::fail(base::ProblemCode::infeasible, fmt::format("no sowing of {} succeeds there", crop.id),
                      {.field = "place"}, "Take a place whose climate suits the crop");
  }
  return FigureSowing{.sow = found.best.sow,
                      .days = std::min(390.0, std::round(found.best.days)),
                      .method = found.best.method};
}

base::Result<Explanation> density_figure(Explanation answer, const FigureInputs& inputs,
                                         const crop::Crop& crop, const climate::WeatherRecord* record) {
  const auto density = base::number_input(inputs, "plants_per_m2", 0.1, 3000.0);
  if (!density) return tl::unexpected(density.error());
  const auto sowing = figure_sowing(inputs, crop, record);
  if (!sowing) return tl::unexpected(sowing.error());
  const auto days = number_or(inputs, "days", sowing->days, 10.0, 390.0);
  if (!days) return tl::unexpected(days.error());
  auto stand = figure_stand(inputs, crop, record, sowing->sow);
  if (!stand) return tl::unexpected(stand.error());
  stand->plan.spacing_mm = 1000.0 / std::sqrt(*density);
  if (sowing->method) stand->plan.method = *sowing->method;
  const auto options = held_back(inputs, stand->ensemble);
  if (!options) return tl::unexpected(options.error());
  const StandLives lives = lives_left_standing(felt_weather(*stand, crop), *stand, crop, *options);
  const auto weight = weight_on(lives, static_cast<std::size_t>(*days));
  answer.result = {{"yield_kg_m2", weight.p50 * *density / 1000.0, "kg/m²"},
                   {"plant_g", weight.p50, "g"},
                   {"p10_g", weight.p10, "g"},
                   {"p90_g", weight.p90, "g"}};
  answer.working = {fmt::format(
      "{} plants/m² stand {:.0f} mm apart; sown {} {}, {:.0f} days after sowing a plant weighs "
      "{:.4g} g",
      *density, stand->plan.spacing_mm, stand->plan.method == Method::start_indoors ? "in trays" : "in place",
      base::to_iso(sowing->sow), *days, weight.p50)};
  const double widest_mm = kBeyondTrials * crop.place.spacing_large_mm.value;
  if (stand->plan.spacing_mm > widest_mm) {
    answer.working.push_back(
        fmt::format("over {:.0f} mm apart no trial is known here: the model lets such plants grow on without "
                    "a bound that "
                    "real ones have",
                    widest_mm));
  }
  answer.working.push_back(stand->ensemble.source);
  answer.source = {kModel, kLintul};
  return answer;
}

}  // namespace

double light_interception(double leaf_area_index, double extinction) noexcept {
  return 1.0 - std::exp(-extinction * leaf_area_index);
}

const std::vector<FigureDescription>& stand_figures() {
  static const std::vector<FigureDescription> figures{
      {"growth",
       "weight of a plant's harvested part by day, every week from sowing",
       {kCrop,
        detail::place_or_weather_key(),
        detail::weather_key(),
        kDate,
        {"spacing_mm", "mm", false, "between clumps; the crop's own for large sizes when left out"},
        {"plants_per_clump", "", false, "1 when left out"},
        {"days", "d", false, "after sowing: also the weight and diameter on that day"},
        kWater,
        kNitrogen},
       "crop=beet place=\"Olympia WA\" date=2026-04-20 spacing_mm=140"},
      {"yield-density",
       "weight of a plant and yield of the ground at a density",
       {kCrop,
        {"plants_per_m2", "", true, "plants on a square metre"},
        detail::place_or_weather_key(),
        detail::weather_key(),
        {"date", "", false, "day of sowing, YYYY-MM-DD; one on which the crop does well if left out"},
        {"days", "d", false, "after sowing; left out: 100, or without a date those to the last pick"},
        kWater,
        kNitrogen},
       "crop=carrot plants_per_m2=100 place=\"Olympia WA\" date=2026-04-20 days=110"},
      {"garden-yield",
       "what a square metre of bed, or a metre of row, gives of a crop sown when it does best",
       {kCrop,
        kPlace,
        {"in_row_mm", "mm", false, "of the metre of row, between plants; usual for the crop when left out"},
        {"row_spacing_mm", "mm", false,
         "of the metre of row, to the next; usual for the crop when left out"}},
       "crop=beet place=Trier"},
      {"light-interception",
       "share of light that a canopy catches",
       {{"lai", "", true, "leaf area index, m² of leaf a m² of ground"},
        {"k", "", true, "extinction of PAR, 0.3 to 0.9 for most crops"},
        {"solar_mj_m2", "MJ/m²/d", false, "total solar radiation, to get the PAR caught"}},
       "lai=2 k=0.6 solar_mj_m2=20"}};
  return figures;
}

base::Result<Explanation> stand_figure(std::string_view name, const FigureInputs& inputs,
                                       const crop::CropLibrary& library,
                                       const climate::WeatherRecord* record) {
  const auto& all = stand_figures();
  const auto found =
      std::find_if(all.begin(), all.end(), [&](const auto& each) { return each.name == name; });
  if (found == all.end()) {
    return base::fail(base::ProblemCode::not_found, fmt::format("there is no figure {}", name));
  }
  if (auto ok = base::check_keys(*found, inputs); !ok) return tl::unexpected(ok.error());
  Explanation answer = begin_answer(*found, inputs);
  if (name == "light-interception") return light_figure(std::move(answer), inputs);
  const auto crop = library.find(inputs.find("crop")->second);
  if (!crop) return tl::unexpected(crop.error());
  if (name == "garden-yield") return yield_figure(std::move(answer), inputs, library, **crop);
  if (name == "growth") return growth_figure(std::move(answer), inputs, library, **crop, record);
  return density_figure(std::move(answer), inputs, **crop, record);
}

}  // namespace sowtide::stand
