// serve.
#include <fmt/ostream.h>

#include <atomic>
#include <chrono>
#include <optional>
#include <ostream>
#include <utility>

#include "cli/verbs.hpp"
#include "desk/json.hpp"
#include "desk/qr.hpp"
#include "serve/certificate.hpp"
#include "serve/garden_server.hpp"
#include "serve/pairing.hpp"

namespace sowtide::cli {
namespace {

void show_invitation(const serve::PairingInvitation& invitation, bool encrypted, Output& output) {
  if (output.json) {
    fmt::print(output.out, "{{\"pairing\":{{\"code\":{},\"url\":{}}}}}\n", desk::json_text(invitation.code),
               desk::json_text(invitation.url));
  } else {
    const auto code = desk::qr_code(invitation.url);
    fmt::print(output.out,
               "\nTo pair a phone of the home network, scan this, or open {} and give the code {}.\n"
               "It is good for {} minutes and for one device.{}\n\n{}\n",
               invitation.url.substr(0, invitation.url.find('#')), invitation.code, serve::kCodeLife.count(),
               encrypted ? "" : " Traffic in the home network is not encrypted.",
               code ? desk::qr_text(*code) : std::string());
  }
  output.out.flush();
}

void show_address(const std::string& url, const std::optional<serve::ServerCertificate>& certificate, Output& output) {
  if (output.json) {
    fmt::print(output.out, "{{\"url\":{}}}\n", desk::json_text(url));
  } else {
    fmt::print(output.out, "Open {} in a browser on this machine. Ctrl-C stops.\n", url);
    if (certificate)
      fmt::print(output.out, "The certificate is good until {}; `sowtide certificate DIRECTORY` makes the next.\n",
                 base::to_iso(certificate->last_day));
  }
  output.out.flush();
}

}  // namespace

base::Result<void> run_serve(const ServeVerbOptions& options, Output& output) {
  serve::ServeOptions how;
  how.garden = options.garden;
  how.port = static_cast<std::uint16_t>(options.port);
  how.web = options.web;
  how.today = options.date;
  how.lan = options.lan;
  how.forget_devices = options.forget_devices;
  if (!options.certificate.empty()) {
    auto certificate =
        serve::read_server_certificate(options.certificate, options.key, std::chrono::system_clock::now());
    if (!certificate) return tl::make_unexpected(certificate.error());
    how.certificate = std::move(*certificate);
  }
  how.on_invitation = [&](const serve::PairingInvitation& invitation) {
    show_invitation(invitation, how.certificate.has_value(), output);
  };
  how.on_defect = [&output](const std::string& defect) {
    fmt::print(output.err, "sowtide: {}; it goes on serving. Please report it.\n", defect);
    output.err.flush();
  };
  static const std::atomic<bool> never{false};
  return serve::serve(
      how, [&](const std::string& url) { show_address(url, how.certificate, output); },
      output.catch_stop ? output.catch_stop() : never);
}

}  // namespace sowtide::cli
