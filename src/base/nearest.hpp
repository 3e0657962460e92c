// Names near a mistyped one, for remedies: "courgete" -> "courgette".
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace sowtide::base {

/// Edits that turn one text into the other: insertions, deletions, changes and swaps of neighbours, one each
/// (optimal string alignment distance). Cost: the product of the lengths.
[[nodiscard]] std::size_t edit_distance(std::string_view a, std::string_view b);

/// Up to `most` of the names, nearest first; those that hold the word or begin like it come first. Names that
/// need more than one edit for three letters are left out: they are other words.
[[nodiscard]] std::vector<std::string> nearest_names(std::string_view word,
                                                     const std::vector<std::string>& names,
                                                     std::size_t most = 3);

/// "Did you mean bush-bean, pea or beet?", or empty when nothing is near.
[[nodiscard]] std::string did_you_mean(std::string_view word, const std::vector<std::string>& names);

/// The question for names found already; empty when there are none.
[[nodiscard]] std::string question_of(const std::vector<std::string>& nearest);

}  // namespace sowtide::base
