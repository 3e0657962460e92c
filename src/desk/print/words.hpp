// Every word on paper: one catalogue file a language (src/desk/print/texts/*.toml, made from web/src/texts), compiled in; numbers,
// dates and units in the reader's form.
#pragma once

#include <initializer_list>
#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/date.hpp"
#include "base/problem.hpp"
#include "crop/crop.hpp"
#include "desk/present.hpp"

namespace sowtide::desk::print {

/// A catalogue as it stands in its file: "section.key" → text.
using Catalogue = std::map<std::string, std::string, std::less<>>;

/// Languages that have a catalogue: "de", "en".
[[nodiscard]] std::vector<std::string> languages();
/// not_found for a language without a file, with those there are as remedy.
[[nodiscard]] base::Result<const Catalogue*> catalogue(std::string_view language);

class Words {
 public:
  using Values = std::initializer_list<std::pair<std::string_view, std::string>>;

  Words(const Catalogue& catalogue, Units units) : catalogue_(&catalogue), units_(units) {}
  [[nodiscard]] Units units() const { return units_; }

  /// The text of a key with each {name} replaced. A key that is not there shows as ⟦key⟧ (a test looks for
  /// it).
  [[nodiscard]] std::string say(std::string_view key, Values values = {}) const;

  /// "12 Apr", "Apr 12", "12. Apr."; with the year where it is not that of `reference`.
  [[nodiscard]] std::string day(base::Date date, base::Date reference) const;
  [[nodiscard]] std::string long_day(base::Date date) const;  ///< with the year, always
  [[nodiscard]] std::string day(base::MonthDay day) const;
  /// "3–14 Feb", "28 Jan – 3 Feb"; one day where both are the same.
  [[nodiscard]] std::string days(base::Date from, base::Date to, base::Date reference) const;
  [[nodiscard]] std::string month(int month) const;       ///< 1..12, short
  [[nodiscard]] std::string full_month(int month) const;  ///< 1..12

  [[nodiscard]] std::string weight(double grams) const;
  [[nodiscard]] std::string length(double metres) const;
  [[nodiscard]] std::string spacing(double millimetres) const;
  [[nodiscard]] std::string depth(double millimetres) const;
  [[nodiscard]] std::string temperature(double celsius) const;
  /// So many degrees more or less.
  [[nodiscard]] std::string temperature_difference(double kelvin) const;
  [[nodiscard]] std::string percent(double fraction) const;
  [[nodiscard]] std::string number(double value, int decimals = 0) const;
  /// "0.75 – 2.01 m", "9 – 30 in", "1 ft 9 in – 3 ft 4 in".
  [[nodiscard]] std::string stretch(double from_m, double to_m) const;

  [[nodiscard]] std::string crop(const crop::Crop& crop) const;
  /// "cooking-greens" as people call it.
  [[nodiscard]] std::string group(std::string_view group) const;
  /// A caution of the crop library. It is translated by its English wording, so that a changed caution is
  /// shown in English rather than in an old translation.
  [[nodiscard]] std::string caution(const std::string& english) const;

 private:
  [[nodiscard]] const std::string* find(std::string_view key) const;
  [[nodiscard]] std::string localised(std::string text) const;

  const Catalogue* catalogue_;
  Units units_;
};

}  // namespace sowtide::desk::print
