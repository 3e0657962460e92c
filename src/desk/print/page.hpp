// What all sheets share: the frame of a page, tables that break over pages, and the axis of time.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "desk/print/canvas.hpp"
#include "desk/print/print.hpp"
#include "desk/print/words.hpp"

namespace sowtide::desk::print {

/// The words around a sheet.
struct PageTexts {
  std::string title;
  std::string garden;  ///< or place
  std::string note;    ///< at the foot: where the weather is from
  std::string day;     ///< "as of 20 Jan 2027", or empty
};

/// Hands out pages with their frame: a heavy edge beside the title, and the page number of all pages. The
/// total is known from a first, unseen run of the same drawing.
class Pages {
 public:
  Pages(Canvas& canvas, const Words& words, PageTexts texts, int total)
      : canvas_(&canvas), words_(&words), texts_(std::move(texts)), total_(total) {}

  /// Begins a page and returns the room for its content. `lead` is set below the title.
  Box next(const std::string& bookmark = {}, const std::string& lead = {});
  [[nodiscard]] int count() const { return count_; }
  /// The room that a page with a lead of one line gives.
  [[nodiscard]] Box room() const;

 private:
  Canvas* canvas_;
  const Words* words_;
  PageTexts texts_;
  int total_ = 0;
  int count_ = 0;
};

struct Column {
  std::string head;
  double width_mm = 20.0;
  Align align = Align::left;
  bool bold = false;
};

/// A table set row by row; cells wrap, rows are as high as their highest cell.
class Rows {
 public:
  /// Columns are widened or narrowed together to fill `width_mm`.
  Rows(Canvas& canvas, std::vector<Column> columns, double width_mm, double size_pt = 8.0);
  [[nodiscard]] double head_height() const;
  [[nodiscard]] double height(const std::vector<std::string>& cells) const;
  /// Both return the y below what was drawn.
  double head(double x, double y) const;
  double row(double x, double y, const std::vector<std::string>& cells) const;
  [[nodiscard]] const std::vector<Column>& columns() const { return columns_; }

 private:
  [[nodiscard]] TextStyle style(const Column& column, bool head) const;
  Canvas* canvas_;
  std::vector<Column> columns_;
  double size_pt_;
};

/// Space above and below the words of a row, and between columns, mm.
inline constexpr double kRowPadMm = 0.9;
inline constexpr double kColumnGapMm = 2.0;

/// Days across the page.
struct TimeAxis {
  base::Date first{}, end{};  ///< end not included
  double left = 0.0, width = 0.0;
  [[nodiscard]] double x(base::Date day) const;
  [[nodiscard]] double clamped_x(base::Date day) const;
};

/// Names of the months above `area`, a line down it at each month's begin, and one at `today` when it lies
/// inside.
void draw_months(Canvas& canvas, const Words& words, const TimeAxis& axis, const Box& area, base::Date today);
inline constexpr double kMonthsHeightMm = 5.0;

/// The patch of a stay: shaded by the chance of being ready, fading at its uncertain end; a dashed rim when
/// only planned; notches at the first pick of 1, 5 and 9 years in 10; `words_in_it` where they fit.
void draw_patch(Canvas& canvas, const TimeAxis& axis, const Season& season, const Stay& stay, double top,
                double height, const std::string& words_in_it);
/// How to read patches, in `room`; returns its height.
double draw_patch_legend(Canvas& canvas, const Words& words, const Box& room);

/// Variety and crop of a stand: "Beet Rubycoil".
[[nodiscard]] std::string stand_name(const Season& season, const Words& words, const stand::StandPlan& plan);
/// "45 x 4, 23 cm apart": clumps, where they are several the plants of each, and their distance where there
/// is more than one.
[[nodiscard]] std::string plants_of(const Words& words, const stand::StandPlan& plan);
/// The variety's name; "" where the plan names none.
[[nodiscard]] std::string variety_of(const Season& season, const stand::StandPlan& plan);
[[nodiscard]] const bed::Tray* tray_of(const Season& season, const std::string& id);
/// "Gate bed, 0.66 to 1.41 m": where it stands in its bed, or is to; "" where the garden has no such bed.
[[nodiscard]] std::string place_of(const Season& season, const Words& words, const stand::StandPlan& plan);
/// "early – late" of a moment, or "–" without it.
[[nodiscard]] std::string moment_days(const std::vector<Moment>& moments, Moment::Kind kind,
                                      const Words& words, base::Date reference);
[[nodiscard]] const Moment* moment_of(const std::vector<Moment>& moments, Moment::Kind kind);

/// One kind of sheet, drawn upon `pages`; called twice, first to count.
using Sheet = std::function<void(Canvas&, Pages&)>;

}  // namespace sowtide::desk::print
