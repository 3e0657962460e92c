// Reading the texts of HTTP: targets, header lists, hosts. Pure functions, apart so that they can be fuzzed.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace sowtide::serve::detail {

/// Text of a request target, percent-decoded once (RFC 3986). Nothing when an escape is broken or it holds a
/// control character, a NUL or a backslash.
[[nodiscard]] std::optional<std::string> decode_escapes(std::string_view text);

/// The path of a request target, percent-decoded once (RFC 3986). Nothing when it does not begin with '/', an
/// escape is broken, it holds a control character, a NUL or a backslash, or a part of it is "." or "..".
[[nodiscard]] std::optional<std::string> decode_path(std::string_view target);

/// True when a list like "br;q=0.5, gzip" allows gzip: named with a weight above 0, or "*" when gzip is not
/// named.
[[nodiscard]] bool accepts_gzip(std::string_view accept_encoding);

/// True when an If-None-Match value names the tag (weak comparison, RFC 9110 section 13.1.2) or is "*".
[[nodiscard]] bool names_tag(std::string_view if_none_match, std::string_view tag);

/// The media type of a Content-Type value in lower case, without parameters: "application/json".
[[nodiscard]] std::string media_type(std::string_view content_type);

[[nodiscard]] std::string lower_case(std::string_view text);
[[nodiscard]] std::string_view trimmed(std::string_view text);
[[nodiscard]] std::vector<std::string_view> split(std::string_view text, char separator);

/// A route pattern like "/api/outlook/{stand}", ready to match.
class PathPattern {
 public:
  explicit PathPattern(std::string_view pattern);
  /// The captured parts when the path fits; a captured part is never empty.
  [[nodiscard]] std::optional<std::map<std::string, std::string>> match(std::string_view path) const;
  /// The pattern as it was given.
  [[nodiscard]] std::string text() const;

 private:
  std::vector<std::string> parts_;
};

}  // namespace sowtide::serve::detail
