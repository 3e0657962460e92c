// A parallel loop whose result does not depend on the number of threads: each index writes its own slot.
#pragma once

#include <cstddef>
#include <functional>

namespace sowtide::base {

/// Calls `body(i)` for i in 0..count-1, in any order, on the machine's cores. `body` must write only to what
/// belongs to its index. Exceptions of `body` are rethrown here.
void parallel_for(std::size_t count, const std::function<void(std::size_t)>& body);

/// Runs `body`, whose parallel loops stay among themselves: while it waits for one of them, the calling thread takes up
/// no index of a loop that was begun outside. Needed where `body` holds something that those may wait for.
void apart(const std::function<void()>& body);

/// Limits all parallel loops to `threads` while alive; for tests and `--threads`.
class ThreadLimit {
 public:
  explicit ThreadLimit(std::size_t threads);
  ~ThreadLimit();
  ThreadLimit(const ThreadLimit&) = delete;
  ThreadLimit& operator=(const ThreadLimit&) = delete;

 private:
  void* control_;
};

}  // namespace sowtide::base
