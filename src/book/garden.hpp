// The garden: what a garden file holds, and the state folded from its append-only logbook.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/date.hpp"
#include "bed/bed.hpp"
#include "climate/record.hpp"
#include "climate/site.hpp"
#include "crop/crop.hpp"
#include "keep/storage.hpp"
#include "plan/plan.hpp"
#include "stand/outlook.hpp"

namespace sowtide::book {

/// Kinds of entry in the logbook, as written in files and `--json`: "sown", "counted", "set-out", "thinned",
/// "watered", "fed", "measured", "picked", "stored", "eaten", "discarded", "noted", "corrected", "tested".
enum class EventKind {
  sown,
  counted,
  set_out,
  thinned,
  watered,
  fed,
  measured,
  picked,
  stored,
  eaten,
  discarded,
  noted,
  corrected,
  tested
};

/// The word of a kind in files and `--json`: "set-out".
[[nodiscard]] std::string_view event_kind_text(EventKind kind) noexcept;
/// The kind of such a word, written exactly so; nothing for any other. What people type is read by
/// `event_kind_named` (book/naming.hpp).
[[nodiscard]] std::optional<EventKind> parse_event_kind(std::string_view text) noexcept;

/// One entry. `id` is unique and chosen by whoever writes it (a phone off the network too), so that writing
/// the same entry twice changes nothing. Amounts not given are absent. What each kind needs:
/// docs/formats/log.md.
struct Event {
  std::string id;             ///< 1..64 characters of [A-Za-z0-9_-]
  std::int64_t sequence = 0;  ///< order of arrival, set by the book
  base::Date date{};          ///< the day it happened
  EventKind kind = EventKind::noted;
  std::string stand;            ///< stand id, or empty
  std::string target;           ///< bed, lot or, for "corrected", the id of the event put right; or empty
  std::optional<double> count;  ///< plants, seeds or pieces
  std::optional<double> grams;
  std::optional<double> litres;
  std::optional<double> diameter_mm;
  std::string text;  ///< a note, a place of storage …
};

/// What stands in the garden file apart from the log.
struct GardenDescription {
  std::string name;
  std::string units = "metric";  ///< or "us"
  climate::Site site;            ///< without a name as long as the place is not told
  std::optional<climate::MonthlyNormals> normals;
  double warming_c = 0.0;  ///< added to every temperature to come, by choice; climate::kLeastWarming_c..kMostWarming_c
  /// The household has a place to store in that suits what is laid there: a cellar, a clamp, a cool loft.
  bool cool_store = false;
  std::vector<bed::Bed> beds;
  std::vector<bed::Tray> trays;
  std::vector<bed::PastCrop> past;
  std::vector<plan::Want> wants;
  std::vector<crop::Variety> varieties;
  std::vector<crop::Packet> packets;
  std::vector<stand::StandPlan> stands;  ///< planned or standing
  climate::WeatherRecord weather;        ///< empty record when none was imported
  /// What reading, quality control and merging found when the weather came in, by date; each once.
  std::vector<climate::QualityFinding> weather_findings;

  [[nodiscard]] bool place_told() const noexcept { return !site.name.empty(); }
};

/// missing_field with the remedy where the garden's place is not told yet: sun, weather and seasons need one.
[[nodiscard]] base::Result<void> need_place(const GardenDescription& garden);

/// How the size of a plant was observed.
enum class SizeTold { weighed, felt, by_eye };

/// "weighed", "felt", "by eye": the word used in JSON.
[[nodiscard]] std::string_view size_told_text(SizeTold told) noexcept;

/// A plant's size as it was observed, as the weight that it stands for.
struct SizeObserved {
  base::Date date{};
  double weight_g = 0.0;
  SizeTold told = SizeTold::weighed;
};

/// State of one stand after folding the log up to a day.
struct StandState {
  stand::StandPlan plan;
  stand::StandFacts facts;
  std::optional<base::Date> counted_on;  ///< day of the last count, of the sowing that stands
  std::optional<base::Date>
      over_on;  ///< of one that is over, the day on which the last of it was taken, or none was left
  /// It is over since a count found nothing, before anything was picked, and nobody gave its place up since.
  bool none_left = false;
  std::vector<SizeObserved> observed;  ///< of the sowing that stands, by date; the last is that of the facts
};

/// A home test of a packet: so many seeds laid out, so many came up.
struct SeedTest {
  std::string packet;
  base::Date date{};
  int sown = 0;
  int came_up = 0;
};

/// Seed that went into the ground or a tray for a stand, in all its sowings, those among them of which
/// nothing came: by the packet that the entry names, else that the stand was planned to be sown from; ""
/// where neither names one.
using SeedsSown = std::map<std::string, double>;

/// Food that the log tells of: picked, stored, eaten out of the store, or thrown away after it was picked.
struct FoodEntry {
  base::Date date{};
  EventKind kind = EventKind::picked;
  std::string stand, crop;
  double grams = 0.0;  ///< of what was eaten, what really lay in store; 0 where it was not weighed
  int plants = 0;      ///< of a picking that was not weighed, the plants that it took
};

/// All that is derived from the log up to a day. `plants_removed` of a stand counts from its last counting
/// on.
struct GardenState {
  std::vector<StandState> stands;
  std::vector<keep::Lot> store;
  std::map<std::string, double> picked_g;     ///< by crop, all time
  std::map<std::string, base::Date> watered;  ///< last watering by bed
  /// By stand, where the log tells of a sowing; one that does not say how many counts as the plan has it.
  std::map<std::string, SeedsSown> seeds_sown;
  std::vector<SeedTest> seed_tests;           ///< by date
  std::vector<FoodEntry> food_of_week;        ///< by date, from the Monday of the day's week on
};

/// What a `measured` entry tells of a plant: its weight, its diameter by the crop's law, or by eye its size.
/// Nothing where the crop has no such law, or is not known (null).
[[nodiscard]] std::optional<SizeObserved> size_observed(const Event& event, const crop::Crop* crop);

/// Folds events dated up to and including `day`, in order of date, then sequence, whatever their order in the
/// list. A "corrected" entry removes its target from the fold (whatever its own date); correcting a
/// correction brings the first entry back. The library tells for which crops a picking takes whole plants,
/// and turns a measured diameter of a root into a weight. Cost: n log n in the events.
[[nodiscard]] GardenState fold(const GardenDescription& garden, const std::vector<Event>& events,
                               base::Date day, const crop::CropLibrary& library = crop::built_in_library());

/// Checks the crops, kitchen groups and families that a garden names against the library; an unknown one is
/// not_found, with the nearest that exist as remedy. The problem's field is a path ("wants[3].crop").
[[nodiscard]] base::Result<void> check_against(const crop::CropLibrary& library,
                                               const GardenDescription& garden);

/// True when the events say the same, order of arrival aside.
[[nodiscard]] bool same_content(const Event& a, const Event& b);

/// A name that may stand for a bed, stand, packet, event …: 1..64 characters of [A-Za-z0-9_-].
[[nodiscard]] bool is_id(std::string_view text) noexcept;

}  // namespace sowtide::book
