// One page a bed: the bed from above to scale, and beside it, at the same scale down, its stretches through
// the season.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/quantity.hpp"
#include "desk/print/clump_places.hpp"
#include "desk/print/sheets.hpp"
#include "desk/stand_stage.hpp"
#include "stand/bought.hpp"

namespace sowtide::desk::print {
namespace {

using base::Date;
using base::Days;

constexpr double kMillimetresPerMetre = 1000.0;
constexpr std::array<double, 22> kScales{5,  8,   10,  12,  15,  20,  25,  30,  40,  50,   60,
                                         75, 100, 125, 150, 200, 250, 300, 400, 500, 1000, 2000};
constexpr double kMostPlanWidthMm = 52.0;
constexpr double kMostDrawingMm = 145.0;
constexpr double kLeastDrawingMm = 80.0;
constexpr double kRulerMm = 11.0;
constexpr double kGapMm = 4.0;
constexpr double kLegendMm = 11.0;
constexpr double kCaptionMm = 5.0;
constexpr int kMostClumps = 600;
constexpr Days kLongestAxis{500};

struct BedStands {
  const bed::Bed* bed = nullptr;
  std::vector<Stay> stays;          ///< in the bed, by first day
  std::vector<std::size_t> stands;  ///< the same stands
};

BedStands stands_in(const Season& season, const bed::Bed& bed) {
  BedStands found{.bed = &bed};
  for (std::size_t i = 0; i < season.state.stands.size(); ++i) {
    const book::StandState& state = season.state.stands[i];
    if (state.plan.bed != bed.id || stand_stage(state.facts) == StandStage::finished) continue;
    for (const Stay& stay : stays_of(season, i)) {
      if (!stay.in_tray) found.stays.push_back(stay);
    }
    found.stands.push_back(i);
  }
  std::stable_sort(found.stays.begin(), found.stays.end(),
                   [](const Stay& a, const Stay& b) { return a.first < b.first; });
  std::stable_sort(found.stands.begin(), found.stands.end(), [&](std::size_t a, std::size_t b) {
    return stand::begins_on(season.state.stands[a].plan) < stand::begins_on(season.state.stands[b].plan);
  });
  return found;
}

double length_taken(const BedStands& in, const Season& season, Date day) {
  double taken = 0.0;
  for (const Stay& stay : in.stays) {
    const stand::StandPlan& plan = season.state.stands[stay.stand].plan;
    if (stay.first <= day && day <= stay.may_leave) taken += plan.to_m - plan.from_m;
  }
  return taken;
}

/// The day the bed is drawn on: today once something has been sown in it, else the first day on which it is
/// fullest.
Date shown_day(const BedStands& in, const Season& season) {
  for (const Stay& stay : in.stays) {
    const bool there = stay.first <= season.today && season.today <= stay.may_leave;
    if (there && stand_stage(season.state.stands[stay.stand].facts) != StandStage::planned)
      return season.today;
  }
  Date best = season.today;
  double most = 0.0;
  for (const Stay& stay : in.stays) {
    const double taken = length_taken(in, season, stay.first);
    if (stay.first >= season.today && taken > most + 1e-9) {
      most = taken;
      best = stay.first;
    }
  }
  return best;
}

TimeAxis axis_of(const BedStands& in, const Season& season, double left, double width) {
  Date first = base::date_of(base::year_of(season.today), base::month_of(season.today), 1);
  Date last = first + Days{300};
  for (const Stay& stay : in.stays) {
    first = std::min(first, std::max(stay.first, season.today - Days{240}));
    last = std::max(last, stay.last);
  }
  first = base::date_of(base::year_of(first), base::month_of(first), 1);
  last = std::min(last, first + kLongestAxis);
  const Date month = base::date_of(base::year_of(last), base::month_of(last), 1);
  return {first, month + Days{base::days_in_month(base::year_of(month), base::month_of(month))}, left, width};
}

/// Along a bed, in the unit in which its marks are written.
struct Ruler {
  double unit_m;
  double step;
  std::string_view unit;
};

/// Marks in the unit that people measure in, 7 mm apart or more: metres, or whole inches and feet.
Ruler ruler_of(Units units, double mm_per_metre) {
  constexpr double kLeastMm = 7.0;
  constexpr double kMetresPerInch = base::kMillimetresPerInch / 1000.0;
  static constexpr std::array kMetric{0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0};
  static constexpr std::array kFeet{1.0, 2.0, 5.0, 10.0, 20.0, 50.0};
  const auto fits = [mm_per_metre](double unit_m) {
    return [=](double step) { return step * unit_m * mm_per_metre >= kLeastMm; };
  };
  const auto chosen = [&fits](const auto& steps, double unit_m, std::string_view unit) {
    const auto* const found = std::ranges::find_if(steps, fits(unit_m));
    return Ruler{unit_m, found == steps.end() ? 100.0 : *found, unit};
  };
  if (units == Units::metric) return chosen(kMetric, 1.0, " m");
  for (const double inches : {1.0, 3.0, 6.0}) {
    if (fits(kMetresPerInch)(inches)) return {kMetresPerInch, inches, " in"};
  }
  return chosen(kFeet, base::kMetresPerFoot, " ft");
}

class BedPage {
 public:
  BedPage(const SeasonSheet& sheet, Canvas& canvas, Pages& pages, const bed::Bed& bed)
      : sheet_(sheet),
        canvas_(canvas),
        pages_(pages),
        in_(stands_in(sheet.season, bed)),
        rows_(canvas, columns(), pages.room().width, 7.6) {}

  void draw() {
    Box room = pages_.next(in_.bed->name, lead());
    choose_scale(room);
    const double bottom = draw_pictures(room);
    draw_rows({room.x, bottom + 3.0, room.width, room.bottom() - bottom - 3.0});
  }

 private:
  std::vector<Column> columns() const {
    const Words& words = sheet_.words;
    return {{words.say("list.stand"), 9.0, Align::left, true},
            {words.say("list.what"), 31.0, Align::left, true},
            {words.say("bed.stretch"), 23.0},
            {words.say("list.plants"), 30.0},
            {words.say("list.sow"), 15.0},
            {words.say("list.set_out"), 22.0},
            {words.say("list.first_pick"), 23.0},
            {words.say("bed.notes"), 24.0}};
  }

  std::string lead() const {
    const Words& words = sheet_.words;
    const bed::Bed& bed = *in_.bed;
    const char* sun = bed.sun == bed::SunClass::full      ? "place.full_sun"
                      : bed.sun == bed::SunClass::partial ? "place.partial_sun"
                                                          : "place.shade";
    std::string text = words.say("bed.lead", {{"bed", bed.name},
                                              {"length", words.length(bed.length_m)},
                                              {"width", words.length(bed.width_m)},
                                              {"sun", words.say(sun)}});
    for (const bed::PastCrop& past : sheet_.season.garden.past) {
      if (past.bed != bed.id) continue;
      text += ' ';
      text += words.say("bed.past", {{"year", std::to_string(past.year)},
                                     {"family", past.family},
                                     {"stretch", words.stretch(past.from_m, past.to_m)}});
    }
    return text;
  }

  std::vector<std::string> row_of(std::size_t i) const {
    const Words& words = sheet_.words;
    const Date today = sheet_.season.today;
    const book::StandState& state = sheet_.season.state.stands[i];
    const stand::StandPlan& plan = state.plan;
    const std::vector<Moment> moments = moments_ahead(sheet_.season, i);
    const bool moved = plan.method == stand::Method::start_indoors;
    const bool bought = comes_bought(plan, state.facts);
    std::string set_out =
        moved ? moment_days(moments, Moment::Kind::set_out, words, today) : words.say("place.in_place");
    if (moved && state.facts.set_out)
      set_out = words.say("bed.done", {{"day", words.day(*state.facts.set_out, today)}});
    return {plan.id, stand_name(sheet_.season, words, plan), words.stretch(plan.from_m, plan.to_m),
            plants_of(words, plan),
            state.facts.sown ? words.say("bed.done", {{"day", words.day(*state.facts.sown, today)}})
            : bought         ? words.say("place.bought")
                             : words.day(plan.sow, today),
            set_out,
            state.facts.first_picked
                ? words.say("bed.done", {{"day", words.day(*state.facts.first_picked, today)}})
                : moment_days(moments, Moment::Kind::first_pick, words, today),
            // Empty where everything is drawn: there is room to write by hand.
            plan.clumps > kMostClumps ? words.say("bed.drawn", {{"n", std::to_string(kMostClumps)}}) : ""};
  }

  /// The largest round scale at which bed, list and legend fit on the page; long lists run on to a second
  /// page.
  void choose_scale(const Box& room) {
    double list = rows_.head_height();
    for (const std::size_t i : in_.stands) list += rows_.height(row_of(i));
    const double drawing = std::clamp(room.height - list - kLegendMm - kMonthsHeightMm - kCaptionMm - 4.0,
                                      kLeastDrawingMm, kMostDrawingMm);
    for (const double scale : kScales) {
      mm_per_metre_ = kMillimetresPerMetre / scale;
      scale_ = scale;
      if (in_.bed->length_m * mm_per_metre_ <= drawing &&
          in_.bed->width_m * mm_per_metre_ <= kMostPlanWidthMm)
        break;
    }
  }

  double draw_pictures(const Box& room) {
    const double top = room.y + kMonthsHeightMm + kCaptionMm;
    const double length = in_.bed->length_m * mm_per_metre_;
    const double width = in_.bed->width_m * mm_per_metre_;
    const Date day = shown_day(in_, sheet_.season);
    const Box plan{room.x + kRulerMm, top, width, length};
    draw_ruler(plan);
    draw_plan(plan, day);
    const double plan_room = std::max(width, 40.0);
    canvas_.text({room.x, room.y},
                 sheet_.words.say("bed.from_above", {{"day", sheet_.words.long_day(day)},
                                                     {"scale", sheet_.words.number(scale_)}}),
                 {.size_pt = 7.5, .bold = true, .width_mm = plan_room + kRulerMm, .lines = 2});
    const double left = plan.x + plan_room + kGapMm;
    const TimeAxis axis = axis_of(in_, sheet_.season, left, room.right() - left);
    canvas_.text({left, room.y}, sheet_.words.say("bed.through"), {.size_pt = 7.5, .bold = true});
    draw_stretches(axis, top, length, day);
    const Box legend{room.x, top + length + 3.5, room.width, kLegendMm};
    return legend.y + draw_patch_legend(canvas_, sheet_.words, legend);
  }

  void draw_ruler(const Box& plan) {
    const Ruler ruler = ruler_of(sheet_.words.units(), mm_per_metre_);
    const double step_mm = ruler.step * ruler.unit_m * mm_per_metre_;
    const int decimals = ruler.step < 1.0 ? 1 : 0;
    for (int k = 0; k * step_mm <= plan.height + 1e-6; ++k) {
      const double y = plan.y + k * step_mm;
      canvas_.line({plan.x - 2.0, y}, {plan.x, y}, {.width_mm = 0.2});
      const std::string mark =
          sheet_.words.number(k * ruler.step, decimals).append(k == 0 ? ruler.unit : std::string_view());
      canvas_.text({plan.x - 2.6, y - 1.35}, mark,
                   {.size_pt = 6.5, .colour = kInkSoft, .align = Align::right});
    }
  }

  void draw_plan(const Box& plan, Date day) {
    canvas_.fill(plan, kSoil);
    for (const Stay& stay : in_.stays) {
      if (stay.first > day || day > stay.last) continue;
      const stand::StandPlan& stand = sheet_.season.state.stands[stay.stand].plan;
      const Box box{plan.x, plan.y + stand.from_m * mm_per_metre_, plan.width,
                    (stand.to_m - stand.from_m) * mm_per_metre_};
      draw_clumps(stand, box);
    }
    canvas_.outline(plan, {.width_mm = in_.bed->kind == bed::BedKind::raised ? 0.9 : 0.35});
  }

  void draw_clumps(const stand::StandPlan& stand, const Box& box) {
    const auto [across, along] = clump_grid(*in_.bed, stand);
    const double radius = std::max(0.25, 0.46 * std::min(box.width / across, box.height / along));
    for (const Point& place : clump_places(*in_.bed, stand, kMostClumps)) {
      canvas_.circle({box.x + box.width * place.x, box.y + box.height * place.y}, radius, kWhite,
                     {.width_mm = 0.18, .colour = kInkSoft});
    }
    canvas_.outline(box, {.width_mm = 0.25});
    const TextStyle style{.size_pt = std::clamp(box.height / 0.45, 5.0, 7.5),
                          .align = Align::middle,
                          .width_mm = box.width,
                          .lines = 1,
                          .halo = true};
    const std::string name = fmt::format("{} · {}", stand.id, stand_name(sheet_.season, sheet_.words, stand));
    const double height = canvas_.measure(name, style).height;
    if (height <= box.height) canvas_.text({box.x, box.y + (box.height - height) / 2.0}, name, style);
  }

  void draw_stretches(const TimeAxis& axis, double top, double length, Date day) {
    const Date today = sheet_.season.today;
    const double free = axis.clamped_x(today);
    canvas_.dots({free, top, axis.left + axis.width - free, length}, 1.8, kRule);
    draw_months(canvas_, sheet_.words, axis, {axis.left, top, axis.width, length}, today);
    if (day != today) {
      canvas_.line({axis.clamped_x(day), top - 1.5}, {axis.clamped_x(day), top + length},
                   {.width_mm = 0.2, .colour = kAct, .dash_mm = {1.0, 1.0}});
    }
    canvas_.outline({axis.left, top, axis.width, length}, {.width_mm = 0.25, .colour = kRuleStrong});
    for (const Stay& stay : in_.stays) {
      const stand::StandPlan& plan = sheet_.season.state.stands[stay.stand].plan;
      draw_patch(canvas_, axis, sheet_.season, stay, top + plan.from_m * mm_per_metre_,
                 std::max(0.5, (plan.to_m - plan.from_m) * mm_per_metre_),
                 fmt::format("{} · {}", plan.id, stand_name(sheet_.season, sheet_.words, plan)));
    }
  }

  void draw_rows(Box room) {
    if (in_.stands.empty()) {
      canvas_.text({room.x, room.y}, sheet_.words.say("bed.empty"), {.size_pt = 9.0, .width_mm = room.width});
      return;
    }
    double y = rows_.head(room.x, room.y);
    for (const std::size_t i : in_.stands) {
      const std::vector<std::string> cells = row_of(i);
      if (y + rows_.height(cells) > room.bottom()) {
        room = pages_.next({}, lead());
        y = rows_.head(room.x, room.y);
      }
      y = rows_.row(room.x, y, cells);
    }
  }

  const SeasonSheet& sheet_;
  Canvas& canvas_;
  Pages& pages_;
  BedStands in_;
  Rows rows_;
  double mm_per_metre_ = 1.0;
  double scale_ = 1.0;
};

}  // namespace

void draw_bed_sheets(const SeasonSheet& sheet, Canvas& canvas, Pages& pages) {
  if (sheet.season.garden.beds.empty()) return draw_nothing(sheet.words.say("empty.no_beds"), canvas, pages);
  for (const bed::Bed& bed : sheet.season.garden.beds) BedPage(sheet, canvas, pages, bed).draw();
}

}  // namespace sowtide::desk::print
