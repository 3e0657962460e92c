#include "serve/http_client.hpp"

#include <arpa/inet.h>
#include <netinet/in.h>
#include <sys/socket.h>
#include <sys/time.h>
#include <unistd.h>
#include <zlib.h>

#include <array>
#include <cctype>
#include <stdexcept>

namespace sowtide::serve::test {
namespace {

constexpr int kPatienceSeconds = 10;

std::string lower(std::string text) {
  for (char& c : text) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return text;
}

}  // namespace

Client::Client(std::uint16_t port) : socket_(::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0)) {
  const timeval patience{kPatienceSeconds, 0};
  ::setsockopt(socket_, SOL_SOCKET, SO_RCVTIMEO, &patience, sizeof patience);
  sockaddr_in address{};
  address.sin_family = AF_INET;
  address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  address.sin_port = htons(port);
  if (::connect(socket_, reinterpret_cast<sockaddr*>(&address), sizeof address) != 0) {
    throw std::runtime_error("the test server does not listen");
  }
}

Client::~Client() {
  ::close(socket_);
}

void Client::send(const std::string& bytes) {
  std::size_t sent = 0;
  while (sent < bytes.size()) {
    const ssize_t count = ::send(socket_, bytes.data() + sent, bytes.size() - sent, MSG_NOSIGNAL);
    if (count <= 0) return;  // The server may refuse before it has read everything.
    sent += static_cast<std::size_t>(count);
  }
}

void Client::finish() {
  ::shutdown(socket_, SHUT_WR);
}

bool Client::fill() {
  std::array<char, 16384> chunk{};
  const ssize_t count = ::recv(socket_, chunk.data(), chunk.size(), 0);
  if (count <= 0) return false;
  buffer_.append(chunk.data(), static_cast<std::size_t>(count));
  return true;
}

std::string Client::read_until(const std::string& text) {
  while (buffer_.find(text) == std::string::npos) {
    if (!fill()) return {};
  }
  const std::size_t end = buffer_.find(text) + text.size();
  std::string found = buffer_.substr(0, end);
  buffer_.erase(0, end);
  return found;
}

bool Client::closed_by_server() {
  return buffer_.empty() && !fill();
}

Answer Client::read_answer(bool head) {
  const std::string top = read_until("\r\n\r\n");
  Answer answer;
  if (top.size() < 12) return answer;
  answer.status = std::stoi(top.substr(9, 3));
  std::size_t line = top.find("\r\n") + 2;
  while (line + 2 < top.size()) {
    const std::size_t end = top.find("\r\n", line);
    const std::size_t colon = top.find(':', line);
    std::size_t value = colon + 1;
    while (value < end && top[value] == ' ') ++value;
    answer.headers[lower(top.substr(line, colon - line))] = top.substr(value, end - value);
    line = end + 2;
  }
  if (head || answer.status == 304) return answer;
  if (answer.headers.count("content-length") > 0) {
    const std::size_t length = std::stoul(answer.headers["content-length"]);
    while (buffer_.size() < length && fill()) {
    }
    answer.body = buffer_.substr(0, length);
    buffer_.erase(0, length);
  } else if (answer.headers["transfer-encoding"] == "chunked") {
    for (;;) {
      const std::string size_line = read_until("\r\n");
      const std::size_t size = size_line.empty() ? 0 : std::stoul(size_line, nullptr, 16);
      while (buffer_.size() < size + 2 && fill()) {
      }
      answer.body += buffer_.substr(0, size);
      buffer_.erase(0, size + 2);
      if (size == 0) break;
    }
  }
  return answer;
}

Answer request(std::uint16_t port, const std::string& method, const std::string& path, const Headers& headers,
               const std::string& body) {
  std::string text = method + " " + path + " HTTP/1.1\r\nHost: 127.0.0.1:" + std::to_string(port) + "\r\n";
  for (const auto& [name, value] : headers) text += name + ": " + value + "\r\n";
  if (!body.empty()) text += "Content-Length: " + std::to_string(body.size()) + "\r\n";
  Client client(port);
  client.send(text + "\r\n" + body);
  return client.read_answer(method == "HEAD");
}

Answer get(std::uint16_t port, const std::string& path, const Headers& headers) {
  return request(port, "GET", path, headers);
}

Answer post_json(std::uint16_t port, const std::string& path, const std::string& body,
                 const Headers& headers) {
  Headers all{{"Content-Type", "application/json"},
              {"Origin", "http://127.0.0.1:" + std::to_string(port)},
              {"Sec-Fetch-Site", "same-origin"}};
  all.insert(all.end(), headers.begin(), headers.end());
  return request(port, "POST", path, all, body);
}

std::uint16_t port_of(const std::string& url) {
  return static_cast<std::uint16_t>(std::stoi(url.substr(url.rfind(':') + 1)));
}

std::string gunzip(const std::string& bytes) {
  z_stream stream{};
  constexpr int kGzipWindow = 15 + 16;
  if (inflateInit2(&stream, kGzipWindow) != Z_OK) return {};
  std::string input = bytes;
  std::string output;
  std::array<char, 16384> chunk{};
  stream.next_in = reinterpret_cast<Bytef*>(input.data());
  stream.avail_in = static_cast<uInt>(input.size());
  int state = Z_OK;
  while (state == Z_OK) {
    stream.next_out = reinterpret_cast<Bytef*>(chunk.data());
    stream.avail_out = static_cast<uInt>(chunk.size());
    state = inflate(&stream, Z_NO_FLUSH);
    output.append(chunk.data(), chunk.size() - stream.avail_out);
  }
  inflateEnd(&stream);
  return state == Z_STREAM_END ? output : std::string{};
}

}  // namespace sowtide::serve::test
