// Addresses of the home network, and this machine's own. IPv4 only, in the host's byte order.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace sowtide::serve::detail {

/// 127/8 (RFC 1122, section 3.2.1.3).
[[nodiscard]] bool is_loopback_address(std::uint32_t address) noexcept;
/// 10/8, 172.16/12 and 192.168/16 (RFC 1918).
[[nodiscard]] bool is_home_address(std::uint32_t address) noexcept;
/// Within one machine or one home: loopback, RFC 1918, and link-local 169.254/16 (RFC 3927).
[[nodiscard]] bool is_private_address(std::uint32_t address) noexcept;

/// "192.168.1.20" as a number; nothing for any other text.
[[nodiscard]] std::optional<std::uint32_t> parse_address(const std::string& text);

/// The same backwards.
[[nodiscard]] std::string address_text(std::uint32_t address);

/// The private IPv4 addresses (RFC 1918) of the interfaces that are up, "192.168.1.20".
[[nodiscard]] std::vector<std::string> home_addresses();

/// The name under which this machine is known in the home network by multicast DNS (RFC 6762), "garden.local";
/// empty when its host name is none that can be used so.
[[nodiscard]] std::string local_name();

/// True for a name of letters, digits and hyphens in parts of 1 to 63 (RFC 1123, section 2.1), in lower case.
[[nodiscard]] bool is_host_name(std::string_view name);

}  // namespace sowtide::serve::detail
