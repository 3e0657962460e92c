#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <string>
#include <tuple>
#include <vector>

#include "plan/plan.hpp"

namespace sowtide::plan {
namespace {

/// Two sowings further apart than this are not one that moved.
constexpr int kFarthestMoveDays = 42;

bool same_kind(const stand::StandPlan& a, const stand::StandPlan& b) {
  return a.crop == b.crop && a.variety == b.variety && a.method == b.method && a.size == b.size;
}

int days_between(const stand::StandPlan& a, const stand::StandPlan& b) {
  return static_cast<int>((b.sow - a.sow).count());
}

struct Match {
  std::size_t before = 0, after = 0;
  int days = 0;
};

/// Pairs of the same kind, nearest in date first, each stand once.
std::vector<Match> match_stands(const std::vector<stand::StandPlan>& before,
                                const std::vector<stand::StandPlan>& after) {
  std::vector<Match> possible;
  for (std::size_t i = 0; i < before.size(); ++i) {
    for (std::size_t j = 0; j < after.size(); ++j) {
      const int days = days_between(before[i], after[j]);
      if (same_kind(before[i], after[j]) && std::abs(days) <= kFarthestMoveDays)
        possible.push_back({i, j, days});
    }
  }
  const auto closeness = [&](const Match& m) {
    const bool other_bed = before[m.before].bed != after[m.after].bed;
    return std::make_tuple(std::abs(m.days), other_bed,
                           std::abs(before[m.before].clumps - after[m.after].clumps), m.before, m.after);
  };
  std::sort(possible.begin(), possible.end(),
            [&](const Match& a, const Match& b) { return closeness(a) < closeness(b); });
  std::vector<bool> used_before(before.size(), false), used_after(after.size(), false);
  std::vector<Match> chosen;
  for (const Match& match : possible) {
    if (used_before[match.before] || used_after[match.after]) continue;
    used_before[match.before] = used_after[match.after] = true;
    chosen.push_back(match);
  }
  return chosen;
}

std::string change_text(const stand::StandPlan& before, const stand::StandPlan& after, int days) {
  std::string changes;
  const auto add = [&](const std::string& text) { changes += (changes.empty() ? "" : ", ") + text; };
  if (days != 0) add(fmt::format("sown {} days {}", std::abs(days), days > 0 ? "later" : "earlier"));
  if (after.clumps != before.clumps) add(fmt::format("{} clumps instead of {}", after.clumps, before.clumps));
  if (after.bed != before.bed) add(fmt::format("in bed {} instead of {}", after.bed, before.bed));
  if (after.tray != before.tray) add(fmt::format("raised in {} instead of {}", after.tray, before.tray));
  return changes.empty() ? changes : fmt::format("{} {}: {}.", after.crop, before.id, changes);
}

}  // namespace

std::vector<std::string> changes_in_words(const std::vector<stand::StandPlan>& before,
                                          const std::vector<stand::StandPlan>& after) {
  std::vector<std::string> words;
  std::vector<bool> kept(before.size(), false), known(after.size(), false);
  for (const Match& match : match_stands(before, after)) {
    kept[match.before] = known[match.after] = true;
    std::string text = change_text(before[match.before], after[match.after], match.days);
    if (!text.empty()) words.push_back(std::move(text));
  }
  for (std::size_t i = 0; i < before.size(); ++i) {
    if (!kept[i])
      words.push_back(fmt::format("{} {}: left out ({} clumps of {}).", before[i].crop, before[i].id,
                                  before[i].clumps, base::to_iso(before[i].sow)));
  }
  for (std::size_t j = 0; j < after.size(); ++j) {
    if (!known[j])
      words.push_back(fmt::format("{}: new, {} clumps on {} in bed {}.", after[j].crop, after[j].clumps,
                                  base::to_iso(after[j].sow), after[j].bed));
  }
  return words;
}

}  // namespace sowtide::plan
