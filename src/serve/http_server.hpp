// One small HTTP/1.1 server, on the loopback interface or for the home network, plain or over TLS: routes, bounded
// bodies, server-sent events, static assets.
//
// It is the only place that knows the HTTP library. One thread handles the network, one worker thread runs
// the handlers one after another, so handlers need no locks and a long one does not hold up event listeners
// or static files. What every request must pass, before any handler sees it: one Host that is ours (a name
// that was made to point here is refused), no contradictory framing, a decodable path and query
// without control characters or "..", a body within the limit, and for anything that writes: the same origin.
// Every answer carries the headers of `security_headers()`.
//
//     HttpServer server({.port = 0});
//     server.route("GET", "/api/outlook/{stand}", [](const Request& r) { return Response{.body = …}; });
//     if (auto started = server.start(); !started) …
#pragma once

#include <chrono>
#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/problem.hpp"
#include "serve/assets.hpp"
#include "serve/certificate.hpp"

namespace sowtide::serve {

/// What a handler sees of a request.
struct Request {
  std::string method;                           ///< "GET" (HEAD arrives as GET), "POST" …
  std::string path;                             ///< percent-decoded, begins with '/'
  std::map<std::string, std::string> captured;  ///< parts of the path named in the route, decoded
  std::map<std::string, std::string> query;     ///< "?name=value", decoded; the last of a repeated name
  std::map<std::string, std::string> headers;   ///< names in lower case; repeated ones joined by ", "
  std::string body;
  bool from_this_machine = true;  ///< the other end is a loopback address

  /// The value of a header by its lower-case name, or "".
  [[nodiscard]] const std::string& header(const std::string& name) const;
  /// The value asked for by this name in the query, or nothing.
  [[nodiscard]] std::optional<std::string> asked(const std::string& name) const;
};

/// What a handler answers. Bodies get an ETag, and are compressed where the client can unpack them.
struct Response {
  int status = 200;
  std::string content_type = "application/json; charset=utf-8";
  std::string body;
  std::vector<std::pair<std::string, std::string>> headers;
};

/// An answer for a problem, with the status that fits its code: 404 not_found, 409 contradiction and
/// already_exists, 413 too_large, 422 insufficient_data and infeasible, 500 storage, internal and files, else
/// 400.
[[nodiscard]] Response problem_response(const base::Problem& problem);
[[nodiscard]] Response problem_response(int status, const base::Problem& problem);

/// The headers that every answer carries: content policy, no sniffing, no framing, no referrer, same-origin
/// resources.
[[nodiscard]] const std::vector<std::pair<std::string, std::string>>& security_headers();

struct HttpOptions {
  std::uint16_t port = 0;  ///< 0: any free one
  /// Listens on all interfaces, but talks only to private addresses (RFC 1918 and 3927). A Host may then also
  /// be the address that the connection came in on, or this machine's name with ".local".
  bool home_network = false;
  /// Speaks TLS 1.2 or 1.3 only, and answers to the certificate's hosts too. Nothing: plain HTTP.
  std::optional<ServerCertificate> certificate = {};
  std::size_t connections_per_address = 64;  ///< on the home network
  std::size_t body_limit_bytes = 1U << 20U;
  std::size_t connection_limit = 256;
  std::size_t connection_memory_bytes = 32U << 10U;  ///< request line and headers of one connection
  std::size_t waiting_limit = 64;    ///< requests that wait for the worker; more are answered 503
  std::chrono::seconds timeout{30};  ///< a connection idle for longer is closed
  std::chrono::milliseconds tick{
      1000};  ///< how often the worker calls `on_tick` when it has nothing else to do
};

class HttpServer {
 public:
  using Handler = std::function<Response(const Request&)>;

  explicit HttpServer(HttpOptions options);
  ~HttpServer();
  HttpServer(const HttpServer&) = delete;
  HttpServer& operator=(const HttpServer&) = delete;

  /// Adds a route; `{name}` stands for one part of the path. To be called before `start`.
  void route(std::string method, std::string_view pattern, Handler handler);
  /// Makes `path` a stream of server-sent events; a new listener first gets what `greeting` gives, as one
  /// event.
  void event_stream(std::string path, std::function<std::pair<std::string, std::string>()> greeting);
  /// Serves these for GET; "/" is the asset "/index.html".
  void assets(std::vector<Asset> assets);
  /// Looks at every request that passed the server's own checks, before anything answers it; what it gives is
  /// the answer. On the network thread: it must be quick and safe beside handlers.
  void gate(std::function<std::optional<Response>(const Request&)> look);
  /// Called about once a `tick` on the worker thread. What it throws goes to `on_defect`; it is called again.
  void on_tick(std::function<void()> call);
  /// Told, on the worker thread, what a tick failed of; the same failure of ticks in a row is told once.
  void on_defect(std::function<void(const std::string&)> tell);

  /// Every route: method and pattern, in the order of their adding; streams are "GET".
  [[nodiscard]] std::vector<std::pair<std::string, std::string>> routes() const;

  /// Listens on 127.0.0.1, or on all interfaces for the home network. Problems: already_exists (the port is
  /// taken), internal.
  [[nodiscard]] base::Result<void> start();
  /// The port listened on, after `start`.
  [[nodiscard]] std::uint16_t port() const;
  /// True when it speaks TLS.
  [[nodiscard]] bool encrypted() const;
  /// What a browser calls this server under a host of its own, after `start`: "https://192.168.1.20:8420".
  [[nodiscard]] std::string url(std::string_view host) const;
  /// Sends an event to every listener of `path`. From any thread. A listener that does not read is cut off.
  void publish(const std::string& path, const std::string& event, const std::string& data);
  /// How many streams of events are open: none may be left when all who listened are gone.
  [[nodiscard]] std::size_t listener_count() const;
  /// Ends all streams of events; whoever still may comes back by itself.
  void end_streams();
  /// Answers what it has taken on, ends the streams and stops. Also done by the destructor.
  void stop();

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace sowtide::serve
