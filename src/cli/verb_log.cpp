// log, store.
#include <fmt/format.h>
#include <fmt/ostream.h>

#include <nlohmann/json.hpp>
#include <ostream>
#include <random>
#include <string_view>
#include <utility>
#include <vector>

#include "base/amount.hpp"
#include "base/csv.hpp"
#include "book/arrangement_word.hpp"
#include "book/naming.hpp"
#include "book/stand_log.hpp"
#include "book/words.hpp"
#include "cli/open.hpp"
#include "cli/typed_amount.hpp"
#include "cli/verbs.hpp"
#include "desk/json.hpp"
#include "desk/log_answer.hpp"
#include "desk/logbook.hpp"
#include "desk/message_json.hpp"
#include "desk/present.hpp"
#include "desk/season.hpp"
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
  const bool of_entry = field.starts_with(kFirstEntry);
  if (of_entry) field.erase(0, kFirstEntry.size());
  if (!of_entry && field != "kind") return problem;
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

/// Water told as a depth, 25mm or 1in, as rain gauges and sprinklers have it; nothing where it is told
/// otherwise.
std::optional<double> depth_mm_of(const TypedAmount& water) {
  if (water.empty() || base::parse_number(water.text)) return std::nullopt;
  const auto depth_mm = base::read_amount(water.text, base::Measure::millimetres);
  return depth_mm ? std::optional(*depth_mm) : std::nullopt;
}

/// Litres of the water that an entry tells of; of a depth those on the whole of the bed that it names. A
/// millimetre is a litre on a square metre.
base::Result<std::optional<double>> litres_of(const LogOptions& options,
                                              const book::GardenDescription& garden,
                                              const book::Event& event) {
  const auto depth_mm = depth_mm_of(options.volume);
  if (!depth_mm) return amount_of(options.volume, base::Measure::litres, desk::units_of(garden.units));
  const bed::Bed* bed = event.kind == book::EventKind::watered ? desk::bed_of(garden, event.target) : nullptr;
  if (bed != nullptr) return std::optional(*depth_mm * bed->length_m * bed->width_m);
  return base::fail(base::ProblemCode::wrong_unit,
                    fmt::format("\"{}\" is a depth of water", options.volume.text),
                    {.field = options.volume.option},
                    fmt::format("Name the bed that was watered with --target, or write the amount: {}",
                                base::units_known(base::Measure::litres)));
}

base::Result<void> read_amounts(const LogOptions& options, const book::GardenDescription& garden,
                                book::Event& event) {
  const desk::Units units = desk::units_of(garden.units);
  const auto grams = amount_of(options.weight, base::Measure::grams, units);
  if (!grams) return tl::make_unexpected(grams.error());
  const auto litres = litres_of(options, garden, event);
  if (!litres) return tl::make_unexpected(litres.error());
  const auto diameter_mm = amount_of(options.diameter, base::Measure::millimetres, units);
  if (!diameter_mm) return tl::make_unexpected(diameter_mm.error());
  event.grams = *grams;
  event.litres = *litres;
  event.diameter_mm = *diameter_mm;
  return {};
}

/// A packet is named of a sowing or a test, and of nothing else.
base::Result<void> check_packet(const LogOptions& options, book::EventKind kind) {
  if (kind != book::EventKind::sown && kind != book::EventKind::tested) {
    return base::fail(base::ProblemCode::contradiction,
                      fmt::format("is of sown and tested, not of {}", book::event_kind_text(kind)),
                      {.field = "--packet"}, "Leave it out");
  }
  if (options.target.empty()) return {};
  return base::fail(base::ProblemCode::contradiction, "cannot stand beside --target, which names it too",
                    {.field = "--packet"}, "Give one of the two");
}

/// Stand and bed by the names people give them.
base::Result<void> read_names(const LogOptions& options, const book::GardenDescription& garden,
                              book::Event& event) {
  const auto stand = stand_typed(options.stand, garden, "STAND");
  if (!stand) return tl::make_unexpected(stand.error());
  event.stand = *stand;
  event.target = options.target;
  if (!options.packet.empty()) {
    if (auto packet = check_packet(options, event.kind); !packet) return packet;
    event.target = options.packet;
  }
  const bool of_bed = event.kind == book::EventKind::watered || event.kind == book::EventKind::fed;
  if (!of_bed || options.target.empty()) return {};
  const auto bed = bed_typed(options.target, garden, "--target");
  if (!bed) return tl::make_unexpected(bed.error());
  event.target = *bed;
  return {};
}

/// That nothing is left of a stand stands at the head of the entry's text.
base::Result<void> say_all(const LogOptions& options, book::Event& event) {
  if (!options.all) return {};
  if (event.kind != book::EventKind::picked) {
    return base::fail(base::ProblemCode::usage, "is of a picking that takes all of a stand",
                      {.field = "--all"},
                      "Leave it out, or log picked; without an amount discarded ends a stand, too");
  }
  if (!book::says_all(event.text))
    event.text = fmt::format("{}{}{}", book::kAllWord, event.text.empty() ? "" : ", ", event.text);
  return {};
}

/// That leaves alone were picked stands at the head of the entry's text.
base::Result<void> say_leaves(const LogOptions& options, const book::GardenDescription& garden,
                              book::Event& event) {
  if (!options.leaves) return {};
  const auto refusal = [](base::ProblemCode code, std::string what, std::string remedy) {
    return base::fail(code, std::move(what), {.field = "--leaves"}, std::move(remedy));
  };
  if (event.kind != book::EventKind::picked || options.all)
    return refusal(base::ProblemCode::usage, "is of a picking after which the plants stay", "Leave it out");
  const auto& library = crop::built_in_library();
  for (const stand::StandPlan& plan : garden.stands) {
    if (plan.id != event.stand) continue;
    const auto crop = library.find(plan.crop);
    if (crop && book::gives_greens((*crop)->harvest)) continue;
    return refusal(base::ProblemCode::contradiction,
                   fmt::format("of {} no leaves are picked as greens", crop ? (*crop)->name : plan.crop),
                   "Leave it out; of leaf crops a picking is of leaves anyway");
  }
  if (!book::says_leaves(event.text))
    event.text = fmt::format("{}{}{}", book::kLeavesWord, event.text.empty() ? "" : ", ", event.text);
  return {};
}

base::Result<book::Event> entry_of(const LogOptions& options, book::EventKind kind,
                                   const book::GardenDescription& garden) {
  book::Event event;
  event.id = options.id.empty() ? new_event_id() : options.id;
  event.date = options.date;
  event.kind = kind;
  event.count = options.count;
  event.text = options.text;
  if (auto said = say_all(options, event); !said) return tl::make_unexpected(said.error());
  if (auto read = read_names(options, garden, event); !read) return tl::make_unexpected(read.error());
  if (auto said = say_leaves(options, garden, event); !said) return tl::make_unexpected(said.error());
  if (auto read = read_amounts(options, garden, event); !read) return tl::make_unexpected(read.error());
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

/// The log as it stands: nothing is written.
base::Result<void> list_log(const LogOptions& options, Output& output) {
  if (options.writes()) {
    return base::fail(base::ProblemCode::usage, "is needed to write an entry", {.field = "EVENT"},
                      "Say what was done, for example picked; without it the entries are listed");
  }
  const auto opened = open_garden(options.garden);
  if (!opened) return tl::make_unexpected(opened.error());
  const crop::CropLibrary& library = crop::built_in_library();
  const auto stand = stand_typed(options.stand, opened->garden, "--stand");
  if (!stand) return tl::make_unexpected(stand.error());
  desk::LogChoice choice{.stand = *stand, .from = options.from, .to = options.to};
  choice.most = options.most.value_or(choice.most);
  const desk::LogList list = desk::chosen_entries(opened->events, choice);
  output.out << (output.json ? desk::log_json(opened->garden, library, list) + "\n"
                             : desk::log_text(opened->garden, library, list));
  return {};
}

/// Options of the list say nothing of a new entry.
base::Result<void> check_no_list(const LogOptions& options) {
  if (!options.from && !options.to && !options.most) return {};
  return base::fail(base::ProblemCode::usage, "is of the list of entries, not of a new one",
                    {.field = options.from ? "--from"
                              : options.to ? "--to"
                                           : "--most"},
                    "Leave it out, or leave EVENT out");
}

/// An entry as it was written, with what is said about it.
struct Written {
  book::Event event;
  std::size_t added = 0;
  std::string understood;
  std::vector<desk::Message> cautions;
  desk::Units units = desk::Units::metric;
};

void tell(const Written& written, Output& output) {
  const auto cautions = desk::caution_texts(written.cautions, written.event, written.units);
  if (output.json) {
    fmt::print(output.out, "{}\n",
               nlohmann::ordered_json{{"id", written.event.id},
                                      {"new", written.added},
                                      {"understood", written.understood},
                                      {"cautions", cautions},
                                      {"cautions_said", desk::messages_json(written.cautions)}}
                   .dump());
    return;
  }
  if (written.added == 0) {
    fmt::print(output.out, "Already there: entry {}. Nothing changed.\n", written.event.id);
    return;
  }
  fmt::print(output.out, "Logged: {}, on {} (entry {}).\n", written.understood, base::to_iso(written.event.date),
             written.event.id);
  for (const std::string& caution : cautions) fmt::print(output.out, "Caution: {}.\n", caution);
  if (!written.cautions.empty()) {
    fmt::print(output.out, "If that is wrong: sowtide log GARDEN corrected --target {}\n", written.event.id);
  }
}

std::vector<desk::Message> cautions_of(const OpenGarden& opened, const book::Event& event, base::Date today) {
  auto cautions = desk::entry_cautions(opened.garden, crop::built_in_library(), opened.events, event);
  if (const auto ahead = desk::caution_of_day_ahead(event, today)) cautions.push_back(*ahead);
  return cautions;
}

base::Result<void> write_entry(const LogOptions& options, Output& output) {
  const auto kind = book::event_kind_named(options.kind);
  if (!kind) return tl::make_unexpected(as_typed(kind.error()));
  if (auto checked = check_no_list(options); !checked) return checked;
  auto opened = open_garden(options.garden);
  if (!opened) return tl::make_unexpected(opened.error());
  auto entry = entry_of(options, *kind, opened->garden);
  if (!entry) return tl::make_unexpected(entry.error());
  Written written{.event = std::move(*entry), .units = desk::units_of(opened->garden.units)};
  if (auto checked = check_arrangement(written.event); !checked) return checked;
  const std::optional<double> together_g = written.event.grams;
  const bool sample = share_out_sample(written.event);
  auto added = opened->file.append({written.event});
  if (!added) {
    base::Problem refused = as_typed(added.error());
    if (!options.packet.empty() && refused.where.field == "--target") refused.where.field = "--packet";
    return tl::make_unexpected(refused);
  }
  written.added = *added;
  const crop::CropLibrary& library = crop::built_in_library();
  written.understood = desk::entry_text(opened->garden, library, written.event);
  if (sample) {
    written.understood += fmt::format(" ({} together)", desk::weight_text(*together_g, written.units));
  }
  if (const auto depth_mm = depth_mm_of(options.volume))
    written.understood += fmt::format(" ({} on all of the bed)", desk::depth_text(*depth_mm, written.units));
  if (written.added > 0) written.cautions = cautions_of(*opened, written.event, options.today);
  tell(written, output);
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
