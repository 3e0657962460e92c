// The sheets, one source file each. Each draws all its pages; labels fill their own grid, the others stand in
// the frame of `Pages`.
#pragma once

#include "desk/print/page.hpp"
#include "desk/print/print.hpp"
#include "desk/print/words.hpp"

namespace sowtide::desk::print {

struct SeasonSheet {
  const Season& season;
  const Words& words;
  const Options& options;
};

void draw_labels(const SeasonSheet& sheet, const LabelGrid& grid, Canvas& canvas);
void draw_sowing_sheet(const SeasonSheet& sheet, Canvas& canvas, Pages& pages);
void draw_bed_sheets(const SeasonSheet& sheet, Canvas& canvas, Pages& pages);
void draw_season(const SeasonSheet& sheet, Canvas& canvas, Pages& pages);
void draw_table(const SeasonSheet& sheet, Canvas& canvas, Pages& pages);

/// "22 cells, 4 seeds in each", "60 places 11 cm apart, 2 seeds in each".
[[nodiscard]] std::string sowing_amount(const SeasonSheet& sheet, const stand::StandPlan& plan);
/// Where it is sown: its tray, or its stretch of bed.
[[nodiscard]] std::string sowing_place(const SeasonSheet& sheet, const stand::StandPlan& plan);

/// A page that says in words why there is nothing on it and what to do.
void draw_nothing(const std::string& text, Canvas& canvas, Pages& pages);

}  // namespace sowtide::desk::print
