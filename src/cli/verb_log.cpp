// log, store.
#include <fmt/format.h>
#include <fmt/ostream.h>

#include <algorithm>
#include <cmath>
#include <ostream>
#include <random>
#include <string_view>
#include <utility>

#include "base/amount.hpp"
#include "base/csv.hpp"
#include "book/arrangement_word.hpp"
#include "cli/open.hpp"
#include "cli/verbs.hpp"
#include "desk/json.hpp"
#include "desk/logbook.hpp"
#include "desk/store.hpp"

namespace sowtide::cli {
namespace {

/// A new name for a log entry: 16 random hexadecimal digits.
std::string new_event_id() {
  std::random_device device;
  return fmt::format("c-{:08x}{:08x}", device(), device());
}

/// The book names the field of an entry, "events[0].diameter_mm"; the person typed an option, --diameter.
base::Problem as_typed(base::Problem problem) {
  constexpr std::string_view kFirstEntry = "events[0].";
  std::string& field = problem.where.field;
  if (!field.starts_with(kFirstEntry)) return problem;
  field.erase(0, kFirstEntry.size());
  if (field == "kind" || field == "stand") {
    field = field == "kind" ? "EVENT" : "STAND";
    return problem;
  }
  for (const auto& [name, option] :
       {std::pair{"grams", "weight"}, {"litres", "water"}, {"diameter_mm", "diameter"}}) {
    if (field == name) field = option;
  }
  field.insert(0, "--");
  return problem;
}

/// What was typed for an amount; nothing when it was not given.
base::Result<std::optional<double>> amount_of(const std::string& text, base::Measure measure,
                                              const std::string& option) {
  if (text.empty()) return std::optional<double>{};
  const auto read = base::read_amount(text, measure);
  if (read) return std::optional(*read);
  base::Problem problem = read.error();
  problem.where.field = option;
  return tl::make_unexpected(problem);
}

base::Result<void> read_amounts(const LogOptions& options, book::Event& event) {
  const auto grams = amount_of(options.weight, base::Measure::grams, "--weight");
  if (!grams) return tl::make_unexpected(grams.error());
  const auto litres = amount_of(options.volume, base::Measure::litres, "--water");
  if (!litres) return tl::make_unexpected(litres.error());
  const auto diameter_mm = amount_of(options.diameter, base::Measure::millimetres, "--diameter");
  if (!diameter_mm) return tl::make_unexpected(diameter_mm.error());
  event.grams = *grams;
  event.litres = *litres;
  event.diameter_mm = *diameter_mm;
  return {};
}

base::Result<book::Event> entry_of(const LogOptions& options, book::EventKind kind) {
  book::Event event;
  event.id = options.id.empty() ? new_event_id() : options.id;
  event.date = options.date;
  event.kind = kind;
  event.stand = options.stand;
  event.target = options.target;
  event.count = options.count;
  event.text = options.text;
  if (auto read = read_amounts(options, event); !read) return tl::make_unexpected(read.error());
  return event;
}

/// A text that begins as if it told how the rows stand must tell it whole: else it would be kept as a note.
base::Result<void> check_arrangement(const book::Event& event) {
  if (event.kind != book::EventKind::sown && event.kind != book::EventKind::set_out) return {};
  auto told = book::arrangement_told(event.text);
  if (told) return {};
  told.error().where.field = "--text";
  return tl::make_unexpected(told.error());
}

/// A sample of plants weighed together is written down as the weight of one, as the log means it.
bool share_out_sample(book::Event& event) {
  // A weight below nothing is refused as it was typed.
  const bool sample = event.kind == book::EventKind::measured && event.grams && *event.grams >= 0.0 &&
                      event.count && *event.count > 1.0;
  if (sample) event.grams = *event.grams / *event.count;
  return sample;
}

/// How amounts with a unit were understood: "2lb" is 907 g.
std::string amounts_told(const LogOptions& options, const book::Event& event, bool sample) {
  std::string told;
  const auto tell = [&told](const std::string& typed, const std::optional<double>& amount,
                            std::string_view unit) {
    if (amount && !base::parse_number(typed))
      told += fmt::format(", {} is {} {}", typed, base::number_text(std::round(*amount * 10.0) / 10.0), unit);
  };
  if (!sample) tell(options.weight, event.grams, "g");
  tell(options.volume, event.litres, "L");
  tell(options.diameter, event.diameter_mm, "mm");
  return told;
}

base::Result<void> check_stand(const OpenGarden& opened, const std::string& stand) {
  const auto& stands = opened.garden.stands;
  const bool known = std::any_of(stands.begin(), stands.end(),
                                 [&](const stand::StandPlan& plan) { return plan.id == stand; });
  if (stand.empty() || known) return {};
  return base::fail(base::ProblemCode::not_found, fmt::format("there is no stand \"{}\"", stand),
                    {.field = "--stand"}, "`sowtide outlook GARDEN` lists the stands");
}

/// The log as it stands: nothing is written.
base::Result<void> list_log(const LogOptions& options, Output& output) {
  if (options.writes()) {
    return base::fail(base::ProblemCode::usage, "is needed to write an entry", {.field = "EVENT"},
                      "Say what was done, for example picked; without it the entries are listed");
  }
  const auto opened = open_garden(options.garden);
  if (!opened) return tl::make_unexpected(opened.error());
  if (auto known = check_stand(*opened, options.stand); !known) return known;
  desk::LogChoice choice{.stand = options.stand, .from = options.from, .to = options.to};
  choice.most = options.most.value_or(choice.most);
  const desk::LogList list = desk::chosen_entries(opened->events, choice);
  const crop::CropLibrary& library = crop::built_in_library();
  output.out << (output.json ? desk::log_json(opened->garden, library, list) + "\n"
                             : desk::log_text(opened->garden, library, list));
  return {};
}

base::Result<void> write_entry(const LogOptions& options, Output& output) {
  const auto kind = book::parse_event_kind(options.kind);
  if (!kind) {
    return base::fail(
        base::ProblemCode::not_found, fmt::format("\"{}\" is no kind of log entry", options.kind),
        {.field = "EVENT"},
        "Kinds: sown, counted, set-out, thinned, watered, fed, measured, picked, stored, eaten, "
        "discarded, noted, corrected, tested");
  }
  if (options.from || options.to || options.most) {
    return base::fail(base::ProblemCode::usage, "is of the list of entries, not of a new one",
                      {.field = options.from ? "--from"
                                : options.to ? "--to"
                                             : "--most"},
                      "Leave it out, or leave EVENT out");
  }
  auto file = book::GardenFile::open(options.garden);
  if (!file) return tl::make_unexpected(file.error());
  auto entry = entry_of(options, *kind);
  if (!entry) return tl::make_unexpected(entry.error());
  book::Event& event = *entry;
  if (auto checked = check_arrangement(event); !checked) return checked;
  const bool sample = share_out_sample(event);
  auto added = file->append({event});
  if (!added) return tl::make_unexpected(as_typed(added.error()));
  if (output.json) {
    fmt::print(output.out, "{{\"id\":{},\"new\":{}}}\n", desk::json_text(event.id), *added);
  } else if (*added == 1) {
    std::string what = options.kind;
    for (const std::string& of : {options.stand, options.target}) {
      if (!of.empty()) what += " " + of;
    }
    what += amounts_told(options, event, sample);
    if (sample) {
      what += fmt::format(", {:g} plants of {:g} g together, {:.1f} g each", *event.count,
                          *event.grams * *event.count, *event.grams);
    }
    fmt::print(output.out, "Logged: {} on {} (entry {}).\n", what, base::to_iso(event.date), event.id);
  } else {
    fmt::print(output.out, "Already there: entry {}. Nothing changed.\n", event.id);
  }
  return {};
}

}  // namespace

base::Result<void> run_log(const LogOptions& options, Output& output) {
  return options.kind.empty() ? list_log(options, output) : write_entry(options, output);
}

base::Result<void> run_store(const StoreOptions& options, Output& output) {
  const auto season = open_season(options.garden, options.date);
  if (!season) return tl::make_unexpected(season.error());
  output.out << (output.json ? desk::store_json(*season) + "\n" : desk::store_text(*season));
  return {};
}

}  // namespace sowtide::cli
