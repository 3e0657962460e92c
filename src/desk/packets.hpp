// The seed box against the plan: what each packet is still worth, what it must last for, and what is short.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/problem.hpp"
#include "base/quantile.hpp"
#include "crop/packet_belief.hpp"
#include "desk/message.hpp"
#include "desk/season.hpp"

namespace sowtide::desk {

struct SeedBoxOptions {
  crop::SeedKeeping keeping;  ///< as seed is commonly kept, when nothing else is said
  double service = 0.9;       ///< chance wanted of coming up to the planned clumps
};

/// What to do with a packet.
enum class PacketVerdict { good, sow_thicker, test_first, renew };
[[nodiscard]] std::string_view packet_verdict_text(PacketVerdict verdict) noexcept;

/// One packet today. Percentages are of seeds that give at least one seedling.
struct PacketState {
  base::Date new_on{};  ///< its age counts from then
  crop::Packet packet;
  /// From 1 January of the year it was packed for; of tubers and cloves from when they were lifted
  /// (`new_on`).
  double age_years = 0.0;
  double fresh_pct = 0.0;     ///< as stated, or a good fresh packet of the crop
  double expected_pct = 0.0;  ///< by age and store alone
  bool by_equation = false;
  std::vector<book::SeedTest> tests;  ///< of this packet, by date
  double germination_pct = 0.0;       ///< mean, age and tests together
  base::Quantiles germination;        ///< p10, p50, p90 of the same
  double next_season_pct = 0.0;       ///< a year from now
  PacketVerdict verdict = PacketVerdict::good;
  std::vector<Message> reason;
  double seeds_sown = 0.0, seeds_left = 0.0, planned_seeds = 0.0;
  std::vector<Message> working;  ///< from the fresh packet to today, step by step
};

/// Seeds of a packet that a stand will take.
struct SeedShare {
  std::string packet;
  double seeds = 0.0;
};

struct StandSeed {
  std::string stand;
  base::Date sow{};
  double planned_seeds = 0.0;  ///< as the plan has it
  double seeds = 0.0;          ///< for the service wanted, at today's germination; never below the plan's
  std::vector<SeedShare> shares;
  double short_seeds = 0.0;
  /// What is doubtful about the packet it would be sown from: the first worth sowing that holds any seed, or
  /// the one that its plan names; empty where that is good or there is none.
  std::vector<Message> doubt;
};

struct SeedToBuy {
  int seeds = 0;
  double grams = 0.0;
  double germination_pct = 0.0;  ///< of the fresh seed reckoned with
};

/// All planned sowings of a crop and variety.
struct SeedNeed {
  std::string crop, variety;
  base::Date first_sowing{};
  std::vector<StandSeed> stands;
  double seeds = 0.0, covered_seeds = 0.0, short_seeds = 0.0;
  std::optional<SeedToBuy> buy;
};

struct SeedBox {
  SeedBoxOptions options;
  std::vector<PacketState> packets;  ///< in the order of the garden
  std::vector<SeedNeed> needs;       ///< earliest sowing first
};

/// Seeds that the log says were sown, by packet; never more than it held. What was sown from no packet that
/// is named comes off those worth sowing on the day.
[[nodiscard]] std::map<std::string, double> seeds_gone(const crop::CropLibrary& library,
                                                       const book::GardenDescription& garden,
                                                       const book::GardenState& state, base::Date today);

/// The packets that are not to be renewed, in the order of the garden, kept as seed commonly is.
[[nodiscard]] std::vector<crop::Packet> packets_worth_sowing(const crop::CropLibrary& library,
                                                             const book::GardenDescription& garden,
                                                             const book::GardenState& state,
                                                             base::Date today);

/// Reckons the box. Planned stands draw on the packet they name, then on packets of their crop and variety,
/// the oldest that is still worth sowing first; seed that is to be renewed counts for nothing. Problems:
/// out_of_range for a keeping or service that makes no sense.
[[nodiscard]] base::Result<SeedBox> seed_box(const Season& season, const SeedBoxOptions& options = {});

/// docs/api/packets.schema.json.
[[nodiscard]] std::string packets_json(const Season& season, const SeedBox& box);
/// The same as tables for people.
[[nodiscard]] std::string packets_text(const Season& season, const SeedBox& box);

}  // namespace sowtide::desk
