// Prints how the computed sowing windows agree with the published calendars, as Markdown tables:
//     windows_score [detail]
#include <fmt/core.h>

#include <algorithm>
#include <functional>
#include <set>
#include <string>

#include "stand/calendar_score.hpp"

namespace {

using namespace sowtide;
using stand::Agreement;
using stand::PairScore;

std::vector<const Agreement*> chosen(const stand::CalendarScore& score,
                                     const std::function<bool(const PairScore&)>& which) {
  std::vector<const Agreement*> pairs;
  for (const auto& pair : score.pairs) {
    if (which(pair)) pairs.push_back(&pair.year);
  }
  return pairs;
}

void print_line(const std::string& name, const std::vector<const Agreement*>& pairs) {
  if (pairs.empty()) return;
  const auto m = stand::means_of(pairs);
  fmt::print("| {} | {} | {:.2f} | {:.2f} | {:.2f} | {:.2f} | {:+.0f} ({:.0f}) | {:+.0f} ({:.0f}) | {} |\n",
             name, m.pairs, m.jaccard, m.tolerant, m.recall, m.precision, m.start_median, m.start_size,
             m.end_median, m.end_size, m.missed);
}

void print_head(const char* what) {
  fmt::print("\n| {} | pairs | J | J7 | recall | precision | start, d | end, d | missed |\n", what);
  fmt::print("|---|---|---|---|---|---|---|---|---|\n");
}

void print_groups(const stand::CalendarScore& score) {
  print_head("group");
  for (const auto& group : stand::score_groups()) {
    for (const char* part : {"both", "tuned-on", "held-out"})
      print_line(group + ", " + part, stand::agreements_of(score, group, part));
  }
}

void print_partial(const stand::CalendarScore& score) {
  int members = 0, hits = 0;
  std::vector<int> starts, ends;
  for (const auto& each : score.partial) {
    if (each.member) {
      ++members;
      hits += *each.member ? 1 : 0;
    }
    if (each.start_error) starts.push_back(*each.start_error);
    if (each.end_error) ends.push_back(*each.end_error);
  }
  const auto middle = [](std::vector<int>& all) {
    if (all.empty()) return 0;
    std::sort(all.begin(), all.end());
    return all[all.size() / 2];
  };
  fmt::print(
      "\nMonths said to lie inside a window: {} of {} do. Open rows: {} starts, median error {:+d} d; {} "
      "ends, {:+d} d\n",
      hits, members, starts.size(), middle(starts), ends.size(), middle(ends));
}

void print_detail(const stand::CalendarScore& score) {
  print_head("place");
  std::set<std::string> places, crops;
  for (const auto& pair : score.pairs) {
    places.insert(pair.place);
    crops.insert(pair.crop);
  }
  for (const auto& place : places) {
    const auto pairs = chosen(score, [&](const auto& p) { return p.place == place; });
    const bool held_out = std::any_of(score.pairs.begin(), score.pairs.end(),
                                      [&](const auto& p) { return p.place == place && p.held_out; });
    print_line(place + (held_out ? " (held out)" : ""), pairs);
  }
  print_head("crop");
  for (const auto& crop : crops)
    print_line(crop, chosen(score, [&](const auto& p) { return p.crop == crop; }));
  fmt::print("\n");
  for (const auto& pair : score.pairs) {
    std::string missed;
    for (const auto& each : pair.year.missed) missed += " MISSED " + each;
    fmt::print("{:.2f} {:.2f} {} | {} | {} | published {} | computed {}{}\n", pair.year.jaccard,
               pair.year.tolerant, pair.crop, pair.method, pair.place, pair.published, pair.computed, missed);
  }
  for (const auto& each : score.partial) {
    if (each.member && !*each.member)
      fmt::print("month outside: {} {} {}\n", each.place, each.crop, each.method);
    if (each.start_error) fmt::print("open start: {} {} {:+d}\n", each.place, each.crop, *each.start_error);
    if (each.end_error) fmt::print("open end: {} {} {:+d}\n", each.place, each.crop, *each.end_error);
  }
}

}  // namespace

int main(int argc, char**) {
  const auto& score = stand::built_in_score();
  print_groups(score);
  print_partial(score);
  if (argc > 1) print_detail(score);
  return 0;
}
