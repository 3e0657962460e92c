// The files of the web app, held in memory ready to send: read from a directory, or compiled into the binary.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/problem.hpp"

namespace sowtide::serve {

/// One file of the page.
struct Asset {
  std::string path;  ///< "/assets/index-abc123.js"
  std::string content_type;
  std::string bytes;
  std::string gzip_bytes;  ///< empty when compressing does not pay
  std::string etag;        ///< with its quotes
  bool immutable = false;  ///< its name changes with its content, so it may be cached for ever
};

/// Makes an asset of a path and its bytes: type by ending, tag by content, compressed when text of some
/// length. Files under /assets/ are immutable (the web build puts a hash of the content in their names).
[[nodiscard]] Asset make_asset(std::string path, std::string bytes);

/// All files below a directory. Problems: file_missing (no directory, or no index.html in it), too_large
/// (over 32 MiB).
[[nodiscard]] base::Result<std::vector<Asset>> read_assets(const std::string& directory);

/// The web app compiled into the binary; empty when it was built without.
[[nodiscard]] std::vector<Asset> built_in_assets();

/// How hard to try: what is packed once and sent often, or packed for one answer while somebody waits.
enum class PackEffort { thorough, quick };

/// gzip of some bytes (RFC 1952); the same input gives the same output.
[[nodiscard]] std::string gzip(std::string_view bytes, PackEffort effort = PackEffort::thorough);

/// A strong entity tag of some bytes, with its quotes.
[[nodiscard]] std::string entity_tag(std::string_view bytes);

}  // namespace sowtide::serve
