// What to sow in the coming weeks, with boxes to tick: for the potting bench.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "desk/print/sheets.hpp"
#include "desk/raising.hpp"
#include "desk/stand_stage.hpp"
#include "stand/places.hpp"

namespace sowtide::desk::print {
namespace {

using base::Date;
using base::Days;

constexpr double kBoxMm = 3.4;

struct Sowing {
  std::size_t stand = 0;
  Date due{};
};

struct Found {
  std::vector<Sowing> sowings;  ///< by day
  std::optional<Date> next;     ///< the first one later than the sheet reaches
  int missed = 0;               ///< older than can be made good
};

Found sowings_ahead(const SeasonSheet& sheet) {
  const Date today = sheet.season.today;
  const Date end = base::week_start(today) + Days{7 * sheet.options.weeks};
  Found found;
  for (std::size_t i = 0; i < sheet.season.state.stands.size(); ++i) {
    const book::StandState& state = sheet.season.state.stands[i];
    if (stand_stage(state.facts) != StandStage::planned || to_be_bought(state.plan, state.facts)) continue;
    const Date due = state.plan.sow;
    if (due >= end) {
      if (!found.next || due < *found.next) found.next = due;
    } else if (sowing_missed(state.plan, state.facts, today)) {
      ++found.missed;
    } else {
      found.sowings.push_back({i, due});
    }
  }
  std::stable_sort(found.sowings.begin(), found.sowings.end(),
                   [](const Sowing& a, const Sowing& b) { return a.due < b.due; });
  return found;
}

std::string seeds_text(double seeds, const Words& words) {
  const bool one = seeds < 1.05;
  return words.say(one ? "sowing.one_seed" : "sowing.seeds",
                   {{"n", words.number(seeds, seeds == std::round(seeds) ? 0 : 1)}});
}

std::string warmth_text(const SeasonSheet& sheet, const stand::StandPlan& plan, const crop::Crop& crop) {
  const bed::Tray* tray = tray_of(sheet.season, plan.tray);
  const bool kept_warm =
      tray != nullptr && plan.method == stand::Method::start_indoors && stand::is_inside(tray->place);
  if (kept_warm) return sheet.words.temperature(tray->temp_c);
  return sheet.words.say("sowing.soil_from",
                         {{"temperature", sheet.words.temperature(crop.limits.soil_min_sow_c)}});
}

std::vector<std::string> row_of(const SeasonSheet& sheet, const Sowing& sowing) {
  const Words& words = sheet.words;
  const Date today = sheet.season.today;
  const stand::StandPlan& plan = sheet.season.state.stands[sowing.stand].plan;
  const std::vector<Moment> moments = moments_ahead(sheet.season, sowing.stand);
  const Moment* up = moment_of(moments, Moment::Kind::up);
  const auto crop = crop_of(sheet.season, plan);
  std::string day = words.day(sowing.due, today);
  if (sowing.due < today) (day += "\n") += words.say("sowing.overdue");
  return {"",
          day,
          fmt::format("{} ({})", stand_name(sheet.season, words, plan), plan.id),
          sowing_amount(sheet, plan),
          sowing_place(sheet, plan),
          crop && !set_in_cells(*crop, plan) ? words.depth(crop->germination.depth_mm) : "",
          crop ? warmth_text(sheet, plan, *crop) : "",
          up == nullptr ? words.say("sowing.never_up") : words.days(up->early, up->late, today),
          up == nullptr ? "" : words.day(up->late + Days{1}, today),
          "",
          "",
          ""};
}

std::vector<Column> columns_of(const Words& words) {
  return {{"", 4.5},
          {words.say("sowing.day"), 16.0, Align::left, true},
          {words.say("sowing.what"), 36.0, Align::left, true},
          {words.say("sowing.amount"), 49.0},
          {words.say("sowing.where"), 40.0},
          {words.say("sowing.depth"), 13.0, Align::right},
          {words.say("sowing.warmth"), 22.0},
          {words.say("sowing.up"), 27.0},
          {words.say("sowing.late"), 17.0},
          {words.say("sowing.sown_on"), 15.0},
          {words.say("sowing.seen_on"), 15.0},
          {words.say("sowing.counted"), 13.0}};
}

/// Cautions of what is on the sheet: how the seedlings move, and heat near water.
std::vector<std::string> cautions_of(const SeasonSheet& sheet, const std::vector<Sowing>& sowings) {
  std::set<std::string> seen;
  std::vector<std::string> cautions;
  const auto add = [&](const std::string& text) {
    if (!text.empty() && seen.insert(text).second) cautions.push_back(text);
  };
  for (const Sowing& sowing : sowings) {
    const stand::StandPlan& plan = sheet.season.state.stands[sowing.stand].plan;
    const bed::Tray* tray =
        plan.method == stand::Method::start_indoors ? tray_of(sheet.season, plan.tray) : nullptr;
    if (tray != nullptr && tray->place == bed::TrayPlace::heat_mat) add(sheet.words.say("caution.heat_mat"));
    if (plan.method != stand::Method::start_indoors) continue;  // what follows is about raising and setting out
    const auto crop = sheet.season.library->find(plan.crop);
    if (!crop || (*crop)->nursery.caution.empty()) continue;
    add(sheet.words.say("caution.of_crop", {{"crop", sheet.words.crop(**crop)},
                                            {"text", sheet.words.caution((*crop)->nursery.caution)}}));
  }
  return cautions;
}

class SowingTable {
 public:
  SowingTable(const SeasonSheet& sheet, Canvas& canvas, Pages& pages)
      : sheet_(sheet),
        canvas_(canvas),
        pages_(pages),
        rows_(canvas, columns_of(sheet.words), pages.room().width) {}

  void draw(const Found& found) {
    open_page();
    Date week = Date::min();
    for (const Sowing& sowing : found.sowings) {
      const std::vector<std::string> cells = row_of(sheet_, sowing);
      const bool new_week = base::week_start(sowing.due) != week;
      const double wanted = std::max(rows_.height(cells), kBoxMm + 2.4) + (new_week ? kWeekMm : 0.0);
      if (y_ + wanted > room_.bottom()) open_page();
      if (new_week || fresh_page_) draw_week(week = base::week_start(sowing.due));
      draw_row(cells);
    }
    draw_cautions(found);
  }

 private:
  static constexpr double kWeekMm = 6.5;

  void open_page() {
    room_ = pages_.next({}, lead());
    y_ = rows_.head(room_.x, room_.y);
    fresh_page_ = true;
  }

  std::string lead() const {
    const Date end = base::week_start(sheet_.season.today) + Days{7 * sheet_.options.weeks - 1};
    return sheet_.words.say("sowing.lead", {{"from", sheet_.words.long_day(sheet_.season.today)},
                                            {"to", sheet_.words.long_day(end)}});
  }

  void draw_week(Date week) {
    canvas_.text({room_.x, y_ + 1.9},
                 sheet_.words.say("sowing.week", {{"day", sheet_.words.day(week, sheet_.season.today)}}),
                 {.size_pt = 8.5, .bold = true, .heading = true, .colour = kAct});
    y_ += kWeekMm;
    canvas_.line({room_.x, y_}, {room_.right(), y_}, {.width_mm = 0.12, .colour = kRule});
    fresh_page_ = false;
  }

  void draw_row(const std::vector<std::string>& cells) {
    const double top = y_;
    y_ = std::max(rows_.row(room_.x, y_, cells), y_ + kBoxMm + 1.6);
    canvas_.outline({room_.x + 0.4, top + kRowPadMm, kBoxMm, kBoxMm}, {.width_mm = 0.3});
    double x = room_.x;
    const std::vector<Column>& columns = rows_.columns();
    for (std::size_t c = 0; c < columns.size(); ++c) {
      if (c + 3 >= columns.size()) {
        canvas_.line({x, y_ - 0.7}, {x + columns[c].width_mm, y_ - 0.7},
                     {.width_mm = 0.2, .colour = kRuleStrong});
      }
      x += columns[c].width_mm + kColumnGapMm;
    }
  }

  void draw_cautions(const Found& found) {
    y_ += 3.0;
    std::vector<std::string> lines = cautions_of(sheet_, found.sowings);
    if (found.missed > 0)
      lines.push_back(sheet_.words.say("sowing.missed", {{"n", std::to_string(found.missed)}}));
    const TextStyle style{.size_pt = 7.2, .colour = kInkSoft, .width_mm = room_.width};
    for (const std::string& line : lines) {
      if (y_ + canvas_.measure(line, style).height > room_.bottom()) {
        room_ = pages_.next({}, lead());
        y_ = room_.y;
      }
      y_ += canvas_.text({room_.x, y_}, line, style) + 0.5;
    }
  }

  const SeasonSheet& sheet_;
  Canvas& canvas_;
  Pages& pages_;
  Rows rows_;
  Box room_;
  double y_ = 0.0;
  bool fresh_page_ = true;
};

}  // namespace

std::string sowing_amount(const SeasonSheet& sheet, const stand::StandPlan& plan) {
  const Words& words = sheet.words;
  const int places = stand::places_of(plan);
  const auto crop = crop_of(sheet.season, plan);
  const std::string each = crop && crop->seed.planting_piece ? words.say("sowing.one_piece")
                                                             : seeds_text(plan.seeds_per_cell, words);
  if (plan.method == stand::Method::start_indoors) {
    return words.say(places == 1 ? "sowing.one_cell" : "sowing.cells",
                     {{"n", std::to_string(places)}, {"seeds", each}});
  }
  return words.say(
      places == 1 ? "sowing.one_place" : "sowing.places",
      {{"n", std::to_string(places)}, {"spacing", words.spacing(plan.spacing_mm)}, {"seeds", each}});
}

std::string sowing_place(const SeasonSheet& sheet, const stand::StandPlan& plan) {
  if (plan.method == stand::Method::direct_sow) return place_of(sheet.season, sheet.words, plan);
  const bed::Tray* tray = tray_of(sheet.season, plan.tray);
  return tray == nullptr ? sheet.words.say("place.tray") : tray->name;
}

void draw_nothing(const std::string& text, Canvas& canvas, Pages& pages) {
  const Box room = pages.next();
  canvas.text({room.x + 4.0, room.y + 6.0}, text, {.size_pt = 11.0, .width_mm = std::min(room.width, 150.0)});
}

void draw_sowing_sheet(const SeasonSheet& sheet, Canvas& canvas, Pages& pages) {
  const Found found = sowings_ahead(sheet);
  if (!found.sowings.empty()) return SowingTable(sheet, canvas, pages).draw(found);
  std::string text = sheet.season.state.stands.empty()
                         ? sheet.words.say("empty.no_stands")
                         : sheet.words.say(sheet.options.weeks == 1 ? "sowing.none_in_a_week" : "sowing.none",
                                           {{"weeks", std::to_string(sheet.options.weeks)}});
  if (found.next)
    (text += " ") += sheet.words.say("sowing.next", {{"day", sheet.words.long_day(*found.next)}});
  if (found.missed > 0)
    (text += " ") += sheet.words.say("sowing.missed", {{"n", std::to_string(found.missed)}});
  draw_nothing(text, canvas, pages);
}

}  // namespace sowtide::desk::print
