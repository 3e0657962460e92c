// Two invented places that the desk's tests garden at: round monthly normals, no record.
#pragma once

#include <string>

#include "book/garden.hpp"

namespace sowtide::desk {

/// A garden without beds or wants where the months are as told.
inline book::GardenDescription garden_at(const std::string& name, const climate::Site& site,
                                         const climate::MonthlyNormals& normals) {
  book::GardenDescription garden;
  garden.name = name;
  garden.site = site;
  garden.normals = normals;
  return garden;
}

/// In a mild northern place with cool springs and warm summers.
inline book::GardenDescription garden_of_cool_springs(const std::string& name) {
  climate::MonthlyNormals normals;
  normals.tmax_c = {8, 10, 12, 15, 19, 22, 25, 25, 21, 16, 11, 8};
  normals.tmin_c = {2, 2, 4, 5, 8, 11, 13, 13, 11, 8, 4, 2};
  normals.precip_mm = {140, 90, 95, 70, 50, 40, 18, 22, 38, 88, 165, 137};
  return garden_at(name, {"Test", 47.0, -122.0, 100.0}, normals);
}

/// The same where late summer is a degree warmer.
inline book::GardenDescription garden_of_warm_summers(const std::string& name) {
  climate::MonthlyNormals normals;
  normals.tmax_c = {8, 10, 12, 15, 19, 22, 26, 26, 22, 16, 11, 8};
  normals.tmin_c = {2, 2, 4, 6, 9, 12, 14, 14, 12, 8, 5, 2};
  normals.precip_mm = {142, 89, 94, 69, 48, 37, 18, 22, 38, 88, 167, 145};
  return garden_at(name, {name, 47.5, -122.3, 100.0}, normals);
}

}  // namespace sowtide::desk
