// An invented garden of any size with a season on it, for the checks and the timing of what is printed.
#pragma once

#include <fmt/format.h>

#include <array>
#include <stdexcept>

#include "desk/season.hpp"
#include "made_up_places.hpp"

namespace sowtide::desk {

/// Cool springs and warm summers; twelve normals, no record.
inline book::GardenDescription print_garden(std::size_t beds, std::size_t stands_per_bed) {
  book::GardenDescription garden = garden_of_cool_springs("Löwenzahn & Söhne");
  garden.trays.push_back({.id = "t", .name = "Shelf", .cells = 60, .temp_c = 19.0});
  garden.trays.push_back({.id = "m",
                          .name = "Mat, warm; by the door",
                          .cells = 24,
                          .place = bed::TrayPlace::heat_mat,
                          .temp_c = 24.0});
  garden.varieties.push_back({.id = "v", .name = "Rubycoil", .crop = "beet"});
  constexpr std::array<const char*, 6> kCrops{"beet", "lettuce", "bush-bean", "tomato", "carrot", "spinach"};
  for (std::size_t b = 0; b < beds; ++b) {
    const std::string id = fmt::format("b{}", b + 1);
    garden.beds.push_back({.id = id, .name = fmt::format("Bed {}", b + 1), .length_m = 4.0, .width_m = 1.2});
    for (std::size_t s = 0; s < stands_per_bed; ++s) {
      stand::StandPlan plan;
      plan.id = fmt::format("s{}", garden.stands.size() + 1);
      plan.crop = kCrops[(b + s) % kCrops.size()];
      if (plan.crop == "beet") plan.variety = "v";
      const bool tray = plan.crop == "tomato" || plan.crop == "lettuce";
      plan.method = tray ? stand::Method::start_indoors : stand::Method::direct_sow;
      if (tray) plan.tray = std::string(1, plan.crop == "tomato" ? 'm' : 't');
      plan.sow = base::date_of(2026, 4, 1) + base::Days{static_cast<int>(7 * s)};
      const double length = 4.0 / static_cast<double>(stands_per_bed);
      plan.bed = id;
      plan.from_m = length * static_cast<double>(s);
      plan.to_m = plan.from_m + length;
      plan.clumps = 12;
      plan.cells = 12;
      plan.spacing_mm = 200.0;
      plan.seeds_per_cell = 2.0;
      garden.stands.push_back(plan);
    }
  }
  garden.wants.push_back({.id = "w1",
                          .crop = "beet",
                          .group = {},
                          .variety = {},
                          .amount_per_week = 500.0,
                          .from = {6, 1},
                          .to = {11, 15}});
  garden.wants.push_back({.id = "w2",
                          .crop = {},
                          .group = "salad",
                          .variety = {},
                          .amount_per_week = 4.0,
                          .unit = plan::WantUnit::servings});
  return garden;
}

inline Season print_season_of(book::GardenDescription garden, const std::vector<book::Event>& events,
                              base::Date today) {
  auto season = make_season(crop::built_in_library(), std::move(garden), events, today);
  if (!season) throw std::runtime_error(base::to_text(season.error()));
  return std::move(*season);
}

}  // namespace sowtide::desk
