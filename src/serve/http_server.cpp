#include "serve/http_server.hpp"

#include <arpa/inet.h>
#include <fmt/format.h>
#include <microhttpd.h>
#include <netinet/in.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <atomic>
#include <cerrno>
#include <condition_variable>
#include <cstring>
#include <deque>
#include <mutex>
#include <optional>
#include <set>
#include <system_error>
#include <thread>

#include "desk/json.hpp"
#include "serve/detail/home_address.hpp"
#include "serve/detail/http_text.hpp"

namespace sowtide::serve {
namespace {

using base::Problem;
using base::ProblemCode;

constexpr std::chrono::seconds kHeartbeat{15};
/// A listener that has this much unread is cut off: it can reconnect and read everything anew.
constexpr std::size_t kListenerQueueBytes = 64U << 10U;
/// How much of a body over the limit is read and thrown away before the connection is cut.
constexpr std::size_t kDiscardFactor = 8;
constexpr std::size_t kWorthCompressingBytes = 1024;
constexpr std::chrono::seconds kStopPatience{3};
constexpr std::uint16_t kDefaultHttpPort = 80;
constexpr std::uint16_t kDefaultHttpsPort = 443;
/// GnuTLS's own choice of ciphers, without the versions that RFC 8996 put out of use.
constexpr const char* kTlsPriorities = "NORMAL:-VERS-ALL:+VERS-TLS1.3:+VERS-TLS1.2";

Problem usage(std::string what, std::string remedy) {
  return {.code = ProblemCode::usage, .what = std::move(what), .where = {}, .remedy = std::move(remedy)};
}

int status_of(ProblemCode code) {
  switch (code) {
    case ProblemCode::not_found:
      return MHD_HTTP_NOT_FOUND;
    case ProblemCode::contradiction:
    case ProblemCode::already_exists:
      return MHD_HTTP_CONFLICT;
    case ProblemCode::too_large:
      return MHD_HTTP_CONTENT_TOO_LARGE;
    case ProblemCode::insufficient_data:
    case ProblemCode::infeasible:
      return MHD_HTTP_UNPROCESSABLE_CONTENT;
    case ProblemCode::file_missing:
    case ProblemCode::file_unreadable:
    case ProblemCode::wrong_version:
    case ProblemCode::storage:
    case ProblemCode::internal:
      return MHD_HTTP_INTERNAL_SERVER_ERROR;
    default:
      return MHD_HTTP_BAD_REQUEST;
  }
}

struct ListeningSocket {
  int socket = -1;
  std::uint16_t port = 0;
};

/// A socket that listens on 127.0.0.1 only, or on all interfaces.
base::Result<ListeningSocket> listen_on(std::uint16_t port, bool all_interfaces) {
  constexpr int kBacklog = 128;
  const auto problem = [port](int error) {
    return base::fail(error == EADDRINUSE ? ProblemCode::already_exists : ProblemCode::usage,
                      fmt::format("port {} of this machine cannot be listened on ({})", port,
                                  std::generic_category().message(error)),
                      {.file = {}, .line = 0, .column = 0, .field = "port"},
                      "Give another port, or 0 for any free one.");
  };
  const int number = ::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
  if (number < 0) return problem(errno);
  const int yes = 1;
  ::setsockopt(number, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
  sockaddr_in address{};
  address.sin_family = AF_INET;
  address.sin_addr.s_addr = htonl(all_interfaces ? INADDR_ANY : INADDR_LOOPBACK);
  address.sin_port = htons(port);
  auto* name = reinterpret_cast<sockaddr*>(&address);
  socklen_t size = sizeof address;
  if (::bind(number, name, size) != 0 || ::listen(number, kBacklog) != 0 ||
      ::getsockname(number, name, &size) != 0) {
    const int error = errno;
    ::close(number);
    return problem(error);
  }
  return ListeningSocket{number, ntohs(address.sin_port)};
}

std::uint32_t ipv4_of(const sockaddr* address) {
  if (address == nullptr || address->sa_family != AF_INET) return INADDR_ANY;
  sockaddr_in known{};
  std::memcpy(&known, address, sizeof known);
  return ntohl(known.sin_addr.s_addr);
}

bool writes(const std::string& method) {
  return method != "GET" && method != "HEAD";
}

}  // namespace

const std::string& Request::header(const std::string& name) const {
  static const std::string none;
  const auto found = headers.find(name);
  return found == headers.end() ? none : found->second;
}

std::optional<std::string> Request::asked(const std::string& name) const {
  const auto found = query.find(name);
  return found == query.end() ? std::nullopt : std::optional(found->second);
}

Response problem_response(int status, const Problem& problem) {
  Response response;
  response.status = status;
  response.body = desk::problem_json(problem);
  response.headers.emplace_back("Cache-Control", "no-store");
  return response;
}

Response problem_response(const Problem& problem) {
  return problem_response(status_of(problem.code), problem);
}

const std::vector<std::pair<std::string, std::string>>& security_headers() {
  static const std::vector<std::pair<std::string, std::string>> headers{
      {"Content-Security-Policy",
       "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; font-src 'self'; "
       "connect-src 'self'; "
       "manifest-src 'self'; worker-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"},
      {"X-Content-Type-Options", "nosniff"},
      {"X-Frame-Options", "DENY"},
      {"Referrer-Policy", "no-referrer"},
      {"Cross-Origin-Opener-Policy", "same-origin"},
      {"Cross-Origin-Resource-Policy", "same-origin"},
      {"Permissions-Policy", "camera=(), geolocation=(), microphone=()"},
  };
  return headers;
}

struct HttpServer::Impl {
  struct Route {
    std::string method;
    detail::PathPattern pattern;
    Handler handler;
  };
  struct Stream {
    std::string path;
    std::function<std::pair<std::string, std::string>()> greeting;
  };
  /// One open stream of events. Guarded by `mutex`.
  struct Listener {
    Impl* server;
    MHD_Connection* connection;
    std::string path;
    std::string queue;
    bool suspended = false;
    bool closed = false;
  };
  /// One request from its first byte to the end of its answer.
  struct Exchange {
    Impl* server = nullptr;
    MHD_Connection* connection = nullptr;
    Request request;
    const Handler* handler = nullptr;
    const Asset* asset = nullptr;
    const Stream* stream = nullptr;
    bool refused = false;
    bool too_large = false;
    std::size_t discarded_bytes = 0;
    std::optional<Response> response;  ///< set by the worker before the connection is resumed
  };

  HttpOptions options;
  std::vector<Route> routes;
  std::vector<Stream> streams;
  std::map<std::string, Asset> assets;
  std::function<void()> on_tick;
  std::function<void(const std::string&)> on_defect;
  std::string told_defect;  ///< of the last tick; empty when it went well
  std::function<std::optional<Response>(const Request&)> gate;
  std::set<std::string> hosts;
  MHD_Daemon* daemon = nullptr;
  std::uint16_t port = 0;

  mutable std::mutex mutex;
  std::condition_variable wake;
  std::deque<Exchange*> waiting;
  std::vector<Listener*> listeners;
  bool stopping = false;
  std::atomic<std::size_t> open_exchanges{0};
  std::thread worker;

  // --- what the library calls, on its one network thread
  // -----------------------------------------------------------

  static MHD_Result on_access(void* self, MHD_Connection* connection, const char* url, const char* method,
                              const char* /*version*/, const char* upload, std::size_t* upload_size,
                              void** state) {
    try {
      auto& server = *static_cast<Impl*>(self);
      if (*state == nullptr) {
        auto* exchange = new Exchange;
        *state = exchange;
        ++server.open_exchanges;
        exchange->server = &server;
        exchange->connection = connection;
        return server.begin(*exchange, url, method);
      }
      auto& exchange = *static_cast<Exchange*>(*state);
      if (*upload_size > 0) {
        const bool go_on = server.take_body(exchange, {upload, *upload_size});
        *upload_size = 0;
        return go_on ? MHD_YES : MHD_NO;
      }
      return server.finish(exchange);
    } catch (...) {
      return MHD_NO;  // Out of memory: the library closes the connection.
    }
  }

  static void on_completed(void* self, MHD_Connection* /*connection*/, void** state,
                           MHD_RequestTerminationCode) {
    if (*state == nullptr) return;
    delete static_cast<Exchange*>(*state);
    *state = nullptr;
    --static_cast<Impl*>(self)->open_exchanges;
  }

  /// Leaves the target as it was sent: it is decoded once, by us.
  static std::size_t keep_escapes(void*, MHD_Connection*, char* text) { return std::strlen(text); }

  /// Stops the library from writing to stderr: inner rooms print nothing.
  static void keep_quiet(void*, const char*, va_list) {}

  /// Gives the listening socket to the library; null when that fails.
  MHD_Daemon* start_daemon(int listening) {
    unsigned flags = MHD_USE_EPOLL_INTERNAL_THREAD | MHD_ALLOW_SUSPEND_RESUME | MHD_USE_ERROR_LOG;
    std::vector<MHD_OptionItem> tls;
    if (options.certificate) {
      flags |= MHD_USE_TLS;
      // The library reads these while it starts; its interface merely forgot the const.
      tls = {{MHD_OPTION_HTTPS_MEM_CERT, 0, const_cast<char*>(options.certificate->chain_pem.c_str())},
             {MHD_OPTION_HTTPS_MEM_KEY, 0, const_cast<char*>(options.certificate->key_pem.c_str())},
             {MHD_OPTION_HTTPS_PRIORITIES, 0, const_cast<char*>(kTlsPriorities)}};
    }
    tls.push_back({MHD_OPTION_END, 0, nullptr});
    return MHD_start_daemon(
        flags, port, &Impl::accept_policy, this, &Impl::on_access, this,  //
        MHD_OPTION_EXTERNAL_LOGGER, &Impl::keep_quiet, nullptr,           //
        MHD_OPTION_LISTEN_SOCKET, listening,                              //
        MHD_OPTION_STRICT_FOR_CLIENT, 1,                                  //
        MHD_OPTION_CONNECTION_LIMIT, static_cast<unsigned>(options.connection_limit),  //
        MHD_OPTION_PER_IP_CONNECTION_LIMIT,
        static_cast<unsigned>(options.home_network ? options.connections_per_address : 0),  //
        MHD_OPTION_CONNECTION_MEMORY_LIMIT, options.connection_memory_bytes,                //
        MHD_OPTION_CONNECTION_TIMEOUT, static_cast<unsigned>(options.timeout.count()),      //
        MHD_OPTION_UNESCAPE_CALLBACK, &Impl::keep_escapes, nullptr,                         //
        MHD_OPTION_NOTIFY_COMPLETED, &Impl::on_completed, this,                             //
        MHD_OPTION_ARRAY, tls.data(), MHD_OPTION_END);
  }

  // --- a request, step by step
  // -------------------------------------------------------------------------------------

  struct Framing {
    int hosts = 0;
    int lengths = 0;
    int encodings = 0;
    std::string host, encoding;
    std::uint32_t own_address = INADDR_ANY;  ///< on which the connection came in
  };

  static std::uint32_t peer_of(MHD_Connection* connection) {
    const MHD_ConnectionInfo* known = MHD_get_connection_info(connection, MHD_CONNECTION_INFO_CLIENT_ADDRESS);
    return known == nullptr ? INADDR_ANY : ipv4_of(known->client_addr);
  }

  static std::uint32_t own_address_of(MHD_Connection* connection) {
    const MHD_ConnectionInfo* known = MHD_get_connection_info(connection, MHD_CONNECTION_INFO_CONNECTION_FD);
    sockaddr_in own{};
    socklen_t size = sizeof own;
    auto* name = reinterpret_cast<sockaddr*>(&own);
    if (known == nullptr || ::getsockname(known->connect_fd, name, &size) != 0) return INADDR_ANY;
    return ipv4_of(name);
  }

  /// True for a name of ours; on the home network also for the address that the connection came in on, which
  /// no name made to point here can be.
  [[nodiscard]] bool is_our_host(const Framing& framing) const {
    if (hosts.count(framing.host) > 0) return true;
    return options.home_network && framing.own_address != INADDR_ANY &&
           (framing.host == fmt::format("{}:{}", detail::address_text(framing.own_address), port) ||
            (has_default_port() && framing.host == detail::address_text(framing.own_address)));
  }

  [[nodiscard]] const char* scheme() const { return options.certificate ? "https" : "http"; }

  /// Browsers leave the port of their scheme out.
  [[nodiscard]] bool has_default_port() const {
    return port == (options.certificate ? kDefaultHttpsPort : kDefaultHttpPort);
  }

  [[nodiscard]] std::string url_of(std::string_view host) const {
    return has_default_port() ? fmt::format("{}://{}", scheme(), host) : fmt::format("{}://{}:{}", scheme(), host, port);
  }

  /// The hosts that are ours whatever address a connection comes in on.
  [[nodiscard]] std::set<std::string> own_hosts() const {
    std::set<std::string> names{"127.0.0.1", "localhost"};
    if (options.home_network) names.insert(detail::local_name());
    if (options.certificate) names.insert(options.certificate->names.begin(), options.certificate->names.end());
    names.erase("");
    std::set<std::string> all;
    for (const std::string& name : names) {
      all.insert(fmt::format("{}:{}", name, port));
      if (has_default_port()) all.insert(name);
    }
    return all;
  }

  static MHD_Result accept_policy(void* self, const sockaddr* address, socklen_t /*size*/) {
    const bool any = static_cast<const Impl*>(self)->options.home_network;
    const std::uint32_t peer = ipv4_of(address);
    return (any ? detail::is_private_address(peer) : detail::is_loopback_address(peer)) ? MHD_YES : MHD_NO;
  }

  MHD_Result begin(Exchange& exchange, const char* url, const char* method) {
    Request& request = exchange.request;
    request.method = method;
    Framing framing;
    std::pair<Request*, Framing*> target{&request, &framing};
    MHD_get_connection_values(
        exchange.connection, MHD_HEADER_KIND,
        [](void* to, MHD_ValueKind, const char* name, const char* value) {
          auto& [into, counts] = *static_cast<std::pair<Request*, Framing*>*>(to);
          take_header(*into, *counts, name, value == nullptr ? "" : value);
          return MHD_YES;
        },
        &target);
    if (!read_query(exchange)) return answer_early(exchange, unreadable_target());
    request.from_this_machine = detail::is_loopback_address(peer_of(exchange.connection));
    framing.own_address = own_address_of(exchange.connection);
    if (auto refusal = refuse(request, framing, url)) return answer_early(exchange, std::move(*refusal));
    if (gate) {
      if (auto refusal = gate(request)) return answer_early(exchange, std::move(*refusal));
    }
    if (auto refusal = find_target(exchange)) return answer_early(exchange, std::move(*refusal));
    return MHD_YES;
  }

  static void take_header(Request& request, Framing& framing, std::string_view name, std::string_view value) {
    const std::string key = detail::lower_case(name);
    if (key == "host") {
      ++framing.hosts;
      framing.host = detail::lower_case(detail::trimmed(value));
    } else if (key == "content-length") {
      ++framing.lengths;
    } else if (key == "transfer-encoding") {
      ++framing.encodings;
      framing.encoding = detail::lower_case(detail::trimmed(value));
    }
    std::string& joined = request.headers[key];
    if (!joined.empty()) joined += ", ";
    joined += value;
  }

  static Response unreadable_target() {
    return problem_response(MHD_HTTP_BAD_REQUEST,
                            usage("the address of the request cannot be read", "Check the address."));
  }

  /// Takes over what follows the '?'. False when it cannot be decoded.
  static bool read_query(Exchange& exchange) {
    std::pair<Request*, bool> target{&exchange.request, true};
    MHD_get_connection_values(
        exchange.connection, MHD_GET_ARGUMENT_KIND,
        [](void* to, MHD_ValueKind, const char* name, const char* value) {
          auto& [request, readable] = *static_cast<std::pair<Request*, bool>*>(to);
          const auto key = detail::decode_escapes(name);
          auto text = detail::decode_escapes(value == nullptr ? "" : value);
          readable = readable && key && text;
          if (readable) request->query.insert_or_assign(*key, std::move(*text));
          return readable ? MHD_YES : MHD_NO;
        },
        &target);
    return target.second;
  }

  /// What no handler shall ever see. Nothing when the request may go on.
  std::optional<Response> refuse(Request& request, const Framing& framing, const char* url) const {
    if (framing.lengths > 1 || framing.encodings > 1 || (framing.lengths > 0 && framing.encodings > 0) ||
        (framing.encodings == 1 && framing.encoding != "chunked")) {
      return problem_response(MHD_HTTP_BAD_REQUEST,
                              usage("the length of the body is given in ways that contradict each other",
                                    "Send one Content-Length, or Transfer-Encoding: chunked, not both."));
    }
    if (framing.hosts != 1) {
      return problem_response(MHD_HTTP_BAD_REQUEST,
                              usage("a request must name one Host", "Send exactly one Host header."));
    }
    if (!is_our_host(framing)) {
      return problem_response(
          MHD_HTTP_MISDIRECTED_REQUEST,
          usage("this server does not answer for that host",
                fmt::format("Use {}/ or {}/.", url_of("127.0.0.1"), url_of("localhost"))));
    }
    auto path = detail::decode_path(url);
    if (!path) return unreadable_target();
    request.path = std::move(*path);
    if (!same_origin(request, framing.host)) {
      return problem_response(MHD_HTTP_FORBIDDEN, usage("the request comes from another site",
                                                        "Open the garden's own page and try again there."));
    }
    return std::nullopt;
  }

  /// Browsers say where a request comes from. Another page must neither write nor read; a navigation (a link,
  /// a bookmark, a label's code) may open the page.
  [[nodiscard]] bool same_origin(const Request& request, const std::string& host) const {
    const std::string& origin = request.header("origin");
    if (!origin.empty() && detail::lower_case(origin) != fmt::format("{}://{}", scheme(), host)) return false;
    const std::string& site = request.header("sec-fetch-site");
    if (site.empty() || site == "same-origin" || site == "none") return true;
    return request.method == "GET" && request.header("sec-fetch-mode") == "navigate" &&
           request.header("sec-fetch-dest") == "document" && request.path.rfind("/api/", 0) != 0;
  }

  /// Finds what answers this path and method, and whether its body may come at all.
  std::optional<Response> find_target(Exchange& exchange) {
    Request& request = exchange.request;
    const std::string method = request.method == "HEAD" ? "GET" : request.method;
    std::set<std::string> allowed;
    for (const Route& route : routes) {
      auto captured = route.pattern.match(request.path);
      if (!captured) continue;
      allowed.insert(route.method);
      if (route.method != method) continue;
      request.captured = std::move(*captured);
      exchange.handler = &route.handler;
    }
    for (const Stream& stream : streams) {
      if (stream.path != request.path) continue;
      allowed.insert("GET");
      if (request.method == "GET") exchange.stream = &stream;
    }
    const auto asset = assets.find(request.path == "/" ? "/index.html" : request.path);
    if (asset != assets.end()) {
      allowed.insert("GET");
      if (method == "GET") exchange.asset = &asset->second;
    }
    if (exchange.handler == nullptr && exchange.stream == nullptr && exchange.asset == nullptr) {
      return allowed.empty() ? not_found(request.path) : wrong_method(allowed);
    }
    return refuse_body(request);
  }

  static Response not_found(const std::string& path) {
    Problem problem =
        usage(fmt::format("there is nothing at {}", path), "See docs/api for what can be asked.");
    problem.code = ProblemCode::not_found;
    return problem_response(problem);
  }

  static Response wrong_method(std::set<std::string> allowed) {
    if (allowed.count("GET") > 0) allowed.insert("HEAD");
    const std::string list = fmt::format("{}", fmt::join(allowed, ", "));
    Response response = problem_response(
        MHD_HTTP_METHOD_NOT_ALLOWED, usage("that method cannot be used here", fmt::format("Use {}.", list)));
    response.headers.emplace_back("Allow", list);
    return response;
  }

  std::optional<Response> refuse_body(const Request& request) const {
    const std::string& length = request.header("content-length");
    // The library has read the length as a number already; longer texts are larger than any limit.
    if (!length.empty() && (length.size() > 12 || std::stoull(length) > options.body_limit_bytes))
      return body_too_large();
    if (!writes(request.method) || request.method == "DELETE") return std::nullopt;
    if (detail::media_type(request.header("content-type")) != "application/json") {
      return problem_response(MHD_HTTP_UNSUPPORTED_MEDIA_TYPE,
                              usage("the body must be JSON", "Send Content-Type: application/json."));
    }
    if (!request.header("content-encoding").empty()) {
      return problem_response(MHD_HTTP_UNSUPPORTED_MEDIA_TYPE,
                              usage("a compressed body is not taken", "Send the body as it is."));
    }
    return std::nullopt;
  }

  Response body_too_large() const {
    return problem_response(
        {.code = ProblemCode::too_large,
         .what = fmt::format("the body is larger than {} bytes", options.body_limit_bytes),
         .where = {},
         .remedy = "Send it in smaller parts."});
  }

  /// Keeps a piece of the body. False cuts the connection.
  bool take_body(Exchange& exchange, std::string_view piece) const {
    std::string& body = exchange.request.body;
    if (!exchange.too_large && body.size() + piece.size() <= options.body_limit_bytes) {
      body.append(piece);
      return true;
    }
    exchange.too_large = true;
    body.clear();
    exchange.discarded_bytes += piece.size();
    return exchange.discarded_bytes <= kDiscardFactor * options.body_limit_bytes;
  }

  MHD_Result finish(Exchange& exchange) {
    if (exchange.response) return send(exchange, *exchange.response);
    if (exchange.too_large) return send(exchange, body_too_large());
    if (exchange.asset != nullptr) return send_asset(exchange);
    if (exchange.stream != nullptr) return open_stream(exchange);
    return hand_over(exchange);
  }

  /// Gives the request to the worker and lets the network thread go on with others.
  MHD_Result hand_over(Exchange& exchange) {
    {
      const std::lock_guard lock(mutex);
      if (!stopping && waiting.size() < options.waiting_limit) {
        waiting.push_back(&exchange);
        MHD_suspend_connection(exchange.connection);
        wake.notify_one();
        return MHD_YES;
      }
    }
    Response busy = problem_response(MHD_HTTP_SERVICE_UNAVAILABLE,
                                     usage("too much is asked at once", "Try again shortly."));
    busy.headers.emplace_back("Retry-After", "2");
    return send(exchange, busy);
  }

  // --- answers
  // -----------------------------------------------------------------------------------------------------

  static MHD_Result queue(MHD_Connection* connection, int status, MHD_Response* response,
                          const std::vector<std::pair<std::string, std::string>>& headers) {
    if (response == nullptr) return MHD_NO;
    for (const auto& [name, value] : security_headers())
      MHD_add_response_header(response, name.c_str(), value.c_str());
    for (const auto& [name, value] : headers) MHD_add_response_header(response, name.c_str(), value.c_str());
    const MHD_Result queued = MHD_queue_response(connection, static_cast<unsigned>(status), response);
    MHD_destroy_response(response);
    return queued;
  }

  static MHD_Response* copy_of(std::string_view bytes) {
    // The library copies the bytes; its interface merely forgot the const.
    return MHD_create_response_from_buffer(bytes.size(), const_cast<char*>(bytes.data()),
                                           MHD_RESPMEM_MUST_COPY);
  }

  /// Answers before the body is read; the library then closes the connection, so the body is never taken for
  /// a request.
  MHD_Result answer_early(Exchange& exchange, Response response) {
    exchange.refused = true;
    return send(exchange, response);
  }

  MHD_Result send(Exchange& exchange, const Response& response) const {
    std::vector<std::pair<std::string, std::string>> headers = response.headers;
    headers.emplace_back("Content-Type", response.content_type);
    if (exchange.refused) headers.emplace_back("Connection", "close");
    const bool has_caching = std::any_of(headers.begin(), headers.end(),
                                         [](const auto& header) { return header.first == "Cache-Control"; });
    if (!has_caching) headers.emplace_back("Cache-Control", "no-cache");
    if (response.status != MHD_HTTP_OK)
      return queue(exchange.connection, response.status, copy_of(response.body), headers);

    const std::string tag = entity_tag(response.body);
    return send_variant(exchange, tag, response.body, {}, response.body.size() >= kWorthCompressingBytes,
                        std::move(headers));
  }

  MHD_Result send_asset(Exchange& exchange) const {
    const Asset& asset = *exchange.asset;
    return send_variant(
        exchange, asset.etag, asset.bytes, asset.gzip_bytes, !asset.gzip_bytes.empty(),
        {{"Content-Type", asset.content_type},
         {"Cache-Control", asset.immutable ? "public, max-age=31536000, immutable" : "no-cache"}});
  }

  /// Sends a body plain or packed, or only says that the client has it already.
  MHD_Result send_variant(Exchange& exchange, const std::string& tag, std::string_view plain,
                          std::string_view packed, bool may_pack,
                          std::vector<std::pair<std::string, std::string>> headers) const {
    const Request& request = exchange.request;
    const bool pack = may_pack && detail::accepts_gzip(request.header("accept-encoding"));
    const std::string packed_tag = tag.substr(0, tag.size() - 1) + "-gz\"";
    headers.emplace_back("ETag", pack ? packed_tag : tag);
    if (may_pack) headers.emplace_back("Vary", "Accept-Encoding");
    const std::string& known = request.header("if-none-match");
    if (!known.empty() && (detail::names_tag(known, tag) || detail::names_tag(known, packed_tag))) {
      return queue(exchange.connection, MHD_HTTP_NOT_MODIFIED, copy_of({}), headers);
    }
    if (!pack) return queue(exchange.connection, MHD_HTTP_OK, copy_of(plain), headers);
    headers.emplace_back("Content-Encoding", "gzip");
    return queue(exchange.connection, MHD_HTTP_OK,
                 copy_of(packed.empty() ? gzip(plain, PackEffort::quick) : std::string(packed)), headers);
  }

  // --- streams of events
  // -------------------------------------------------------------------------------------------

  static std::string event_text(const std::string& event, const std::string& data) {
    std::string text = "event: " + event + "\n";
    for (const std::string_view line : detail::split(data, '\n')) text += "data: " + std::string(line) + "\n";
    return text + "\n";
  }

  MHD_Result open_stream(Exchange& exchange) {
    auto* listener = new Listener{this, exchange.connection, exchange.stream->path, "retry: 2000\n\n"};
    const auto [event, data] = exchange.stream->greeting();
    listener->queue += event_text(event, data);
    {
      const std::lock_guard lock(mutex);
      listeners.push_back(listener);
    }
    constexpr std::size_t kBlockBytes = 4096;
    MHD_Response* response = MHD_create_response_from_callback(MHD_SIZE_UNKNOWN, kBlockBytes,
                                                               &Impl::read_events, listener, &Impl::forget);
    if (response == nullptr) forget(listener);
    return queue(exchange.connection, MHD_HTTP_OK, response,
                 {{"Content-Type", "text/event-stream"}, {"Cache-Control", "no-store"}});
  }

  static ssize_t read_events(void* state, std::uint64_t /*position*/, char* buffer, std::size_t room) {
    auto& listener = *static_cast<Listener*>(state);
    const std::lock_guard lock(listener.server->mutex);
    if (!listener.queue.empty()) {
      const std::size_t count = std::min(room, listener.queue.size());
      std::memcpy(buffer, listener.queue.data(), count);
      listener.queue.erase(0, count);
      return static_cast<ssize_t>(count);
    }
    if (listener.closed || listener.server->stopping) return MHD_CONTENT_READER_END_OF_STREAM;
    listener.suspended = true;
    MHD_suspend_connection(listener.connection);
    return 0;
  }

  static void forget(void* state) {
    auto* listener = static_cast<Listener*>(state);
    {
      const std::lock_guard lock(listener->server->mutex);
      auto& all = listener->server->listeners;
      all.erase(std::remove(all.begin(), all.end(), listener), all.end());
    }
    delete listener;
  }

  /// To be called with `mutex` held.
  static void wake_listener(Listener& listener) {
    if (!listener.suspended) return;
    listener.suspended = false;
    MHD_resume_connection(listener.connection);
  }

  /// Appends text to the listeners of a path, or to all when it is empty.
  void tell(const std::string& path, const std::string& text) {
    const std::lock_guard lock(mutex);
    for (Listener* listener : listeners) {
      if (!path.empty() && listener->path != path) continue;
      if (listener->queue.size() + text.size() > kListenerQueueBytes) {
        listener->queue.clear();
        listener->closed = true;
      } else {
        listener->queue += text;
      }
      wake_listener(*listener);
    }
  }

  // --- the worker
  // --------------------------------------------------------------------------------------------------

  void work() {
    auto next_heartbeat = std::chrono::steady_clock::now() + kHeartbeat;
    for (;;) {
      Exchange* exchange = nullptr;
      {
        std::unique_lock lock(mutex);
        wake.wait_for(lock, options.tick, [this] { return stopping || !waiting.empty(); });
        if (!waiting.empty()) {
          exchange = waiting.front();
          waiting.pop_front();
        } else if (stopping) {
          return;
        }
      }
      if (exchange != nullptr) {
        compute(*exchange);
      } else if (on_tick) {
        call_tick();
      }
      if (std::chrono::steady_clock::now() >= next_heartbeat) {
        next_heartbeat += kHeartbeat;
        tell({}, ":\n\n");
      }
    }
  }

  /// A tick that fails must not end the server: whoever asks is still answered.
  void call_tick() {
    try {
      on_tick();
      told_defect.clear();
    } catch (const std::exception& failure) {
      const std::string defect = defect_text(failure);
      if (on_defect && defect != told_defect) on_defect(defect);
      told_defect = defect;
    }
  }

  static std::string defect_text(const std::exception& failure) {
    return fmt::format("a defect of this program: {}", failure.what());
  }

  static void compute(Exchange& exchange) {
    try {
      exchange.response = (*exchange.handler)(exchange.request);
    } catch (const std::exception& failure) {
      exchange.response = problem_response({.code = ProblemCode::internal,
                                            .what = defect_text(failure),
                                            .where = {},
                                            .remedy = "Please report it with what you did."});
    }
    MHD_resume_connection(exchange.connection);
  }
};

HttpServer::HttpServer(HttpOptions options) : impl_(std::make_unique<Impl>()) {
  impl_->options = std::move(options);
}

HttpServer::~HttpServer() {
  stop();
}

void HttpServer::route(std::string method, std::string_view pattern, Handler handler) {
  impl_->routes.push_back({std::move(method), detail::PathPattern(pattern), std::move(handler)});
}

void HttpServer::event_stream(std::string path,
                              std::function<std::pair<std::string, std::string>()> greeting) {
  impl_->streams.push_back({std::move(path), std::move(greeting)});
}

void HttpServer::assets(std::vector<Asset> assets) {
  for (Asset& asset : assets) {
    std::string path = asset.path;
    impl_->assets.insert_or_assign(std::move(path), std::move(asset));
  }
}

void HttpServer::gate(std::function<std::optional<Response>(const Request&)> look) {
  impl_->gate = std::move(look);
}

std::vector<std::pair<std::string, std::string>> HttpServer::routes() const {
  std::vector<std::pair<std::string, std::string>> all;
  for (const Impl::Route& route : impl_->routes) all.emplace_back(route.method, route.pattern.text());
  for (const Impl::Stream& stream : impl_->streams) all.emplace_back("GET", stream.path);
  return all;
}

void HttpServer::end_streams() {
  const std::lock_guard lock(impl_->mutex);
  for (Impl::Listener* listener : impl_->listeners) {
    listener->closed = true;
    Impl::wake_listener(*listener);
  }
}

void HttpServer::on_tick(std::function<void()> call) {
  impl_->on_tick = std::move(call);
}

void HttpServer::on_defect(std::function<void(const std::string&)> tell) {
  impl_->on_defect = std::move(tell);
}

base::Result<void> HttpServer::start() {
  Impl& server = *impl_;
  const HttpOptions& options = server.options;
  auto listening = listen_on(options.port, options.home_network);
  if (!listening) return tl::unexpected(listening.error());
  server.port = listening->port;
  // The names are known before the first request can come.
  server.hosts = server.own_hosts();
  server.daemon = server.start_daemon(listening->socket);
  if (server.daemon == nullptr) {
    ::close(listening->socket);
    return base::fail(ProblemCode::internal, "the server could not be started", {},
                      options.certificate && MHD_is_feature_supported(MHD_FEATURE_TLS) != MHD_YES
                          ? "This machine's libmicrohttpd was built without TLS; leave --certificate and --key out."
                          : "Too many files or threads may be open on this machine.");
  }
  server.worker = std::thread([&server] { server.work(); });
  return {};
}

std::uint16_t HttpServer::port() const {
  return impl_->port;
}

bool HttpServer::encrypted() const {
  return impl_->options.certificate.has_value();
}

std::string HttpServer::url(std::string_view host) const {
  return impl_->url_of(host);
}

void HttpServer::publish(const std::string& path, const std::string& event, const std::string& data) {
  impl_->tell(path, Impl::event_text(event, data));
}

std::size_t HttpServer::listener_count() const {
  const std::lock_guard lock(impl_->mutex);
  return impl_->listeners.size();
}

void HttpServer::stop() {
  Impl& server = *impl_;
  if (server.daemon == nullptr) return;
  const MHD_socket listening = MHD_quiesce_daemon(server.daemon);
  {
    const std::lock_guard lock(server.mutex);
    server.stopping = true;
    for (Impl::Listener* listener : server.listeners) Impl::wake_listener(*listener);
  }
  server.wake.notify_all();
  if (server.worker.joinable()) server.worker.join();
  // What was computed is still on its way out.
  const auto deadline = std::chrono::steady_clock::now() + kStopPatience;
  while (server.open_exchanges > 0 && std::chrono::steady_clock::now() < deadline) {
    std::this_thread::sleep_for(std::chrono::milliseconds(5));
  }
  MHD_stop_daemon(server.daemon);
  server.daemon = nullptr;
  if (listening != MHD_INVALID_SOCKET) ::close(listening);
}

}  // namespace sowtide::serve
