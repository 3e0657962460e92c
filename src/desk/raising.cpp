#include "desk/raising.hpp"

#include <tuple>

#include "base/parallel.hpp"

namespace sowtide::desk {

const bed::Tray* tray_of(const book::GardenDescription& garden, const stand::StandPlan& plan) noexcept {
  for (const bed::Tray& tray : garden.trays) {
    if (tray.id == plan.tray) return &tray;
  }
  return nullptr;
}

std::optional<stand::RaisingPlace> raising_of(const book::GardenDescription& garden,
                                              const stand::StandPlan& plan) {
  return stand::raising_of(plan, tray_of(garden, plan));
}

bool set_in_cells(const crop::Crop& crop, const stand::StandPlan& plan) noexcept {
  return crop.seed.planting_piece && plan.method == stand::Method::start_indoors;
}

CropWeathers::CropWeathers(const Season& season, const std::vector<std::size_t>& stands) {
  for (const std::size_t i : stands) {
    const stand::StandPlan& plan = season.state.stands[i].plan;
    felt_.try_emplace({plan.crop, plan.variety}, nullptr);
  }
  if (felt_.empty()) return;
  const auto shared = felt_weather_of(season);
  std::vector<decltype(felt_)::value_type*> entries;
  for (auto& entry : felt_) entries.push_back(&entry);
  base::parallel_for(entries.size(), [&](std::size_t i) {
    stand::StandPlan plan;
    std::tie(plan.crop, plan.variety) = entries[i]->first;
    const auto crop = crop_of(season, plan);
    if (crop) {
      entries[i]->second = std::make_unique<stand::CropWeather>(*crop, shared);
    } else {
      entries[i]->second = tl::make_unexpected(crop.error());
    }
  });
}

base::Result<const stand::CropWeather*> CropWeathers::of(const stand::StandPlan& plan) const {
  const auto found = felt_.find({plan.crop, plan.variety});
  if (found == felt_.end()) {
    return base::fail(base::ProblemCode::internal, "the crop " + plan.crop + " was not prepared");
  }
  if (!found->second) return tl::make_unexpected(found->second.error());
  return found->second->get();
}

}  // namespace sowtide::desk
