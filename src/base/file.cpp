#include "base/file.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>
#include <zlib.h>

#include <array>
#include <atomic>
#include <cerrno>
#include <filesystem>
#include <functional>
#include <memory>
#include <system_error>

namespace sowtide::base {
namespace {

constexpr std::size_t kChunkBytes = 1U << 16U;

std::string system_text(int error) {
  return std::generic_category().message(error);
}

Place at(const std::string& path) {
  return {.file = path, .field = {}};
}

/// A file descriptor that is closed at the end of its scope.
class Descriptor {
 public:
  explicit Descriptor(int number) : number_(number) {}
  ~Descriptor() { close_now(); }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  [[nodiscard]] int number() const { return number_; }
  int release() { return std::exchange(number_, -1); }
  bool close_now() { return number_ < 0 || ::close(release()) == 0; }

 private:
  int number_;
};

tl::unexpected<Problem> too_large(const std::string& path, std::size_t max_bytes) {
  return fail(ProblemCode::too_large, fmt::format("is larger than {} bytes", max_bytes), at(path));
}

/// Reads until `read_chunk` gives 0; a negative answer is a failure with its reason in errno or the zlib
/// stream.
template <class ReadChunk, class Reason>
Result<std::string> read_all(const std::string& path, std::size_t max_bytes, ReadChunk read_chunk,
                             Reason reason) {
  std::string bytes;
  std::array<char, kChunkBytes> chunk{};
  for (;;) {
    const auto count = read_chunk(chunk.data(), chunk.size());
    if (count < 0)
      return fail(ProblemCode::file_unreadable, fmt::format("cannot be read ({})", reason()), at(path));
    if (count == 0) return bytes;
    bytes.append(chunk.data(), static_cast<std::size_t>(count));
    if (bytes.size() > max_bytes) return too_large(path, max_bytes);
  }
}

Result<std::string> read_plain(int descriptor, const std::string& path, std::size_t max_bytes) {
  const auto chunk = [descriptor](char* into, std::size_t size) {
    ssize_t count = 0;
    do {
      count = ::read(descriptor, into, size);
    } while (count < 0 && errno == EINTR);
    return count;
  };
  return read_all(path, max_bytes, chunk, [] { return system_text(errno); });
}

Result<std::string> read_gzip(Descriptor& descriptor, const std::string& path, std::size_t max_bytes) {
  const std::unique_ptr<gzFile_s, int (*)(gzFile)> gz(gzdopen(descriptor.number(), "rb"), gzclose);
  if (!gz) return fail(ProblemCode::file_unreadable, "cannot be unpacked", at(path));
  descriptor.release();
  const auto chunk = [&gz](char* into, std::size_t size) {
    return gzread(gz.get(), into, static_cast<unsigned>(size));
  };
  const auto reason = [&gz]() -> std::string {
    int code = Z_OK;
    const char* text = gzerror(gz.get(), &code);
    return code == Z_ERRNO ? system_text(errno) : text;
  };
  auto bytes = read_all(path, max_bytes, chunk, reason);
  if (bytes && !bytes->empty() && gzdirect(gz.get()) != 0) {
    return fail(ProblemCode::file_unreadable, "is named .gz but is not packed with gzip", at(path),
                "Give the file its true ending");
  }
  int code = Z_OK;
  gzerror(gz.get(), &code);
  if (bytes && code != Z_OK) {
    return fail(ProblemCode::file_unreadable, fmt::format("cannot be unpacked ({})", reason()), at(path),
                "Fetch the file again");
  }
  return bytes;
}

bool write_all(int descriptor, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t count = ::write(descriptor, bytes.data(), bytes.size());
    if (count < 0 && errno == EINTR) continue;
    if (count < 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(count));
  }
  return true;
}

/// Makes a rename durable. Some file systems refuse fsync on a directory; the file itself is synced already.
void sync_directory(const std::filesystem::path& directory) {
  const Descriptor descriptor(
      ::open(directory.empty() ? "." : directory.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (descriptor.number() >= 0) ::fsync(descriptor.number());
}

std::string temporary_beside(const std::string& path) {
  static std::atomic<unsigned> counter{0};
  return fmt::format("{}.{}-{}.tmp", path, ::getpid(), counter.fetch_add(1));
}

}  // namespace

Result<std::string> read_file(const std::string& path, std::size_t max_bytes) {
  Descriptor descriptor(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
  if (descriptor.number() < 0) {
    return fail(ProblemCode::file_missing, fmt::format("cannot be opened ({})", system_text(errno)), at(path),
                "Check the name of the file");
  }
  struct stat facts {};
  if (::fstat(descriptor.number(), &facts) == 0 && S_ISDIR(facts.st_mode)) {
    return fail(ProblemCode::file_unreadable, "is a directory, not a file", at(path), "Name a file in it");
  }
  if (path.ends_with(".gz")) return read_gzip(descriptor, path, max_bytes);
  if (S_ISREG(facts.st_mode) && facts.st_size > 0 && static_cast<std::size_t>(facts.st_size) > max_bytes) {
    return too_large(path, max_bytes);
  }
  return read_plain(descriptor.number(), path, max_bytes);
}

Result<void> write_file(const std::string& path, std::string_view bytes, Readers readers) {
  const std::string temporary = temporary_beside(path);
  const auto failed = [&](int error) {
    ::unlink(temporary.c_str());
    return fail(ProblemCode::file_unreadable, fmt::format("cannot be written ({})", system_text(error)),
                at(path),
                "Check that the directory exists, that it may be written to and that the disk is not full");
  };
  constexpr mode_t kReadWriteForAll = 0666;  // narrowed by the umask
  constexpr mode_t kReadWriteForOwner = 0600;
  const mode_t mode = readers == Readers::owner ? kReadWriteForOwner : kReadWriteForAll;
  Descriptor descriptor(::open(temporary.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, mode));
  if (descriptor.number() < 0) return failed(errno);
  if (!write_all(descriptor.number(), bytes)) return failed(errno);
  if (::fsync(descriptor.number()) != 0) return failed(errno);
  if (!descriptor.close_now()) return failed(errno);
  if (::rename(temporary.c_str(), path.c_str()) != 0) return failed(errno);
  sync_directory(std::filesystem::path(path).parent_path());
  return {};
}

}  // namespace sowtide::base
