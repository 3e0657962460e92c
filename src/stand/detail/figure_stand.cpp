#include "stand/detail/figure_stand.hpp"

#include <memory>

#include "climate/places.hpp"

namespace sowtide::stand::detail {
namespace {

constexpr const char* kUsualPlace = "Olympia WA";

}  // namespace

base::FigureKey place_or_weather_key() {
  return {"place", "", false, "a built-in place with monthly normals; this or weather, else Olympia WA"};
}

base::FigureKey weather_key() {
  return {"weather", "", false, "a garden, or a weather file, whose years are lived"};
}

base::Explanation begin_answer(const base::FigureDescription& figure, const base::FigureInputs& inputs) {
  base::Explanation answer;
  answer.name = figure.name;
  for (const base::FigureKey& key : figure.keys) {
    if (const auto found = inputs.find(key.name); found != inputs.end()) {
      answer.inputs.push_back({key.name, found->second, key.unit});
    }
  }
  return answer;
}

base::Result<double> number_or(const base::FigureInputs& inputs, const std::string& key, double fallback,
                               double low, double high) {
  if (inputs.find(key) == inputs.end()) return fallback;
  return base::number_input(inputs, key, low, high);
}

base::Result<climate::WeatherEnsemble> figure_weather(const base::FigureInputs& inputs,
                                                      const climate::WeatherRecord* record,
                                                      const climate::EnsembleOptions& options) {
  const auto named = inputs.find("place");
  if (record != nullptr && named != inputs.end()) {
    return base::fail(base::ProblemCode::contradiction, "only one of weather and place can be meant",
                      {.field = "weather"}, "Give one of them");
  }
  if (record != nullptr) return climate::ensemble_from_record(*record, options);
  const auto place = climate::find_place(named == inputs.end() ? kUsualPlace : named->second);
  if (!place) return tl::unexpected(place.error());
  return climate::ensemble_from_normals(*place, options);
}

base::Result<FigureStand> figure_stand(const base::FigureInputs& inputs, const crop::Crop& crop,
                                       const climate::WeatherRecord* record, base::Date sow) {
  const auto spacing = number_or(inputs, "spacing_mm", crop.place.spacing_large_mm, 5.0, 5000.0);
  if (!spacing) return tl::unexpected(spacing.error());
  const auto plants = number_or(inputs, "plants_per_clump", 1.0, 1.0, 12.0);
  if (!plants) return tl::unexpected(plants.error());
  climate::EnsembleOptions options;
  options.first = sow;
  options.day_count = 400;
  auto ensemble = figure_weather(inputs, record, options);
  if (!ensemble) return tl::unexpected(ensemble.error());
  FigureStand made;
  made.ensemble = std::move(*ensemble);
  made.plan.id = "figure";
  made.plan.crop = crop.id;
  made.plan.sow = sow;
  made.plan.spacing_mm = *spacing;
  made.plan.plants_per_clump = *plants;
  made.plan.method = crop.nursery.can_direct_sow ? Method::direct_sow : Method::start_indoors;
  return made;
}

CropWeather felt_weather(const FigureStand& stand, const crop::Crop& crop) {
  return CropWeather(crop, std::make_shared<const SeasonWeather>(stand.ensemble));
}

}  // namespace sowtide::stand::detail
