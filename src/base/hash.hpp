// FNV-1a with 64 bits (Fowler, Noll and Vo; constants as in their IETF draft): a short name for bytes that tells one
// from another. It keeps nothing secret.
#pragma once

#include <cstdint>
#include <string_view>

namespace sowtide::base {

inline constexpr std::uint64_t kFnv1aStart = 0xcbf29ce484222325ULL;

/// The hash of what was hashed so far and one more byte.
[[nodiscard]] constexpr std::uint64_t fnv1a(std::uint64_t hash, unsigned char byte) noexcept {
  return (hash ^ byte) * 0x100000001b3ULL;
}

/// The hash of bytes, or of what was hashed so far and these.
[[nodiscard]] constexpr std::uint64_t fnv1a(std::string_view bytes, std::uint64_t hash = kFnv1aStart) noexcept {
  for (const char c : bytes) hash = fnv1a(hash, static_cast<unsigned char>(c));
  return hash;
}

}  // namespace sowtide::base
