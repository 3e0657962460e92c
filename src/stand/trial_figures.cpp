#include "stand/trial_figures.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "base/quantile.hpp"
#include "stand/detail/figure_stand.hpp"
#include "stand/simulate.hpp"
#include "stand/trials.hpp"

namespace sowtide::stand {
namespace {

using base::Explanation;
using base::FigureInputs;
using detail::FigureStand;
using detail::number_or;

constexpr double kSampledPlants = 96.0;
constexpr std::size_t kSpreadClumps = 200;  // the skewness of fewer is mostly luck

// One of two stands that are compared.
struct Standing {
  double plants_per_m2 = 0.0, per_clump = 1.0;
  std::optional<double> row_mm;
  std::optional<int> days;  ///< weighed then; else as it is harvested
};

base::Result<Standing> standing_of(const FigureInputs& inputs, const std::string& prefix,
                                   const Standing& like) {
  const auto density = number_or(inputs, prefix + "plants_per_m2", like.plants_per_m2, 0.1, 3000.0);
  if (!density) return tl::unexpected(density.error());
  const auto clump = number_or(inputs, prefix + "plants_per_clump", like.per_clump, 1.0, 12.0);
  if (!clump) return tl::unexpected(clump.error());
  Standing standing = like;
  standing.plants_per_m2 = *density;
  standing.per_clump = *clump;
  if (inputs.contains(prefix + "row_spacing_mm")) {
    const auto row = base::number_input(inputs, prefix + "row_spacing_mm", 10.0, 5000.0);
    if (!row) return tl::unexpected(row.error());
    standing.row_mm = *row;
  }
  return standing;
}

base::Result<std::optional<int>> days_of(const FigureInputs& inputs) {
  if (!inputs.contains("days")) return std::optional<int>{};
  const auto days = base::number_input(inputs, "days", 1.0, 390.0);
  if (!days) return tl::unexpected(days.error());
  return std::optional(static_cast<int>(*days));
}

double mean_on_last_pick(const StandLives& harvested, const StandLives& left) {
  double sum = 0.0;
  for (std::size_t m = 0; m < harvested.members.size(); ++m) {
    const int last = harvested.members[m].last_pick_day;
    if (last < 0) continue;
    sum += left.plant_g[m * left.day_count + static_cast<std::size_t>(last) - left.first_day];
  }
  return sum / static_cast<double>(harvested.members.size());
}

// What a plant weighs on the day asked for with nothing taken before; without a day what it has given at the
// end, of bulbs and tubers also those too small to take.
double plant_g(const CropWeather& weather, StandPlan plan, const Standing& standing) {
  plan.plants_per_clump = standing.per_clump;
  const double clump_mm2 = 1e6 * standing.per_clump / standing.plants_per_m2;
  SimulationOptions options;
  options.sampled_clumps = static_cast<std::size_t>(std::ceil(kSampledPlants / standing.per_clump));
  plan.spacing_mm = standing.row_mm ? clump_mm2 / *standing.row_mm : std::sqrt(clump_mm2);
  if (standing.row_mm) {
    plan.arrangement = Arrangement::rows;
    plan.row_spacing_mm = *standing.row_mm;
  }
  SimulationOptions left = options;
  left.leave_standing = true;
  if (standing.days) {
    left.watch = {plan.sow + base::Days{*standing.days}};
    return base::mean(simulate(weather, plan, {}, RaisingPlace{}, left).watched_g);
  }
  const StandLives harvested = simulate(weather, plan, {}, RaisingPlace{}, options);
  const auto part = weather.crop().harvest.part;
  if (part == crop::HarvestedPart::bulb || part == crop::HarvestedPart::tuber)
    return mean_on_last_pick(harvested, simulate(weather, plan, {}, RaisingPlace{}, left));
  std::vector<double> given;
  for (const MemberLife& life : harvested.members) given.push_back(life.taken_g);
  return base::mean(given);
}

std::string text_of(const Standing& standing) {
  std::string text = fmt::format("{} plants/m², {} a clump", standing.plants_per_m2, standing.per_clump);
  if (standing.row_mm) text += fmt::format(", rows {} mm apart", *standing.row_mm);
  return text;
}

base::Result<Explanation> ratio_figure(Explanation answer, const FigureInputs& inputs, const crop::Crop& crop,
                                       FigureStand stand) {
  const auto days = days_of(inputs);
  if (!days) return tl::unexpected(days.error());
  const auto one = standing_of(inputs, "", {.days = *days});
  if (!one) return tl::unexpected(one.error());
  Standing like = *one;
  like.row_mm.reset();
  const auto other = standing_of(inputs, "against_", like);
  if (!other) return tl::unexpected(other.error());
  const CropWeather weather = detail::felt_weather(stand, crop);
  const double first_g = plant_g(weather, stand.plan, *one), second_g = plant_g(weather, stand.plan, *other);
  if (!(second_g > 0.0)) {
    return base::fail(base::ProblemCode::infeasible, "the stand to compare with gives nothing",
                      {.field = "date"}, "Take another day, density or place");
  }
  const double ratio = first_g / second_g;
  answer.result = {{"plant_ratio", ratio, ""},
                   {"yield_ratio", ratio * one->plants_per_m2 / other->plants_per_m2, ""},
                   {"plant_g", first_g, "g"},
                   {"against_g", second_g, "g"}};
  answer.working = {fmt::format("{}: {:.4g} g a plant", text_of(*one), first_g),
                    fmt::format("{}: {:.4g} g a plant", text_of(*other), second_g), stand.ensemble.source};
  answer.source = {detail::kModel};
  return answer;
}

double skewness(const std::vector<double>& sample) {
  const double mean = base::mean(sample), sd = base::standard_deviation(sample);
  double sum = 0.0;
  for (const double each : sample) sum += std::pow((each - mean) / sd, 3.0);
  return sum / static_cast<double>(sample.size());
}

// The first day on which the mean plant of most years weighs so much; none when it never does.
std::optional<int> day_of_weight(const CropWeather& weather, const StandPlan& plan, double weight_g) {
  SimulationOptions options;
  options.leave_standing = true;
  const StandLives lives = simulate(weather, plan, {}, RaisingPlace{}, options);
  for (std::size_t day = 0; day < lives.day_count; ++day) {
    std::vector<double> sample;
    for (std::size_t m = 0; m < lives.members.size(); ++m)
      sample.push_back(lives.plant_g[m * lives.day_count + day]);
    if (base::quantiles(std::move(sample)).p50 >= weight_g) return static_cast<int>(day);
  }
  return std::nullopt;
}

struct Spread {
  double mean_g = 0.0, variation = 0.0, skewness = 0.0, edge_ratio = 0.0;  ///< means of the years
};

Spread spread_on(const CropWeather& weather, const StandPlan& plan, int day, int rows_across) {
  SimulationOptions options;
  options.sampled_clumps = kSpreadClumps;
  options.leave_standing = true;
  options.bed.rows_across = rows_across;
  options.watch = {plan.sow + base::Days{day}};
  const StandLives lives = simulate(weather, plan, {}, RaisingPlace{}, options);
  Spread spread;
  std::vector<double> edge, inner;
  const auto years = static_cast<double>(lives.members.size());
  for (std::size_t m = 0; m < lives.members.size(); ++m) {
    std::vector<double> sample;
    for (std::size_t c = 0; c < lives.clumps; ++c) {
      const double weight = lives.watched_g[m * lives.clumps + c];
      (lives.open_sides[c] > 0 ? edge : inner).push_back(weight);
      if (weight > 0.0) sample.push_back(weight);
    }
    if (sample.size() < 2) continue;
    spread.mean_g += base::mean(sample) / years;
    spread.variation += base::standard_deviation(sample) / base::mean(sample) / years;
    spread.skewness += skewness(sample) / years;
  }
  if (!edge.empty() && !inner.empty()) spread.edge_ratio = base::mean(edge) / base::mean(inner);
  return spread;
}

base::Result<int> spread_day(const FigureInputs& inputs, const CropWeather& weather, const StandPlan& plan) {
  const auto days = days_of(inputs);
  if (!days) return tl::unexpected(days.error());
  if (*days) return **days;
  const auto weight = base::number_input(inputs, "weight_g", 0.01, 1e5);
  if (!weight) return tl::unexpected(weight.error());
  const auto day = day_of_weight(weather, plan, *weight);
  if (day) return *day;
  return base::fail(base::ProblemCode::infeasible, "the plants never weigh so much", {.field = "weight_g"},
                    "Take a smaller weight");
}

base::Result<Explanation> spread_figure(Explanation answer, const FigureInputs& inputs,
                                        const crop::Crop& crop, FigureStand stand) {
  const auto density = base::number_input(inputs, "plants_per_m2", 0.1, 3000.0);
  if (!density) return tl::unexpected(density.error());
  const auto rows = number_or(inputs, "rows_across", 0.0, 0.0, 100.0);
  if (!rows) return tl::unexpected(rows.error());
  stand.plan.spacing_mm = 1000.0 / std::sqrt(*density);
  stand.plan.plants_per_clump = 1.0;
  const CropWeather weather = detail::felt_weather(stand, crop);
  const auto day = spread_day(inputs, weather, stand.plan);
  if (!day) return tl::unexpected(day.error());
  const Spread spread = spread_on(weather, stand.plan, *day, static_cast<int>(*rows));
  answer.result = {{"variation", spread.variation, ""},
                   {"skewness", spread.skewness, ""},
                   {"mean_g", spread.mean_g, "g"},
                   {"day", static_cast<double>(*day), "d after sowing"}};
  if (spread.edge_ratio > 0.0) answer.result.push_back({"edge_ratio", spread.edge_ratio, ""});
  answer.working = {
      fmt::format("{} single plants/m² on the square, {} days after sowing: standard deviation over mean of "
                  "{} plants, mean of {} years",
                  *density, *day, kSpreadClumps, stand.ensemble.member_count),
      stand.ensemble.source};
  answer.source = {detail::kModel};
  return answer;
}

// Weights a while after the largest of every clump were pulled, and of the same plants had none been.
struct LeftAlone {
  double pulled_g = 0.0, left_g = 0.0;  ///< mean of the plants that stay
};

LeftAlone after_pulling(const CropWeather& weather, const StandPlan& plan, int pull_day, int look_day) {
  SimulationOptions options;
  options.leave_standing = true;
  options.watch = {plan.sow + base::Days{look_day}};
  const StandLives untouched = simulate(weather, plan, {}, RaisingPlace{}, options);
  options.removal = Removal{.date = plan.sow + base::Days{pull_day}, .largest_per_clump = 1};
  const StandLives pulled = simulate(weather, plan, {}, RaisingPlace{}, options);
  LeftAlone sums;
  double plants = 0.0;
  for (std::size_t i = 0; i < pulled.watched_g.size(); ++i) {
    if (!(pulled.watched_g[i] > 0.0)) continue;
    sums.pulled_g += pulled.watched_g[i];
    sums.left_g += untouched.watched_g[i];
    ++plants;
  }
  if (!(plants > 0.0)) return {};
  return {sums.pulled_g / plants, sums.left_g / plants};
}

base::Result<Explanation> pulling_figure(Explanation answer, const FigureInputs& inputs,
                                         const crop::Crop& crop, const FigureStand& stand) {
  const auto pull = base::number_input(inputs, "pull_days", 1.0, 390.0);
  if (!pull) return tl::unexpected(pull.error());
  const auto days = base::number_input(inputs, "days", *pull, 390.0);
  if (!days) return tl::unexpected(days.error());
  const CropWeather weather = detail::felt_weather(stand, crop);
  const LeftAlone found =
      after_pulling(weather, stand.plan, static_cast<int>(*pull), static_cast<int>(*days));
  if (!(found.left_g > 0.0)) {
    return base::fail(base::ProblemCode::infeasible, "nothing stands on that day", {.field = "days"},
                      "Take other days");
  }
  answer.result = {{"ratio", found.pulled_g / found.left_g, ""},
                   {"pulled_g", found.pulled_g, "g"},
                   {"left_g", found.left_g, "g"}};
  answer.working = {
      fmt::format(
          "the largest of every clump of {} pulled {} days after sowing; {} days after sowing those that "
          "stay weigh {:.4g} g, and {:.4g} g where none was pulled",
          stand.plan.plants_per_clump, *pull, *days, found.pulled_g, found.left_g),
      stand.ensemble.source};
  answer.source = {detail::kModel};
  return answer;
}

base::Result<Explanation> course_figure(Explanation answer, const FigureInputs& inputs) {
  const std::string& name = inputs.find("trial")->second;
  const auto& all = trial_courses();
  const auto course =
      std::find_if(all.begin(), all.end(), [&](const auto& each) { return each.name == name; });
  if (course == all.end()) {
    std::vector<std::string> names;
    for (const TrialCourse& each : all) names.push_back(each.name);
    return base::fail(base::ProblemCode::not_found, fmt::format("there is no trial \"{}\"", name),
                      {.field = "trial"}, fmt::format("Trials: {}", fmt::join(names, ", ")));
  }
  const CourseAgreement found = agreement_with(*course);
  std::vector<std::string> dates;
  std::vector<double> observed;
  for (const CoursePoint& point : found.observed) {
    dates.push_back(base::to_iso(point.date));
    observed.push_back(point.dry_g_m2);
  }
  answer.result = {{"level", found.level, ""},
                   {"shape_pct", 100.0 * found.shape, "%"},
                   {"computed_g_m2", found.computed_g_m2, "g dry/m²"},
                   {"observed_g_m2", observed, "g dry/m²"},
                   {"on", dates, ""}};
  if (found.spread_low)
    answer.working.push_back(
        fmt::format("the trial's plots span {:.2f} to {:.2f} of their mean, median of the dates",
                    *found.spread_low, *found.spread_high));
  answer.working.push_back(fmt::format(
      "{} plants/m² sown {} in the trial's weather, fed and watered; the trial was {}", course->plants_per_m2,
      base::to_iso(found.sown), course->used_for_setting ? "used for setting the crop" : "held out"));
  if (course->transplant_dry_g)
    answer.working.push_back(fmt::format(
        "set out {} with {} g of dry matter a plant; sown as long before as that takes on a shelf",
        base::to_iso(*course->set_out), *course->transplant_dry_g));
  answer.working.push_back(
      "level: computed over observed, mean of the logarithms; shape: median departure from it");
  answer.source = {course->source, detail::kModel};
  return answer;
}

base::FigureKey crop_key() {
  return {"crop", "", true, "a crop of the library, for example beet"};
}
base::FigureKey date_key() {
  return {"date", "", true, "day of sowing, YYYY-MM-DD"};
}

}  // namespace

const std::vector<base::FigureDescription>& trial_figures() {
  static const std::vector<base::FigureDescription> figures{
      {"trial-course",
       "dry weight of the harvested organ through a field trial, computed in the trial's weather and "
       "observed",
       {{"trial", "", true, "for example \"Paterson 1993 potato\""}},
       "trial=\"Paterson 1993 potato\""},
      {"stand-ratio",
       "a plant at one density, grouping or distance of rows over one at another, all else the same",
       {crop_key(),
        detail::place_or_weather_key(),
        detail::weather_key(),
        date_key(),
        {"plants_per_m2", "", true, "plants on a square metre, however they are grouped"},
        {"plants_per_clump", "", false, "1 when left out"},
        {"row_spacing_mm", "mm", false, "from row to row; on the square when left out"},
        {"against_plants_per_m2", "", false, "of the other stand; the same when left out"},
        {"against_plants_per_clump", "", false, "of the other stand; the same when left out"},
        {"against_row_spacing_mm", "mm", false, "of the other stand; on the square when left out"},
        {"days", "d", false, "after sowing, nothing taken before; as they are harvested when left out"}},
       "crop=onion date=2026-03-20 plants_per_m2=100 against_plants_per_m2=50"},
      {"pulling-the-largest",
       "how much heavier the others grow when the largest of every clump is pulled",
       {crop_key(),
        detail::place_or_weather_key(),
        detail::weather_key(),
        date_key(),
        {"spacing_mm", "mm", false, "between clumps; the crop's own for large sizes when left out"},
        {"plants_per_clump", "", true, "2 to 12; the last of a clump is not pulled"},
        {"pull_days", "d", true, "after sowing: the largest are pulled"},
        {"days", "d", true, "after sowing: the others are weighed"}},
       "crop=beet place=Trier date=2026-05-10 spacing_mm=240 plants_per_clump=3 pull_days=70 days=84"},
      {"size-spread",
       "how unequal the plants of a stand are on a day, and how much heavier those at the edge",
       {crop_key(),
        detail::place_or_weather_key(),
        detail::weather_key(),
        date_key(),
        {"plants_per_m2", "", true, "single plants on a square metre"},
        {"days", "d", false, "after sowing; this or weight_g"},
        {"weight_g", "g", false, "on the day on which the mean plant weighs so much"},
        {"rows_across", "", false, "rows across the bed, the outer ones at its edges; none when left out"}},
       "crop=radish place=Oxford date=2026-05-01 plants_per_m2=1550 days=38 rows_across=8"}};
  return figures;
}

base::Result<Explanation> trial_figure(std::string_view name, const FigureInputs& inputs,
                                       const crop::CropLibrary& library,
                                       const climate::WeatherRecord* record) {
  const auto& all = trial_figures();
  const auto found =
      std::find_if(all.begin(), all.end(), [&](const auto& each) { return each.name == name; });
  if (found == all.end())
    return base::fail(base::ProblemCode::not_found, fmt::format("there is no figure {}", name));
  if (auto ok = base::check_keys(*found, inputs); !ok) return tl::unexpected(ok.error());
  Explanation answer = detail::begin_answer(*found, inputs);
  if (name == "trial-course") return course_figure(std::move(answer), inputs);
  const auto crop = library.find(inputs.find("crop")->second);
  if (!crop) return tl::unexpected(crop.error());
  const auto date = base::parse_iso_date(inputs.find("date")->second);
  if (!date) return tl::unexpected(date.error());
  auto stand = detail::figure_stand(inputs, **crop, record, *date);
  if (!stand) return tl::unexpected(stand.error());
  if (name == "stand-ratio") return ratio_figure(std::move(answer), inputs, **crop, std::move(*stand));
  if (name == "pulling-the-largest") return pulling_figure(std::move(answer), inputs, **crop, *stand);
  return spread_figure(std::move(answer), inputs, **crop, std::move(*stand));
}

}  // namespace sowtide::stand
