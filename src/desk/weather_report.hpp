// What a weather import did, and what weather a garden has: as text and as JSON.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "book/garden.hpp"
#include "climate/record.hpp"
#include "climate/risk.hpp"
#include "desk/present.hpp"

namespace sowtide::desk {

/// One imported file.
struct ImportReport {
  std::string file;
  std::string format;
  std::vector<std::string> notes;
  std::vector<climate::QualityFinding> findings;
  base::Date first{}, last{};
  std::optional<climate::Site> site;   ///< as stated in the file
  std::size_t values_added = 0, values_replaced = 0;
  std::size_t values_kept = 0;               ///< that the garden has otherwise, and the file did not replace
  std::optional<climate::Site> laid_over;    ///< the station of the record whose values it replaced
};

[[nodiscard]] std::string import_text(const std::vector<ImportReport>& reports,
                                      const std::vector<climate::QualityFinding>& filled,
                                      const climate::Site& garden, Units units);
/// {"files":[{"file","format","first","last","values_added","values_replaced","notes":[…],"findings":[{…}]}],"filled":[{…}]}
[[nodiscard]] std::string import_json(const std::vector<ImportReport>& reports,
                                      const std::vector<climate::QualityFinding>& filled, const climate::Site& garden);

/// How much of one variable is known.
struct VariableSummary {
  std::string name, unit;
  std::size_t observed = 0, filled = 0, estimated = 0, forecast = 0, missing = 0;
};

/// Mean hours of each month below a temperature.
struct HoursBelow {
  double threshold_c = 0.0;
  std::array<double, 12> by_month{};
};

struct WeatherSummary {
  std::string garden;
  climate::Site site;
  std::optional<climate::Site> station;               ///< of the record, where it says so
  base::Date first{}, last{};
  std::size_t days = 0;
  std::vector<VariableSummary> variables;
  std::vector<climate::QualityFinding> findings;      ///< of the record as it stands: gaps that remain, doubtful values
  std::vector<climate::QualityFinding> found_at_import;   ///< when the weather came in: what was removed, and why
  std::optional<climate::MonthlyNormals> normals;     ///< computed from the record where it is long enough
  std::optional<std::array<double, 12>> record_high_c, record_low_c;   ///< by month, where the normals are the record's
  bool normals_given = false;                         ///< they come from the garden description instead
  std::optional<climate::WinterChill> chill;          ///< of the record, or of made years where only normals are given
  std::optional<climate::HeatSpells> heat;            ///< likewise: three days or more of kHeatC
  std::vector<HoursBelow> hours_below;                ///< likewise, of each threshold; empty where too little is known
  std::string note;                                   ///< why there are no normals, for people
};

/// Findings counted, and the first of them; "nothing found" where there are none.
[[nodiscard]] std::string findings_text(const std::vector<climate::QualityFinding>& findings, Units units);

[[nodiscard]] WeatherSummary summarise_weather(const book::GardenDescription& garden);
[[nodiscard]] std::string weather_text(const WeatherSummary& summary, Units units);
/// {"garden","site","station":{…}|null,"station_distance_km","first","last","days","variables":[…],"findings":[…],"found_at_import":[…],"normals":{…}|null,"chill":{…}|null,"heat":{…}|null,"hours_below":[…]}
[[nodiscard]] std::string weather_json(const WeatherSummary& summary);

}  // namespace sowtide::desk
