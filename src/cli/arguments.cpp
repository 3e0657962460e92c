#include "cli/arguments.hpp"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <array>
#include <cstdio>
#include <functional>
#include <optional>
#include <ostream>
#include <string_view>
#include <utility>
#include <vector>

#include "base/amount.hpp"
#include "base/csv.hpp"
#include "climate/readers.hpp"
#include "climate/site.hpp"
#include "desk/json.hpp"
#include "plan/plan.hpp"

namespace sowtide::cli {
namespace {

/// What the parser fills in; one member a verb.
struct Parsed {
  NewOptions make;
  ExportOptions exporting;
  CopyOptions copy;
  HouseholdOptions household;
  WeatherAddOptions weather_add;
  WeatherShowOptions weather_show;
  WindowsOptions windows;
  PlacesOptions places;
  PlanVerbOptions plan;
  OutlookOptions outlook;
  JudgeOptions judge;
  TodayOptions today;
  SeedOptions seed;
  NurseryOptions nursery;
  LogOptions log;
  StandOptions stand;
  StoreOptions store;
  PrintOptions print;
  FigureOptions figure;
  ProofOptions proof;
  ServeVerbOptions serve;
  CertificateVerbOptions certificate;
  std::string date, from, to, stand_day, outlook_on;  ///< --date …, read after parsing
  bool discard_plan = false;
  std::function<base::Result<void>(Output&)> verb;
};

const std::string kGardenText = "the garden file";

/// Days taken as today, as in the log.
constexpr int kEarliestYear = 1900;
constexpr int kLatestYear = 2199;

/// A range that reads well in --help, and where it is not kept.
template <class Number>
CLI::Validator between(Number low, Number high) {
  const std::string range = fmt::format("{} to {}", low, high);
  const auto check = [low, high, range](const std::string& text) {
    Number value{};
    const bool is_number = CLI::detail::lexical_cast(text, value);
    if (is_number && value >= low && value <= high) return std::string();
    return fmt::format("{} is not {}", text, is_number ? "within " + range : "a number from " + range);
  };
  return CLI::Validator(check, range);
}

CLI::Validator within(const plan::OptionLimits& limits) {
  return between(limits.least, limits.most);
}

void add_json(CLI::App* app, Output& output) {
  app->add_flag("--json", output.json, "answer as JSON; the schema stands under docs/api");
}

void add_date(CLI::App* app, Parsed& parsed) {
  app->add_option("--date", parsed.date, "take this day as today, YYYY-MM-DD")->type_name("DAY");
}

CLI::App* add_verb(CLI::App& app, const std::string& name, const std::string& text, const std::string& example,
                   Output& output) {
  CLI::App* verb = app.add_subcommand(name, text);
  verb->footer("Example:\n  " + example);
  add_json(verb, output);
  return verb;
}

void add_garden_verbs(CLI::App& app, Parsed& p, Output& output) {
  CLI::App* make = add_verb(app, "new", "make a garden file",
                            "sowtide new mine.sowtide --from demo/garden.toml", output);
  make->add_option("GARDEN", p.make.garden, "the file to make")->required();
  make->add_option("--from", p.make.from, "a description in TOML, or the garden.toml of an export")->type_name("FILE");
  make->add_option("--place", p.make.place,
                   "a place of the built-in table (`sowtide places` lists them), or LAT,LON[,ELEVATION_M] "
                   "for the nearest of them, when there is no description; left out, the page asks for it")
      ->type_name("NAME");
  make->callback([&p] { p.verb = [&p](Output& o) { return run_new(p.make, o); }; });

  CLI::App* exporting = add_verb(app, "export", "write everything as TOML and CSV, to be read back without loss",
                                 "sowtide export mine.sowtide mine-2026-05-01", output);
  exporting->add_option("GARDEN", p.exporting.garden, kGardenText)->required();
  exporting->add_option("DIR", p.exporting.directory, "an empty or new directory")->required();
  exporting->callback([&p] { p.verb = [&p](Output& o) { return run_export(p.exporting, o); }; });

  CLI::App* household =
      add_verb(app, "household", "first wants for so many people, from what people eat on average",
               "sowtide household mine.sowtide --people 4 --add", output);
  household->add_option("GARDEN", p.household.garden, kGardenText)->required();
  household->add_option("CROP", p.household.asked.crops,
                        "only these; left out, the twelve eaten most that are not wanted yet");
  household->add_option("--people", p.household.asked.people, "who eat from the garden, 2 unless given")
      ->check(between(desk::kFewestPeople, desk::kMostPeople));
  household->add_flag("--add", p.household.add,
                      "add them to the garden's wants; otherwise they are only shown");
  household->callback([&p] { p.verb = [&p](Output& o) { return run_household(p.household, o); }; });

  CLI::App* copy = add_verb(app, "copy", "a safe copy of a garden file, also while it is open in the browser",
                            "sowtide copy mine.sowtide mine-2026-05-01.sowtide", output);
  copy->add_option("GARDEN", p.copy.garden, kGardenText)->required();
  copy->add_option("FILE", p.copy.copy, "the file to make; it must not be there yet")->required();
  copy->callback([&p] { p.verb = [&p](Output& o) { return run_copy(p.copy, o); }; });
}

/// Two options for one amount: one leaves its unit open, the name of the other tells it.
struct AmountNames {
  std::string open;       ///< "--weight"
  std::string with_unit;  ///< "--grams"
  std::string unit;       ///< "grams"
  std::string text;
  std::string unit_of_bare = {};  ///< "m" where a number alone is not in the unit of its measure
};

void add_amount(CLI::App& verb, TypedAmount& amount, const AmountNames& names) {
  const auto take = [&amount, bare = names.unit_of_bare](const std::string& name, bool has_unit) {
    return [&amount, bare, name, has_unit](const std::string& typed) {
      amount = {typed, name, has_unit, bare};
    };
  };
  const std::string alone = fmt::format("; a number alone is {}, and refused in a garden of US units", names.unit);
  CLI::Option* open = verb.add_option_function<std::string>(names.open, take(names.open, false), names.text + alone)
                          ->type_name("AMOUNT");
  const std::string first = names.with_unit.substr(0, names.with_unit.find(','));
  verb.add_option_function<std::string>(names.with_unit, take(first, true),
                                        fmt::format("the same; a number alone is {}", names.unit))
      ->type_name("AMOUNT")
      ->excludes(open);
}

void add_log_verbs(CLI::App& app, Parsed& p, Output& output) {
  CLI::App* log = add_verb(app, "log", "write down what was done or seen; without EVENT, list what was",
                           "sowtide log mine.sowtide picked s3 --grams 850 --date 2026-07-14\n"
                           "  sowtide log mine.sowtide --stand s3 --from 2026-06-01",
                           output);
  log->add_option("GARDEN", p.log.garden, kGardenText)->required();
  log->add_option(
      "EVENT", p.log.kind,
      "sown, counted, set-out, thinned, watered, fed, measured, picked, stored, eaten, discarded, noted, "
      "corrected or tested; left out, the latest entries are listed");
  log->add_option("STAND,--stand", p.log.stand,
                  "the stand it concerns, for example s3; of the list, only its entries");
  log->add_option("--target", p.log.target, "a bed, a lot in store, a packet of seed or, for corrected, the entry to put right");
  log->add_option(
      "--packet", p.log.packet,
      "of sown the packet it was sown from, where that is another than the plan's or the plan names "
      "none; of tested the packet that was tested");
  log->add_option("--count", p.log.count,
                  "plants, seeds or pieces; of measured: the plants weighed together");
  add_amount(*log, p.log.weight,
             {"--weight", "--grams", "grams",
              "weight, 1.5kg, 12oz or \"1 lb 4 oz\"; of measured: of one plant, or with --count of so many "
              "together"});
  add_amount(*log, p.log.volume,
             {"--water", "--litres,--liters", "litres",
              "water, 10L, 2gal (US), 3qt or 500ml; of a bed also its depth, 25mm or 1in"});
  add_amount(*log, p.log.diameter,
             {"--diameter", "--diameter-mm", "millimetres", "size felt or measured, 45mm, 4.5cm or 2in"});
  log->add_flag("--all", p.log.all,
                "of picked: nothing is left of the stand, and it is over; without --count so many plants as "
                "are left by "
                "the log");
  log->add_flag(
      "--leaves", p.log.leaves,
      "of picked: leaves alone, as greens (of beet and turnip); the plants stay. Without a weight a third of "
      "the leaves");
  log->add_option("--text", p.log.text,
                  "a note; of sown and set-out how the clumps are set: square, offset, or \"rows 30 cm\"; of "
                  "stored the place: "
                  "kitchen (pantry, larder), fridge (when left out), or best (cellar, clamp, cold room)");
  log->add_option("--id", p.log.id, "name of the entry, so that writing it twice changes nothing");
  log->add_option("--from", p.from, "of the list: nothing earlier, YYYY-MM-DD")->type_name("DAY");
  log->add_option("--to", p.to, "of the list: nothing later")->type_name("DAY");
  log->add_option("--most", p.log.most, "of the list: the latest so many, 20 unless given")
      ->check(between(1, 1000000));
  add_date(log, p);
  log->callback([&p] { p.verb = [&p](Output& o) { return run_log(p.log, o); }; });

  CLI::App* store =
      add_verb(app, "store", "what is in store: each lot, where it lies, what is left, and eat by when",
               "sowtide store mine.sowtide --date 2026-11-20", output);
  store->add_option("GARDEN", p.store.garden, kGardenText)->required();
  add_date(store, p);
  store->callback([&p] { p.verb = [&p](Output& o) { return run_store(p.store, o); }; });
}

/// The days that a date with its year last may mean: "5/20/2026" and "20.5.2026" one, "5/6/2026" two.
std::vector<base::Date> days_with_year_last(const std::string& text) {
  int first = 0, second = 0, year = 0, read = 0;
  constexpr int kLeastYear = 1000;  // of two digits the century is a guess
  const bool whole =
      std::sscanf(text.c_str(), "%2d%*1[/.-]%2d%*1[/.-]%4d%n", &first, &second, &year, &read) == 3 &&
      static_cast<std::size_t>(read) == text.size() && year >= kLeastYear;
  std::vector<base::Date> days;
  for (const auto& [month, day] : {std::pair(first, second), std::pair(second, first)}) {
    const auto made = whole ? base::make_date(year, month, day) : base::make_date(0, 0, 0);
    if (made && (days.empty() || days.front() != *made)) days.push_back(*made);
  }
  return days;
}

/// The day of an option; nothing when it is not given.
base::Result<std::optional<base::Date>> day_of(const std::string& text, const std::string& option) {
  if (text.empty()) return std::optional<base::Date>{};
  const auto parsed = base::parse_iso_date(text);
  if (parsed) return std::optional(*parsed);
  base::Problem problem = parsed.error();
  problem.where.field = option;
  // Which number is the month is read here one way and there the other, so it is asked back.
  std::string meant;
  for (const base::Date day : days_with_year_last(text))
    meant += (meant.empty() ? "" : " or ") + base::to_iso(day);
  if (!meant.empty()) problem.remedy = "Write the year first: " + meant;
  return tl::make_unexpected(problem);
}

/// An amount whose unit was typed as a word of its own, which the shell hands over as another argument:
/// --weight 700 g.
std::optional<base::Problem> parted_amount(int argc, const char* const* argv) {
  constexpr std::array<std::string_view, 11> kAmounts{"--weight", "--grams",    "--water",       "--litres",
                                                      "--liters", "--diameter", "--diameter-mm", "--from",
                                                      "--from-m", "--spacing",  "--spacing-mm"};
  for (int i = 1; i + 2 < argc; ++i) {
    const std::string_view option = argv[i], number = argv[i + 1], unit = argv[i + 2];
    const bool parted = std::find(kAmounts.begin(), kAmounts.end(), option) != kAmounts.end() &&
                        base::parse_number(number) && base::is_unit(unit);
    if (!parted) continue;
    return base::Problem{
        base::ProblemCode::usage,
        fmt::format("\"{} {}\" came as two words", number, unit),
        {.field = std::string(option)},
        fmt::format("Write them as one, {}{}, or in quotes, \"{} {}\"", number, unit, number, unit)};
  }
  return std::nullopt;
}

void add_stand_verb(CLI::App& app, Parsed& p, Output& output) {
  const AmountNames place_in_bed{"--from", "--from-m", "metres",
                                 "from the start of the bed, 3ft, \"2 ft 6 in\" or 90cm", "m"};
  CLI::App* stand = add_verb(app, "stand", "what stands in the garden; put a stand in by hand, move one or take one back",
                             "sowtide stand mine.sowtide add radish --bed bed2 --count 40\n"
                             "  sowtide stand mine.sowtide add leek --bed bed1 --count 24 --bought",
                             output);
  stand->add_option("GARDEN", p.stand.garden, kGardenText)->required();
  stand->require_subcommand(0, 1);
  add_date(stand, p);
  stand->callback([&p, stand] {
    if (stand->get_subcommands().empty()) p.verb = [&p](Output& o) { return run_stand_list(p.stand, o); };
  });
  const auto with_day = [&p](auto run) {
    p.verb = [&p, run](Output& o) -> base::Result<void> {
      const auto day = day_of(p.stand_day, "--day");
      if (!day) return tl::make_unexpected(day.error());
      p.stand.day = *day;
      return run(p.stand, o);
    };
  };

  CLI::App* add = stand->add_subcommand(
      "add", "a stand that no plan knows: sown on a whim, bought as plants, or there already");
  add->add_option("CROP", p.stand.told.crop, "the crop")->required();
  add->add_option("--bed", p.stand.told.bed, "the bed, by its name or id")->required();
  add->add_option("--count", p.stand.told.clumps, "plants, or clumps of several")
      ->required()
      ->check(between(1, desk::kMostOwnClumps));
  add->add_option("--day", p.stand_day,
                  "when it was or will be sown, or set out where bought; today unless given")
      ->type_name("DAY");
  add->add_flag("--bought", p.stand.told.bought, "its plants are bought and set out");
  add->add_option("--tray", p.stand.told.tray,
                  "the tray it is raised in, by its name or id; without it, sown in place");
  add->add_option("--variety", p.stand.told.variety, "a variety of the garden, by its name or id");
  AmountNames first_free = place_in_bed;
  first_free.text += "; the first free place unless given";
  add_amount(*add, p.stand.from, first_free);
  add_amount(*add, p.stand.spacing,
             {"--spacing", "--spacing-mm", "millimetres",
              "from clump to clump, 8in, 20cm or 200mm; the crop's own unless given"});
  add->add_option("--plants-per-clump", p.stand.told.plants_per_clump, "kept together")
      ->check(between(1.0, stand::kMostPlantsPerClump));
  add_json(add, output);
  add_date(add, p);
  add->callback([with_day] { with_day(run_stand_add); });

  CLI::App* move = stand->add_subcommand("move", "another place, or another day for what is not sown");
  move->add_option("STAND", p.stand.stand, "the stand, for example s3")->required();
  move->add_option("--bed", p.stand.told.bed, "the bed, by its name or id");
  add_amount(*move, p.stand.from, place_in_bed);
  move->add_option("--day", p.stand_day, "the day to sow, or to set out what is bought")->type_name("DAY");
  move->add_flag("--put-right", p.stand.put_right,
                 "it stands there already: its place was written down wrong");
  add_json(move, output);
  add_date(move, p);
  move->callback([with_day] { with_day(run_stand_move); });

  CLI::App* release =
      stand->add_subcommand("release", "leaves a stand that was moved by hand to the next plan again");
  release->add_option("STAND", p.stand.stand, "the stand, for example s3")->required();
  add_json(release, output);
  add_date(release, p);
  release->callback([&p] { p.verb = [&p](Output& o) { return run_stand_release(p.stand, o); }; });

  CLI::App* remove = stand->add_subcommand(
      "remove", "takes back a stand that was put in by mistake, so that nothing of it counts");
  remove->add_option("STAND", p.stand.stand, "the stand, for example s3")->required();
  add_json(remove, output);
  add_date(remove, p);
  remove->callback([&p] { p.verb = [&p](Output& o) { return run_stand_remove(p.stand, o); }; });
}

std::vector<std::string> weather_format_names() {
  std::vector<std::string> names;
  for (const climate::WeatherFormat& format : climate::weather_formats()) names.emplace_back(format.name);
  return names;
}

void add_weather_verb(CLI::App& app, Parsed& p, Output& output) {
  CLI::App* weather = app.add_subcommand("weather", "import weather records, or show what is there");
  weather->footer("Example:\n  sowtide weather mine.sowtide add USW00024233.dly\n  sowtide weather mine.sowtide show");
  weather->add_option("GARDEN", p.weather_add.garden, kGardenText)->required();
  weather->require_subcommand(1);

  CLI::App* add = weather->add_subcommand("add", "read one or more records; says what quality control did");
  add->add_option("FILE", p.weather_add.files, "GHCN-Daily .dly or CSV, or any daily CSV with a header")->required();
  add->add_option("--format", p.weather_add.format, "what the file is, where that is not recognised")
      ->type_name("NAME")
      ->check(CLI::IsMember(weather_format_names()));
  add->add_option("--station", p.weather_add.station, "which station, where a file holds several");
  add->add_option("--column", p.weather_add.columns, "say what a column is: tmin=\"Low (F)\"");
  add->add_option("--unit", p.weather_add.units, "say a unit: temperature=F, rain=in, wind=mph, radiation=W");
  add->add_option("--wind-height", p.weather_add.wind_height_m, "height of the anemometer in metres, where the file does not say it")
      ->check(between(0.5, 200.0));
  add->add_option("--date-form", p.weather_add.date_form, "ymd, dmy or mdy")->type_name("FORM");
  add->add_flag("--decimal-comma", p.weather_add.decimal_comma, "figures are written 12,5 though commas part the columns");
  add->add_option("--typical-year", p.weather_add.typical_year, "the year into which a typical year (EPW, TMY) is laid; else 2001")
      ->check(between(1700, 2199));
  add->add_flag("--keep-flagged", p.weather_add.keep_flagged, "keep values that the source marks as failed");
  add->add_flag("--only-missing", p.weather_add.only_missing,
                "what is there stands, as for a second station; without it the newer file does");
  add->add_flag("--forecast", p.weather_add.forecast, "the file is a forecast; observations replace it later");
  add_json(add, output);
  add->callback([&p] { p.verb = [&p](Output& o) { return run_weather_add(p.weather_add, o); }; });

  CLI::App* show = weather->add_subcommand("show", "what is there, gaps, findings and monthly normals");
  add_json(show, output);
  show->callback([&p] {
    p.verb = [&p](Output& o) {
      p.weather_show.garden = p.weather_add.garden;
      return run_weather_show(p.weather_show, o);
    };
  });
}

void add_season_verbs(CLI::App& app, Parsed& p, Output& output) {
  CLI::App* windows = add_verb(app, "windows", "for each crop and method: when sowing works in a place",
                               "sowtide windows mine.sowtide --crop beet", output);
  windows->add_option("PLACE", p.windows.place, "a PLACE file (TOML), a garden file, a built-in place, or LAT,LON[,ELEVATION_M] for the nearest of them")->required();
  windows->add_option("--crop", p.windows.crops, "only this crop; may be repeated");
  windows->add_option("--level", p.windows.level, "least chance of a harvest worth having")->check(between(0.05, 0.99));
  windows->add_option("--warming", p.windows.warming_c, "reckon with a climate this much warmer, °C")
      ->check(between(climate::kLeastWarming_c, climate::kMostWarming_c));
  windows->callback([&p] { p.verb = [&p](Output& o) { return run_windows(p.windows, o); }; });

  CLI::App* places = add_verb(app, "places", "the built-in places, whose climate a garden can begin with",
                              "sowtide places zealand", output);
  places->add_option("WORD", p.places.word, "only those with this in their name or country");
  places->callback([&p] { p.verb = [&p](Output& o) { return run_places(p.places, o); }; });

  CLI::App* plan = add_verb(app, "plan", "plan or re-plan the season and keep the plan in the garden",
                            "sowtide plan mine.sowtide --date 2026-02-15", output);
  plan->add_option("GARDEN", p.plan.garden, kGardenText)->required();
  plan->add_option(
          "--time-limit", p.plan.time_limit_s,
          "seconds in all, 60 unless given, times an effort above 1; where laying out the choices takes "
          "more than half of them, fewer weeks to sow in are looked at")
      ->check(within(plan::kPlanLimits.time_limit_s));
  plan->add_option("--effort", p.plan.effort,
                   "how many times the usual number of changes to try: 3 takes three times as long, for a "
                   "plan that is "
                   "mostly a little better; the time limit grows with it unless it is given")
      ->check(within(plan::kPlanLimits.effort));
  plan->add_option("--gap", p.plan.gap_goal, "stop at this proven gap, 0.01 is one per cent")->check(between(0.0, 1.0));
  plan->add_option("--bad-years", p.plan.bad_years,
                   "how much the worst fifth of the weather years counts beyond the mean: 0 not at all, 1 in full")
      ->check(within(plan::kPlanLimits.bad_years));
  plan->add_option("--weeks", p.plan.weeks, "weeks ahead")->check(within(plan::kPlanLimits.weeks));
  plan->add_option("--threads", p.plan.threads,
                   "threads at most, 0 as many as the machine has; the answer does not depend on it")
      ->check(between(0, 1024));
  plan->add_flag("--discard,--what-if", p.discard_plan, "only show the plan and what it would change, do not keep it");
  plan->add_flag("--why", p.plan.why,
                 "tell of every stand why that day, that number and that bed (JSON always does)");
  plan->add_option("--write-model", p.plan.write_model,
                   "write the program to FILE.mps or FILE.lp for another solver, and plan nothing");
  add_date(plan, p);
  plan->callback([&p] { p.verb = [&p](Output& o) { return run_plan(p.plan, o); }; });

  CLI::App* outlook = add_verb(app, "outlook", "what is coming, with quantiles over the weather years",
                               "sowtide outlook mine.sowtide s3", output);
  outlook->add_option("GARDEN", p.outlook.garden, kGardenText)->required();
  outlook->add_option("STAND", p.outlook.stand, "only this stand, in full");
  outlook
      ->add_option(
          "--on", p.outlook_on,
          "of one stand: how many of its plants have which size on this day, YYYY-MM-DD; today unless given")
      ->type_name("DAY");
  add_date(outlook, p);
  outlook->callback([&p] { p.verb = [&p](Output& o) { return run_outlook(p.outlook, o); }; });

  CLI::App* judge = add_verb(app, "judge", "pull now or wait: what one to three weeks more would add, and could cost",
                             "sowtide judge mine.sowtide s3 --date 2026-07-10", output);
  judge->add_option("GARDEN", p.judge.garden, kGardenText)->required();
  judge->add_option("STAND", p.judge.stand, "only this stand; all that stand in a bed when left out");
  add_date(judge, p);
  judge->callback([&p] { p.verb = [&p](Output& o) { return run_judge(p.judge, o); }; });

  CLI::App* today = add_verb(app, "today", "the worklist with reasons and amounts",
                             "sowtide today mine.sowtide --date 2026-05-20", output);
  today->add_option("GARDEN", p.today.garden, kGardenText)->required();
  today->add_option("--days", p.today.days, "how far ahead")->check(between(0, 60));
  add_date(today, p);
  today->callback([&p] { p.verb = [&p](Output& o) { return run_today(p.today, o); }; });
}

void add_seed_verbs(CLI::App& app, Parsed& p, Output& output) {
  CLI::App* seed = add_verb(app, "seed", "what each packet is still worth, and what seed the plan is short of",
                            "sowtide seed mine.sowtide --date 2026-02-15", output);
  seed->add_option("GARDEN", p.seed.garden, kGardenText)->required();
  seed->add_option("--temp-c", p.seed.temp_c, "where the seed lies, °C")->check(between(-20.0, 50.0));
  seed->add_option("--moisture-pct", p.seed.moisture_pct,
                   "water in the seed, % of its weight; not told: as dry as seed is commonly kept")
      ->check(between(2.0, 25.0));
  seed->add_option("--service", p.seed.service, "chance wanted of coming up full")->check(between(0.5, 0.999));
  add_date(seed, p);
  seed->callback([&p] { p.verb = [&p](Output& o) { return run_seed(p.seed, o); }; });

  CLI::App* nursery = add_verb(app, "nursery", "what is raised in trays, week by week: potting on, hardening off, setting out",
                               "sowtide nursery mine.sowtide --date 2026-03-20", output);
  nursery->add_option("GARDEN", p.nursery.garden, kGardenText)->required();
  add_date(nursery, p);
  nursery->callback([&p] { p.verb = [&p](Output& o) { return run_nursery(p.nursery, o); }; });
}

void add_print_verb(CLI::App& app, Parsed& p, Output& output) {
  CLI::App* print = add_verb(app, "print", "labels, sheets and a handout as PDF; the calendar as .ics",
                             "sowtide print mine.sowtide labels --paper letter --out labels.pdf", output);
  print->add_option("GARDEN", p.print.garden, "the garden file; for a handout any PLACE that `windows` takes")->required();
  print->add_option("KIND", p.print.kind, "labels, sowing-sheet, bed-sheets, season, table, handout or calendar")->required();
  print->add_option("--out", p.print.out, "the file to write; - for standard output")->type_name("FILE");
  print->add_option("--paper", p.print.paper, "a4 or letter")->type_name("SIZE");
  print->add_option("--units", p.print.units, "metric or us; the garden's own when left out");
  print->add_option("--language", p.print.language, "en or de");
  print->add_option("--address", p.print.address, "where the web app answers, for codes and links")->type_name("URL");
  print->add_option("--label-size", p.print.label_size, "70x37, 63.5x38.1 or 105x48 on A4; 4x2in or 2.625x1in on Letter");
  print->add_option("--first-label", p.print.first_label, "begin at this label of a sheet that is partly used");
  print->add_option("--weeks", p.print.weeks, "how far the sowing sheet reaches");
  print->add_flag("--todos", p.print.todos, "calendar entries as to-dos instead of events");
  add_date(print, p);
  print->callback([&p] { p.verb = [&p](Output& o) { return run_print(p.print, o); }; });
}

void add_engine_verbs(CLI::App& app, Parsed& p, Output& output) {
  CLI::App* figure = add_verb(app, "figure", "work out one quantity by itself and show its working and source",
                              "sowtide figure emergence crop=beet temp_c=20", output);
  figure->add_option("NAME", p.figure.name, "which figure");
  figure->add_option("INPUTS", p.figure.inputs, "key=value, the unit is in the key");
  figure->add_flag("--list", p.figure.list, "list every figure with its keys and units");
  figure->callback([&p] { p.verb = [&p](Output& o) { return run_figure(p.figure, o); }; });

  CLI::App* proof = add_verb(app, "proof", "run every check against published figures",
                             "sowtide proof --group emergence", output);
  proof->add_option("--group", p.proof.group, "only one group of checks");
  proof->callback([&p] { p.verb = [&p](Output& o) { return run_proof(p.proof, o); }; });

  CLI::App* serve = add_verb(app, "serve", "open the garden in a browser on this machine",
                             "sowtide serve mine.sowtide --port 8420", output);
  serve->add_option("GARDEN", p.serve.garden, kGardenText)->required();
  serve->add_option("--port", p.serve.port, "port on this machine; 0 takes any free one")->check(between(0, 65535));
  serve->add_flag("--lan", p.serve.lan, "serve to paired devices of the home network too");
  CLI::Option* certificate =
      serve->add_option("--certificate", p.serve.certificate, "serve over HTTPS with this certificate (PEM)")->type_name("FILE");
  CLI::Option* key = serve->add_option("--key", p.serve.key, "the key of the certificate (PEM)")->type_name("FILE");
  certificate->needs(key);
  key->needs(certificate);
  serve->add_flag("--forget-devices", p.serve.forget_devices, "end all pairings first");
  serve->add_option("--web", p.serve.web, "directory of a web app built apart, for its developers");
  add_date(serve, p);
  serve->callback([&p] { p.verb = [&p](Output& o) { return run_serve(p.serve, o); }; });

  CLI::App* make = add_verb(app, "certificate", "make a certificate for serving over HTTPS in the home network",
                            "sowtide certificate home-certificate", output);
  make->add_option("DIRECTORY", p.certificate.directory, "where it is kept; an authority that is there signs again")->required();
  make->add_option("--host", p.certificate.hosts,
                   "one more private IPv4 address, or name that ends in .local; may be repeated")
      ->type_name("NAME|ADDRESS")
      ->allow_extra_args(false);
  make->callback([&p] { p.verb = [&p](Output& o) { return run_certificate(p.certificate, o); }; });
}

base::Result<void> resolve_range(Parsed& p) {
  const auto from = day_of(p.from, "--from");
  if (!from) return tl::make_unexpected(from.error());
  const auto to = day_of(p.to, "--to");
  if (!to) return tl::make_unexpected(to.error());
  if (*from && *to && **to < **from) {
    return base::fail(base::ProblemCode::contradiction,
                      fmt::format("{} lies before --from, {}", p.to, p.from), {.field = "--to"},
                      "Give the earlier day as --from");
  }
  p.log.from = *from;
  // The list of a day holds what was known by then.
  const bool list_of_a_day = p.log.kind.empty() && !*to && !p.date.empty();
  p.log.to = list_of_a_day ? std::optional(p.log.date) : *to;
  return {};
}

base::Result<void> resolve_date(Parsed& p, base::Date today) {
  base::Date date = today;
  if (!p.date.empty()) {
    const auto parsed = day_of(p.date, "--date");
    if (!parsed) return tl::make_unexpected(parsed.error());
    date = **parsed;
    if (base::year_of(date) < kEarliestYear || base::year_of(date) > kLatestYear) {
      return base::fail(base::ProblemCode::out_of_range,
                        fmt::format("the day {} lies outside {} to {}", p.date, kEarliestYear, kLatestYear),
                        {.field = "--date"}, "Give a day that the garden can see");
    }
    p.serve.date = date;
  }
  const auto on = day_of(p.outlook_on, "--on");
  if (!on) return tl::make_unexpected(on.error());
  p.outlook.on = *on;
  p.plan.date = p.outlook.date = p.judge.date = p.today.date = p.log.date = p.store.date = p.seed.date =
      p.nursery.date = p.stand.date = date;
  p.print.date = date;
  p.plan.keep = !p.discard_plan;
  return {};
}

int report(const base::Problem& problem, Output& output) {
  if (output.json) {
    output.err << desk::problem_json(problem) << "\n";
  } else {
    output.err << "sowtide: " << base::to_text(problem) << "\n";
  }
  return problem.code == base::ProblemCode::usage ? kExitUsage : kExitProblem;
}

/// What is wrong with the words of a command, and where to read on.
base::Problem usage_problem(const CLI::App& app, const CLI::ParseError& error, int argc, const char* const* argv) {
  const auto verbs = app.get_subcommands([](const CLI::App*) { return true; });
  const std::string first = argc > 1 ? argv[1] : "";
  std::string names;
  for (const CLI::App* verb : verbs) {
    if (verb->get_name() == first)
      return {base::ProblemCode::usage, error.what(), {.field = first}, fmt::format("Read `sowtide {} --help`", first)};
    names += (names.empty() ? "" : ", ") + verb->get_name();
  }
  const bool is_word = !first.empty() && first.front() != '-';
  return {base::ProblemCode::usage, is_word ? fmt::format("there is no verb \"{}\"", first) : error.what(), {},
          "Verbs: " + names + "; read `sowtide --help`"};
}

}  // namespace

int run(int argc, const char* const* argv, base::Date today, Output output) {
  CLI::App app{"Sowtide: from what you want to eat to a running garden.", "sowtide"};
  app.set_version_flag("--version", SOWTIDE_VERSION);
  app.require_subcommand(1);
  Parsed parsed;
  add_garden_verbs(app, parsed, output);
  add_stand_verb(app, parsed, output);
  add_log_verbs(app, parsed, output);
  add_weather_verb(app, parsed, output);
  add_season_verbs(app, parsed, output);
  add_seed_verbs(app, parsed, output);
  add_print_verb(app, parsed, output);
  add_engine_verbs(app, parsed, output);
  if (const auto problem = parted_amount(argc, argv)) {
    output.json = std::find(argv, argv + argc, std::string_view("--json")) != argv + argc;
    return report(*problem, output);
  }
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    output.json = output.json || std::find(argv, argv + argc, std::string_view("--json")) != argv + argc;
    return error.get_exit_code() == 0 ? (app.exit(error, output.out, output.err), kExitDone)
                                      : report(usage_problem(app, error, argc, argv), output);
  }
  parsed.weather_add.today = parsed.make.today = parsed.log.today = today;
  for (const auto& resolved : {resolve_date(parsed, today), resolve_range(parsed)}) {
    if (!resolved) return report(resolved.error(), output);
  }
  const auto done = parsed.verb(output);
  return done ? kExitDone : report(done.error(), output);
}

}  // namespace sowtide::cli
