// seed, nursery.
#include <ostream>

#include "cli/open.hpp"
#include "cli/verbs.hpp"
#include "desk/nursery.hpp"
#include "desk/packets.hpp"

namespace sowtide::cli {

base::Result<void> run_seed(const SeedOptions& options, Output& output) {
  const auto season = open_season(options.garden, options.date);
  if (!season) return tl::make_unexpected(season.error());
  desk::SeedBoxOptions how;
  how.keeping = {options.temp_c, options.moisture_pct};
  how.service = options.service;
  const auto box = desk::seed_box(*season, how);
  if (!box) return tl::make_unexpected(box.error());
  output.out << (output.json ? desk::packets_json(*season, *box) + "\n" : desk::packets_text(*season, *box));
  return {};
}

base::Result<void> run_nursery(const NurseryOptions& options, Output& output) {
  const auto season = open_season(options.garden, options.date);
  if (!season) return tl::make_unexpected(season.error());
  const auto view = desk::nursery_view(*season);
  if (!view) return tl::make_unexpected(view.error());
  output.out << (output.json ? desk::nursery_json(*season, *view) + "\n" : desk::nursery_text(*season, *view));
  return {};
}

}  // namespace sowtide::cli
