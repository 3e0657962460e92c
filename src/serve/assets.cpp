#include "serve/assets.hpp"

#include <fmt/format.h>
#include <zlib.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <filesystem>
#include <utility>

#include "base/file.hpp"
#include "base/hash.hpp"
#include "serve/detail/embedded.hpp"

namespace sowtide::serve {
namespace {

constexpr std::size_t kMaxBytes = 32U << 20U;
constexpr std::size_t kWorthCompressingBytes = 512;

constexpr std::array<std::pair<std::string_view, std::string_view>, 11> kTypes{{
    {".html", "text/html; charset=utf-8"},
    {".js", "text/javascript; charset=utf-8"},
    {".css", "text/css; charset=utf-8"},
    {".json", "application/json; charset=utf-8"},
    {".svg", "image/svg+xml"},
    {".webmanifest", "application/manifest+json"},
    {".txt", "text/plain; charset=utf-8"},
    {".map", "application/json; charset=utf-8"},
    {".png", "image/png"},
    {".ico", "image/x-icon"},
    {".woff2", "font/woff2"},
}};

std::string_view content_type_of(std::string_view path) {
  for (const auto& [ending, type] : kTypes) {
    if (path.size() > ending.size() && path.substr(path.size() - ending.size()) == ending) return type;
  }
  return "application/octet-stream";
}

bool is_text(std::string_view type) {
  return type.rfind("text/", 0) == 0 || type.find("json") != std::string_view::npos ||
         type.find("svg") != std::string_view::npos;
}

}  // namespace

std::string gzip(std::string_view bytes, PackEffort effort) {
  constexpr int kGzipWindow = 15 + 16;  // zlib: 16 more than the window asks for a gzip header
  constexpr int kMemoryLevel = 8;
  z_stream stream{};
  if (deflateInit2(&stream, effort == PackEffort::quick ? Z_BEST_SPEED : Z_DEFAULT_COMPRESSION, Z_DEFLATED,
                   kGzipWindow, kMemoryLevel, Z_DEFAULT_STRATEGY) != Z_OK) {
    return {};
  }
  std::string packed(deflateBound(&stream, static_cast<uLong>(bytes.size())), '\0');
  std::string input(bytes);  // zlib takes a pointer to non-const
  stream.next_in = reinterpret_cast<Bytef*>(input.data());
  stream.avail_in = static_cast<uInt>(input.size());
  stream.next_out = reinterpret_cast<Bytef*>(packed.data());
  stream.avail_out = static_cast<uInt>(packed.size());
  const int ended = deflate(&stream, Z_FINISH);
  packed.resize(stream.total_out);
  deflateEnd(&stream);
  return ended == Z_STREAM_END ? packed : std::string{};
}

std::string entity_tag(std::string_view bytes) {
  return fmt::format("\"{:x}-{:016x}\"", bytes.size(), base::fnv1a(bytes));
}

Asset make_asset(std::string path, std::string bytes) {
  Asset asset;
  asset.content_type = content_type_of(path);
  asset.etag = entity_tag(bytes);
  asset.immutable = path.rfind("/assets/", 0) == 0;
  if (is_text(asset.content_type) && bytes.size() >= kWorthCompressingBytes) {
    asset.gzip_bytes = gzip(bytes);
    if (asset.gzip_bytes.size() >= bytes.size()) asset.gzip_bytes.clear();
  }
  asset.path = std::move(path);
  asset.bytes = std::move(bytes);
  return asset;
}

base::Result<std::vector<Asset>> read_assets(const std::string& directory) {
  namespace fs = std::filesystem;
  std::error_code error;
  std::vector<Asset> assets;
  std::size_t total_bytes = 0;
  for (fs::recursive_directory_iterator it(directory, error), end; !error && it != end; it.increment(error)) {
    if (!it->is_regular_file(error) || it->is_symlink(error)) continue;
    auto bytes = base::read_file(it->path().string(), kMaxBytes);
    // An empty file is still a file of the page.
    if (!bytes && bytes.error().code != base::ProblemCode::empty) return tl::unexpected(bytes.error());
    total_bytes += bytes ? bytes->size() : 0;
    if (total_bytes > kMaxBytes) {
      return base::fail(base::ProblemCode::too_large, "the web directory holds more than 32 MiB", {directory},
                        "Give the directory that the web build wrote, usually web/dist.");
    }
    assets.push_back(make_asset("/" + fs::relative(it->path(), directory, error).generic_string(),
                                bytes ? std::move(*bytes) : std::string{}));
  }
  const bool has_index = std::any_of(assets.begin(), assets.end(),
                                     [](const Asset& asset) { return asset.path == "/index.html"; });
  if (error || !has_index) {
    return base::fail(base::ProblemCode::file_missing, "there is no built web app (no index.html)",
                      {directory}, "Build it with: cd web && npm ci && npm run build");
  }
  std::sort(assets.begin(), assets.end(), [](const Asset& a, const Asset& b) { return a.path < b.path; });
  return assets;
}

std::vector<Asset> built_in_assets() {
  std::vector<Asset> assets;
  for (std::size_t i = 0; i < detail::kEmbeddedCount; ++i) {
    const detail::EmbeddedFile& file = detail::kEmbeddedFiles[i];
    assets.push_back(make_asset(std::string(file.path), std::string(file.bytes, file.size)));
  }
  return assets;
}

}  // namespace sowtide::serve
