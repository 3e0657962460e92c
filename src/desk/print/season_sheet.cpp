// The season as a picture of space and time: time across, the length of every bed down.
#include <fmt/format.h>

#include <algorithm>

#include "desk/print/sheets.hpp"
#include "desk/stand_stage.hpp"
#include "stand/bought.hpp"
#include "stand/places.hpp"

namespace sowtide::desk::print {
namespace {

using base::Date;
using base::Days;

constexpr double kNamesMm = 27.0;
constexpr double kBandGapMm = 2.2;
/// Below this, no word fits into a stretch of a third of a metre; above, a small garden would only be blown
/// up.
constexpr double kLeastMmPerMetre = 6.5;
constexpr double kMostMmPerMetre = 16.0;
constexpr double kLeastBandMm = 7.5;
/// A tray of 100 cells is drawn as long as this much bed.
constexpr double kMetresPerHundredCells = 2.4;
constexpr double kLegendMm = 13.0;
constexpr Days kLongestAxis{550};

/// A bed or a tray with what stays in it.
struct Band {
  std::string name, measure;
  double extent = 0.0;  ///< metres that it is drawn as
  double scale = 1.0;   ///< metres drawn per metre or per cell
  std::vector<Stay> stays;
  std::vector<std::pair<double, double>> places;  ///< from and to of each stay, m or cells
};

std::string sun_words(const Words& words, const bed::Bed& bed) {
  if (bed.sun == bed::SunClass::partial) return ", " + words.say("place.partial_sun");
  return bed.sun == bed::SunClass::shade ? ", " + words.say("place.shade") : std::string{};
}

bool meet(const Stay& a, const Stay& b) {
  return a.first <= b.last && b.first <= a.last;
}

/// The lowest free run of cells for each stay, in order of time; a tray that is overfull grows.
void lay_cells(Band& band, const Season& season) {
  std::stable_sort(band.stays.begin(), band.stays.end(),
                   [](const Stay& a, const Stay& b) { return a.first < b.first; });
  for (std::size_t i = 0; i < band.stays.size(); ++i) {
    const double cells = std::max(1, stand::places_of(season.state.stands[band.stays[i].stand].plan));
    double from = 0.0;
    for (bool moved = true; moved;) {
      moved = false;
      for (std::size_t j = 0; j < i; ++j) {
        const bool crosses = from < band.places[j].second && band.places[j].first < from + cells;
        if (crosses && meet(band.stays[i], band.stays[j])) {
          from = band.places[j].second;
          moved = true;
        }
      }
    }
    band.places.emplace_back(from, from + cells);
  }
}

std::vector<Band> bands_of(const SeasonSheet& sheet, const std::vector<Stay>& stays) {
  std::vector<Band> bands;
  for (const bed::Bed& bed : sheet.season.garden.beds) {
    Band band{.name = bed.name,
              .measure = sheet.words.length(bed.length_m) + sun_words(sheet.words, bed),
              .extent = bed.length_m};
    for (const Stay& stay : stays) {
      if (stay.in_tray || stay.place != bed.id) continue;
      const stand::StandPlan& plan = sheet.season.state.stands[stay.stand].plan;
      band.stays.push_back(stay);
      band.places.emplace_back(plan.from_m, plan.to_m);
    }
    bands.push_back(std::move(band));
  }
  for (const bed::Tray& tray : sheet.season.garden.trays) {
    Band band{.name = tray.name,
              .measure = sheet.words.say(tray.cells == 1 ? "place.one_cell" : "place.cells",
                                         {{"n", std::to_string(tray.cells)}})};
    for (const Stay& stay : stays) {
      if (stay.in_tray && stay.place == tray.id) band.stays.push_back(stay);
    }
    lay_cells(band, sheet.season);
    double cells = tray.cells;
    for (const auto& place : band.places) cells = std::max(cells, place.second);
    if (cells > tray.cells) (band.measure += "\n") += sheet.words.say("place.overfull");
    band.scale = kMetresPerHundredCells / 100.0;
    band.extent = cells * band.scale;
    bands.push_back(std::move(band));
  }
  return bands;
}

Date month_begin(Date day) {
  return base::date_of(base::year_of(day), base::month_of(day), 1);
}
Date next_month(Date day) {
  const Date begin = month_begin(day);
  return begin + Days{base::days_in_month(base::year_of(begin), base::month_of(begin))};
}

/// Whole months that hold every stay still going on or to come; a year from today's month where there is
/// none.
TimeAxis axis_of(const Season& season, const std::vector<Stay>& stays, const Box& room) {
  Date first = month_begin(season.today);
  Date last = season.today;
  for (const Stay& stay : stays) {
    first = std::min(first, stay.first);
    last = std::max(last, stay.last);
  }
  if (stays.empty()) last = first + Days{364};
  first = std::max(month_begin(first), month_begin(season.today - Days{300}));
  last = std::min(last, first + kLongestAxis);
  return {first, next_month(last), room.x + kNamesMm, room.width - kNamesMm};
}

class SeasonPicture {
 public:
  SeasonPicture(const SeasonSheet& sheet, Canvas& canvas, Pages& pages)
      : sheet_(sheet), canvas_(canvas), pages_(pages) {
    for (std::size_t i = 0; i < sheet.season.state.stands.size(); ++i) {
      if (stand_stage(sheet.season.state.stands[i].facts) == StandStage::finished) continue;
      for (Stay& stay : stays_of(sheet.season, i)) stays_.push_back(std::move(stay));
    }
    bands_ = bands_of(sheet, stays_);
    axis_ = axis_of(sheet.season, stays_, pages.room());
    choose_scale();
  }

  void draw() {
    for (std::size_t from = 0; from < bands_.size();) {
      const Box room = pages_.next(sheet_.words.say("season.title"), sheet_.words.say("season.lead"));
      std::size_t to = from;
      double used = 0.0;
      while (to < bands_.size() && (to == from || used + height_of(bands_[to]) <= picture_height(room))) {
        used += height_of(bands_[to]) + kBandGapMm;
        ++to;
      }
      draw_bands(room, from, to, used - kBandGapMm);
      draw_patch_legend(canvas_, sheet_.words,
                        {room.x, room.bottom() - kLegendMm + 4.0, room.width, kLegendMm});
      from = to;
    }
  }

 private:
  static double picture_height(const Box& room) { return room.height - kMonthsHeightMm - kLegendMm; }
  double height_of(const Band& band) const { return std::max(kLeastBandMm, band.extent * mm_per_metre_); }

  /// The whole on one page if that leaves room for words, else as many pages as the least scale takes.
  void choose_scale() {
    const double height = picture_height(pages_.room()) - 4.0;
    double total = 0.0;
    double longest = 0.1;
    for (const Band& band : bands_) {
      total += band.extent;
      longest = std::max(longest, band.extent);
    }
    const double gaps = kBandGapMm * static_cast<double>(bands_.size());
    mm_per_metre_ = std::clamp((height - gaps) / std::max(0.1, total), kLeastMmPerMetre, kMostMmPerMetre);
    mm_per_metre_ = std::min(mm_per_metre_, height / longest);
  }

  void draw_bands(const Box& room, std::size_t from, std::size_t to, double height) {
    double y = room.y + kMonthsHeightMm;
    double below = y;
    for (std::size_t b = from; b < to; ++b, below += kBandGapMm) {
      const double free_from = axis_.clamped_x(sheet_.season.today);
      const Box band{axis_.left, below, axis_.width, height_of(bands_[b])};
      canvas_.dots({free_from, band.y, band.right() - free_from, band.height}, 1.6, kRule);
      below = band.bottom();
    }
    draw_months(canvas_, sheet_.words, axis_, {axis_.left, y, axis_.width, height}, sheet_.season.today);
    for (std::size_t b = from; b < to; ++b) {
      draw_band(bands_[b], room.x, y);
      y += height_of(bands_[b]) + kBandGapMm;
    }
  }

  void draw_band(const Band& band, double left, double top) {
    const double height = height_of(band);
    canvas_.line({left, top}, {axis_.left + axis_.width, top}, {.width_mm = 0.2, .colour = kRuleStrong});
    canvas_.line({left, top + height}, {axis_.left + axis_.width, top + height},
                 {.width_mm = 0.2, .colour = kRuleStrong});
    const int measure_lines = band.measure.find('\n') == std::string::npos ? 1 : 2;
    const double name = canvas_.text({left, top + 0.4}, band.name,
                                     {.size_pt = 8.0, .bold = true, .width_mm = kNamesMm - 2.0, .lines = 1});
    canvas_.text({left, top + 0.4 + name}, band.measure,
                 {.size_pt = 6.5, .colour = kInkSoft, .width_mm = kNamesMm - 2.0, .lines = measure_lines});
    const double mm_per_unit = height / (band.extent / band.scale);
    for (std::size_t s = 0; s < band.stays.size(); ++s) {
      const stand::StandPlan& plan = sheet_.season.state.stands[band.stays[s].stand].plan;
      draw_patch(canvas_, axis_, sheet_.season, band.stays[s], top + band.places[s].first * mm_per_unit,
                 std::max(0.6, (band.places[s].second - band.places[s].first) * mm_per_unit),
                 fmt::format("{} · {}", stand_name(sheet_.season, sheet_.words, plan), plan.id));
    }
  }

  const SeasonSheet& sheet_;
  Canvas& canvas_;
  Pages& pages_;
  std::vector<Stay> stays_;
  std::vector<Band> bands_;
  TimeAxis axis_;
  double mm_per_metre_ = 1.0;
};

std::vector<Column> list_columns(const Words& words) {
  return {{words.say("list.stand"), 10.0, Align::left, true},
          {words.say("list.what"), 42.0, Align::left, true},
          {words.say("list.where"), 48.0},
          {words.say("list.plants"), 34.0},
          {words.say("list.raised"), 34.0},
          {words.say("list.sow"), 22.0},
          {words.say("list.set_out"), 27.0},
          {words.say("list.first_pick"), 30.0},
          {words.say("list.last_pick"), 30.0},
          {words.say("list.worth"), 14.0, Align::right}};
}

std::vector<std::string> list_row(const SeasonSheet& sheet, std::size_t i) {
  const Words& words = sheet.words;
  const Season& season = sheet.season;
  const stand::StandPlan& plan = season.state.stands[i].plan;
  const std::vector<Moment> moments = moments_ahead(season, i);
  const bed::Tray* tray = plan.method == stand::Method::start_indoors ? tray_of(season, plan.tray) : nullptr;
  const std::optional<Date> sown = season.state.stands[i].facts.sown;
  const bool bought = comes_bought(plan, season.state.stands[i].facts);
  return {plan.id,
          stand_name(season, words, plan),
          place_of(season, words, plan),
          plants_of(words, plan),
          bought ? words.say("place.bought")
          : tray == nullptr
              ? words.say("place.in_place")
              : words.say(stand::places_of(plan) == 1 ? "list.one_cell_in" : "list.cells_in",
                          {{"n", std::to_string(stand::places_of(plan))}, {"tray", tray->name}}),
          sown     ? words.say("list.sown_on", {{"day", words.day(*sown, season.today)}})
          : bought ? "–"
                   : words.day(plan.sow, season.today),
          plan.method == stand::Method::start_indoors
              ? moment_days(moments, Moment::Kind::set_out, words, season.today)
              : "–",
          moment_days(moments, Moment::Kind::first_pick, words, season.today),
          moment_days(moments, Moment::Kind::last_pick, words, season.today),
          season.no_outlook.contains(plan.id) ? "–" : words.percent(season.outlooks[i].success)};
}

/// All stands in the order of beds and time: the small ones carry no word in the picture.
void draw_list(const SeasonSheet& sheet, Canvas& canvas, Pages& pages) {
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < sheet.season.state.stands.size(); ++i) {
    if (stand_stage(sheet.season.state.stands[i].facts) != StandStage::finished) order.push_back(i);
  }
  const auto bed_place = [&](std::size_t i) {
    const auto& beds = sheet.season.garden.beds;
    return std::find_if(beds.begin(), beds.end(),
                        [&](const bed::Bed& bed) { return bed.id == sheet.season.state.stands[i].plan.bed; });
  };
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    const stand::StandPlan& x = sheet.season.state.stands[a].plan;
    const stand::StandPlan& y = sheet.season.state.stands[b].plan;
    return std::make_tuple(bed_place(a), stand::begins_on(x), x.from_m) <
           std::make_tuple(bed_place(b), stand::begins_on(y), y.from_m);
  });
  const Rows rows(canvas, list_columns(sheet.words), pages.room().width, 7.5);
  Box room;
  double y = 0.0;
  bool open = false;
  for (const std::size_t i : order) {
    const std::vector<std::string> cells = list_row(sheet, i);
    if (!open || y + rows.height(cells) > room.bottom()) {
      room = pages.next(open ? std::string{} : sheet.words.say("list.title"), sheet.words.say("list.lead"));
      y = rows.head(room.x, room.y);
      open = true;
    }
    y = rows.row(room.x, y, cells);
  }
}

}  // namespace

void draw_season(const SeasonSheet& sheet, Canvas& canvas, Pages& pages) {
  if (sheet.season.garden.beds.empty() && sheet.season.state.stands.empty()) {
    return draw_nothing(sheet.words.say("empty.no_beds"), canvas, pages);
  }
  SeasonPicture(sheet, canvas, pages).draw();
  draw_list(sheet, canvas, pages);
}

}  // namespace sowtide::desk::print
