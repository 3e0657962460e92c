// A small certificate authority of the home, and certificates for the machine that serves the garden.
//
// A phone that trusts the authority opens the garden over HTTPS like any other site, and may keep its page as
// an app. The authority is bound to the home by its own certificate (RFC 5280, section 4.2.1.10): whoever
// steals its key can pose as a machine of a home network, not as a bank.
#pragma once

#include <chrono>
#include <string>
#include <vector>

#include "base/date.hpp"
#include "base/problem.hpp"

namespace sowtide::serve {

/// How long an authority is good.
inline constexpr std::chrono::days kAuthorityLife{3650};
/// How long a server's certificate is good: what the CA/Browser Forum's baseline requirements (6.3.2) asked
/// of public ones from 2020 on. Phones take up to 825 days of an authority that was added by hand (Apple,
/// from memory), so this is well within.
inline constexpr std::chrono::days kServerLife{397};

struct CertificateOptions {
  std::string directory;                      ///< made when it is not there
  std::vector<std::string> hosts;             ///< names and IPv4 addresses of the server, at least one
  std::chrono::system_clock::time_point now;  ///< certificates begin a day earlier: clocks differ
};

/// What was made, and where it lies.
struct MadeCertificate {
  std::string authority_file, authority_key_file;  ///< "DIRECTORY/authority.pem", "…/authority-key.pem"
  std::string certificate_file, key_file;          ///< "DIRECTORY/server.pem", "…/server-key.pem"
  bool new_authority = false;                      ///< false: the one that was there has signed
  std::vector<std::string> hosts;                  ///< in lower case, each once
  base::Date authority_last_day{}, certificate_last_day{};
  std::string authority_sha256;  ///< of its certificate in DER, hexadecimal with colons
};

/// What this machine is called: localhost, 127.0.0.1, its host name with ".local", and its addresses in home
/// networks at this moment (RFC 1918).
[[nodiscard]] std::vector<std::string> own_hosts();

/// Makes a server's certificate, and the authority when the directory has none. Keys (EC P-256) are written
/// with mode 0600; an authority is never overwritten, the server's files are. Problems: out_of_range (a host
/// that is not of a home network, or the authority has run out), contradiction (only one of the authority's
/// two files is there, or they do not belong together), syntax, file_unreadable, storage.
[[nodiscard]] base::Result<MadeCertificate> make_certificate(const CertificateOptions& options);

}  // namespace sowtide::serve
