// The words for choices: one table a choice, used by the garden file, the TOML, the CSV and the JSON of answers alike.
#pragma once

#include <algorithm>
#include <array>
#include <optional>
#include <string_view>
#include <vector>

#include "bed/bed.hpp"
#include "climate/record.hpp"
#include "plan/plan.hpp"
#include "stand/outlook.hpp"

namespace sowtide::book {

// In the order of the enumerations.
inline constexpr std::array<std::string_view, 3> kSunWords{"full", "partial", "shade"};
inline constexpr std::array<std::string_view, 2> kBedKindWords{"raised", "ground"};
inline constexpr std::array<std::string_view, 3> kPoleEndWords{"neither", "start", "end"};
inline constexpr std::array<std::string_view, 4> kTrayPlaceWords{"indoors", "heat_mat", "cold_frame",
                                                                 "outdoors"};
inline constexpr std::array<std::string_view, 3> kWantUnitWords{"grams", "servings", "pieces"};
inline constexpr std::array<std::string_view, 2> kSizeWords{"small", "large"};
inline constexpr std::array<std::string_view, 2> kMethodWords{"direct-sow", "start-indoors"};
inline constexpr std::array<std::string_view, 3> kArrangementWords{"square", "offset", "rows"};
inline constexpr std::array<std::string_view, 2> kGardenUnitWords{"metric", "us"};
inline constexpr std::array<std::string_view, 5> kOriginWords{"missing", "observed", "filled", "estimated",
                                                              "forecast"};
inline constexpr std::array<std::string_view, climate::kVariableCount> kVariableWords{
    "tmin", "tmax", "rain", "radiation", "sunshine", "humidity", "wind"};
/// Column headings of weather.csv, with the unit of `climate::Series` as last word.
inline constexpr std::array<std::string_view, climate::kVariableCount> kVariableColumns{
    "tmin_c", "tmax_c", "rain_mm", "radiation_mj_m2", "sunshine_h", "humidity_pct", "wind_2m_m_s"};

/// Whether a text begins with a word (or words) in small letters, in whatever letters it is written itself,
/// and with the whole of it: one of `ends` follows, or nothing.
[[nodiscard]] inline bool begins_with_word(std::string_view text, std::string_view word,
                                           std::string_view ends) noexcept {
  const bool same = text.size() >= word.size() &&
                    std::equal(word.begin(), word.end(), text.begin(), [](char small, char written) {
                      return small == (written >= 'A' && written <= 'Z' ? written - 'A' + 'a' : written);
                    });
  return same && (text.size() == word.size() || ends.find(text[word.size()]) != std::string_view::npos);
}

/// Begins the text of a `picked` that took all of a stand.
inline constexpr std::string_view kAllWord = "all";

/// Whether the text of a `picked` is the word "all", or begins with it and a comma: nothing is left of the
/// stand.
[[nodiscard]] inline bool says_all(std::string_view text) noexcept {
  return begins_with_word(text, kAllWord, ",");
}

/// Begins the text of a `picked` that took leaves alone of a crop that is grown for its root.
inline constexpr std::string_view kLeavesWord = "leaves";

/// Whether the text of a `picked` is the word "leaves" or "greens", or begins with it and a comma.
[[nodiscard]] inline bool says_leaves(std::string_view text) noexcept {
  return begins_with_word(text, kLeavesWord, ",") || begins_with_word(text, "greens", ",");
}

/// Whether a text has one of the words for leaves of a root crop anywhere: leaves, greens, tops.
[[nodiscard]] inline bool speaks_of_leaves(std::string_view text) noexcept {
  constexpr std::string_view kLetters = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ";
  constexpr std::string_view kEnds = " ,.;:!?()/-+&";
  for (std::size_t at = 0; at < text.size(); ++at) {
    if (at > 0 && kLetters.find(text[at - 1]) != std::string_view::npos) continue;
    for (const std::string_view word : {"leaves", "greens", "tops"}) {
      if (begins_with_word(text.substr(at), word, kEnds)) return true;
    }
  }
  return false;
}

/// Place of a word in its table, or nothing.
template <std::size_t N>
[[nodiscard]] std::optional<std::size_t> place_of(const std::array<std::string_view, N>& words,
                                                  std::string_view word) {
  const auto found = std::find(words.begin(), words.end(), word);
  if (found == words.end()) return std::nullopt;
  return static_cast<std::size_t>(found - words.begin());
}

template <class Enumeration, std::size_t N>
[[nodiscard]] std::string_view word_of(const std::array<std::string_view, N>& words, Enumeration value) {
  return words.at(static_cast<std::size_t>(value));
}

template <std::size_t N>
[[nodiscard]] std::vector<std::string_view> list_of(const std::array<std::string_view, N>& words) {
  return {words.begin(), words.end()};
}

}  // namespace sowtide::book
