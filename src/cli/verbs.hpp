// The verbs of the command line, free of argument parsing: each takes its options and writes its answer.
//
// `arguments.cpp` is the only file that knows the parser library. A verb returns a Problem for bad input; `main` turns
// it into a message on stderr and exit code 1.
#pragma once

#include <atomic>
#include <functional>
#include <iosfwd>
#include <optional>
#include <string>
#include <vector>

#include "base/date.hpp"
#include "base/problem.hpp"
#include "desk/household.hpp"
#include "desk/own_stand.hpp"

namespace sowtide::cli {

/// Where answers go and in which form.
struct Output {
  std::ostream& out;
  std::ostream& err;
  bool json = false;
  bool progress = false;                     ///< stderr is a terminal: show how far long work has come
  /// From the call on, Ctrl-C only sets what it returns; a second one ends the program, as does the first where no
  /// verb has asked. May be empty.
  std::function<const std::atomic<bool>&()> catch_stop;
};

struct NewOptions {
  std::string garden;
  std::string from;                          ///< TOML description or export; empty for a bare garden
  std::string place;                         ///< built-in place name or LAT,LON[,M], used when `from` is empty
  base::Date today{};                        ///< the system's day; no weather is observed far beyond it
};

struct ExportOptions {
  std::string garden;
  std::string directory;
};

struct CopyOptions {
  std::string garden;
  std::string copy;
};

struct WeatherAddOptions {
  std::string garden;
  std::vector<std::string> files;
  std::string station;                       ///< which station of a file with several
  std::vector<std::string> columns;          ///< "tmin=Low (F)" mappings
  std::vector<std::string> units;            ///< "temperature=F", "rain=in", …
  std::string date_form;                     ///< "dmy", "mdy", "ymd"
  bool forecast = false;
  std::string format;                        ///< of the files, where it is not recognised
  std::optional<int> typical_year;           ///< into which a typical year is laid
  bool keep_flagged = false;                 ///< keep what the source marks as failed
  bool decimal_comma = false;                ///< figures are written 12,5
  bool only_missing = false;                 ///< what is there stands; the files fill what is not
  std::optional<double> wind_height_m;       ///< of the anemometer, where the file does not say it
  base::Date today{};                        ///< the system's day; nothing is observed far beyond it
};

struct WeatherShowOptions {
  std::string garden;
};

struct WindowsOptions {
  std::string place;                         ///< PLACE.toml, a garden file or a built-in place name
  std::vector<std::string> crops;            ///< empty: all
  double level = 0.5;
  std::optional<double> warming_c;           ///< in place of what the garden or the PLACE file states
};

struct PlanVerbOptions {
  std::string garden;
  base::Date date{};
  std::optional<double> time_limit_s;  ///< left out: as the effort asks for
  double effort = 1.0;                 ///< times the usual length of the search
  double gap_goal = 0.01;
  std::size_t weeks = 52;
  double bad_years = 0.0;                    ///< how much the worst fifth of the weather years counts beyond the mean
  std::size_t threads = 0;                   ///< 0: all cores
  bool keep = true;                          ///< store the plan in the garden
  bool why = false;                          ///< tell of every stand why this day, number and bed
  std::string write_model;                   ///< file for the program, .mps or .lp; nothing is planned then
};

struct OutlookOptions {
  std::string garden;
  std::string stand;
  base::Date date{};
  std::optional<base::Date> on;  ///< of one stand: its plants by size on this day
};

struct TodayOptions {
  std::string garden;
  base::Date date{};
  int days = 7;
};

struct JudgeOptions {
  std::string garden;
  std::string stand;                         ///< empty: all that stand in a bed
  base::Date date{};
};

struct SeedOptions {
  std::string garden;
  base::Date date{};
  std::optional<double> temp_c;              ///< where the seed lies
  std::optional<double> moisture_pct;        ///< of the seed, of fresh weight
  double service = 0.9;                      ///< chance of coming up to the planned clumps
};

struct NurseryOptions {
  std::string garden;
  base::Date date{};
};

struct HouseholdOptions {
  std::string garden;
  desk::HouseholdAsked asked;
  bool add = false;  ///< keep what is proposed
};

struct PlacesOptions {
  std::string word;  ///< only places whose name or country holds it; empty: all
};

struct StoreOptions {
  std::string garden;
  base::Date date{};
};

/// An amount as it was typed, "850", "2lb", "2in", and the option it was typed for.
struct TypedAmount {
  std::string text;          ///< empty: not given
  std::string option;        ///< "--weight", "--grams"
  bool option_has_unit = false;  ///< --grams tells the unit of a bare number, --weight does not
  std::string unit_of_bare;      ///< "m"; empty: the unit of its measure

  [[nodiscard]] bool empty() const { return text.empty(); }
};

struct LogOptions {
  std::string garden;
  std::string kind;  ///< empty: the entries are listed
  std::string stand;
  std::string target;
  std::string packet;  ///< of sown and tested
  base::Date date{};
  std::optional<double> count;
  TypedAmount weight, volume, diameter;
  bool all = false;     ///< of a picking: nothing is left of the stand
  bool leaves = false;  ///< of a picking: leaves alone, as greens
  base::Date today{};   ///< the system's day: what is logged was done
  std::string text;
  std::string id;                            ///< empty: a new one is made
  std::optional<base::Date> from, to;        ///< of the list
  std::optional<std::size_t> most;           ///< entries of the list

  /// Whether anything is given that only an entry to be written can hold.
  [[nodiscard]] bool writes() const {
    return all || leaves || count || !weight.empty() || !volume.empty() || !diameter.empty() ||
           !target.empty() || !packet.empty() || !text.empty() || !id.empty();
  }
};

struct StandOptions {
  std::string garden;
  std::string stand;       ///< of `move`, `release` and `remove`
  desk::OwnStand told;     ///< of `add`; of `move` its bed
  std::optional<base::Date> day;  ///< of `add` and `move`, where one is told
  TypedAmount from;        ///< from the start of the bed
  TypedAmount spacing;     ///< of `add`
  bool put_right = false;  ///< of `move`: it is elsewhere than was written down
  base::Date date{};
};

struct FigureOptions {
  std::string name;
  std::vector<std::string> inputs;           ///< "key=value"
  bool list = false;
};

struct ProofOptions {
  std::string group;                         ///< only this group; empty: all
};

struct PrintOptions {
  std::string garden;                        ///< or, for a handout, any PLACE
  std::string kind;                          ///< "labels", …, "handout", "calendar"
  base::Date date{};
  std::string out;                           ///< empty: GARDEN-KIND.pdf beside the caller; "-": standard output
  std::string paper = "a4";
  std::string units;                         ///< empty: the garden's own
  std::string language = "en";
  std::string address;                       ///< of the web app, for codes and links; empty: this machine's name
  std::string label_size;
  int first_label = 1;
  int weeks = 8;
  bool todos = false;
};

struct ServeVerbOptions {
  std::string garden;
  int port = 8420;
  std::optional<base::Date> date;            ///< fixed today; nothing: the system's
  std::string web;                           ///< directory with the built web app; empty: the built-in one
  bool lan = false;                          ///< to the home network too, for paired devices
  bool forget_devices = false;               ///< ends all pairings first
  std::string certificate, key;              ///< files in PEM form, to serve over TLS; both or neither
};

struct CertificateVerbOptions {
  std::string directory;
  std::vector<std::string> hosts;            ///< beside those of this machine
};

base::Result<void> run_new(const NewOptions& options, Output& output);
base::Result<void> run_export(const ExportOptions& options, Output& output);
base::Result<void> run_copy(const CopyOptions& options, Output& output);
base::Result<void> run_weather_add(const WeatherAddOptions& options, Output& output);
base::Result<void> run_weather_show(const WeatherShowOptions& options, Output& output);
base::Result<void> run_windows(const WindowsOptions& options, Output& output);
base::Result<void> run_plan(const PlanVerbOptions& options, Output& output);
base::Result<void> run_outlook(const OutlookOptions& options, Output& output);
base::Result<void> run_today(const TodayOptions& options, Output& output);
base::Result<void> run_judge(const JudgeOptions& options, Output& output);
base::Result<void> run_household(const HouseholdOptions& options, Output& output);
base::Result<void> run_seed(const SeedOptions& options, Output& output);
base::Result<void> run_nursery(const NurseryOptions& options, Output& output);
base::Result<void> run_places(const PlacesOptions& options, Output& output);
base::Result<void> run_stand_list(const StandOptions& options, Output& output);
base::Result<void> run_stand_add(const StandOptions& options, Output& output);
base::Result<void> run_stand_move(const StandOptions& options, Output& output);
base::Result<void> run_stand_release(const StandOptions& options, Output& output);
base::Result<void> run_stand_remove(const StandOptions& options, Output& output);
base::Result<void> run_log(const LogOptions& options, Output& output);
base::Result<void> run_store(const StoreOptions& options, Output& output);
base::Result<void> run_print(const PrintOptions& options, Output& output);
base::Result<void> run_figure(const FigureOptions& options, Output& output);
/// Fails with `contradiction` when any row does not pass, after printing the table.
base::Result<void> run_proof(const ProofOptions& options, Output& output);
base::Result<void> run_certificate(const CertificateVerbOptions& options, Output& output);
base::Result<void> run_serve(const ServeVerbOptions& options, Output& output);

}  // namespace sowtide::cli
