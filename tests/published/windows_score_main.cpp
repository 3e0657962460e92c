// Prints how the computed sowing windows agree with the published calendars, as Markdown tables:
//     windows_score [DIRECTORY [detail]]
#include <fmt/core.h>

#include <algorithm>
#include <functional>
#include <set>
#include <string>

#include "published/windows_score.hpp"

namespace {

using namespace sowtide;
using published::PairScore;

std::vector<const PairScore*> chosen(const published::Score& score,
                                     const std::function<bool(const PairScore&)>& which) {
  std::vector<const PairScore*> pairs;
  for (const auto& pair : score.pairs) {
    if (which(pair)) pairs.push_back(&pair);
  }
  return pairs;
}

void print_line(const std::string& name, const std::vector<const PairScore*>& pairs) {
  if (pairs.empty()) return;
  const auto m = published::means_of(pairs);
  fmt::print("| {} | {} | {:.2f} | {:.2f} | {:.2f} | {:.2f} | {:+.0f} ({:.0f}) | {:+.0f} ({:.0f}) | {} |\n",
             name, m.pairs, m.jaccard, m.tolerant, m.recall, m.precision, m.start_median, m.start_spread,
             m.end_median, m.end_spread, m.missed);
}

void print_head(const char* what) {
  fmt::print("\n| {} | pairs | J | J7 | recall | precision | start, d | end, d | missed |\n", what);
  fmt::print("|---|---|---|---|---|---|---|---|---|\n");
}

void print_groups(const published::Score& score) {
  print_head("group");
  print_line("all", chosen(score, [](const auto&) { return true; }));
  print_line("tuned on", chosen(score, [](const auto& p) { return !p.held_out; }));
  print_line("held out", chosen(score, [](const auto& p) { return p.held_out; }));
  print_line("seen, tuned on", chosen(score, [](const auto& p) { return p.seen && !p.held_out; }));
  print_line("seen, held out", chosen(score, [](const auto& p) { return p.seen && p.held_out; }));
  print_line("frost-free places", chosen(score, [](const auto& p) { return p.frost_free; }));
  print_line("overwintering crops", chosen(score, [](const auto& p) { return p.overwintering; }));
  print_line("with an autumn window", chosen(score, [](const auto& p) { return p.autumn; }));
  double j = 0.0, j7 = 0.0, recall = 0.0, n = 0.0;
  for (const auto& pair : score.pairs) {
    if (!pair.autumn_jaccard) continue;
    j += *pair.autumn_jaccard;
    j7 += *pair.autumn_tolerant;
    recall += *pair.autumn_recall;
    n += 1.0;
  }
  fmt::print(
      "\nAutumn windows alone (15 June to 31 December): {:.0f} pairs, J {:.2f}, J7 {:.2f}, recall {:.2f}\n",
      n, j / n, j7 / n, recall / n);
}

void print_partial(const published::Score& score) {
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

void print_detail(const published::Score& score) {
  print_head("place");
  std::set<std::string> places, crops;
  for (const auto& pair : score.pairs) {
    places.insert(pair.place);
    crops.insert(pair.crop);
  }
  for (const auto& place : places) {
    const auto pairs = chosen(score, [&](const auto& p) { return p.place == place; });
    print_line(place + (pairs.front()->held_out ? " (held out)" : ""), pairs);
  }
  print_head("crop");
  for (const auto& crop : crops)
    print_line(crop, chosen(score, [&](const auto& p) { return p.crop == crop; }));
  fmt::print("\n");
  for (const auto& pair : score.pairs) {
    std::string missed;
    for (const auto& each : pair.missed) missed += " MISSED " + each;
    fmt::print("{:.2f} {:.2f} {} | {} | {} | published {} | computed {}{}\n", pair.jaccard, pair.tolerant,
               pair.crop, pair.method, pair.place, pair.published, pair.computed, missed);
  }
  for (const auto& each : score.partial) {
    if (each.member && !*each.member)
      fmt::print("month outside: {} {} {}\n", each.place, each.crop, each.method);
    if (each.start_error) fmt::print("open start: {} {} {:+d}\n", each.place, each.crop, *each.start_error);
    if (each.end_error) fmt::print("open end: {} {} {:+d}\n", each.place, each.crop, *each.end_error);
  }
}

}  // namespace

int main(int argc, char** argv) {
  const std::string directory = argc > 1 ? argv[1] : SOWTIDE_SOURCE_DIR "/tests/published";
  const auto calendars = published::read_calendars(directory);
  const auto score = published::score_windows(calendars, {}, 0.5);
  print_groups(score);
  print_partial(score);
  if (argc > 2) print_detail(score);
  return 0;
}
