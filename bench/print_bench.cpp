// Time a page of each sheet takes, and of the same number of words and shapes set by cairo and pango alone.
//
// Each run checks that it made as many bytes as the first; figures are processor time a page.
#include <benchmark/benchmark.h>
#include <cairo-pdf.h>
#include <fmt/format.h>
#include <pango/pangocairo.h>

#include <string>

#include "desk/print/print.hpp"
#include "desk/print_garden.hpp"

namespace {

using namespace sowtide;

constexpr std::size_t kBeds = 40;
constexpr std::size_t kStandsPerBed = 5;

const desk::Season& season() {
  static const desk::Season made =
      desk::print_season_of(desk::print_garden(kBeds, kStandsPerBed), {}, base::date_of(2026, 4, 1));
  return made;
}

double pages_of(const std::string& pdf) {
  double pages = 0.0;
  for (std::size_t at = pdf.find("/Type /Page %"); at != std::string::npos;
       at = pdf.find("/Type /Page %", at + 1))
    ++pages;
  return pages;
}

void sheet(benchmark::State& state, desk::print::Kind kind) {
  const desk::print::Options options{.address = "http://garden.example:8420"};
  const auto first = desk::print::print_season(season(), kind, options);
  if (!first) return state.SkipWithError(base::to_text(first.error()).c_str());
  for (auto _ : state) {
    const auto made = desk::print::print_season(season(), kind, options);
    if (!made || made->size() != first->size()) state.SkipWithError("another document");
  }
  state.counters["pages"] = pages_of(*first);
  state.counters["s/page"] = benchmark::Counter(pages_of(*first) * static_cast<double>(state.iterations()),
                                                benchmark::Counter::kIsRate | benchmark::Counter::kInvert);
}

cairo_status_t drop(void* closure, const unsigned char*, unsigned int length) {
  *static_cast<std::size_t*>(closure) += length;
  return CAIRO_STATUS_SUCCESS;
}

/// 20 pages of 150 short texts and 300 shaded boxes each: about what a full sheet holds.
void bare_cairo(benchmark::State& state) {
  constexpr int kPages = 20;
  for (auto _ : state) {
    std::size_t bytes = 0;
    cairo_surface_t* surface = cairo_pdf_surface_create_for_stream(drop, &bytes, 595.0, 842.0);
    cairo_t* cairo = cairo_create(surface);
    PangoLayout* layout = pango_cairo_create_layout(cairo);
    PangoFontDescription* font = pango_font_description_from_string("Lato 8");
    pango_layout_set_font_description(layout, font);
    for (int page = 0; page < kPages; ++page) {
      for (int i = 0; i < 300; ++i) {
        cairo_set_source_rgb(cairo, 0.9, 0.6 + 0.001 * i, 0.6);
        cairo_rectangle(cairo, 30.0 + (i % 20) * 26.0, 40.0 + (i / 20) * 50.0, 20.0, 8.0);
        cairo_fill(cairo);
      }
      cairo_set_source_rgb(cairo, 0.0, 0.0, 0.0);
      for (int i = 0; i < 150; ++i) {
        const std::string text = fmt::format("Beet Rubycoil s{} 3–14 Apr", i + page);
        cairo_move_to(cairo, 30.0 + (i % 4) * 130.0, 45.0 + (i / 4) * 20.0);
        pango_layout_set_text(layout, text.c_str(), -1);
        pango_cairo_show_layout(cairo, layout);
      }
      cairo_show_page(cairo);
    }
    pango_font_description_free(font);
    g_object_unref(layout);
    cairo_destroy(cairo);
    cairo_surface_finish(surface);
    cairo_surface_destroy(surface);
    if (bytes == 0) state.SkipWithError("nothing written");
  }
  state.counters["pages"] = kPages;
  state.counters["s/page"] = benchmark::Counter(kPages * static_cast<double>(state.iterations()),
                                                benchmark::Counter::kIsRate | benchmark::Counter::kInvert);
}

BENCHMARK(bare_cairo)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(sheet, labels, desk::print::Kind::labels)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(sheet, sowing_sheet, desk::print::Kind::sowing_sheet)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(sheet, bed_sheets, desk::print::Kind::bed_sheets)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(sheet, season, desk::print::Kind::season)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(sheet, table, desk::print::Kind::table)->Unit(benchmark::kMillisecond);

}  // namespace

BENCHMARK_MAIN();
