// The web app's files as the build found them in web/dist (cmake/embed_web.cmake writes the definitions).
#pragma once

#include <cstddef>

namespace sowtide::serve::detail {

struct EmbeddedFile {
  const char* path;
  const char* bytes;
  std::size_t size;
};

extern const std::size_t kEmbeddedCount;
extern const EmbeddedFile* const kEmbeddedFiles;

}  // namespace sowtide::serve::detail
