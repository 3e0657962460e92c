#include "base/memory.hpp"

#if __has_include(<malloc.h>)
#include <malloc.h>
#endif

namespace sowtide::base {

void keep_freed_memory() noexcept {
#if defined(M_TRIM_THRESHOLD) && defined(M_MMAP_THRESHOLD)
  constexpr int kKept = 16 << 20;
  constexpr int kOwnPages = 2 << 20;  // larger blocks get pages of their own, which go back when freed
  mallopt(M_TRIM_THRESHOLD, kKept);
  mallopt(M_MMAP_THRESHOLD, kOwnPages);
#endif
}

}  // namespace sowtide::base
