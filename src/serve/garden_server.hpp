// Serves one garden: the web app, the answers of desk/json.hpp, the log, and a stream of changes.
//
// The answers are described by docs/api/openapi.json, which is served too, at /api/openapi.json.
#pragma once

#include <atomic>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>

#include "base/date.hpp"
#include "base/problem.hpp"
#include "serve/certificate.hpp"

namespace sowtide::serve {

/// How a device of the home network is let in: shown on the terminal.
struct PairingInvitation {
  std::string code;  ///< "K7QM-2XTR"
  std::string url;   ///< opens the pairing page with the code filled in
};

struct ServeOptions {
  std::string garden;               ///< path of the garden file
  std::uint16_t port = 0;           ///< 0: any free one
  std::string web;                  ///< directory of a built web app; empty: the one compiled in
  std::optional<base::Date> today;  ///< nothing: the system's day, read anew for every answer
  /// Serves to the home network too; other machines must be paired, by a code that `on_invitation` gets at
  /// the start.
  bool lan = false;
  std::function<void(const PairingInvitation&)> on_invitation = {};
  std::optional<ServerCertificate> certificate = {};  ///< serves over TLS only
  bool forget_devices = false;  ///< ends all pairings first
  /// Told of what went wrong beside any answer; it goes on serving. From any thread, once for each in a row.
  std::function<void(const std::string&)> on_defect = {};
};

/// Serves on 127.0.0.1, or to the home network, until `stop` becomes true, looking at it several times a
/// second; `on_ready` is called once with the address on this machine, "http://127.0.0.1:8420". What was acknowledged is in the garden file. Paired
/// devices are kept in
/// "<garden>.devices". Problems: those of opening the garden file, a taken port, no web app, no home network
/// to serve to, a certificate that names nothing under which that network finds this machine (contradiction).
[[nodiscard]] base::Result<void> serve(const ServeOptions& options,
                                       const std::function<void(const std::string&)>& on_ready,
                                       const std::atomic<bool>& stop);

}  // namespace sowtide::serve
