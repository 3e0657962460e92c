#include "serve/detail/home_address.hpp"

#include <arpa/inet.h>
#include <ifaddrs.h>
#include <net/if.h>
#include <netinet/in.h>

#include <array>
#include <cstdint>
#include <cstring>
#include <memory>

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

std::string home_address() {
  ifaddrs* list = nullptr;
  if (::getifaddrs(&list) != 0) return {};
  const std::unique_ptr<ifaddrs, decltype(&::freeifaddrs)> owner(list, &::freeifaddrs);
  for (const ifaddrs* each = list; each != nullptr; each = each->ifa_next) {
    if (each->ifa_addr == nullptr || each->ifa_addr->sa_family != AF_INET || (each->ifa_flags & IFF_UP) == 0)
      continue;
    sockaddr_in address{};
    std::memcpy(&address, each->ifa_addr, sizeof address);
    if (!is_home_address(ntohl(address.sin_addr.s_addr))) continue;
    std::array<char, INET_ADDRSTRLEN> text{};
    if (::inet_ntop(AF_INET, &address.sin_addr, text.data(), text.size()) != nullptr) return text.data();
  }
  return {};
}

}  // namespace sowtide::serve::detail
