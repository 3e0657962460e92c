// serve.
#include <fmt/ostream.h>

#include <atomic>
#include <ostream>

#include "cli/verbs.hpp"
#include "serve/garden_server.hpp"

namespace sowtide::cli {

base::Result<void> run_serve(const ServeVerbOptions& options, Output& output) {
  serve::ServeOptions how;
  how.garden = options.garden;
  how.port = static_cast<std::uint16_t>(options.port);
  how.web = options.web;
  how.today = options.date;
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
      output.stop == nullptr ? never : *output.stop);
}

}  // namespace sowtide::cli
