#include "base/nearest.hpp"

#include <algorithm>
#include <utility>

namespace sowtide::base {
namespace {

/// Words from hostile files may be of any length; no name is longer than this.
constexpr std::size_t kLongestWord = 64;

/// Of three letters one may be wrong: beyond that it is another word, not a slip.
bool is_near(std::size_t edits, std::size_t letters) {
  return edits * 3 <= std::max<std::size_t>(letters, 3);
}

}  // namespace

std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> before(b.size() + 1);
  std::vector<std::size_t> last(b.size() + 1);
  std::vector<std::size_t> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) last[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t change = last[j - 1] + (a[i - 1] == b[j - 1] ? 0U : 1U);
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, change});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) row[j] = std::min(row[j], before[j - 2] + 1);
    }
    std::swap(before, last);
    std::swap(last, row);
  }
  return last[b.size()];
}

std::vector<std::string> nearest_names(std::string_view word, const std::vector<std::string>& names,
                                       std::size_t most) {
  word = word.substr(0, kLongestWord);
  std::vector<std::pair<std::size_t, std::string>> ranked;
  for (const std::string& name : names) {
    if (name.size() > kLongestWord) continue;
    const bool holds = !word.empty() && !name.empty() &&
                       (name.find(word) != std::string::npos || word.find(name) != std::string_view::npos);
    const std::size_t edits = edit_distance(word, name);
    if (!holds && !is_near(edits, std::max(word.size(), name.size()))) continue;
    ranked.emplace_back(holds ? 0 : edits, name);
  }
  std::sort(ranked.begin(), ranked.end());
  if (ranked.size() > most) ranked.resize(most);
  std::vector<std::string> nearest;
  for (auto& [edits, name] : ranked) nearest.push_back(std::move(name));
  return nearest;
}

std::string did_you_mean(std::string_view word, const std::vector<std::string>& names) {
  return question_of(nearest_names(word, names));
}

std::string question_of(const std::vector<std::string>& nearest) {
  if (nearest.empty()) return {};
  std::string question = "Did you mean ";
  for (std::size_t i = 0; i < nearest.size(); ++i) {
    if (i > 0) question += i + 1 == nearest.size() ? " or " : ", ";
    question += nearest[i];
  }
  return question + "?";
}

}  // namespace sowtide::base
