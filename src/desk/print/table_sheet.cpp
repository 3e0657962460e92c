// The table: each want a strip of weeks, what is wanted as a step, what reaches it as a bar with its range.
#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "desk/print/sheets.hpp"
#include "desk/supply.hpp"

namespace sowtide::desk::print {
namespace {

using base::Date;
using base::Days;

constexpr std::size_t kWeeks = 52;
constexpr double kNamesMm = 52.0;
constexpr double kBarsMm = 9.5;
constexpr double kNumbersMm = 3.6;
constexpr double kStripMm = kBarsMm + kNumbersMm + 2.6;
constexpr double kLegendMm = 7.0;

std::string name_of(const SeasonSheet& sheet, const plan::Want& want) {
  if (want.crop.empty()) return sheet.words.say("table.any", {{"group", sheet.words.group(want.group)}});
  stand::StandPlan named;
  named.crop = want.crop;
  named.variety = want.variety;
  return stand_name(sheet.season, sheet.words, named);
}

/// As it reads: 1.2 servings are told as 1.
bool is_one(const Words& words, double amount) {
  return words.number(amount) == "1";
}

std::string amount_text(const Words& words, const plan::Want& want, double amount) {
  switch (want.unit) {
    case plan::WantUnit::grams:
      return words.weight(amount);
    case plan::WantUnit::servings:
      return words.say(is_one(words, amount) ? "table.one_serving" : "table.servings",
                       {{"n", words.number(amount)}});
    case plan::WantUnit::pieces:
      return words.say(is_one(words, amount) ? "table.one_piece" : "table.pieces",
                       {{"n", words.number(amount)}});
  }
  return {};
}

class TablePicture {
 public:
  TablePicture(const SeasonSheet& sheet, Canvas& canvas, Pages& pages)
      : sheet_(sheet), canvas_(canvas), pages_(pages) {
    wants_ = supply_of_wants(sheet.season, kWeeks);
    const Box room = pages.room();
    const std::vector<SupplyWeek>& weeks = wants_.front().weeks;
    axis_ = {weeks.front().monday, weeks.back().monday + Days{7}, room.x + kNamesMm, room.width - kNamesMm};
  }

  void draw() {
    std::size_t from = 0;
    while (from < wants_.size()) {
      const Box room = pages_.next({}, lead());
      const double height = room.height - kMonthsHeightMm - kLegendMm;
      const auto fit = std::max<std::size_t>(1, static_cast<std::size_t>(height / kStripMm));
      const std::size_t to = std::min(wants_.size(), from + fit);
      const double y = room.y + kMonthsHeightMm;
      const double used = kStripMm * static_cast<double>(to - from);
      draw_months(canvas_, sheet_.words, axis_, {axis_.left, y, axis_.width, used}, axis_.first);
      for (std::size_t i = from; i < to; ++i)
        draw_strip(wants_[i], room.x, y + kStripMm * static_cast<double>(i - from));
      draw_legend({room.x, room.y + kMonthsHeightMm + used + 2.0, room.width, kLegendMm});
      from = to;
      if (from == wants_.size()) draw_cautions({room.x, y + used + kLegendMm + 1.0, room.width, room.height});
    }
  }

 private:
  std::string lead() const {
    return sheet_.words.say("table.lead", {{"from", sheet_.words.long_day(sheet_.season.today)},
                                           {"to", sheet_.words.long_day(axis_.end - Days{1})}});
  }

  /// What is wanted every week, and what is to lie in store at the end.
  std::vector<std::string> wish_texts(const plan::Want& want) const {
    const Words& words = sheet_.words;
    std::vector<std::string> texts;
    if (want.amount_per_week > 0.0) {
      texts.push_back(words.say("table.weekly", {{"amount", amount_text(words, want, want.amount_per_week)},
                                                 {"from", words.day(want.from)},
                                                 {"to", words.day(want.to)}}));
    }
    if (want.total > 0.0) {
      texts.push_back(words.say(
          "table.total", {{"amount", amount_text(words, want, want.total)}, {"day", words.day(want.to)}}));
    }
    return texts;
  }

  void draw_strip(const WantSupply& supply, double left, double top) {
    const Words& words = sheet_.words;
    const double name_width = kNamesMm - 3.0;
    const plan::Want& want = *supply.want;
    double y = top + 0.8;
    y += canvas_.text({left, y}, name_of(sheet_, want),
                      {.size_pt = 8.5, .bold = true, .width_mm = name_width, .lines = 1});
    for (const std::string& text : wish_texts(want)) {
      y += canvas_.text({left, y}, text,
                        {.size_pt = 6.8, .colour = kInkSoft, .width_mm = name_width, .lines = 1});
    }
    const std::string share = supply.wanted > 0.0 ? words.percent(supply.mean_reaches / supply.wanted) : "–";
    canvas_.text({left, y},
                 words.say("table.sum", {{"reaches", amount_text(words, want, supply.mean_reaches)},
                                         {"wanted", amount_text(words, want, supply.wanted)},
                                         {"share", share}}),
                 {.size_pt = 6.8, .width_mm = name_width, .lines = 1});
    draw_bars(supply, top + 1.0);
    draw_numbers(supply, top + 1.0 + kBarsMm);
    const double below = top + kStripMm;
    canvas_.line({left, below}, {axis_.left + axis_.width, below}, {.width_mm = 0.15, .colour = kRule});
  }

  void draw_bars(const WantSupply& supply, double top) {
    double highest = 0.0;
    for (const SupplyWeek& week : supply.weeks) highest = std::max(highest, week.wanted - week.to_store);
    if (supply.wanted <= 0.0) return;
    const double base_line = top + kBarsMm;
    for (const SupplyWeek& week : supply.weeks) {
      if (week.wanted <= 0.0) continue;
      // Beside a winter's store a week's meals would be too low to see: its week has a scale of its own.
      const double per_unit = kBarsMm / (week.to_store > 0.0 ? week.wanted : highest);
      const double left = axis_.x(week.monday);
      const double width = axis_.x(week.monday + Days{7}) - left;
      const double wanted = week.wanted * per_unit;
      const double middle = week.reaches.p50 * per_unit;
      canvas_.fill({left + 0.3, base_line - middle, width - 0.6, middle}, ready_shade(0.55));
      const double x = left + width / 2.0;
      canvas_.line({x, base_line - week.reaches.p10 * per_unit}, {x, base_line - week.reaches.p90 * per_unit},
                   {.width_mm = 0.35});
      canvas_.line({left, base_line - wanted}, {left + width, base_line - wanted},
                   {.width_mm = 0.3, .colour = kAct});
    }
    canvas_.line({axis_.left, base_line}, {axis_.left + axis_.width, base_line},
                 {.width_mm = 0.2, .colour = kRuleStrong});
  }

  /// Share of the month's wish that is met, under each month.
  void draw_numbers(const WantSupply& supply, double top) {
    std::size_t from = 0;
    while (from < supply.weeks.size()) {
      const Date month_of_week = supply.weeks[from].monday + Days{3};
      double wanted = 0.0;
      double reaches = 0.0;
      std::size_t to = from;
      while (to < supply.weeks.size() &&
             base::month_of(supply.weeks[to].monday + Days{3}) == base::month_of(month_of_week)) {
        wanted += supply.weeks[to].wanted;
        reaches += supply.weeks[to].mean_reaches;
        ++to;
      }
      const double left = axis_.x(supply.weeks[from].monday);
      const double width = axis_.x(supply.weeks[to - 1].monday + Days{7}) - left;
      constexpr double kLeastWidthMm = 7.0;
      if (wanted > 0.0 && width > kLeastWidthMm) {
        canvas_.text(
            {left, top + 0.7}, sheet_.words.percent(reaches / wanted),
            {.size_pt = 6.2, .colour = kInkSoft, .align = Align::middle, .width_mm = width, .lines = 1});
      }
      from = to;
    }
  }

  void draw_legend(const Box& room) {
    const TextStyle style{.size_pt = 7.0, .colour = kInkSoft};
    const double sample = 8.0;
    double x = room.x;
    const auto item = [&](const char* key, const std::function<void(double)>& draw) {
      const std::string text = sheet_.words.say(key);
      draw(x);
      canvas_.text({x + sample + 1.5, room.y}, text, style);
      x += sample + 6.0 + canvas_.measure(text, style).width;
    };
    item("table.legend_wanted", [&](double at) {
      canvas_.line({at, room.y + 0.6}, {at + sample, room.y + 0.6}, {.width_mm = 0.3, .colour = kAct});
    });
    item("table.legend_reaches", [&](double at) {
      canvas_.fill({at, room.y, sample, 2.8}, ready_shade(0.55));
    });
    item("table.legend_range", [&](double at) {
      canvas_.line({at + sample / 2.0, room.y}, {at + sample / 2.0, room.y + 2.8}, {.width_mm = 0.35});
    });
    item("table.legend_share", [&](double at) {
      canvas_.text(
          {at, room.y}, "85 %",
          {.size_pt = 6.2, .colour = kInkSoft, .align = Align::middle, .width_mm = sample, .lines = 1});
    });
  }

  void draw_cautions(Box room) {
    std::set<std::string> crops;
    for (const book::StandState& state : sheet_.season.state.stands) crops.insert(state.plan.crop);
    std::string text;
    for (const std::string& id : crops) {
      const auto crop = sheet_.season.library->find(id);
      if (!crop || (*crop)->limits.caution.empty()) continue;
      if (!text.empty()) text += ' ';
      text += sheet_.words.say("caution.of_crop", {{"crop", sheet_.words.crop(**crop)},
                                                   {"text", sheet_.words.caution((*crop)->limits.caution)}});
    }
    if (text.empty()) return;
    const TextStyle style{.size_pt = 7.0, .width_mm = room.width};
    const double bottom = pages_.room().bottom();
    if (room.y + canvas_.measure(text, style).height > bottom) {
      room = pages_.next({}, lead());
    }
    canvas_.text({room.x, room.y}, text, style);
  }

  const SeasonSheet& sheet_;
  Canvas& canvas_;
  Pages& pages_;
  std::vector<WantSupply> wants_;
  TimeAxis axis_;
};

}  // namespace

void draw_table(const SeasonSheet& sheet, Canvas& canvas, Pages& pages) {
  if (sheet.season.garden.wants.empty())
    return draw_nothing(sheet.words.say("empty.no_wants"), canvas, pages);
  TablePicture(sheet, canvas, pages).draw();
}

}  // namespace sowtide::desk::print
