#include "desk/print/page.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "desk/stand_stage.hpp"
#include "stand/places.hpp"

namespace sowtide::desk::print {
namespace {

using base::Date;
using base::Days;

constexpr double kMarginMm = 13.0;
constexpr double kEdgeMm = 1.6;
constexpr double kTitlePt = 19.0;
constexpr double kHeadMm = 19.0;
constexpr double kFootMm = 7.0;
constexpr double kSmallPt = 7.0;

/// Days between the samples of a patch's shade: finer than anyone sees on paper.
constexpr Days kShadeStep{3};

std::vector<ShadeStop> shade_stops(const Season& season, const Stay& stay, Date from, Date to) {
  const double span = std::max(1.0, static_cast<double>((to - from).count()));
  std::vector<ShadeStop> stops;
  const auto add = [&](Date day) {
    const double chance = stay.in_tray ? 0.0 : ready_chance(season.outlooks[stay.stand], day);
    const Colour colour = ready_shade(chance, presence(stay, day));
    const bool like_last = stops.size() > 1 && stops.back().colour.red == colour.red &&
                           stops.back().colour.green == colour.green &&
                           stops[stops.size() - 2].colour.red == colour.red &&
                           stops[stops.size() - 2].colour.green == colour.green;
    const double offset = static_cast<double>((day - from).count()) / span;
    if (like_last) {
      stops.back().offset = offset;
    } else {
      stops.push_back({offset, colour});
    }
  };
  for (Date day = from; day < to; day += kShadeStep) add(day);
  add(to);
  return stops;
}

void draw_notches(Canvas& canvas, const TimeAxis& axis, const Season& season, const Stay& stay, double top,
                  double height) {
  const stand::EventOutlook* first = expected_event(season.outlooks[stay.stand], "first-pick");
  if (first == nullptr || stay.in_tray) return;
  const double notch = std::min(1.3, height * 0.3);
  for (const Date day : {first->p10, first->p50, first->p90}) {
    // Set out later than it would have been picked, it stands where nothing of it was: no notch hangs in bare ground.
    const bool in_patch = day >= stay.first && day <= stay.last;
    if (day < axis.first || day >= axis.end || !in_patch) continue;
    const double x = axis.x(day);
    canvas.line({x, top + height - notch}, {x, top + height}, {.width_mm = day == first->p50 ? 0.4 : 0.2});
  }
}

}  // namespace

Box Pages::room() const {
  const Extent sheet = canvas_->extent();
  return {kMarginMm, kMarginMm + kHeadMm, sheet.width - 2.0 * kMarginMm,
          sheet.height - 2.0 * kMarginMm - kHeadMm - kFootMm};
}

Box Pages::next(const std::string& bookmark, const std::string& lead) {
  ++count_;
  canvas_->begin_page(bookmark);
  Box room = this->room();
  const double right_column = room.width * 0.3;
  const double text_left = room.x + kEdgeMm + 2.4;
  const double title_width = room.width - right_column - 6.0;
  canvas_->as_heading([&] {
    canvas_->text({text_left, kMarginMm - 2.0}, texts_.title,
                  {.size_pt = kTitlePt, .bold = true, .heading = true, .width_mm = title_width, .lines = 1});
  });
  double lead_bottom = kMarginMm + 14.0;
  if (!lead.empty()) {
    const double used =
        canvas_->text({text_left, kMarginMm + 7.4}, lead,
                      {.size_pt = 8.5, .colour = kInkSoft, .width_mm = room.right() - text_left});
    lead_bottom = std::max(lead_bottom, kMarginMm + 7.4 + used + 0.5);
  }
  const double grown = std::max(0.0, lead_bottom + 3.5 - room.y);
  room.y += grown;
  room.height -= grown;
  canvas_->fill({room.x, kMarginMm - 1.0, kEdgeMm, lead_bottom - kMarginMm + 1.0}, kInk);
  const TextStyle right{.size_pt = 8.5, .align = Align::right, .width_mm = right_column, .lines = 1};
  TextStyle bold = right;
  bold.bold = true;
  canvas_->text({room.right() - right_column, kMarginMm - 1.0}, texts_.garden, bold);
  canvas_->text({room.right() - right_column, kMarginMm + 2.8}, texts_.day, right);
  const double foot = canvas_->extent().height - kMarginMm - 3.0;
  const TextStyle small{.size_pt = kSmallPt, .colour = kInkSoft, .width_mm = room.width - 30.0, .lines = 1};
  canvas_->line({room.x, foot - 1.2}, {room.right(), foot - 1.2}, {.width_mm = 0.15, .colour = kRuleStrong});
  canvas_->text({room.x, foot}, texts_.note, small);
  canvas_->text(
      {room.right(), foot},
      words_->say("page.number", {{"page", std::to_string(count_)}, {"total", std::to_string(total_)}}),
      {.size_pt = kSmallPt, .colour = kInkSoft, .align = Align::right});
  return room;
}

Rows::Rows(Canvas& canvas, std::vector<Column> columns, double width_mm, double size_pt)
    : canvas_(&canvas), columns_(std::move(columns)), size_pt_(size_pt) {
  double sum = kColumnGapMm * static_cast<double>(columns_.size() - 1);
  double widths = 0.0;
  for (const Column& column : columns_) widths += column.width_mm;
  for (Column& column : columns_) column.width_mm *= (width_mm - sum) / widths;
}

TextStyle Rows::style(const Column& column, bool head) const {
  return {.size_pt = head ? size_pt_ - 1.0 : size_pt_,
          .bold = !head && column.bold,
          .colour = head ? kInkSoft : kInk,
          .align = column.align,
          .width_mm = column.width_mm};
}

double Rows::head_height() const {
  double highest = 0.0;
  for (const Column& column : columns_)
    highest = std::max(highest, canvas_->measure(column.head, style(column, true)).height);
  return highest + 2.0 * kRowPadMm;
}

double Rows::height(const std::vector<std::string>& cells) const {
  double highest = 0.0;
  for (std::size_t c = 0; c < columns_.size(); ++c) {
    if (!cells[c].empty())
      highest = std::max(highest, canvas_->measure(cells[c], style(columns_[c], false)).height);
  }
  return highest + 2.0 * kRowPadMm;
}

double Rows::head(double x, double y) const {
  const double below = y + head_height();
  const double left = x;
  for (const Column& column : columns_) {
    const double height = canvas_->measure(column.head, style(column, true)).height;
    canvas_->text({x, below - kRowPadMm - height}, column.head, style(column, true));
    x += column.width_mm + kColumnGapMm;
  }
  canvas_->line({left, below}, {x - kColumnGapMm, below}, {.width_mm = 0.35});
  return below;
}

double Rows::row(double x, double y, const std::vector<std::string>& cells) const {
  const double below = y + height(cells);
  const double left = x;
  for (std::size_t c = 0; c < columns_.size(); ++c) {
    canvas_->text({x, y + kRowPadMm}, cells[c], style(columns_[c], false));
    x += columns_[c].width_mm + kColumnGapMm;
  }
  canvas_->line({left, below}, {x - kColumnGapMm, below}, {.width_mm = 0.12, .colour = kRule});
  return below;
}

double TimeAxis::x(Date day) const {
  return left +
         width * static_cast<double>((day - first).count()) / static_cast<double>((end - first).count());
}

double TimeAxis::clamped_x(Date day) const {
  return x(std::clamp(day, first, end));
}

void draw_months(Canvas& canvas, const Words& words, const TimeAxis& axis, const Box& area, Date today) {
  Date month = base::date_of(base::year_of(axis.first), base::month_of(axis.first), 1);
  while (month < axis.end) {
    const Date next = month + Days{base::days_in_month(base::year_of(month), base::month_of(month))};
    const double from = axis.clamped_x(month);
    const double room = axis.clamped_x(next) - from;
    canvas.line({from, area.y - kMonthsHeightMm}, {from, area.bottom()}, {.width_mm = 0.15, .colour = kRule});
    std::string name = words.month(base::month_of(month));
    const TextStyle style{.size_pt = 7.5, .colour = kInkSoft};
    if (base::month_of(month) == 1 || month <= axis.first) {
      const std::string with_year = fmt::format("{} {}", name, base::year_of(month));
      if (canvas.measure(with_year, style).width < room - 1.0) name = with_year;
    }
    if (canvas.measure(name, style).width < room - 0.8)
      canvas.text({from + 0.8, area.y - kMonthsHeightMm + 0.6}, name, style);
    month = next;
  }
  canvas.line({axis.left + axis.width, area.y - kMonthsHeightMm}, {axis.left + axis.width, area.bottom()},
              {.width_mm = 0.15, .colour = kRule});
  if (today > axis.first && today < axis.end) {
    canvas.line({axis.x(today), area.y - 1.5}, {axis.x(today), area.bottom()},
                {.width_mm = 0.45, .colour = kAct});
  }
}

void draw_patch(Canvas& canvas, const TimeAxis& axis, const Season& season, const Stay& stay, double top,
                double height, const std::string& words_in_it) {
  const Date from = std::max(stay.first, axis.first);
  const Date to = std::min(stay.last + Days{1}, axis.end);
  if (to <= from) return;
  const Box box{axis.x(from), top, axis.x(to) - axis.x(from), height};
  canvas.shade(box, shade_stops(season, stay, from, to));
  const bool planned = stand_stage(season.state.stands[stay.stand].facts) == StandStage::planned;
  Stroke rim{.width_mm = 0.25};
  if (planned) rim.dash_mm = {1.1, 0.7};
  canvas.outline(box, rim);
  draw_notches(canvas, axis, season, stay, top, height);
  constexpr double kSmallestPt = 5.0;
  constexpr double kLargestPt = 7.5;
  constexpr double kMillimetresPerPointOfLine = 0.43;
  const double size = std::min(kLargestPt, height / kMillimetresPerPointOfLine);
  if (size < kSmallestPt || box.width < 6.0 || words_in_it.empty()) return;
  const TextStyle style{.size_pt = size, .width_mm = box.width - 1.2, .lines = 1, .halo = true};
  const double line_height = canvas.measure(words_in_it, style).height;
  canvas.text({box.x + 0.7, top + std::min((height - line_height) / 2.0, 0.8)}, words_in_it, style);
}

double draw_patch_legend(Canvas& canvas, const Words& words, const Box& room) {
  const TextStyle style{.size_pt = kSmallPt, .colour = kInkSoft};
  constexpr double kSampleMm = 16.0;
  constexpr double kSampleHeightMm = 3.2;
  double x = room.x;
  double y = room.y;
  const auto item = [&](const char* key, const std::function<void(const Box&)>& draw) {
    const std::string text = words.say(key);
    const double width = kSampleMm + 1.5 + canvas.measure(text, style).width + 5.0;
    if (x + width - 5.0 > room.right()) {
      x = room.x;
      y += kSampleHeightMm + 1.6;
    }
    draw({x, y, kSampleMm, kSampleHeightMm});
    canvas.text({x + kSampleMm + 1.5, y + 0.1}, text, style);
    x += width;
  };
  item("legend.ready", [&](const Box& box) {
    canvas.shade(box, {{0.0, ready_shade(0.0)}, {1.0, ready_shade(1.0)}});
  });
  item("legend.fade", [&](const Box& box) {
    canvas.shade(box, {{0.0, ready_shade(0.5)}, {1.0, ready_shade(0.5, 0.1)}});
  });
  item("legend.planned", [&](const Box& box) {
    canvas.outline(box, {.width_mm = 0.25, .dash_mm = {1.1, 0.7}});
  });
  item("legend.sown", [&](const Box& box) { canvas.outline(box, {.width_mm = 0.25}); });
  item("legend.notches", [&](const Box& box) {
    canvas.outline(box, {.width_mm = 0.15, .colour = kRule});
    for (const double at : {0.3, 0.5, 0.8}) {
      const double notch_x = box.x + at * box.width;
      canvas.line({notch_x, box.bottom() - 1.3}, {notch_x, box.bottom()},
                  {.width_mm = at == 0.5 ? 0.4 : 0.2});
    }
  });
  item("legend.free", [&](const Box& box) { canvas.dots(box, 1.6, kRuleStrong); });
  return y + kSampleHeightMm - room.y;
}

std::string plants_of(const Words& words, const stand::StandPlan& plan) {
  std::string clumps = std::to_string(plan.clumps);
  if (stand::several_to_a_clump(plan)) {
    const bool whole = plan.plants_per_clump == std::round(plan.plants_per_clump);
    clumps += " x " + words.number(plan.plants_per_clump, whole ? 0 : 1);
  }
  if (plan.clumps == 1) return clumps;
  return words.say("list.plants_at", {{"n", clumps}, {"spacing", words.spacing(plan.spacing_mm)}});
}

std::string variety_of(const Season& season, const stand::StandPlan& plan) {
  for (const crop::Variety& variety : season.garden.varieties) {
    if (variety.id == plan.variety) return variety.name;
  }
  return plan.variety;
}

std::string stand_name(const Season& season, const Words& words, const stand::StandPlan& plan) {
  const auto crop = season.library->find(plan.crop);
  const std::string name = crop ? words.crop(**crop) : plan.crop;
  const std::string variety = variety_of(season, plan);
  return variety.empty() ? name : name + " " + variety;
}

const bed::Tray* tray_of(const Season& season, const std::string& id) {
  for (const bed::Tray& tray : season.garden.trays) {
    if (tray.id == id) return &tray;
  }
  return nullptr;
}

std::string place_of(const Season& season, const Words& words, const stand::StandPlan& plan) {
  const bed::Bed* bed = bed_of(season.garden, plan.bed);
  if (bed == nullptr) return {};
  return words.say("place.in_bed", {{"bed", bed->name}, {"stretch", words.stretch(plan.from_m, plan.to_m)}});
}

const Moment* moment_of(const std::vector<Moment>& moments, Moment::Kind kind) {
  for (const Moment& moment : moments) {
    if (moment.kind == kind) return &moment;
  }
  return nullptr;
}

std::string moment_days(const std::vector<Moment>& moments, Moment::Kind kind, const Words& words,
                        Date reference) {
  const Moment* moment = moment_of(moments, kind);
  return moment == nullptr ? std::string("–") : words.days(moment->early, moment->late, reference);
}

}  // namespace sowtide::desk::print
