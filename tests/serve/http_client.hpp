// A rough HTTP client over a plain socket, for tests: it sends exactly the bytes it is given.
#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <vector>

namespace sowtide::serve::test {

struct Answer {
  int status = 0;                              ///< 0: the connection was closed without an answer
  std::map<std::string, std::string> headers;  ///< names in lower case
  std::string body;                            ///< unchunked
};

/// A connection to 127.0.0.1. Reading gives up after a few seconds.
class Client {
 public:
  explicit Client(std::uint16_t port);
  ~Client();
  Client(const Client&) = delete;
  Client& operator=(const Client&) = delete;

  void send(const std::string& bytes);
  /// Ends the sending side.
  void finish();
  /// Reads one whole answer (by Content-Length, chunks or the end). `head`: an answer without its body.
  Answer read_answer(bool head = false);
  /// Reads until `text` has come; everything so far, or nothing of it when it never came.
  std::string read_until(const std::string& text);
  /// True when the other side has closed and nothing is left to read.
  bool closed_by_server();

 private:
  bool fill();
  int socket_;
  std::string buffer_;
};

using Headers = std::vector<std::pair<std::string, std::string>>;

/// One request on a connection of its own, with a right Host.
Answer request(std::uint16_t port, const std::string& method, const std::string& path,
               const Headers& headers = {}, const std::string& body = {});
Answer get(std::uint16_t port, const std::string& path, const Headers& headers = {});
/// A POST of JSON as the page sends it.
Answer post_json(std::uint16_t port, const std::string& path, const std::string& body,
                 const Headers& headers = {});

/// 8420 of "http://127.0.0.1:8420".
std::uint16_t port_of(const std::string& url);

std::string gunzip(const std::string& bytes);

}  // namespace sowtide::serve::test
