// Which devices of the home network may use the garden: a one-time code makes a device known, a token kept in
// its cookie shows it again, and the pairing can be ended.
//
// The code is short enough to type and lives for ten minutes; five wrong attempts void it, and no more than
// ten attempts a minute are looked at, so guessing one of its 31^8 values is hopeless. The token has 256
// random bits; only its SHA-256 is kept, in a file beside the garden that its owner alone can read.
#pragma once

#include <chrono>
#include <deque>
#include <functional>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/date.hpp"
#include "base/problem.hpp"

namespace sowtide::serve {

inline constexpr std::chrono::minutes kCodeLife{10};
inline constexpr int kAttemptsPerCode = 5;
inline constexpr std::size_t kAttemptsPerMinute = 10;

struct PairedDevice {
  std::string id;  ///< for naming it; no secret
  std::string name;
  base::Date paired_on{};
  std::string token_sha256;  ///< hexadecimal
};

/// What an attempt to pair came to.
struct PairingOutcome {
  enum class Kind { paired, wrong_code, too_many } kind = Kind::wrong_code;
  std::string device;  ///< id, when paired
  std::string token;   ///< for the cookie, when paired; said once
};

/// All calls may come from any thread.
class Pairing {
 public:
  using Clock = std::function<std::chrono::steady_clock::time_point()>;

  /// Reads the paired devices; none when the file is not there yet. `clock` is the machine's steady clock
  /// unless a test gives another. Problems: file_unreadable, syntax (not written by this program).
  [[nodiscard]] static base::Result<Pairing> open(std::string file, Clock clock = {});
  Pairing(Pairing&& other) noexcept;

  /// A new code such as "K7QM-2XTR", in place of any before it.
  std::string new_code();
  /// Tries a code; dashes, blanks and case do not count. The code is spent when it is right. Problems:
  /// file_unreadable, when the devices cannot be written; they are then those of before.
  base::Result<PairingOutcome> pair(std::string_view code, const std::string& name, base::Date today);
  /// True when the token is that of a paired device.
  [[nodiscard]] bool knows(std::string_view token) const;
  [[nodiscard]] std::vector<PairedDevice> devices() const;
  /// Ends a pairing. Problems: not_found, file_unreadable likewise.
  base::Result<void> forget(std::string_view id);

 private:
  Pairing(std::string file, Clock clock) : file_(std::move(file)), clock_(std::move(clock)) {}
  [[nodiscard]] bool may_try();
  [[nodiscard]] bool is_the_code(std::string_view code);
  /// Writes the devices to the file; only then they are the paired ones.
  base::Result<void> keep(std::vector<PairedDevice> devices);

  std::string file_;
  Clock clock_;
  mutable std::mutex mutex_;
  std::vector<PairedDevice> devices_;  ///< guarded, like all below
  std::string code_;                   ///< without its dash; empty: none
  std::chrono::steady_clock::time_point code_end_{};
  int attempts_left_ = 0;
  std::deque<std::chrono::steady_clock::time_point> attempts_;  ///< of the last minute
};

/// The value of a cookie by name in a Cookie header (RFC 6265, section 4.2.1), or nothing.
[[nodiscard]] std::optional<std::string> cookie_value(std::string_view header, std::string_view name);

}  // namespace sowtide::serve
