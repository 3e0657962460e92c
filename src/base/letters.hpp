// Letters whatever their case, for words that people type.
#pragma once

#include <algorithm>
#include <cctype>
#include <string>
#include <string_view>

namespace sowtide::base {

/// The text in small letters; of letters beyond ASCII nothing is changed.
[[nodiscard]] inline std::string small_letters(std::string_view text) {
  std::string small(text);
  std::transform(small.begin(), small.end(), small.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return small;
}

}  // namespace sowtide::base
