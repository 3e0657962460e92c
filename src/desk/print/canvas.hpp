// Paper to draw on: pages of a PDF in millimetres from the top left, with set type, vector shapes and shades.
//
// The only place that knows the drawing library (cairo, with pango for the type). Text is real text (it can
// be searched, copied and read aloud), fonts are embedded as subsets, and the same input gives the same
// bytes.
//
//     Canvas canvas({.paper = Paper::a4, .title = "Season"});
//     canvas.begin_page();
//     canvas.text({14.0, 20.0}, "Gate bed", {.size_pt = 12.0, .bold = true});
//     std::string pdf = canvas.finish();
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/date.hpp"

namespace sowtide::desk::print {

enum class Paper { a4, letter };
enum class Turn { upright, wide };

/// Width and height of a sheet, mm. A4: ISO 216; Letter: 8.5 x 11 inches, ANSI/ASME Y14.1 (both from memory).
struct Extent {
  double width = 0.0, height = 0.0;
};
[[nodiscard]] Extent paper_extent(Paper paper, Turn turn) noexcept;

struct Point {
  double x = 0.0, y = 0.0;
};

struct Box {
  double x = 0.0, y = 0.0, width = 0.0, height = 0.0;
  [[nodiscard]] double right() const { return x + width; }
  [[nodiscard]] double bottom() const { return y + height; }
};

struct Colour {
  double red = 0.0, green = 0.0, blue = 0.0, alpha = 1.0;
};

/// The colours of docs/decisions/0004-visual-language.md, on white paper.
inline constexpr Colour kInk{0.145, 0.129, 0.106};
inline constexpr Colour kInkSoft{0.357, 0.325, 0.278};
inline constexpr Colour kRule{0.839, 0.804, 0.737};
inline constexpr Colour kRuleStrong{0.522, 0.482, 0.412};
inline constexpr Colour kSoil{0.953, 0.933, 0.894};
inline constexpr Colour kReadyLow{0.945, 0.867, 0.816};
inline constexpr Colour kReadyHigh{0.592, 0.188, 0.169};
inline constexpr Colour kAct{0.090, 0.290, 0.467};
inline constexpr Colour kWhite{1.0, 1.0, 1.0};

/// The shade of a chance 0..1 of being ready, paled to the white of the paper by the chance of being gone.
/// (Mixed rather than transparent: a transparent shade costs ten times as much in a PDF.)
[[nodiscard]] Colour ready_shade(double chance, double presence = 1.0) noexcept;

enum class Align { left, middle, right };

struct TextStyle {
  double size_pt = 8.5;
  bool bold = false;
  bool heading = false;  ///< the face of titles
  Colour colour = kInk;
  Align align = Align::left;
  double width_mm = 0.0;  ///< room to set in; 0: one line as long as it is
  int lines = 0;          ///< at most so many lines, then an ellipsis; 0: as many as it takes
  bool halo = false;      ///< a pale plate behind it, for words upon a shade
};

struct Stroke {
  double width_mm = 0.2;
  Colour colour = kInk;
  std::vector<double> dash_mm;
};

/// One stop of a shade along a box, from its left edge (0) to its right (1).
struct ShadeStop {
  double offset = 0.0;
  Colour colour;
};

struct DocumentInfo {
  Paper paper = Paper::a4;
  Turn turn = Turn::upright;
  std::string title;
  base::Date date{};    ///< written into the file as its day, so that the same input gives the same bytes
  bool unseen = false;  ///< nothing is drawn, only measured: to count pages
};

/// True when the system has any font to set type with.
[[nodiscard]] bool has_fonts();

class Canvas {
 public:
  /// `measured` lends the sizes of texts it has measured already.
  explicit Canvas(const DocumentInfo& info, const Canvas* measured = nullptr);
  ~Canvas();
  Canvas(const Canvas&) = delete;
  Canvas& operator=(const Canvas&) = delete;

  [[nodiscard]] Extent extent() const;
  /// Ends the page before, if any. `bookmark` names it in the reader's list of contents.
  void begin_page(std::string_view bookmark = {});
  /// Ends the document. Nothing can be drawn afterwards.
  [[nodiscard]] std::string finish();

  /// Sets text with its first line's top at `at` and returns its height. With a width, right- and
  /// middle-aligned text stands within it; without one it ends or is centred at `at`.
  double text(Point at, std::string_view words, const TextStyle& style = {});
  /// Size that `text` would take.
  [[nodiscard]] Extent measure(std::string_view words, const TextStyle& style = {}) const;

  void line(Point from, Point to, const Stroke& stroke = {});
  void polyline(const std::vector<Point>& points, const Stroke& stroke = {});
  void area(const std::vector<Point>& points, Colour fill);
  void fill(const Box& box, Colour colour);
  void outline(const Box& box, const Stroke& stroke = {});
  /// A shade along the box; stops in order, at least one.
  void shade(const Box& box, const std::vector<ShadeStop>& stops);
  void circle(Point centre, double radius_mm, const std::optional<Colour>& fill, const Stroke& stroke = {});
  /// Dots `step_mm` apart over the box: free room.
  void dots(const Box& box, double step_mm, Colour colour);
  /// Slanted lines over the box.
  void hatch(const Box& box, double step_mm, const Stroke& stroke);
  /// Many small filled boxes as one shape.
  void cells(const std::vector<Box>& boxes, Colour colour);
  /// Draws with everything outside the box cut off.
  void clipped(const Box& box, const std::function<void()>& draw);
  /// Makes the box open an address when clicked.
  void link(const Box& box, std::string_view address);
  /// Marks what `draw` draws as a heading of the document, for readers that follow its structure.
  void as_heading(const std::function<void()>& draw);

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace sowtide::desk::print
