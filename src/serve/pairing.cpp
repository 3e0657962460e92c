#include "serve/pairing.hpp"

#include <openssl/crypto.h>
#include <openssl/evp.h>
#include <openssl/rand.h>

#include <algorithm>
#include <array>
#include <nlohmann/json.hpp>
#include <stdexcept>
#include <utility>

#include "base/file.hpp"
#include "base/utf8.hpp"
#include "serve/detail/http_text.hpp"

namespace sowtide::serve {
namespace {

using base::ProblemCode;
using nlohmann::json;

/// Without I, L, O, 0 and 1, which look alike on paper and screen.
constexpr std::string_view kCodeLetters = "23456789ABCDEFGHJKMNPQRSTUVWXYZ";
constexpr std::size_t kCodeLength = 8;
constexpr std::size_t kTokenBytes = 32;
constexpr std::size_t kIdBytes = 4;
constexpr std::size_t kMostFileBytes = 1U << 20U;
constexpr std::size_t kMostDevices = 100;
constexpr std::size_t kLongestNameBytes = 60;

std::string hexadecimal(const unsigned char* bytes, std::size_t count) {
  constexpr std::string_view kDigits = "0123456789abcdef";
  constexpr unsigned kHalf = 4;
  constexpr unsigned kLowMask = 15;
  std::string text;
  for (std::size_t i = 0; i < count; ++i) {
    text += kDigits[bytes[i] >> kHalf];
    text += kDigits[bytes[i] & kLowMask];
  }
  return text;
}

/// Bytes from the system's generator for secrets. A system without any cannot keep a secret.
template <std::size_t count>
std::array<unsigned char, count> random_bytes() {
  std::array<unsigned char, count> bytes{};
  if (RAND_bytes(bytes.data(), static_cast<int>(count)) != 1) throw std::runtime_error("no random numbers");
  return bytes;
}

std::string sha256(std::string_view text) {
  std::array<unsigned char, EVP_MAX_MD_SIZE> digest{};
  unsigned length = 0;
  if (EVP_Digest(text.data(), text.size(), digest.data(), &length, EVP_sha256(), nullptr) != 1)
    throw std::runtime_error("no SHA-256");
  return hexadecimal(digest.data(), length);
}

/// In the same time whatever differs.
bool same_secret(std::string_view a, std::string_view b) {
  return a.size() == b.size() && CRYPTO_memcmp(a.data(), b.data(), a.size()) == 0;
}

std::string random_code() {
  std::string code;
  while (code.size() < kCodeLength) {
    // Bytes beyond a multiple of the letters are thrown away, so that all are equally likely.
    constexpr std::size_t kFair = 256 / kCodeLetters.size() * kCodeLetters.size();
    for (const unsigned char byte : random_bytes<kCodeLength>()) {
      if (byte < kFair && code.size() < kCodeLength) code += kCodeLetters[byte % kCodeLetters.size()];
    }
  }
  return code;
}

/// A code as typed, without what does not count.
std::string plain_code(std::string_view typed) {
  std::string code;
  for (const char c : typed) {
    if (c == '-' || c == ' ') continue;
    code += c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
  }
  return code;
}

base::Result<std::vector<PairedDevice>> parse_devices(std::string_view text, const std::string& file) {
  const auto unreadable = [&file] {
    return base::fail(ProblemCode::syntax, "is not a list of paired devices", {.file = file},
                      "Delete it and pair the devices again.");
  };
  const json value = json::parse(text, nullptr, false);
  if (!value.is_object() || !value.contains("devices") || !value["devices"].is_array()) return unreadable();
  std::vector<PairedDevice> devices;
  for (const json& each : value["devices"]) {
    if (!each.is_object()) return unreadable();
    for (const char* name : {"id", "name", "paired_on", "token_sha256"}) {
      if (!each.contains(name) || !each[name].is_string()) return unreadable();
    }
    const auto paired_on = base::parse_iso_date(each["paired_on"].get<std::string>());
    if (!paired_on) return unreadable();
    devices.push_back({each["id"], each["name"], *paired_on, each["token_sha256"]});
  }
  return devices;
}

}  // namespace

base::Result<Pairing> Pairing::open(std::string file, Clock clock) {
  if (!clock) clock = [] { return std::chrono::steady_clock::now(); };
  Pairing pairing(std::move(file), std::move(clock));
  const auto text = base::read_file(pairing.file_, kMostFileBytes);
  if (!text) {
    if (text.error().code == ProblemCode::file_missing) return pairing;
    return tl::unexpected(text.error());
  }
  auto devices = parse_devices(*text, pairing.file_);
  if (!devices) return tl::unexpected(devices.error());
  pairing.devices_ = std::move(*devices);
  return pairing;
}

Pairing::Pairing(Pairing&& other) noexcept
    : file_(std::move(other.file_)),
      clock_(std::move(other.clock_)),
      devices_(std::move(other.devices_)),
      code_(std::move(other.code_)),
      code_end_(other.code_end_),
      attempts_left_(other.attempts_left_),
      attempts_(std::move(other.attempts_)) {}

std::string Pairing::new_code() {
  const std::lock_guard lock(mutex_);
  code_ = random_code();
  code_end_ = clock_() + kCodeLife;
  attempts_left_ = kAttemptsPerCode;
  constexpr std::size_t kHalf = kCodeLength / 2;
  return code_.substr(0, kHalf) + "-" + code_.substr(kHalf);
}

bool Pairing::may_try() {
  const auto now = clock_();
  while (!attempts_.empty() && now - attempts_.front() >= std::chrono::minutes(1)) attempts_.pop_front();
  if (attempts_.size() >= kAttemptsPerMinute) return false;
  attempts_.push_back(now);
  return true;
}

bool Pairing::is_the_code(std::string_view code) {
  if (code_.empty() || clock_() >= code_end_) return false;
  const bool right = same_secret(code_, plain_code(code));
  if (right || --attempts_left_ == 0) code_.clear();
  return right;
}

base::Result<PairingOutcome> Pairing::pair(std::string_view code, const std::string& name, base::Date today) {
  const std::lock_guard lock(mutex_);
  using Kind = PairingOutcome::Kind;
  if (!may_try()) return PairingOutcome{Kind::too_many, {}, {}};
  if (!is_the_code(code)) return PairingOutcome{Kind::wrong_code, {}, {}};
  const auto id = random_bytes<kIdBytes>();
  const auto secret = random_bytes<kTokenBytes>();
  PairingOutcome outcome{Kind::paired, hexadecimal(id.data(), id.size()),
                         hexadecimal(secret.data(), secret.size())};
  std::vector<PairedDevice> devices = devices_;
  if (devices.size() >= kMostDevices) devices.erase(devices.begin());
  devices.push_back({outcome.device, std::string(base::utf8_prefix(name, kLongestNameBytes)), today,
                     sha256(outcome.token)});
  if (auto kept = keep(std::move(devices)); !kept) return tl::unexpected(kept.error());
  return outcome;
}

bool Pairing::knows(std::string_view token) const {
  if (token.size() != 2 * kTokenBytes) return false;
  const std::string digest = sha256(token);
  const std::lock_guard lock(mutex_);
  return std::any_of(devices_.begin(), devices_.end(),
                     [&](const PairedDevice& device) { return same_secret(device.token_sha256, digest); });
}

std::vector<PairedDevice> Pairing::devices() const {
  const std::lock_guard lock(mutex_);
  return devices_;
}

base::Result<void> Pairing::forget(std::string_view id) {
  const std::lock_guard lock(mutex_);
  std::vector<PairedDevice> devices = devices_;
  if (std::erase_if(devices, [id](const PairedDevice& device) { return device.id == id; }) == 0) {
    return base::fail(ProblemCode::not_found, "there is no such device",
                      {.file = {}, .line = 0, .column = 0, .field = "device"},
                      "GET /api/devices lists them.");
  }
  return keep(std::move(devices));
}

base::Result<void> Pairing::keep(std::vector<PairedDevice> devices) {
  json list = json::array();
  for (const PairedDevice& device : devices) {
    list.push_back({{"id", device.id},
                    {"name", device.name},
                    {"paired_on", base::to_iso(device.paired_on)},
                    {"token_sha256", device.token_sha256}});
  }
  const std::string text = json{{"devices", list}}.dump(1, ' ', false, json::error_handler_t::replace);
  if (auto written = base::write_file(file_, text, base::Readers::owner); !written) return written;
  devices_ = std::move(devices);
  return {};
}

std::optional<std::string> cookie_value(std::string_view header, std::string_view name) {
  for (const std::string_view part : detail::split(header, ';')) {
    const std::string_view pair = detail::trimmed(part);
    const std::size_t equals = pair.find('=');
    if (equals != std::string_view::npos && pair.substr(0, equals) == name)
      return std::string(pair.substr(equals + 1));
  }
  return std::nullopt;
}

}  // namespace sowtide::serve
