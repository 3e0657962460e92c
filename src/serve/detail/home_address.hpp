// Addresses of the home network, and this machine's own. IPv4 only, in the host's byte order.
#pragma once

#include <cstdint>
#include <string>

namespace sowtide::serve::detail {

/// 127/8 (RFC 1122, section 3.2.1.3).
[[nodiscard]] bool is_loopback_address(std::uint32_t address) noexcept;
/// 10/8, 172.16/12 and 192.168/16 (RFC 1918).
[[nodiscard]] bool is_home_address(std::uint32_t address) noexcept;
/// Within one machine or one home: loopback, RFC 1918, and link-local 169.254/16 (RFC 3927).
[[nodiscard]] bool is_private_address(std::uint32_t address) noexcept;

/// The first private IPv4 address (RFC 1918) of an interface that is up, "192.168.1.20"; empty when there is
/// none.
[[nodiscard]] std::string home_address();

}  // namespace sowtide::serve::detail
