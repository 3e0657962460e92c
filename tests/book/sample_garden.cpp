#include "book/sample_garden.hpp"

#include <fmt/format.h>
#include <stdlib.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <stdexcept>

#include "book/event_check.hpp"
#include "book/garden_file.hpp"
#include "book/log_csv.hpp"
#include "book/weather_csv.hpp"
#include "book/weather_findings_csv.hpp"
#include "climate/quality.hpp"

namespace sowtide::book::testing {
namespace {

using base::RandomStream;

std::string awkward_text(RandomStream& random) {
  constexpr std::array<const char*, 10> kPieces{"Bed",         "\"near\"",      "a, b; c", "Möhren",
                                                "back\\slash", "läuft\nweiter", " edge ",  "#no comment",
                                                "日本",        "'quoted' = [x]"};
  constexpr std::size_t kLongEnough = 150;  // a garden takes names of up to 200 bytes
  std::string text(kPieces[random.below(kPieces.size())]);
  while (text.size() < kLongEnough && random.chance(0.5)) text += kPieces[random.below(kPieces.size())];
  return text;
}

/// A number whose shortest text is anything from one to seventeen digits.
double awkward_number(RandomStream& random, double low, double high) {
  const double value = low + (high - low) * random.uniform();
  if (random.chance(0.5)) return value;
  const double rounded = std::round(value * 10.0) / 10.0;
  return std::clamp(rounded, low, high) + 0.0;
}

template <class T>
const T& any_of(RandomStream& random, const std::vector<T>& things) {
  return things[random.below(static_cast<std::uint32_t>(things.size()))];
}

base::Date any_day(RandomStream& random) {
  return base::date_of(2024, 1, 1) + base::Days{static_cast<int>(random.below(900))};
}

const std::array<std::string, 4> kCrops{"beet", "carrot", "lettuce", "tomato"};

climate::WeatherRecord random_weather(RandomStream& random, int days) {
  climate::WeatherRecord record;
  record.site = {awkward_text(random), 47.45, -122.3, 122.0};
  record.first = any_day(random);
  for (auto& series : record.series) {
    const bool all_missing = random.chance(0.3);
    for (int day = 0; day < days; ++day) {
      const bool missing = all_missing || random.chance(0.1);
      series.value.push_back(missing ? std::numeric_limits<double>::quiet_NaN()
                                     : awkward_number(random, 0.0, 40.0));
      series.origin.push_back(missing ? climate::ValueOrigin::missing
                                      : static_cast<climate::ValueOrigin>(1 + random.below(4)));
    }
  }
  return record;
}

std::vector<climate::QualityFinding> random_findings(RandomStream& random, const climate::WeatherRecord& record) {
  std::vector<climate::QualityFinding> findings;
  while (random.chance(0.6)) {
    climate::QualityFinding finding;
    finding.date = record.first + base::Days{static_cast<int>(random.below(100))};
    finding.variable = static_cast<climate::Variable>(random.below(climate::kVariableCount));
    finding.value = random.chance(0.2) ? std::numeric_limits<double>::quiet_NaN() : awkward_number(random, -60.0, 60.0);
    finding.check = random.chance(0.5) ? "spike" : "duplicate";
    finding.action = random.chance(0.5) ? "removed" : "kept";
    finding.detail = awkward_text(random);
    findings.push_back(std::move(finding));
  }
  return findings;
}

climate::MonthlyNormals random_normals(RandomStream& random) {
  climate::MonthlyNormals normals;
  for (std::size_t month = 0; month < 12; ++month) {
    normals.tmin_c[month] = awkward_number(random, -20.0, 10.0);
    normals.tmax_c[month] = awkward_number(random, 10.0, 35.0);
    normals.precip_mm[month] = awkward_number(random, 0.0, 300.0);
  }
  if (random.chance(0.5)) {
    normals.wet_days.emplace();
    for (double& days : *normals.wet_days) days = awkward_number(random, 0.0, 28.0);
  }
  if (random.chance(0.5)) normals.source = awkward_text(random);
  return normals;
}

void add_seed(RandomStream& random, GardenDescription& garden) {
  for (const std::string& crop : kCrops) {
    if (random.chance(0.5)) continue;
    garden.varieties.push_back({"v-" + crop, awkward_text(random), crop, awkward_number(random, 0.5, 2.0),
                                awkward_number(random, 0.5, 2.0), awkward_number(random, 0.5, 2.0),
                                random.chance(0.5), awkward_text(random),
                                random.chance(0.5) ? awkward_text(random) : ""});
    crop::Packet packet{"p-" + crop, crop, "v-" + crop, 2020, awkward_number(random, 0.0, 1000.0), {}, 0.0};
    if (random.chance(0.5)) packet.germination_pct = awkward_number(random, 0.0, 100.0);
    garden.packets.push_back(packet);
  }
}

plan::Want random_want(RandomStream& random, std::string id) {
  plan::Want want;
  want.id = std::move(id);
  if (random.chance(0.8)) {
    want.crop = kCrops[random.below(kCrops.size())];
  } else {
    want.group = "roots";
  }
  want.amount_per_week = awkward_number(random, 1.0, 2000.0);
  want.unit = static_cast<plan::WantUnit>(random.below(3));
  want.from = {1 + static_cast<int>(random.below(12)), 1 + static_cast<int>(random.below(28))};
  want.to = {2, 29};
  want.priority = awkward_number(random, 0.1, 10.0);
  want.size = static_cast<stand::SizeGoal>(random.below(2));
  return want;
}

stand::StandPlan random_stand(RandomStream& random, const GardenDescription& garden, std::string id) {
  stand::StandPlan plan;
  const bed::Bed& bed = any_of(random, garden.beds);
  plan.id = std::move(id);
  plan.crop = kCrops[random.below(kCrops.size())];
  for (const auto& variety : garden.varieties) {
    if (variety.crop == plan.crop && random.chance(0.5)) plan.variety = variety.id;
  }
  for (const auto& packet : garden.packets) {
    if (packet.crop == plan.crop && random.chance(0.5)) plan.packet = packet.id;
  }
  plan.sow = any_day(random);
  if (!garden.trays.empty() && random.chance(0.5)) {
    plan.method = stand::Method::start_indoors;
    plan.tray = any_of(random, garden.trays).id;
    if (random.chance(0.5)) plan.set_out = plan.sow + base::Days{21};
  }
  if (random.chance(0.5)) plan.planned_c = awkward_number(random, -5.0, 30.0);
  if (random.chance(0.3)) {
    plan.pick_weeks = 1 + static_cast<int>(random.below(stand::kMostPickWeeks));
    if (random.chance(0.5)) plan.pick_from = any_day(random);
  }
  plan.size = static_cast<stand::SizeGoal>(random.below(2));
  plan.clumps = 1 + static_cast<int>(random.below(40));
  plan.plants_per_clump = awkward_number(random, 1.0, 4.0);
  plan.spacing_mm = awkward_number(random, 50.0, 400.0);
  plan.bed = bed.id;
  plan.from_m = awkward_number(random, 0.0, bed.length_m * 0.4);
  plan.to_m = awkward_number(random, bed.length_m * 0.6, bed.length_m);
  plan.seeds_per_cell = awkward_number(random, 1.0, 3.0);
  plan.cells = static_cast<int>(random.below(60));
  return plan;
}

/// What an entry of a kind needs, drawn at random.
Event random_event(RandomStream& random, const GardenDescription& garden, const std::vector<Event>& before,
                   std::string id) {
  Event event;
  event.id = std::move(id);
  event.date = any_day(random);
  event.kind = static_cast<EventKind>(random.below(14));
  if (!garden.stands.empty()) event.stand = any_of(random, garden.stands).id;
  std::vector<std::string> lots;
  for (const Event& earlier : before) {
    if (earlier.kind == EventKind::stored)
      lots.push_back(earlier.target.empty() ? earlier.id : earlier.target);
  }
  switch (event.kind) {
    case EventKind::sown:
    case EventKind::counted:
    case EventKind::set_out:
    case EventKind::thinned:
      event.count = random.below(50);
      break;
    case EventKind::watered:
    case EventKind::fed:
      event.litres = awkward_number(random, 0.0, 50.0);
      if (random.chance(0.5)) event.target = any_of(random, garden.beds).id;
      break;
    case EventKind::measured:
      event.diameter_mm = awkward_number(random, 1.0, 90.0);
      break;
    case EventKind::picked:
      event.grams = awkward_number(random, 0.0, 2000.0);
      if (random.chance(0.5)) event.count = random.below(20);
      break;
    case EventKind::stored:
      event.grams = awkward_number(random, 100.0, 2000.0);
      if (random.chance(0.5)) event.target = "lot-" + event.id;
      event.text = random.chance(0.5) ? "kitchen" : "best, in sand";
      break;
    case EventKind::eaten:
    case EventKind::discarded:
      if (!lots.empty()) event.target = any_of(random, lots);
      if (random.chance(0.7)) event.grams = awkward_number(random, 0.0, 500.0);
      break;
    case EventKind::noted:
      event.text = awkward_text(random);
      break;
    case EventKind::corrected:
      if (before.empty()) {
        event.kind = EventKind::noted;
        event.text = "nothing to correct";
      } else {
        event.target = any_of(random, before).id;
      }
      break;
    case EventKind::tested:
      if (garden.packets.empty()) {
        event.kind = EventKind::noted;
        event.text = "no packet to test";
      } else {
        event.stand.clear();
        event.target = any_of(random, garden.packets).id;
        event.count = random.below(11);
        event.text = "of 10, on a damp cloth";
      }
      break;
  }
  return event;
}

}  // namespace

GardenDescription random_garden(RandomStream& random) {
  GardenDescription garden;
  garden.name = awkward_text(random);
  garden.units = random.chance(0.5) ? "metric" : "us";
  garden.site = {awkward_text(random), awkward_number(random, -66.0, 66.0),
                 awkward_number(random, -180.0, 180.0), awkward_number(random, 0.0, 2000.0)};
  if (random.chance(0.5)) garden.normals = random_normals(random);
  const std::uint32_t beds = 1 + random.below(5);
  for (std::uint32_t i = 0; i < beds; ++i) {
    garden.beds.push_back({fmt::format("b{}", i), awkward_text(random), awkward_number(random, 1.0, 12.0),
                           awkward_number(random, 0.4, 2.0), static_cast<bed::SunClass>(random.below(3)),
                           static_cast<bed::BedKind>(random.below(2)), random.chance(0.5),
                           static_cast<bed::PoleEnd>(random.below(3))});
    if (random.chance(0.5)) garden.past.push_back({garden.beds.back().id, 0.0, 0.5, "Solanaceae", 2024});
  }
  const std::uint32_t trays = random.below(3);
  for (std::uint32_t i = 0; i < trays; ++i) {
    garden.trays.push_back({fmt::format("t{}", i), awkward_text(random),
                            1 + static_cast<int>(random.below(200)), awkward_number(random, 20.0, 80.0),
                            static_cast<bed::TrayPlace>(random.below(4)), awkward_number(random, 5.0, 30.0),
                            0});
    bed::Tray& tray = garden.trays.back();
    tray.mat_cells = static_cast<int>(random.below(static_cast<std::uint32_t>(tray.cells) + 1));
    if (random.chance(0.5)) tray.room_c = awkward_number(random, 5.0, 30.0);
  }
  add_seed(random, garden);
  const std::uint32_t wants = random.below(6);
  for (std::uint32_t i = 0; i < wants; ++i)
    garden.wants.push_back(random_want(random, fmt::format("w{}", i)));
  const std::uint32_t stands = 1 + random.below(8);
  for (std::uint32_t i = 0; i < stands; ++i)
    garden.stands.push_back(random_stand(random, garden, fmt::format("s{}", i)));
  if (random.chance(0.7)) {
    garden.weather = random_weather(random, 1 + static_cast<int>(random.below(80)));
    climate::add_findings(garden.weather_findings, random_findings(random, garden.weather));
  }
  return garden;
}

std::vector<Event> random_log(RandomStream& random, const GardenDescription& garden, std::size_t count) {
  std::vector<Event> log;
  EventContext context = EventContext::of(garden);
  context.has_event = [](const std::string&) { return true; };
  for (std::size_t i = 0; i < count; ++i) {
    Event event = random_event(random, garden, log, fmt::format("e-{}", i));
    if (!check_event(event, context)) {
      event.kind = EventKind::noted;
      event.target.clear();
      event.text = "what contradicted the log";
    }
    event.sequence = static_cast<std::int64_t>(i) + 1;
    context.take(event);
    log.push_back(std::move(event));
  }
  return log;
}

GardenDescription large_garden() {
  RandomStream random(7, "tests.book.large-garden");
  GardenDescription garden = random_garden(random);
  while (garden.beds.size() < 40) {
    bed::Bed bed = garden.beds.front();
    bed.id = fmt::format("b{}", garden.beds.size());
    garden.beds.push_back(bed);
  }
  while (garden.stands.size() < 200) {
    garden.stands.push_back(random_stand(random, garden, fmt::format("s{}", garden.stands.size())));
  }
  constexpr int kThirtyYears = 10957;
  garden.weather = random_weather(random, kThirtyYears);
  return garden;
}

TemporaryDirectory::TemporaryDirectory() {
  // Memory, where there is some: hundreds of small files are synced to disk one by one otherwise.
  const std::filesystem::path memory = "/dev/shm";
  const auto parent = ::access(memory.c_str(), W_OK) == 0 ? memory : std::filesystem::temp_directory_path();
  std::string form = (parent / "sowtide-book-XXXXXX").string();
  if (mkdtemp(form.data()) == nullptr) throw std::runtime_error("no temporary directory");
  path_ = form;
}

TemporaryDirectory::~TemporaryDirectory() {
  std::error_code error;
  std::filesystem::remove_all(path_, error);
}

std::vector<std::string> TemporaryDirectory::names() const {
  std::vector<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(path_))
    names.push_back(entry.path().filename().string());
  std::sort(names.begin(), names.end());
  return names;
}

std::string whole_text(const GardenDescription& garden, const std::vector<Event>& events) {
  const std::string findings = garden.weather_findings.empty() ? "" : weather_findings_csv(garden.weather_findings);
  return garden_toml(garden, {.weather = "w", .weather_findings = "", .log = "l"}) + weather_csv(garden.weather) +
         findings + log_csv(events);
}

}  // namespace sowtide::book::testing
