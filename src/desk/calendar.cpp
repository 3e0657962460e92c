#include "desk/calendar.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "base/hash.hpp"
#include "base/utf8.hpp"
#include "desk/print/moments.hpp"
#include "desk/print/page.hpp"
#include "desk/print/sheets.hpp"
#include "desk/print/words.hpp"
#include "desk/raising.hpp"
#include "desk/stand_stage.hpp"

namespace sowtide::desk {
namespace {

using base::Date;
using base::Days;
using print::Words;

constexpr std::size_t kMostOctets = 75;

/// TEXT of RFC 5545, 3.3.11.
std::string escaped(std::string_view text) {
  std::string out;
  for (const char c : text) {
    switch (c) {
      case '\\':
        out += "\\\\";
        break;
      case ';':
        out += "\\;";
        break;
      case ',':
        out += "\\,";
        break;
      case '\n':
        out += "\\n";
        break;
      default:
        if (static_cast<unsigned char>(c) >= 0x20U || c == '\t') out += c;
    }
  }
  return out;
}

/// Folds one content line: no line longer than 75 octets, no character torn apart.
std::string folded(std::string_view line) {
  std::string out;
  std::size_t room = kMostOctets;
  while (line.size() > room) {
    const std::string_view head = base::utf8_prefix(line, room);
    out += std::string(head) + "\r\n ";
    line.remove_prefix(head.size());
    room = kMostOctets - 1;  // the blank that marks a folded line counts
  }
  return out + std::string(line) + "\r\n";
}

std::string compact(Date date) {
  std::string text = base::to_iso(date);
  std::erase(text, '-');
  return text;
}

struct Writer {
  const Season& season;
  const Words& words;
  const CalendarOptions& options;
  std::string garden_key;
  std::string out;

  void line(std::string_view name, std::string_view value) {
    out += folded(fmt::format("{}:{}", name, value));
  }
  void text(std::string_view name, std::string_view value) { line(name, escaped(value)); }
};

/// "harden-off" → the key of its texts.
std::string key_of(Moment::Kind kind) {
  std::string key(moment_word(kind));
  std::replace(key.begin(), key.end(), '-', '_');
  return "calendar." + key;
}

std::string sow_text(const Writer& w, const stand::StandPlan& plan, const crop::Crop& crop) {
  const print::Options unused;
  const print::SeasonSheet sheet{w.season, w.words, unused};
  if (set_in_cells(crop, plan))
    return w.words.say("calendar.plant_text", {{"amount", print::sowing_amount(sheet, plan)},
                                               {"where", print::sowing_place(sheet, plan)}});
  return w.words.say("calendar.sow_text", {{"amount", print::sowing_amount(sheet, plan)},
                                           {"depth", w.words.depth(crop.germination.depth_mm)},
                                           {"where", print::sowing_place(sheet, plan)}});
}

std::vector<std::string> sow_lines(const Writer& w, const stand::StandPlan& plan, const crop::Crop& crop) {
  std::vector<std::string> lines{sow_text(w, plan, crop)};
  // Cautions of the nursery are about raising and setting out.
  if (plan.method == stand::Method::start_indoors) lines.push_back(w.words.caution(crop.nursery.caution));
  const bed::Tray* tray = print::tray_of(w.season, plan.tray);
  if (tray != nullptr && tray->place == bed::TrayPlace::heat_mat)
    lines.push_back(w.words.say("caution.heat_mat"));
  return lines;
}

std::string set_out_text(const Writer& w, std::size_t i) {
  const Words& words = w.words;
  const book::StandState& state = w.season.state.stands[i];
  const stand::StandPlan& plan = state.plan;
  return words.say(
      to_be_bought(plan, state.facts) ? "calendar.buy_text" : "calendar.set_out_text",
      {{"plants", print::plants_of(words, plan)}, {"where", print::place_of(w.season, words, plan)}});
}

std::vector<std::string> description_lines(const Writer& w, std::size_t i, const Moment& moment,
                                           const crop::Crop& crop) {
  const Words& words = w.words;
  const stand::StandPlan& plan = w.season.state.stands[i].plan;
  const std::string days = words.days(moment.early, moment.late, w.season.today);
  switch (moment.kind) {
    case Moment::Kind::sow:
      return sow_lines(w, plan, crop);
    case Moment::Kind::up:
      return {words.say(crop.seed.planting_piece ? "calendar.up_text_planted" : "calendar.up_text",
                        {{"days", days}, {"late", words.day(moment.late, w.season.today)}})};
    case Moment::Kind::harden_off:
      return {words.say(
          (moment.late - moment.early).count() == 1 ? "calendar.harden_one_day" : "calendar.harden_text",
          {{"n", std::to_string((moment.late - moment.early).count())}})};
    case Moment::Kind::set_out:
      return {set_out_text(w, i), words.say("calendar.days", {{"days", days}})};
    case Moment::Kind::first_pick:
    case Moment::Kind::last_pick:
      return {words.say("calendar.days", {{"days", days}}),
              words.say("calendar.worth", {{"share", words.percent(w.season.outlooks[i].success)}}),
              words.caution(crop.limits.caution)};
  }
  return {};
}

std::string description(const Writer& w, std::size_t i, const Moment& moment, const crop::Crop& crop) {
  std::string text;
  for (const std::string& line : description_lines(w, i, moment, crop)) {
    if (!line.empty()) text += (text.empty() ? "" : "\n") + line;
  }
  return text;
}

/// Where the work is: at the tray until it is set out.
std::string place_of_moment(const Writer& w, const stand::StandPlan& plan, Moment::Kind kind) {
  const print::Options unused;
  const bool at_tray =
      kind == Moment::Kind::sow || kind == Moment::Kind::up || kind == Moment::Kind::harden_off;
  return at_tray ? print::sowing_place({w.season, w.words, unused}, plan)
                 : print::place_of(w.season, w.words, plan);
}

void write_entry(Writer& w, std::size_t i, const Moment& moment, const crop::Crop& crop) {
  const book::StandState& state = w.season.state.stands[i];
  const stand::StandPlan& plan = state.plan;
  const char* component = w.options.as_todos ? "VTODO" : "VEVENT";
  const std::string what = fmt::format("{} ({})", print::stand_name(w.season, w.words, plan), plan.id);
  w.line("BEGIN", component);
  w.line("UID", fmt::format("{}-{}-{}@sowtide.invalid", w.garden_key, plan.id, moment_word(moment.kind)));
  w.line("DTSTAMP", compact(w.season.today) + "T000000Z");
  const bool buys = moment.kind == Moment::Kind::set_out && to_be_bought(state.plan, state.facts);
  w.text("SUMMARY", w.words.say(buys ? "calendar.buy" : key_of(moment.kind), {{"what", what}}));
  if (w.options.as_todos) {
    // DUE is the day itself, other than the end of an event, and must lie after a start (RFC 5545, 3.8.2.3).
    const Date due = std::max(moment.late, moment.middle);
    if (moment.middle < due) w.line("DTSTART;VALUE=DATE", compact(moment.middle));
    w.line("DUE;VALUE=DATE", compact(due));
    w.line("STATUS", "NEEDS-ACTION");
  } else {
    w.line("DTSTART;VALUE=DATE", compact(moment.middle));
    w.line("DTEND;VALUE=DATE", compact(moment.middle + Days{1}));
    w.line("TRANSP", "TRANSPARENT");
  }
  const std::string text = description(w, i, moment, crop);
  if (!text.empty()) w.text("DESCRIPTION", text);
  const std::string place = place_of_moment(w, plan, moment.kind);
  if (!place.empty()) w.text("LOCATION", place);
  if (!w.options.address.empty()) w.line("URL", fmt::format("{}/#/stand/{}", w.options.address, plan.id));
  w.line("END", component);
}

}  // namespace

base::Result<std::string> calendar_ics(const Season& season, const CalendarOptions& options) {
  const auto texts = print::catalogue(options.language);
  if (!texts) return tl::make_unexpected(texts.error());
  const Words words(**texts, options.units.value_or(units_of(season.garden.units)));
  const climate::Site& site = season.garden.site;
  Writer w{season,
           words,
           options,
           fmt::format("{:016x}", base::fnv1a(fmt::format("{}/{:.4f}/{:.4f}", season.garden.name,
                                                      site.latitude_deg, site.longitude_deg))),
           {}};
  const std::string name = words.say("calendar.name", {{"garden", season.garden.name}});
  w.line("BEGIN", "VCALENDAR");
  w.line("VERSION", "2.0");
  w.line("PRODID", "-//Sowtide//Sowtide//EN");
  w.line("CALSCALE", "GREGORIAN");
  w.text("NAME", name);          // RFC 7986, 5.1
  w.text("X-WR-CALNAME", name);  // the same, for readers from before it
  for (std::size_t i = 0; i < season.state.stands.size(); ++i) {
    const auto crop = crop_of(season, season.state.stands[i].plan);
    if (!crop) return tl::make_unexpected(crop.error());
    const book::StandState& state = season.state.stands[i];
    if (sowing_missed(state.plan, state.facts, season.today)) continue;
    for (Moment moment : moments_ahead(season, i)) {
      // What should have been sown or bought is to be so today.
      const bool begins = moment.kind == Moment::Kind::sow ||
                          (moment.kind == Moment::Kind::set_out && to_be_bought(state.plan, state.facts));
      if (begins) moment.early = moment.middle = moment.late = std::max(moment.middle, season.today);
      if (moment.middle >= season.today) write_entry(w, i, moment, *crop);
    }
  }
  w.line("END", "VCALENDAR");
  return std::move(w.out);
}

}  // namespace sowtide::desk
