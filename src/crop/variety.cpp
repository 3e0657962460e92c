#include <cmath>

#include "crop/crop.hpp"

namespace sowtide::crop {
namespace {

void scale(Figure& figure, double factor) {
  figure.value *= factor;
  if (figure.low) *figure.low *= factor;
  if (figure.high) *figure.high *= factor;
}

}  // namespace

Crop with_variety(const Crop& crop, const Variety& variety) {
  Crop made = crop;
  Growth& growth = made.growth;
  for (Figure* figure :
       {&growth.organ_start_cd, &growth.organ_full_cd, &growth.maturity_cd, &growth.decline_cd}) {
    scale(*figure, variety.earliness);
  }
  Harvest& harvest = made.harvest;
  for (Figure* figure : {&harvest.smallest_g, &harvest.small_g, &harvest.large_g, &harvest.over_size_g}) {
    scale(*figure, variety.size);
  }
  for (std::optional<Figure>* diameter : {&harvest.small_diameter_mm, &harvest.large_diameter_mm}) {
    if (*diameter) scale(**diameter, std::cbrt(variety.size));
  }
  if (made.limits.vernal_days) scale(*made.limits.vernal_days, variety.bolting_resistance);
  if (variety.single_germ) {
    made.seed.embryos = {1.0};
    made.seed.embryos_source = "variety bred to one seedling a seed";
  }
  return made;
}

}  // namespace sowtide::crop
