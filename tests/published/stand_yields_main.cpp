// Prints the table of docs/models/stand.md: yields of every crop against published ranges; a star marks what
// lies outside.
#include <fmt/format.h>

#include <array>
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
  const auto season = [&](const std::string& name) {
    auto& slot = places[name];
    if (!slot) slot = std::make_unique<yields::Place>(name);
    return slot->season;
  };
  std::size_t inside = 0, all = 0;
  std::array<std::size_t, yields::kHeldOutPlaces.size()> elsewhere{}, grown{};
  fmt::print("| crop | place | published | figures | computed | days |");
  for (const char* place : yields::kHeldOutPlaces) fmt::print(" {} |", place);
  fmt::print(" row published | sources | row computed |\n");
  for (const auto& published : yields::published_yields()) {
    if (argc > 1 && published.crop != argv[1]) continue;
    const auto& crop = **sowtide::crop::built_in_library().find(published.crop);
    const CropWeather weather(crop, season(published.place));
    if (argc > 1) explain(weather);
    const auto found = garden_yield(weather);
    const bool fits = yields::inside(published, found.kg_m2);
    ++all;
    inside += fits ? 1 : 0;
    fmt::print("| {} | {} | {:.2f} to {:.2f} | {} | {:.2f}{} | {:.0f} |", published.crop, published.place,
               published.low_kg_m2, published.high_kg_m2, published.figures, found.kg_m2, fits ? "" : " *",
               found.days);
    for (std::size_t i = 0; i < elsewhere.size(); ++i) {
      const double there = garden_yield(CropWeather(crop, season(yields::kHeldOutPlaces[i]))).kg_m2;
      const bool fits_there = yields::inside(published, there);
      grown[i] += there > 0.0 ? 1 : 0;
      elsewhere[i] += fits_there ? 1 : 0;
      fmt::print(" {:.2f}{} |", there, fits_there ? "" : " *");
    }
    if (published.row_high_kg_m > 0.0) {
      fmt::print(" {:.2f} to {:.2f} | {} | {:.2f} |\n", published.row_low_kg_m, published.row_high_kg_m,
                 published.row_sources.size(),
                 row_yield_kg_m(CropWeather(crop, season(yields::row_place(published))),
                                yields::charted_row(published.crop)));
    } else {
      fmt::print(" - | - | - |\n");
    }
  }
  fmt::print("\n{} of {} inside; held out:", inside, all);
  for (std::size_t i = 0; i < elsewhere.size(); ++i)
    fmt::print(" {} {} of the {} that yield there;", yields::kHeldOutPlaces[i], elsewhere[i], grown[i]);
  fmt::print("\n");
}
