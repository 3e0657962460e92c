// Gardens and logs for tests: random ones that use every field, and a large one for speed.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

#include "base/random.hpp"
#include "book/garden.hpp"

namespace sowtide::book::testing {

/// A random garden, valid in itself, with awkward names and numbers. Crops are of the built-in library.
[[nodiscard]] GardenDescription random_garden(base::RandomStream& random);

/// A random log that the garden accepts, every kind of entry in it when it is long enough.
[[nodiscard]] std::vector<Event> random_log(base::RandomStream& random, const GardenDescription& garden,
                                            std::size_t count);

/// 40 beds, 200 stands, 30 years of weather.
[[nodiscard]] GardenDescription large_garden();

/// A new directory that goes at the end of the test.
class TemporaryDirectory {
 public:
  TemporaryDirectory();
  ~TemporaryDirectory();
  TemporaryDirectory(const TemporaryDirectory&) = delete;
  TemporaryDirectory& operator=(const TemporaryDirectory&) = delete;
  [[nodiscard]] std::string file(const std::string& name) const { return (path_ / name).string(); }
  [[nodiscard]] std::string path() const { return path_.string(); }
  /// Names of all files in it.
  [[nodiscard]] std::vector<std::string> names() const;

 private:
  std::filesystem::path path_;
};

/// Everything of a garden and its log as one text, for comparing.
[[nodiscard]] std::string whole_text(const GardenDescription& garden, const std::vector<Event>& events);

}  // namespace sowtide::book::testing
