// Beds and trays: where stands stand. A bed is a strip: a stand takes a stretch of its length for a time.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/date.hpp"
#include "base/problem.hpp"

namespace sowtide::bed {

enum class SunClass { full, partial, shade };  ///< six hours of direct sun or more; three to six; less
enum class BedKind { raised, ground };
/// Which end of a bed's length lies towards the nearer pole: north in the northern hemisphere. What stands there
/// throws its noon shadow away from the bed. `neither`: the bed lies east to west.
enum class PoleEnd { neither, start, end };

struct Bed {
  std::string id;
  std::string name;
  double length_m = 0.0;
  double width_m = 0.0;
  SunClass sun = SunClass::full;
  BedKind kind = BedKind::raised;
  bool fed = false;  ///< compost or manure was dug in this year
  PoleEnd pole_end = PoleEnd::neither;  ///< start: at 0 m
};

enum class TrayPlace { indoors, heat_mat, cold_frame, outdoors };

struct Tray {
  std::string id;
  std::string name;
  int cells = 0;  ///< in all trays of this kind together
  double cell_width_mm = 40.0;
  TrayPlace place = TrayPlace::indoors;
  double temp_c = 20.0;  ///< of the medium, indoors and on a mat
  /// On a heat mat: cells that have room on it at once; a sowing stands there until its seed is up. 0: all
  /// have.
  int mat_cells = 0;
  /// On a heat mat: of where seedlings stand off the mat, once they are up; nothing: they are reckoned at
  /// `temp_c` until they are set out.
  std::optional<double> room_c;
};

/// What grew where before the garden file began, for rotation.
struct PastCrop {
  std::string bed;
  double from_m = 0.0, to_m = 0.0;
  std::string family;
  int year = 0;
};

/// A stretch of a bed for a time: from_m included, to_m excluded, days both included.
struct Occupancy {
  std::string bed;
  double from_m = 0.0, to_m = 0.0;
  base::Date first{}, last{};
};

/// True when two occupancies need the same place on the same day (stretches that only touch do not).
[[nodiscard]] bool overlap(const Occupancy& a, const Occupancy& b) noexcept;

/// How many clumps at a spacing fit across the width: 1 when the bed is at least half the spacing wide, 0
/// below.
[[nodiscard]] int clumps_across(const Bed& bed, double spacing_mm) noexcept;

}  // namespace sowtide::bed
