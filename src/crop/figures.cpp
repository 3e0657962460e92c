#include "crop/figures.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "crop/counts.hpp"
#include "crop/detail/figure_inputs.hpp"
#include "crop/emergence.hpp"
#include "crop/household.hpp"
#include "crop/organ_size.hpp"
#include "crop/viability.hpp"

namespace sowtide::crop {
namespace {

using base::Explanation;
using base::FigureDescription;
using base::FigureKey;
using base::ProblemCode;
using detail::citation;
using detail::FigureInputReader;

constexpr double kDaysPerYear = 365.25;

FigureKey crop_key(bool required = true) {
  return {"crop", "", required, "a crop of the library, for example beet"};
}
FigureKey temp_key(std::string text) {
  return {"temp_c", "°C", true, std::move(text)};
}
FigureKey germination_key(bool required) {
  return {"germination_pct", "%", required, "of the packet: seeds that give at least one seedling"};
}

Explanation& add(Explanation& answer, std::string name, base::ExplainedValue value, std::string unit = "") {
  answer.result.push_back({std::move(name), std::move(value), std::move(unit)});
  return answer;
}

base::Result<Explanation> failed(const FigureInputReader& in) {
  return tl::unexpected(*in.problem());
}

std::string list_text(const std::vector<double>& shares) {
  std::string text;
  for (std::size_t k = 0; k < shares.size() && k < 13; ++k)
    text += fmt::format("{}{}: {:.4f}", k ? ", " : "", k, shares[k]);
  return text;
}

base::Result<Explanation> emergence(FigureInputReader& in, const CropLibrary& library) {
  if (!in.has("temp_c")) {
    return base::fail(ProblemCode::missing_field, "is needed, or weather or place with a date", {.field = "temp_c"},
                      "For example temp_c=20, or place=\"Olympia WA\" date=2026-04-20");
  }
  const Crop& crop = in.crop();
  const double temp_c = in.number("temp_c", -40.0, 60.0);
  const auto depth = in.optional_number("depth_mm", 0.0, 300.0);
  const auto germination = in.optional_number("germination_pct", 0.0, 100.0);
  if (in.problem()) return failed(in);
  const double depth_mm = depth.value_or(crop.germination.depth_mm);
  const auto made = emergence_at(crop, temp_c, depth_mm, germination);
  if (!made) return tl::unexpected(made.error());
  Explanation answer = in.answer();
  add(answer, "days", made->days.p50, "d");
  add(answer, "p10", made->days.p10, "d");
  add(answer, "p90", made->days.p90, "d");
  add(answer, "final_pct", made->final_pct, "%");
  add(answer, "soil_days", made->soil_days.p50, "d");
  const Germination& g = crop.germination;
  const double rate = thermal_rate(g.cardinal, temp_c);
  answer.working = {
      fmt::format("warmth above {} °C counts up to {} °C and is lost from {} to {} °C: {:.4g} °C d a day",
                  g.cardinal.base_c.value, g.cardinal.optimum_low_c.value, g.cardinal.optimum_high_c.value,
                  g.cardinal.ceiling_c.value, rate),
      fmt::format("half are up after {} °C d from {} mm, {} °C d a mm more or less: from {} mm {:.4g} °C d, "
                  "{:.4g} days",
                  g.thermal_time_50_cd.value, g.depth_mm.value, g.depth_thermal_time_cd_per_mm.value,
                  depth_mm, made->days.p50 * rate, made->days.p50),
      fmt::format("between seeds ln(thermal time) has a standard deviation of {}: one in ten after {:.4g}, "
                  "nine in ten "
                  "after {:.4g} days",
                  g.log_spread.value, made->days.p10, made->days.p90),
      fmt::format("of live seeds a share of {:.3f} comes up at {} °C: {:.4g} % of seeds sown",
                  final_fraction_at(crop, temp_c), temp_c, made->final_pct)};
  if (g.soil_factor) {
    answer.working.push_back(
        fmt::format("the table behind this counted nearly bare germination; from garden soil {} "
                    "times as long: {:.4g} days",
                    g.soil_factor->value, made->soil_days.p50));
  }
  answer.source = {citation(library, g.thermal_time_50_cd), citation(library, g.cardinal.base_c),
                   citation(library, g.final_fraction_source), citation(library, g.log_spread)};
  return answer;
}

base::Result<Explanation> final_emergence(FigureInputReader& in, const CropLibrary& library) {
  const Crop& crop = in.crop();
  const double temp_c = in.number("temp_c", -40.0, 60.0);
  const auto germination = in.optional_number("germination_pct", 0.0, 100.0);
  if (in.problem()) return failed(in);
  const double pct = germination.value_or(crop.seed.germination_pct);
  const bool grows = thermal_rate(crop.germination.cardinal, temp_c) > 0.0;
  const double fraction = grows ? final_fraction_at(crop, temp_c) : 0.0;
  Explanation answer = in.answer();
  add(answer, "final_pct", pct * fraction, "%");
  add(answer, "share_of_live_seed", fraction);
  if (!grows) {
    answer.working.push_back(fmt::format("at {} °C, outside {} to {} °C, nothing comes up", temp_c,
                                         crop.germination.cardinal.base_c.value,
                                         crop.germination.cardinal.ceiling_c.value));
  }
  for (const TemperaturePoint& point : crop.germination.final_fraction) {
    answer.working.push_back(fmt::format("at {} °C a share of {}", point.temp_c, point.value));
  }
  answer.working.push_back(
      fmt::format("linear between: {:.4g} x {} % = {:.4g} %", fraction, pct, pct * fraction));
  answer.source = {citation(library, crop.germination.final_fraction_source),
                   citation(library, crop.seed.germination_pct)};
  return answer;
}

base::Result<Explanation> cells(FigureInputReader& in, const CropLibrary& library) {
  const Crop& crop = in.crop();
  const int good = in.count("good_clumps", 1, 1'000'000);
  const double service = in.number("service", 1e-6, 1.0 - 1e-9);
  const double pct = in.number("germination_pct", 0.0, 100.0);
  const int per_cell = in.count_or("seeds_per_cell", 1, 1, 50);
  const int min_plants = in.count_or("min_plants", 1, 1, 50);
  if (in.problem()) return failed(in);
  const auto wanted = cells_to_sow(crop.seed, good, service, pct, per_cell, min_plants);
  if (!wanted) return tl::unexpected(wanted.error());
  const std::vector<double> per = seedlings_per_cell(crop.seed, per_cell, pct);
  double chance = 0.0;
  for (std::size_t k = static_cast<std::size_t>(min_plants); k < per.size(); ++k) chance += per[k];
  Explanation answer = in.answer();
  add(answer, "cells", static_cast<double>(*wanted), "cells");
  add(answer, "good_cell_probability", chance);
  add(answer, "seeds", static_cast<double>(*wanted) * per_cell, "seeds");
  answer.working = {
      fmt::format("each embryo gives a seedling with chance {:.4f}, so that {} % of seeds give one or more",
                  embryo_chance(crop.seed, pct), pct),
      "seedlings in a cell, with their probability: " + list_text(per),
      fmt::format("a cell has {} or more with probability {:.4f}", min_plants, chance),
      fmt::format("least n with P(binomial(n, {:.4f}) >= {}) >= {}: {}", chance, good, service, *wanted)};
  answer.source = {citation(library, crop.seed.embryos_source), "binomial distribution, exact"};
  return answer;
}

base::Result<Explanation> seedlings(FigureInputReader& in, const CropLibrary& library) {
  const Crop& crop = in.crop();
  const int seeds = in.count("seeds", 1, 50);
  const double pct = in.number("germination_pct", 0.0, 100.0);
  if (in.problem()) return failed(in);
  const std::vector<double> per = seedlings_per_cell(crop.seed, seeds, pct);
  double mean = 0.0;
  for (std::size_t k = 1; k < per.size(); ++k) mean += static_cast<double>(k) * per[k];
  Explanation answer = in.answer();
  add(answer, "probability", per);
  add(answer, "mean", mean, "seedlings");
  add(answer, "mean_where_any", per[0] < 1.0 ? mean / (1.0 - per[0]) : 0.0, "seedlings");
  answer.working = {"embryos in one seed, from 1 on: " + list_text(crop.seed.embryos),
                    fmt::format("chance of each embryo, so that {} % of seeds give one or more: {:.4f}", pct,
                                embryo_chance(crop.seed, pct)),
                    "seedlings from one seed: " + list_text(seedlings_per_seed(crop.seed, pct)),
                    fmt::format("{} seeds together, by convolution: {}", seeds, list_text(per))};
  answer.source = {citation(library, crop.seed.embryos_source)};
  return answer;
}

base::Result<Explanation> seed_order(FigureInputReader& in, const CropLibrary& library) {
  const Crop& crop = in.crop();
  const int plants = in.count("plants", 1, 1'000'000);
  const double service = in.number("service", 1e-6, 1.0 - 1e-9);
  const double pct = in.number("germination_pct", 0.0, 100.0);
  const double field = in.optional_number("field_share", 1e-3, 1.0).value_or(1.0);
  if (in.problem()) return failed(in);
  const auto seeds = seeds_to_sow(crop.seed, plants, service, pct, field);
  if (!seeds) return tl::unexpected(seeds.error());
  Explanation answer = in.answer();
  add(answer, "seeds", static_cast<double>(*seeds), "seeds");
  add(answer, "grams", grams_of_seed(crop.seed, *seeds), "g");
  answer.working = {fmt::format("least number of seeds with {} or more seedlings {} of the time: {}", plants,
                                service, *seeds),
                    fmt::format("at {} seeds a gram: {:.4g} g", crop.seed.seeds_per_gram.value,
                                grams_of_seed(crop.seed, *seeds))};
  answer.source = {citation(library, crop.seed.embryos_source), citation(library, crop.seed.seeds_per_gram)};
  return answer;
}

/// The constants of a named crop, or those typed.
base::Result<ViabilityConstants> read_constants(FigureInputReader& in, const CropLibrary& library,
                                                Explanation& answer) {
  if (in.has("crop")) {
    const Crop& crop = in.crop();
    if (in.problem()) return tl::unexpected(*in.problem());
    if (!crop.seed.viability) {
      return base::fail(ProblemCode::insufficient_data,
                        fmt::format("no constants are published for {}", crop.name), {.field = "crop"},
                        "Make a home test, or give ke, cw, ch and cq yourself");
    }
    answer.source.push_back(citation(library, crop.seed.viability->ke));
    return constants_of(*crop.seed.viability);
  }
  ViabilityConstants made{in.number("ke", 0.0, 20.0), in.number("cw", 0.0, 20.0), in.number("ch", 0.0, 1.0),
                          in.number("cq", 0.0, 0.1)};
  if (in.problem()) {
    return base::fail(ProblemCode::missing_field, "needs a crop, or all of ke, cw, ch and cq",
                      in.problem()->where, in.problem()->what);
  }
  return made;
}

base::Result<double> read_moisture(FigureInputReader& in, double temp_c, Explanation& answer) {
  if (in.has("moisture_pct")) return in.number("moisture_pct", 2.0, 25.0);
  const double humidity = in.number("humidity_pct", 1.0, 95.0);
  const double oil = in.number("oil_fraction", 0.0, 0.6);
  if (in.problem()) {
    return base::fail(ProblemCode::missing_field, "is needed, or both humidity_pct and oil_fraction",
                      {.field = "moisture_pct"}, "For example moisture_pct=9");
  }
  const auto moisture = moisture_from_humidity(humidity, temp_c, oil);
  if (moisture) {
    answer.working.push_back(
        fmt::format("seed in air of {} % humidity holds {:.4g} % water", humidity, *moisture));
    answer.source.emplace_back(
        "R. J. Cromarty, R. H. Ellis and E. H. Roberts 1982, The design of seed storage facilities");
  }
  return moisture;
}

base::Result<Explanation> seed_viability(FigureInputReader& in, const CropLibrary& library) {
  Explanation notes;
  notes.source.emplace_back("R. H. Ellis and E. H. Roberts 1980, Annals of Botany 45:13-30");
  const auto constants = read_constants(in, library, notes);
  if (!constants) return tl::unexpected(constants.error());
  const double temp_c = in.number("temp_c", -20.0, 90.0);
  if (in.problem()) return failed(in);
  const auto moisture = read_moisture(in, temp_c, notes);
  if (!moisture) return tl::unexpected(moisture.error());
  const double years = in.number("years", 0.0, 200.0);
  const double initial = in.number("initial_pct", 0.1, 99.99);
  if (in.problem()) return failed(in);
  const SeedStore store{temp_c, *moisture};
  const auto sigma = days_per_probit(*constants, store);
  if (!sigma) return tl::unexpected(sigma.error());
  const auto alive = viability_after(*constants, store, initial, years * kDaysPerYear);
  if (!alive) return tl::unexpected(alive.error());
  Explanation answer = in.answer();
  answer.working = notes.working;
  answer.source = notes.source;
  const double start = base::normal_quantile(initial / 100.0);
  add(answer, "alive_pct", *alive, "%");
  add(answer, "days_per_probit", *sigma, "d");
  add(answer, "probit", start - years * kDaysPerYear / *sigma);
  answer.working.push_back(fmt::format(
      "log10 of the days a probit takes = {} - {} log10({:.4g}) - {} x {} - {} x {}²: {:.1f} days",
      constants->ke, constants->cw, *moisture, constants->ch, temp_c, constants->cq, temp_c, *sigma));
  answer.working.push_back(fmt::format("{} % is {:.4f} probits; after {:.4g} days {:.4f}, that is {:.4g} %",
                                       initial, start, years * kDaysPerYear,
                                       start - years * kDaysPerYear / *sigma, *alive));
  return answer;
}

base::Result<Explanation> home_test(FigureInputReader& in, const CropLibrary&) {
  const double expected = in.number("expected_pct", 0.1, 99.9);
  const int sown = in.count("sown", 0, 1'000'000);
  const int came_up = in.count("came_up", 0, 1'000'000);
  const double weight = in.optional_number("prior_seeds", 0.1, 10000.0).value_or(10.0);
  if (in.problem()) return failed(in);
  const auto tested = after_home_test(expected, {sown, came_up}, weight);
  if (!tested) return tl::unexpected(tested.error());
  Explanation answer = in.answer();
  add(answer, "germination_pct", tested->mean_pct, "%");
  add(answer, "p10", tested->pct.p10, "%");
  add(answer, "p50", tested->pct.p50, "%");
  add(answer, "p90", tested->pct.p90, "%");
  answer.working = {fmt::format("before the test {} % as if from {} seeds; the test adds {} of {}", expected,
                                weight, came_up, sown),
                    fmt::format("mean ({} + {}) / ({} + {}) = {:.4g} %", weight * expected / 100.0, came_up,
                                weight, sown, tested->mean_pct)};
  answer.source = {
      "Beta-binomial updating (conjugate prior), A. Gelman et al., Bayesian Data Analysis, section 2.4"};
  return answer;
}

base::Result<Explanation> transplant_ready(FigureInputReader& in, const CropLibrary& library) {
  const Crop& crop = in.crop();
  const double temp_c = in.number("temp_c", -10.0, 50.0);
  if (in.problem()) return failed(in);
  if (!crop.nursery.can_transplant) {
    return base::fail(ProblemCode::contradiction, fmt::format("{} is not raised in trays", crop.name),
                      {.field = "crop"}, crop.nursery.caution);
  }
  const auto up = emergence_at(crop, temp_c, crop.germination.depth_mm);
  if (!up) return tl::unexpected(up.error());
  const double rate = thermal_rate(crop.growth.cardinal, temp_c);
  if (!(rate > 0.0)) {
    return base::fail(ProblemCode::out_of_range, fmt::format("{} does not grow at {} °C", crop.name, temp_c),
                      {.field = "temp_c"});
  }
  const Nursery& n = crop.nursery;
  Explanation answer = in.answer();
  const double ready = up->soil_days.p50 + n.ready_thermal_time_cd / rate;
  const double latest = up->soil_days.p50 + n.latest_thermal_time_cd / rate;
  add(answer, "days", ready, "d");
  add(answer, "latest_days", latest, "d");
  add(answer, "emergence_days", up->soil_days.p50, "d");
  answer.working = {
      fmt::format("half are up after {:.4g} days at {} °C", up->soil_days.p50, temp_c),
      fmt::format("fit to set out after {} °C d more at {:.4g} a day: {:.4g} days from sowing",
                  n.ready_thermal_time_cd.value, rate, ready),
      fmt::format("too old after {} °C d: {:.4g} days from sowing", n.latest_thermal_time_cd.value, latest)};
  answer.source = {citation(library, n.ready_thermal_time_cd),
                   citation(library, crop.germination.thermal_time_50_cd)};
  return answer;
}

base::Result<Explanation> root_weight(FigureInputReader& in, const CropLibrary& library) {
  const Crop& crop = in.crop();
  const double diameter_mm = in.number("diameter_mm", 1.0, kMostDiameterMm);
  if (in.problem()) return failed(in);
  const Harvest& h = crop.harvest;
  const bool usual = is_long(crop) && !in.has("length_mm") && h.length_per_diameter;
  std::optional<double> length_mm;
  if (is_long(crop) && !usual) length_mm = in.number("length_mm", 1.0, 1000.0);
  if (in.problem()) return failed(in);
  const auto weight_g = weight_from_diameter(crop, diameter_mm, length_mm);
  if (!weight_g) return tl::make_unexpected(weight_g.error());
  const double d_cm = diameter_mm / 10.0;
  Explanation answer = in.answer();
  add(answer, "weight_g", *weight_g, "g");
  if (usual) {
    length_mm = usual_length_mm(crop, diameter_mm);
    answer.working.push_back(fmt::format("length {} x {:.4g} cm = {:.4g} cm, as is usual",
                                         h.length_per_diameter->value, d_cm, *length_mm / 10.0));
  }
  answer.working.push_back(
      length_mm ? fmt::format("{} x {:.4g}² x {:.4g} cm³ = {:.4g} g", h.weight_g_per_cm3->value, d_cm,
                              *length_mm / 10.0, *weight_g)
                : fmt::format("{} x {:.4g}³ cm³ = {:.4g} g", h.weight_g_per_cm3->value, d_cm, *weight_g));
  answer.source = {citation(library, *h.weight_g_per_cm3)};
  if (usual) answer.source.push_back(citation(library, *h.length_per_diameter));
  return answer;
}

const std::vector<std::string>& policy_names() {
  static const std::vector<std::string> names{"leave", "thin", "move-one"};
  return names;
}

base::Result<Explanation> tray(FigureInputReader& in, const CropLibrary& library) {
  const Crop& crop = in.crop();
  TrayPlan plan;
  plan.cells = in.count("cells", 1, 20'000);
  plan.germination_pct = in.number("germination_pct", 0.0, 100.0);
  plan.seeds_per_cell = in.count_or("seeds_per_cell", 1, 1, 50);
  plan.min_plants = in.count_or("min_plants", 1, 1, 50);
  plan.keep = in.count_or("keep", 1, 1, 50);
  const std::string policy = in.text_or("policy", "leave");
  if (in.problem()) return failed(in);
  const auto at = std::find(policy_names().begin(), policy_names().end(), policy);
  if (at == policy_names().end()) {
    return base::fail(ProblemCode::not_found, fmt::format("there is no policy \"{}\"", policy.substr(0, 40)),
                      {.field = "policy"}, "Write leave, thin or move-one");
  }
  plan.policy = static_cast<CellPolicy>(at - policy_names().begin());
  const auto made = tray_outcome(crop.seed, plan);
  if (!made) return tl::unexpected(made.error());
  Explanation answer = in.answer();
  add(answer, "good_cells", made->good_cells_mean, "cells");
  add(answer, "p10", made->good_cells.p10, "cells");
  add(answer, "p50", made->good_cells.p50, "cells");
  add(answer, "p90", made->good_cells.p90, "cells");
  add(answer, "plants_per_cell", made->plants_per_cell);
  add(answer, "seedlings_removed", made->seedlings_removed_mean, "seedlings");
  answer.working = {"seedlings in a cell before: " +
                        list_text(seedlings_per_cell(crop.seed, plan.seeds_per_cell, plan.germination_pct)),
                    "plants in a cell after: " + list_text(made->plants_per_cell)};
  answer.source = {citation(library, crop.seed.embryos_source), "exact convolution over the cells"};
  return answer;
}

using Work = base::Result<Explanation> (*)(FigureInputReader&, const CropLibrary&);

struct Entry {
  FigureDescription description;
  Work work;
};

std::vector<Entry> emergence_entries() {
  return {{{"emergence",
            "Days from sowing till half the live seeds are up, at a constant temperature or in the soil that "
            "the weather warms, with the spread between seeds",
            {crop_key(),
             {"temp_c", "°C", false, "constant, of the soil at sowing depth; or weather, or place"},
             {"depth_mm", "mm", false, "sowing depth; the crop's usual one if not given"},
             germination_key(false),
             {"weather", "", false, "a weather file whose days warm the soil; needs date"},
             {"place", "", false, "or a built-in place, whose normals do; needs date"},
             {"date", "YYYY-MM-DD", false, "of sowing, with weather or place"},
             {"lat", "°", false, "latitude of the weather file, where it does not say it"}},
            "crop=beet temp_c=20"},
           emergence},
          {{"final-emergence",
            "Share of seeds that come up at a constant temperature",
            {crop_key(), temp_key("of the soil"), germination_key(false)},
            "crop=lettuce temp_c=28"},
           final_emergence},
          {{"transplant-ready",
            "Days from sowing till seedlings raised at a constant temperature are fit to set out, and till "
            "they are too old",
            {crop_key(), temp_key("where they are raised")},
            "crop=beet temp_c=19"},
           transplant_ready},
          {{"root-weight",
            "Weight of a root or bulb from its diameter",
            {crop_key(),
             {"diameter_mm", "mm", true, "at the thickest place"},
             {"length_mm", "mm", false, "of long roots; else the length usual of that diameter"}},
            "crop=beet diameter_mm=50.8"},
           root_weight}};
}

std::vector<Entry> count_entries() {
  return {{{"cells",
            "Cells to sow for a number of good clumps at a level of service",
            {crop_key(),
             {"good_clumps", "clumps", true, "how many are wanted"},
             {"service", "", true, "0.9 for nine times in ten"},
             germination_key(true),
             {"seeds_per_cell", "seeds", false, "1 if not given"},
             {"min_plants", "seedlings", false, "a good cell has so many or more; 1 if not given"}},
            "crop=beet good_clumps=24 service=0.9 germination_pct=80"},
           cells},
          {{"seedlings-per-cell",
            "Probability of 0, 1, 2 ... seedlings from seeds sown together",
            {crop_key(), {"seeds", "seeds", true, "sown together"}, germination_key(true)},
            "crop=beet seeds=2 germination_pct=80"},
           seedlings},
          {{"tray-outcome",
            "What comes of a tray when clumps are left, thinned, or spare seedlings fill empty cells",
            {crop_key(),
             {"cells", "cells", true, "sown"},
             germination_key(true),
             {"seeds_per_cell", "seeds", false, "1 if not given"},
             {"policy", "", false, "leave, thin or move-one; leave if not given"},
             {"keep", "plants", false, "most that stay in a cell when thinning; 1 if not given"},
             {"min_plants", "plants", false, "a good cell has so many or more; 1 if not given"}},
            "crop=beet cells=30 germination_pct=80 policy=move-one"},
           tray},
          {{"seeds-to-sow",
            "Seeds to sow, and their weight, for a number of plants at a level of service",
            {crop_key(),
             {"plants", "plants", true, "how many are wanted"},
             {"service", "", true, "0.9 for nine times in ten"},
             germination_key(true),
             {"field_share", "", false,
              "of those that would germinate, the share that comes up outdoors; 1 if not given"}},
            "crop=carrot plants=200 service=0.9 germination_pct=75 field_share=0.6"},
           seed_order}};
}

std::vector<Entry> seed_entries() {
  return {{{"seed-viability",
            "Per cent of stored seed still alive after some years",
            {crop_key(false),
             temp_key("of the store"),
             {"moisture_pct", "%", false, "of the seed, fresh weight"},
             {"humidity_pct", "%", false, "of the air, where the moisture is not known"},
             {"oil_fraction", "", false, "oil in the seed's dry matter, with humidity_pct"},
             {"years", "years", true, "in store"},
             {"initial_pct", "%", true, "alive at the start"},
             {"ke", "", false, "constant, where no crop is named"},
             {"cw", "", false, "constant"},
             {"ch", "", false, "constant"},
             {"cq", "", false, "constant"}},
            "crop=onion temp_c=20 moisture_pct=8 years=2 initial_pct=90"},
           seed_viability},
          {{"home-test",
            "What to expect of a packet after sowing a few of its seeds on damp paper",
            {{"expected_pct", "%", true, "germination expected before the test"},
             {"sown", "seeds", true, "in the test"},
             {"came_up", "seeds", true, "of them"},
             {"prior_seeds", "seeds", false, "weight of the expectation; 10 if not given"}},
            "expected_pct=80 sown=10 came_up=7"},
           home_test}};
}

base::Result<Explanation> household(FigureInputReader& in, const CropLibrary&) {
  const Crop& crop = in.crop();
  const double people = in.number("people", 0.0, 1000.0);
  if (in.problem()) return failed(in);
  const HouseholdAmount* amount = household_amount(crop.id);
  if (amount == nullptr) {
    return base::fail(ProblemCode::not_found, fmt::format("no published amount is known for {}", crop.name),
                      {.field = "crop"}, "Start from a serving or two a person a week and see what is eaten");
  }
  Explanation answer = in.answer();
  add(answer, "grams_per_week", people * amount->grams_per_person_week(), "g");
  add(answer, "kg_per_year", people * amount->kg_per_person_year, "kg");
  answer.working = {fmt::format("{} kg a person a year before kitchen waste, over 52.18 weeks", amount->kg_per_person_year)};
  if (!amount->note.empty()) answer.working.push_back(amount->note);
  answer.source = {amount->source};
  return answer;
}

std::vector<Entry> household_entries() {
  return {{{"household-amount",
            "What people eat of a crop on average, as a place to start from",
            {crop_key(), {"people", "", true, "in the household"}},
            "crop=carrot people=4"},
           household}};
}

const std::vector<Entry>& entries() {
  static const std::vector<Entry> all = [] {
    std::vector<Entry> made = emergence_entries();
    for (auto more : {count_entries(), seed_entries(), household_entries()}) made.insert(made.end(), more.begin(), more.end());
    return made;
  }();
  return all;
}

}  // namespace

const std::vector<FigureDescription>& crop_figures() {
  static const std::vector<FigureDescription> descriptions = [] {
    std::vector<FigureDescription> made;
    for (const Entry& entry : entries()) made.push_back(entry.description);
    return made;
  }();
  return descriptions;
}

base::Result<Explanation> crop_figure(std::string_view name, const base::FigureInputs& inputs,
                                      const CropLibrary& library) {
  const auto found = std::find_if(entries().begin(), entries().end(),
                                  [&](const Entry& entry) { return entry.description.name == name; });
  if (found == entries().end()) {
    return base::fail(ProblemCode::not_found,
                      fmt::format("there is no figure \"{}\" of crops", name.substr(0, 60)),
                      {.field = "figure"});
  }
  FigureInputReader in(found->description, inputs, library);
  if (in.problem()) return failed(in);
  return found->work(in, library);
}

std::string figure_citation(const CropLibrary& library, const Figure& figure) {
  return citation(library, figure);
}

}  // namespace sowtide::crop
