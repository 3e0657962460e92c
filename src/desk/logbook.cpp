#include "desk/logbook.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "base/csv.hpp"
#include "book/corrections.hpp"
#include "desk/json.hpp"
#include "desk/present.hpp"

namespace sowtide::desk {
namespace {

using Json = nlohmann::ordered_json;
using Align = TextTable::Align;

bool is_chosen(const book::Event& event, const LogChoice& choice) {
  if (!choice.stand.empty() && event.stand != choice.stand) return false;
  return !(choice.from && event.date < *choice.from) && !(choice.to && event.date > *choice.to);
}

std::string crop_of(const book::GardenDescription& garden, const std::string& stand) {
  for (const stand::StandPlan& plan : garden.stands) {
    if (plan.id == stand) return plan.crop;
  }
  return {};
}

/// "s3 Beet", "gate", "s3 Beet, lot-2".
std::string concern_text(const book::GardenDescription& garden, const crop::CropLibrary& library,
                         const book::Event& event) {
  std::string text = event.stand;
  if (const std::string crop = crop_of(garden, event.stand); !crop.empty())
    text.append(" ").append(library.name_of(crop));
  if (!event.target.empty()) text.append(text.empty() ? "" : ", ").append(event.target);
  return text;
}

std::string measures_text(const book::Event& event, Units units) {
  std::string text;
  if (event.litres) text = volume_text(*event.litres, units);
  if (event.diameter_mm)
    text.append(text.empty() ? "" : ", ").append(diameter_text(*event.diameter_mm, units));
  return text;
}

/// A text of several lines would break the table.
std::string on_one_line(std::string text) {
  std::replace_if(
      text.begin(), text.end(), [](char c) { return c == '\n' || c == '\r' || c == '\t'; }, ' ');
  return text;
}

std::vector<std::string> row_of(const book::GardenDescription& garden, const crop::CropLibrary& library,
                                const LoggedEntry& entry) {
  const book::Event& event = *entry.event;
  const Units units = units_of(garden.units);
  return {base::to_iso(event.date),
          fmt::format("{}{}", book::event_kind_text(event.kind), entry.corrected ? " (corrected)" : ""),
          concern_text(garden, library, event),
          event.count ? base::number_text(*event.count) : "",
          event.grams ? weight_text(*event.grams, units) : "",
          measures_text(event, units),
          on_one_line(event.text),
          event.id};
}

}  // namespace

LogList chosen_entries(const std::vector<book::Event>& events, const LogChoice& choice) {
  const book::Corrections corrections = book::corrections_of(events);
  LogList list;
  for (const book::Event& event : events) {
    if (is_chosen(event, choice)) list.entries.push_back({&event, corrections.removed(event.id)});
  }
  std::sort(list.entries.begin(), list.entries.end(), [](const LoggedEntry& a, const LoggedEntry& b) {
    return std::pair(a.event->date, a.event->sequence) < std::pair(b.event->date, b.event->sequence);
  });
  list.matching = list.entries.size();
  const auto surplus = static_cast<std::ptrdiff_t>(list.matching - std::min(list.matching, choice.most));
  list.entries.erase(list.entries.begin(), list.entries.begin() + surplus);
  return list;
}

std::string log_text(const book::GardenDescription& garden, const crop::CropLibrary& library,
                     const LogList& list) {
  if (list.matching == 0) return "No entries.\n";
  TextTable table({"date", "what", "of", "count", "weight", "measure", "text", "entry"},
                  {Align::left, Align::left, Align::left, Align::right, Align::right, Align::right});
  for (const LoggedEntry& entry : list.entries) table.add(row_of(garden, library, entry));
  std::string text = table.text();
  if (list.entries.size() < list.matching) {
    text += fmt::format("The latest {} of {} entries; --most {} shows all.\n", list.entries.size(),
                        list.matching, list.matching);
  }
  return text;
}

std::string log_json(const book::GardenDescription& garden, const crop::CropLibrary& library,
                     const LogList& list) {
  Json entries = Json::array();
  for (const LoggedEntry& entry : list.entries) {
    Json json = Json::parse(event_json(*entry.event));
    if (const std::string crop = crop_of(garden, entry.event->stand); !crop.empty()) {
      json["crop"] = crop;
      json["crop_name"] = library.name_of(crop);
    }
    json["corrected"] = entry.corrected;
    entries.push_back(std::move(json));
  }
  return Json{{"garden", garden.name}, {"matching", list.matching}, {"entries", entries}}.dump(
      2, ' ', false, Json::error_handler_t::replace);
}

}  // namespace sowtide::desk
