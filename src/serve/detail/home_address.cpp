#include "serve/detail/home_address.hpp"

#include <arpa/inet.h>
#include <ifaddrs.h>
#include <net/if.h>
#include <netinet/in.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstring>
#include <memory>

#include "serve/detail/http_text.hpp"

namespace sowtide::serve::detail {
namespace {

/// True when the address begins with the `length` leading bits of `net`.
bool lies_in(std::uint32_t address, std::uint32_t net, unsigned length) {
  constexpr unsigned kAddressBits = 32;
  return address >> (kAddressBits - length) == net >> (kAddressBits - length);
}

}  // namespace

bool is_loopback_address(std::uint32_t address) noexcept {
  return lies_in(address, 0x7f000000U, 8);
}

bool is_home_address(std::uint32_t address) noexcept {
  return lies_in(address, 0x0a000000U, 8) || lies_in(address, 0xac100000U, 12) ||
         lies_in(address, 0xc0a80000U, 16);
}

bool is_private_address(std::uint32_t address) noexcept {
  return is_loopback_address(address) || is_home_address(address) || lies_in(address, 0xa9fe0000U, 16);
}

std::optional<std::uint32_t> parse_address(const std::string& text) {
  in_addr address{};
  if (::inet_pton(AF_INET, text.c_str(), &address) != 1) return std::nullopt;
  return ntohl(address.s_addr);
}

std::string address_text(std::uint32_t address) {
  const in_addr network{htonl(address)};
  std::array<char, INET_ADDRSTRLEN> text{};
  return ::inet_ntop(AF_INET, &network, text.data(), text.size()) == nullptr ? std::string() : text.data();
}

std::vector<std::string> home_addresses() {
  ifaddrs* list = nullptr;
  if (::getifaddrs(&list) != 0) return {};
  const std::unique_ptr<ifaddrs, decltype(&::freeifaddrs)> owner(list, &::freeifaddrs);
  std::vector<std::string> addresses;
  for (const ifaddrs* each = list; each != nullptr; each = each->ifa_next) {
    if (each->ifa_addr == nullptr || each->ifa_addr->sa_family != AF_INET || (each->ifa_flags & IFF_UP) == 0)
      continue;
    sockaddr_in address{};
    std::memcpy(&address, each->ifa_addr, sizeof address);
    const std::uint32_t own = ntohl(address.sin_addr.s_addr);
    if (is_home_address(own)) addresses.push_back(address_text(own));
  }
  return addresses;
}

std::string local_name() {
  std::array<char, 256> whole{};
  if (::gethostname(whole.data(), whole.size() - 1) != 0) return {};
  const std::string name = lower_case(whole.data());
  const std::string label = name.substr(0, name.find('.'));
  return is_host_name(label) ? label + ".local" : std::string();
}

bool is_host_name(std::string_view name) {
  constexpr std::size_t kLongestPart = 63;
  constexpr std::size_t kLongest = 253;
  if (name.empty() || name.size() > kLongest) return false;
  const auto parts = split(name, '.');
  return std::all_of(parts.begin(), parts.end(), [](std::string_view part) {
    const bool good_ends = !part.empty() && part.front() != '-' && part.back() != '-';
    return good_ends && part.size() <= kLongestPart &&
           part.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-") == std::string_view::npos;
  });
}

}  // namespace sowtide::serve::detail
