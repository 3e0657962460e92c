#include "serve/detail/secret_file.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cstdio>

namespace sowtide::serve::detail {

base::Result<void> write_secret_file(const std::string& file, std::string_view text, std::string_view what) {
  const std::string temporary = file + ".new";
  const int number =
      ::open(temporary.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC | O_NOFOLLOW, S_IRUSR | S_IWUSR);
  bool good = number >= 0;
  good = good && ::write(number, text.data(), text.size()) == static_cast<ssize_t>(text.size());
  good = good && ::fsync(number) == 0;
  if (number >= 0) good = ::close(number) == 0 && good;
  good = good && std::rename(temporary.c_str(), file.c_str()) == 0;
  if (good) return {};
  return base::fail(base::ProblemCode::storage, fmt::format("{} cannot be written", what), {.file = file},
                    "Check that the directory may be written to.");
}

}  // namespace sowtide::serve::detail
