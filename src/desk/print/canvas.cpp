#include "desk/print/canvas.hpp"

#include <cairo-pdf.h>
#include <fmt/format.h>
#include <pango/pangocairo.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <unordered_map>

namespace sowtide::desk::print {
namespace {

constexpr double kPointsPerMillimetre = 72.0 / 25.4;
constexpr double kHaloMm = 0.55;
constexpr Colour kPlate{1.0, 1.0, 1.0, 0.75};
constexpr Extent kA4{210.0, 297.0};
constexpr Extent kLetter{215.9, 279.4};
/// The names after the first serve where it is not installed, and letters that it lacks.
constexpr const char* kTextFamily = "Lato, DejaVu Sans, sans-serif";
constexpr const char* kHeadingFamily = "Vollkorn, DejaVu Serif, serif";

cairo_status_t append(void* closure, const unsigned char* data, unsigned int length) {
  static_cast<std::string*>(closure)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

/// "4.4 °C", "0.66 m", "95 %": a blank between a figure and its unit does not break.
std::string with_bound_units(const std::string& text) {
  static constexpr std::array<std::string_view, 13> kUnits{"mm", "cm", "m",  "km", "g",  "kg", "°C",
                                                           "°F", "%",  "in", "ft", "oz", "lb"};
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool after_figure = i > 0 && text[i] == ' ' && text[i - 1] >= '0' && text[i - 1] <= '9';
    const std::string_view rest = after_figure ? std::string_view(text).substr(i + 1) : std::string_view{};
    const std::string_view word = rest.substr(0, rest.find_first_of(" ,.;:)\n"));
    const bool unit = after_figure && std::find(kUnits.begin(), kUnits.end(), word) != kUnits.end();
    out += unit ? std::string("\u00a0") : std::string(1, text[i]);
  }
  return out;
}

/// Text that pango takes: valid UTF-8 without control characters.
std::string clean(std::string_view words) {
  gchar* valid = g_utf8_make_valid(words.data(), static_cast<gssize>(words.size()));
  std::string out(valid);
  g_free(valid);
  std::replace_if(
      out.begin(), out.end(), [](char c) { return static_cast<unsigned char>(c) < 0x20U && c != '\n'; }, ' ');
  return out;
}

PangoAlignment pango_align(Align align) {
  switch (align) {
    case Align::left:
      return PANGO_ALIGN_LEFT;
    case Align::middle:
      return PANGO_ALIGN_CENTER;
    case Align::right:
      return PANGO_ALIGN_RIGHT;
  }
  return PANGO_ALIGN_LEFT;
}

template <class T>
struct Unref {
  void operator()(T* object) const { g_object_unref(object); }
};

struct FreeFont {
  void operator()(PangoFontDescription* font) const { pango_font_description_free(font); }
};

}  // namespace

Extent paper_extent(Paper paper, Turn turn) noexcept {
  const Extent upright = paper == Paper::a4 ? kA4 : kLetter;
  return turn == Turn::upright ? upright : Extent{upright.height, upright.width};
}

Colour ready_shade(double chance, double presence) noexcept {
  const double c = std::clamp(chance, 0.0, 1.0);
  const auto mix = [c, presence](double low, double high) {
    return 1.0 - presence * (1.0 - low - c * (high - low));
  };
  return {mix(kReadyLow.red, kReadyHigh.red), mix(kReadyLow.green, kReadyHigh.green),
          mix(kReadyLow.blue, kReadyHigh.blue)};
}

bool has_fonts() {
  PangoFontFamily** families = nullptr;
  int count = 0;
  pango_font_map_list_families(pango_cairo_font_map_get_default(), &families, &count);
  g_free(families);
  // Pango always lists its three aliases (Sans, Serif, Monospace), with or without a font behind them.
  constexpr int kAliases = 3;
  return count > kAliases;
}

struct Canvas::Impl {
  std::string bytes;
  Extent extent;
  cairo_surface_t* surface = nullptr;
  cairo_t* cairo = nullptr;
  std::unique_ptr<PangoLayout, Unref<PangoLayout>> layout;
  std::unique_ptr<PangoFontDescription, FreeFont> text_font, heading_font;
  std::unique_ptr<PangoAttrList, decltype(&pango_attr_list_unref)> attributes{nullptr,
                                                                              &pango_attr_list_unref};
  /// Sizes of what was measured before: a table asks for each cell several times.
  std::shared_ptr<std::unordered_map<std::string, Extent>> sizes;
  bool page_open = false;
  bool unseen = false;
  int bookmarks = 0;

  void set_colour(Colour colour) const {
    cairo_set_source_rgba(cairo, colour.red, colour.green, colour.blue, colour.alpha);
  }
  void stroke(const Stroke& how) const {
    set_colour(how.colour);
    cairo_set_line_width(cairo, how.width_mm);
    cairo_set_dash(cairo, how.dash_mm.data(), static_cast<int>(how.dash_mm.size()), 0.0);
    cairo_stroke(cairo);
  }
  void path(const std::vector<Point>& points) const {
    for (std::size_t i = 0; i < points.size(); ++i) {
      if (i == 0) {
        cairo_move_to(cairo, points[i].x, points[i].y);
      } else {
        cairo_line_to(cairo, points[i].x, points[i].y);
      }
    }
  }
  /// Prepares the one layout of the document and returns its size; units of pango are points here.
  Extent lay(std::string_view words, const TextStyle& style) const;
};

Extent Canvas::Impl::lay(std::string_view words, const TextStyle& style) const {
  PangoFontDescription* font = style.heading ? heading_font.get() : text_font.get();
  pango_font_description_set_weight(font, style.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_font_description_set_absolute_size(font, style.size_pt * PANGO_SCALE);
  PangoLayout* set = layout.get();
  pango_layout_set_font_description(set, font);
  const std::string text = with_bound_units(clean(words));
  pango_layout_set_text(set, text.data(), static_cast<int>(text.size()));
  const bool bounded = style.width_mm > 0.0;
  pango_layout_set_width(
      set, bounded ? static_cast<int>(style.width_mm * kPointsPerMillimetre * PANGO_SCALE) : -1);
  pango_layout_set_alignment(set, pango_align(style.align));
  pango_layout_set_wrap(set, PANGO_WRAP_WORD_CHAR);
  pango_layout_set_ellipsize(set, bounded && style.lines > 0 ? PANGO_ELLIPSIZE_END : PANGO_ELLIPSIZE_NONE);
  pango_layout_set_height(set, style.lines > 0 ? -style.lines : G_MININT / 2);
  pango_layout_set_single_paragraph_mode(set, style.lines == 1 ? TRUE : FALSE);
  PangoRectangle logical{};
  pango_layout_get_extents(set, nullptr, &logical);
  const double unit = PANGO_SCALE * kPointsPerMillimetre;
  return {logical.width / unit, logical.height / unit};
}

Canvas::Canvas(const DocumentInfo& info, const Canvas* measured) : impl_(std::make_unique<Impl>()) {
  Impl& d = *impl_;
  d.sizes = measured != nullptr ? measured->impl_->sizes
                                : std::make_shared<std::unordered_map<std::string, Extent>>();
  d.extent = paper_extent(info.paper, info.turn);
  d.unseen = info.unseen;
  d.surface = cairo_pdf_surface_create_for_stream(append, &d.bytes, d.extent.width * kPointsPerMillimetre,
                                                  d.extent.height * kPointsPerMillimetre);
  const std::string day = base::to_iso(info.date) + "T00:00:00Z";
  cairo_pdf_surface_set_metadata(d.surface, CAIRO_PDF_METADATA_TITLE, clean(info.title).c_str());
  cairo_pdf_surface_set_metadata(d.surface, CAIRO_PDF_METADATA_CREATOR, "Sowtide");
  cairo_pdf_surface_set_metadata(d.surface, CAIRO_PDF_METADATA_CREATE_DATE, day.c_str());
  d.cairo = cairo_create(d.surface);
  cairo_scale(d.cairo, kPointsPerMillimetre, kPointsPerMillimetre);
  d.layout.reset(pango_cairo_create_layout(d.cairo));
  d.text_font.reset(pango_font_description_from_string(kTextFamily));
  d.heading_font.reset(pango_font_description_from_string(kHeadingFamily));
  // Figures of one width stand in columns.
  d.attributes.reset(pango_attr_list_new());
  pango_attr_list_insert(d.attributes.get(), pango_attr_font_features_new("tnum=1, lnum=1"));
  pango_layout_set_attributes(d.layout.get(), d.attributes.get());
}

Canvas::~Canvas() {
  if (impl_->cairo != nullptr) cairo_destroy(impl_->cairo);
  if (impl_->surface != nullptr) cairo_surface_destroy(impl_->surface);
}

Extent Canvas::extent() const {
  return impl_->extent;
}

void Canvas::begin_page(std::string_view bookmark) {
  if (impl_->unseen) return;
  if (impl_->page_open) cairo_show_page(impl_->cairo);
  impl_->page_open = true;
  if (bookmark.empty()) return;
  const std::string name = fmt::format("page{}", ++impl_->bookmarks);
  cairo_tag_begin(impl_->cairo, CAIRO_TAG_DEST, fmt::format("name='{}' x=0 y=0", name).c_str());
  cairo_tag_end(impl_->cairo, CAIRO_TAG_DEST);
  cairo_pdf_surface_add_outline(impl_->surface, CAIRO_PDF_OUTLINE_ROOT, clean(bookmark).c_str(),
                                fmt::format("dest='{}'", name).c_str(), CAIRO_PDF_OUTLINE_FLAG_OPEN);
}

std::string Canvas::finish() {
  if (impl_->page_open) cairo_show_page(impl_->cairo);
  impl_->layout.reset();
  cairo_destroy(impl_->cairo);
  impl_->cairo = nullptr;
  cairo_surface_finish(impl_->surface);
  cairo_surface_destroy(impl_->surface);
  impl_->surface = nullptr;
  return std::move(impl_->bytes);
}

Extent Canvas::measure(std::string_view words, const TextStyle& style) const {
  const std::string key = fmt::format("{}/{}{}{}/{}/{}/{}", style.size_pt, style.bold, style.heading,
                                      static_cast<int>(style.align), style.width_mm, style.lines, words);
  if (const auto known = impl_->sizes->find(key); known != impl_->sizes->end()) return known->second;
  return impl_->sizes->emplace(key, impl_->lay(words, style)).first->second;
}

double Canvas::text(Point at, std::string_view words, const TextStyle& style) {
  if (words.empty()) return 0.0;
  if (impl_->unseen) return measure(words, style).height;
  const Extent size = impl_->lay(words, style);
  if (style.width_mm <= 0.0 && style.align == Align::middle) at.x -= size.width / 2.0;
  if (style.width_mm <= 0.0 && style.align == Align::right) at.x -= size.width;
  cairo_t* cairo = impl_->cairo;
  cairo_save(cairo);
  cairo_translate(cairo, at.x, at.y);
  cairo_scale(cairo, 1.0 / kPointsPerMillimetre, 1.0 / kPointsPerMillimetre);
  if (style.halo) {
    // A plate instead of outlined letters: outlines of every letter would be most of the file.
    PangoRectangle ink{};
    pango_layout_get_extents(impl_->layout.get(), &ink, nullptr);
    const double rim = kHaloMm * kPointsPerMillimetre / 2.0;
    cairo_rectangle(cairo, pango_units_to_double(ink.x) - rim, pango_units_to_double(ink.y) - rim,
                    pango_units_to_double(ink.width) + 2.0 * rim,
                    pango_units_to_double(ink.height) + 2.0 * rim);
    impl_->set_colour(kPlate);
    cairo_fill(cairo);
  }
  impl_->set_colour(style.colour);
  cairo_move_to(cairo, 0.0, 0.0);
  pango_cairo_show_layout(cairo, impl_->layout.get());
  cairo_restore(cairo);
  return size.height;
}

void Canvas::line(Point from, Point to, const Stroke& stroke) {
  polyline({from, to}, stroke);
}

void Canvas::polyline(const std::vector<Point>& points, const Stroke& stroke) {
  if (impl_->unseen) return;
  impl_->path(points);
  impl_->stroke(stroke);
}

void Canvas::area(const std::vector<Point>& points, Colour fill) {
  if (impl_->unseen) return;
  impl_->path(points);
  cairo_close_path(impl_->cairo);
  impl_->set_colour(fill);
  cairo_fill(impl_->cairo);
}

void Canvas::fill(const Box& box, Colour colour) {
  if (impl_->unseen) return;
  cairo_rectangle(impl_->cairo, box.x, box.y, box.width, box.height);
  impl_->set_colour(colour);
  cairo_fill(impl_->cairo);
}

void Canvas::outline(const Box& box, const Stroke& stroke) {
  if (impl_->unseen) return;
  cairo_rectangle(impl_->cairo, box.x, box.y, box.width, box.height);
  impl_->stroke(stroke);
}

void Canvas::shade(const Box& box, const std::vector<ShadeStop>& stops) {
  if (impl_->unseen) return;
  if (stops.size() < 2) return fill(box, stops.front().colour);
  cairo_pattern_t* pattern = cairo_pattern_create_linear(box.x, 0.0, box.right(), 0.0);
  for (const ShadeStop& stop : stops) {
    cairo_pattern_add_color_stop_rgba(pattern, stop.offset, stop.colour.red, stop.colour.green,
                                      stop.colour.blue, stop.colour.alpha);
  }
  cairo_rectangle(impl_->cairo, box.x, box.y, box.width, box.height);
  cairo_set_source(impl_->cairo, pattern);
  cairo_fill(impl_->cairo);
  cairo_pattern_destroy(pattern);
}

void Canvas::circle(Point centre, double radius_mm, const std::optional<Colour>& fill, const Stroke& stroke) {
  if (impl_->unseen) return;
  cairo_new_sub_path(impl_->cairo);
  cairo_arc(impl_->cairo, centre.x, centre.y, radius_mm, 0.0, 2.0 * std::numbers::pi);
  if (fill) {
    impl_->set_colour(*fill);
    cairo_fill_preserve(impl_->cairo);
  }
  impl_->stroke(stroke);
}

void Canvas::dots(const Box& box, double step_mm, Colour colour) {
  if (impl_->unseen) return;
  constexpr double kDotMm = 0.35;
  cairo_save(impl_->cairo);
  cairo_set_line_cap(impl_->cairo, CAIRO_LINE_CAP_ROUND);
  for (double y = box.y + step_mm / 2.0; y < box.bottom(); y += step_mm) {
    cairo_move_to(impl_->cairo, box.x + step_mm / 2.0, y);
    cairo_line_to(impl_->cairo, box.right(), y);
  }
  impl_->stroke({kDotMm, colour, {0.0, step_mm}});
  cairo_restore(impl_->cairo);
}

void Canvas::hatch(const Box& box, double step_mm, const Stroke& stroke) {
  if (impl_->unseen) return;
  clipped(box, [&] {
    for (double x = box.x - box.height; x < box.right(); x += step_mm) {
      cairo_move_to(impl_->cairo, x, box.bottom());
      cairo_line_to(impl_->cairo, x + box.height, box.y);
    }
    impl_->stroke(stroke);
  });
}

void Canvas::cells(const std::vector<Box>& boxes, Colour colour) {
  if (impl_->unseen) return;
  for (const Box& box : boxes) cairo_rectangle(impl_->cairo, box.x, box.y, box.width, box.height);
  impl_->set_colour(colour);
  cairo_fill(impl_->cairo);
}

void Canvas::clipped(const Box& box, const std::function<void()>& draw) {
  if (impl_->unseen) return draw();
  cairo_save(impl_->cairo);
  cairo_rectangle(impl_->cairo, box.x, box.y, box.width, box.height);
  cairo_clip(impl_->cairo);
  draw();
  cairo_restore(impl_->cairo);
}

void Canvas::link(const Box& box, std::string_view address) {
  if (impl_->unseen) return;
  std::string quoted;
  for (const char c : address) {
    if (c == '\'' || c == '\\') quoted += '\\';
    quoted += c;
  }
  cairo_tag_begin(
      impl_->cairo, CAIRO_TAG_LINK,
      fmt::format("uri='{}' rect=[{} {} {} {}]", quoted, box.x, box.y, box.width, box.height).c_str());
  cairo_tag_end(impl_->cairo, CAIRO_TAG_LINK);
}

void Canvas::as_heading(const std::function<void()>& draw) {
  if (impl_->unseen) return draw();
  cairo_tag_begin(impl_->cairo, "H1", nullptr);
  draw();
  cairo_tag_end(impl_->cairo, "H1");
}

}  // namespace sowtide::desk::print
