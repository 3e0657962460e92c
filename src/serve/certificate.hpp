// What the server proves itself with over TLS: read from files, and checked before anything listens.
#pragma once

#include <chrono>
#include <string>
#include <string_view>
#include <vector>

#include "base/date.hpp"
#include "base/problem.hpp"

namespace sowtide::serve {

/// A certificate that is good now, with the key that belongs to it.
struct ServerCertificate {
  std::string chain_pem;  ///< the server's certificate first, then those between it and its authority
  std::string key_pem;
  std::vector<std::string> names;  ///< its hosts (subjectAltName): IPv4 addresses, and names in lower case
  base::Date last_day{};           ///< the last day on which it is good at all hours (UTC)

  [[nodiscard]] bool has(std::string_view name) const;
};

/// Reads both files (PEM). Wildcards are left out of `names`: who is called must be known. Problems:
/// file_missing, file_unreadable, syntax (no PEM of that kind, or a key under a password), contradiction (the
/// key belongs to another certificate, or that is none of a server), out_of_range (not good yet, or no
/// longer), missing_field (it names no host).
[[nodiscard]] base::Result<ServerCertificate> read_server_certificate(
    const std::string& certificate_file, const std::string& key_file,
    std::chrono::system_clock::time_point now);

}  // namespace sowtide::serve
