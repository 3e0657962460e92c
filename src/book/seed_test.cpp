#include "book/seed_test.hpp"

#include <charconv>

namespace sowtide::book {
namespace {

constexpr std::string_view kBegin = "of ";
constexpr int kMostSeedsTested = 100'000;

}  // namespace

std::optional<int> seeds_tested_of(std::string_view text) noexcept {
  if (!text.starts_with(kBegin)) return std::nullopt;
  text.remove_prefix(kBegin.size());
  int seeds = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), seeds);
  const bool ends = end == text.data() + text.size() ||
                    std::string_view(" ,;:.\t\r\n").find(*end) != std::string_view::npos;
  if (error != std::errc{} || !ends || seeds < 1 || seeds > kMostSeedsTested) return std::nullopt;
  return seeds;
}

}  // namespace sowtide::book
