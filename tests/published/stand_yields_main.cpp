// Prints the table of docs/models/stand.md: yields of every crop against published ranges.
#include <fmt/format.h>

#include <map>
#include <memory>

#include "stand_yields.hpp"

namespace {

/// Sowing days of one crop, with what spoils them.
void explain(const sowtide::stand::CropWeather& weather) {
  using namespace sowtide;
  for (int month = 1; month <= 12; ++month) {
    stand::StandPlan plan;
    plan.id = weather.crop().id;
    plan.crop = weather.crop().id;
    plan.sow = base::date_of(2026, month, 1);
    plan.spacing_mm = weather.crop().place.spacing_large_mm;
    plan.method =
        weather.crop().nursery.can_direct_sow ? stand::Method::direct_sow : stand::Method::start_indoors;
    const auto seen = stand::outlook(weather, plan, {}, stand::RaisingPlace{});
    if (!seen) continue;
    std::string text = fmt::format("  {:2}: success {:.2f} {}", month, seen->success, seen->limits);
    for (const auto& event : seen->events)
      text += fmt::format("; {} {}", event.name, base::to_iso(event.p50));
    if (!seen->plant_weight_g.empty()) text += fmt::format("; {:.0f} g", seen->plant_weight_g.back().p50);
    fmt::print("{}\n", text);
  }
}

}  // namespace

int main(int argc, char** argv) {
  using namespace sowtide::stand;
  std::map<std::string, std::unique_ptr<yields::Place>> places;
  const auto place = [&](const std::string& name) -> const yields::Place& {
    auto& slot = places[name];
    if (!slot) slot = std::make_unique<yields::Place>(name);
    return *slot;
  };
  fmt::print("{:17} {:16} {:>6} {:>6} {:>7} {:>5} {:>6}  {:>6} {:>6}\n", "crop", "place", "low", "high",
             "found", "days", "sown", "row", "found");
  for (const auto& published : yields::published_yields()) {
    if (argc > 1 && published.crop != argv[1]) continue;
    const auto& crop = **sowtide::crop::built_in_library().find(published.crop);
    const auto found = garden_yield(CropWeather(crop, place(published.place).season));
    const double row =
        published.row_kg_m > 0.0 ? row_yield_kg_m(CropWeather(crop, place("North Platte NE").season)) : 0.0;
    const bool inside = found.kg_m2 >= published.low_kg_m2 && found.kg_m2 <= published.high_kg_m2;
    const bool near = found.kg_m2 >= published.low_kg_m2 / 1.5 && found.kg_m2 <= published.high_kg_m2 * 1.5;
    if (argc > 1) explain(CropWeather(crop, place(published.place).season));
    fmt::print("{:17} {:16} {:6.2f} {:6.2f} {:7.2f} {:5.0f} {:>6}  {:6.2f} {:6.2f} {}\n", published.crop,
               published.place, published.low_kg_m2, published.high_kg_m2, found.kg_m2, found.days,
               sowtide::base::to_iso(found.best).substr(5), published.row_kg_m, row,
               inside ? ""
               : near ? "near"
                      : "OUTSIDE");
  }
}
