// One label a stand: what it is, since when, where, what comes next, and a code that opens its page.
#include <fmt/format.h>

#include <algorithm>

#include "desk/print/sheets.hpp"
#include "desk/qr.hpp"
#include "desk/stand_stage.hpp"

namespace sowtide::desk::print {
namespace {

constexpr double kInch = 25.4;

/// What a label says, longest first.
struct LabelText {
  std::string name, variety, id;
  std::vector<std::string> lines;
};

std::string dated_line(const Moment& moment, bool buys, const SeasonSheet& sheet) {
  const Words& words = sheet.words;
  const base::Date today = sheet.season.today;
  const std::string range = words.days(moment.early, moment.late, today);
  switch (moment.kind) {
    case Moment::Kind::sow:
      return words.say("label.sow", {{"day", words.long_day(moment.middle)}});
    case Moment::Kind::up:
      return words.say("label.up",
                       {{"days", range}, {"late", words.day(moment.late + base::Days{1}, today)}});
    case Moment::Kind::harden_off:
      return {};
    case Moment::Kind::set_out:
      return words.say(buys ? "label.buy" : "label.set_out", {{"days", range}});
    case Moment::Kind::first_pick:
      return words.say("label.first_pick", {{"days", range}});
    case Moment::Kind::last_pick:
      return words.say("label.last_pick", {{"days", range}});
  }
  return {};
}

LabelText label_text(const SeasonSheet& sheet, std::size_t i) {
  const Season& season = sheet.season;
  const book::StandState& state = season.state.stands[i];
  LabelText label;
  label.id = state.plan.id;
  label.variety = variety_of(season, state.plan);
  const auto crop = season.library->find(state.plan.crop);
  label.name = crop ? sheet.words.crop(**crop) : state.plan.crop;
  if (state.facts.sown) {
    label.lines.push_back(sheet.words.say("label.sown", {{"day", sheet.words.long_day(*state.facts.sown)}}));
  }
  const std::vector<Moment> moments = moments_ahead(season, i);
  if (const Moment* sow = moment_of(moments, Moment::Kind::sow))
    label.lines.push_back(dated_line(*sow, false, sheet));
  label.lines.push_back(plants_of(sheet.words, state.plan));
  label.lines.push_back(place_of(season, sheet.words, state.plan));
  const bool buys = to_be_bought(state.plan, state.facts);
  for (const Moment& moment : moments) {
    if (moment.kind != Moment::Kind::sow) label.lines.push_back(dated_line(moment, buys, sheet));
  }
  std::erase(label.lines, std::string{});
  return label;
}

void draw_code(Canvas& canvas, const QrCode& code, const Box& box) {
  const double module = box.width / static_cast<double>(code.size + 2 * kQrQuietModules);
  const double quiet = module * static_cast<double>(kQrQuietModules);
  std::vector<Box> dark;
  for (std::size_t row = 0; row < code.size; ++row) {
    for (std::size_t column = 0; column < code.size; ++column) {
      if (!code.at(row, column)) continue;
      std::size_t end = column;
      while (end < code.size && code.at(row, end)) ++end;
      dark.push_back({box.x + quiet + module * static_cast<double>(column),
                      box.y + quiet + module * static_cast<double>(row),
                      module * static_cast<double>(end - column), module});
      column = end;
    }
  }
  canvas.cells(dark, {0.0, 0.0, 0.0});
}

constexpr double kLineGapMm = 0.25;
constexpr double kHeadGapMm = 0.6;

TextStyle name_style(double larger, double width_mm) {
  return {.size_pt = 11.5 * larger, .bold = true, .heading = true, .width_mm = width_mm, .lines = 1};
}
TextStyle variety_style(double larger, double width_mm) {
  return {.size_pt = 9.0 * larger, .bold = true, .width_mm = width_mm, .lines = 1};
}
TextStyle line_style(double larger, double width_mm) {
  return {.size_pt = 7.4 * larger, .width_mm = width_mm, .lines = 2};
}

/// "Courgette (summer squash)" as "Courgette".
std::string without_brackets(const std::string& name) {
  return name.substr(0, name.find(" ("));
}

bool fits_in(const Canvas& canvas, const std::string& text, TextStyle style, double width_mm) {
  style.width_mm = 0.0;
  return canvas.measure(text, style).width <= width_mm;
}

double height_of(const LabelText& label, double larger, double width_mm, const Canvas& canvas) {
  double height = canvas.measure(label.name, name_style(larger, width_mm)).height + kHeadGapMm;
  if (!label.variety.empty()) height += canvas.measure(label.variety, variety_style(larger, width_mm)).height;
  for (const std::string& line : label.lines)
    height += canvas.measure(line, line_style(larger, width_mm)).height + kLineGapMm;
  return height;
}

/// Whether a label can be drawn so large; above its usual size no line of it is broken.
bool holds(const LabelText& label, double larger, const Box& room, double width_mm, const Canvas& canvas) {
  if (height_of(label, larger, width_mm, canvas) > room.height) return false;
  if (!fits_in(canvas, without_brackets(label.name), name_style(larger, width_mm), width_mm)) return false;
  return larger <= 1.0 || std::all_of(label.lines.begin(), label.lines.end(), [&](const std::string& line) {
           return fits_in(canvas, line, line_style(larger, width_mm), width_mm);
         });
}

/// As large as the label holds, to be read from farther away.
double scale_of(const LabelText& label, const Box& room, double width_mm, const Canvas& canvas) {
  constexpr double kLargest = 1.8, kSmallest = 0.9, kStep = 0.05;
  double larger = kLargest;
  while (larger > kSmallest && !holds(label, larger, room, width_mm, canvas)) larger -= kStep;
  return std::max(larger, kSmallest);
}

/// The code that opens the stand's page, or only its id; gives the width left for text.
double draw_corner(const SeasonSheet& sheet, const LabelText& label, const Box& room, Canvas& canvas) {
  // Smaller than this, a phone's camera has to be held too close.
  constexpr double kCodeMm = 21.0, kLargestCodeMm = 28.0, kCodeShare = 0.6;
  constexpr double kCodeGapMm = 1.5;
  constexpr double kIdMm = 3.6;
  if (sheet.options.address.empty()) {
    const TextStyle id{.size_pt = 8.0, .bold = true, .align = Align::right};
    canvas.text({room.right(), room.y + 0.6}, label.id, id);
    return room.width - canvas.measure(label.id, id).width - kCodeGapMm;
  }
  const std::string address = fmt::format("{}/#/stand/{}", sheet.options.address, label.id);
  const auto code = qr_code(address);
  if (!code) return room.width;
  const double wanted = std::clamp(kCodeShare * room.height, kCodeMm, kLargestCodeMm);
  const double side = std::min(wanted, room.height - kIdMm);
  const Box box{room.right() - side, room.y, side, side};
  draw_code(canvas, *code, box);
  canvas.link(box, address);
  canvas.text({box.x, box.bottom() - 0.6}, label.id,
              {.size_pt = 8.0, .bold = true, .align = Align::middle, .width_mm = side, .lines = 1});
  return room.width - side - kCodeGapMm;
}

void draw_label(const SeasonSheet& sheet, std::size_t i, const Box& room, Canvas& canvas) {
  const LabelText label = label_text(sheet, i);
  const double width = draw_corner(sheet, label, room, canvas);
  const double larger = scale_of(label, room, width, canvas);
  const bool whole = fits_in(canvas, label.name, name_style(larger, width), width);
  double y = room.y;
  y += canvas.text({room.x, y}, whole ? label.name : without_brackets(label.name), name_style(larger, width));
  if (!label.variety.empty()) y += canvas.text({room.x, y}, label.variety, variety_style(larger, width));
  y += kHeadGapMm;
  for (const std::string& line : label.lines) {
    const TextStyle style = line_style(larger, width);
    if (y + canvas.measure(line, style).height > room.bottom() + 0.1) break;
    y += canvas.text({room.x, y}, line, style) + kLineGapMm;
  }
}

}  // namespace

const std::vector<LabelGrid>& label_grids() {
  // Common practice: sizes and grids printed on the boxes of plain label sheets.
  static const std::vector<LabelGrid> grids{
      {"70x37", Paper::a4, 3, 8, 70.0, 37.0, 0.0, 0.5, 70.0, 37.0},
      {"63.5x38.1", Paper::a4, 3, 7, 63.5, 38.1, 7.2, 15.15, 66.05, 38.1},
      {"105x48", Paper::a4, 2, 6, 105.0, 48.0, 0.0, 4.5, 105.0, 48.0},
      {"4x2in", Paper::letter, 2, 5, 4.0 * kInch, 2.0 * kInch, 0.15625 * kInch, 0.5 * kInch, 4.1875 * kInch,
       2.0 * kInch},
      {"2.625x1in", Paper::letter, 3, 10, 2.625 * kInch, 1.0 * kInch, 0.1875 * kInch, 0.5 * kInch,
       2.75 * kInch, 1.0 * kInch},
  };
  return grids;
}

void draw_labels(const SeasonSheet& sheet, const LabelGrid& grid, Canvas& canvas) {
  // Room that no printer's inaccuracy takes away.
  const double inset = std::min(4.0, grid.height * 0.09);
  const int per_page = grid.across * grid.down;
  int place = sheet.options.first_label - 1;
  bool page_open = false;
  for (std::size_t i = 0; i < sheet.season.state.stands.size(); ++i) {
    if (stand_stage(sheet.season.state.stands[i].facts) == StandStage::finished) continue;
    if (!page_open || place == per_page) {
      canvas.begin_page();
      if (page_open) place = 0;
      page_open = true;
    }
    const double x = grid.left + grid.step_x * (place % grid.across);
    const double y = grid.top + grid.step_y * (place / grid.across);
    draw_label(sheet, i, {x + inset, y + inset, grid.width - 2.0 * inset, grid.height - 2.0 * inset}, canvas);
    ++place;
  }
  if (page_open) return;
  canvas.begin_page();
  const Extent extent = canvas.extent();
  canvas.text({20.0, 30.0}, sheet.words.say("label.none"),
              {.size_pt = 11.0, .width_mm = extent.width - 40.0});
}

}  // namespace sowtide::desk::print
