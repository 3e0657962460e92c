// Corrections against the plain rule of docs/formats/log.md, worked out from the last to the first.
#include "book/corrections.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <iterator>
#include <set>
#include <utility>

namespace sowtide::book {
namespace {

using Log = std::vector<std::pair<std::string, std::string>>;  // a correction's id, its target

/// A correction counts unless a later one that counts took it out.
std::set<std::string> removed_plainly(const Log& log) {
  std::set<std::string> removed;
  for (auto it = log.rbegin(); it != log.rend(); ++it) {
    if (!removed.contains(it->first)) removed.insert(it->second);
  }
  return removed;
}

std::string entry(std::size_t number) {
  return "e" + std::to_string(number);
}

RC_GTEST_PROP(CorrectionLaws, AgreeWithThePlainRule, (const std::vector<std::uint8_t>& aims)) {
  // Entries 0 to 4 are work; each further one corrects one that came before it.
  constexpr std::size_t kWork = 5;
  Log log;
  Corrections corrections;
  for (std::size_t i = 0; i < aims.size(); ++i) {
    const std::string target = entry(aims[i] % (kWork + i));
    const std::set<std::string> before = removed_plainly(log);
    log.emplace_back(entry(kWork + i), target);
    const std::set<std::string> after = removed_plainly(log);
    std::vector<std::string> restored;
    std::set_difference(before.begin(), before.end(), after.begin(), after.end(), std::back_inserter(restored));
    auto told = corrections.restored_by(target);
    std::sort(told.begin(), told.end());
    RC_ASSERT(told == restored);
    corrections.take(entry(kWork + i), target);
    for (std::size_t e = 0; e < kWork + i + 1; ++e)
      RC_ASSERT(corrections.removed(entry(e)) == after.contains(entry(e)));
  }
}

TEST(Corrections, ACorrectionOfACorrectionBringsTheEntryBack) {
  Corrections corrections;
  corrections.take("c1", "sown");
  EXPECT_TRUE(corrections.removed("sown"));
  EXPECT_EQ(corrections.restored_by("c1"), std::vector<std::string>{"sown"});
  corrections.take("c2", "c1");
  EXPECT_FALSE(corrections.removed("sown"));
}

}  // namespace
}  // namespace sowtide::book
