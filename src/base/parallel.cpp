#include "base/parallel.hpp"

#include <tbb/blocked_range.h>
#include <tbb/global_control.h>
#include <tbb/parallel_for.h>
#include <tbb/task_arena.h>

namespace sowtide::base {

void parallel_for(std::size_t count, const std::function<void(std::size_t)>& body) {
  tbb::parallel_for(tbb::blocked_range<std::size_t>(0, count), [&body](const auto& range) {
    for (std::size_t i = range.begin(); i != range.end(); ++i) body(i);
  });
}

void apart(const std::function<void()>& body) {
  tbb::this_task_arena::isolate(body);
}

ThreadLimit::ThreadLimit(std::size_t threads)
    : control_(new tbb::global_control(tbb::global_control::max_allowed_parallelism, threads)) {}

ThreadLimit::~ThreadLimit() { delete static_cast<tbb::global_control*>(control_); }

}  // namespace sowtide::base
