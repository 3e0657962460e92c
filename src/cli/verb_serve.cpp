// serve.
#include <fmt/ostream.h>

#include <atomic>
#include <ostream>

#include "cli/verbs.hpp"
#include "desk/json.hpp"
#include "desk/qr.hpp"
#include "serve/garden_server.hpp"
#include "serve/pairing.hpp"

namespace sowtide::cli {
namespace {

void show_invitation(const serve::PairingInvitation& invitation, Output& output) {
  if (output.json) {
    fmt::print(output.out, "{{\"pairing\":{{\"code\":{},\"url\":{}}}}}\n", desk::json_text(invitation.code),
               desk::json_text(invitation.url));
  } else {
    const auto code = desk::qr_code(invitation.url);
    fmt::print(output.out,
               "\nTo pair a phone of the home network, scan this, or open {} and give the code {}.\n"
               "It is good for {} minutes and for one device. Traffic in the home network is not encrypted.\n\n{}\n",
               invitation.url.substr(0, invitation.url.find('#')), invitation.code, serve::kCodeLife.count(),
               code ? desk::qr_text(*code) : std::string());
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
  how.on_invitation = [&output](const serve::PairingInvitation& invitation) { show_invitation(invitation, output); };
  static const std::atomic<bool> never{false};
  return serve::serve(
      how,
      [&output](std::uint16_t port) {
        if (output.json) {
          fmt::print(output.out, "{{\"url\":\"http://127.0.0.1:{}\"}}\n", port);
        } else {
          fmt::print(output.out, "Open http://127.0.0.1:{} in a browser on this machine. Ctrl-C stops.\n", port);
        }
        output.out.flush();
      },
      output.catch_stop ? output.catch_stop() : never);
}

}  // namespace sowtide::cli
