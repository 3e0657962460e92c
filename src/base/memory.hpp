// How the program deals with memory that it has given back.
#pragma once

namespace sowtide::base {

/// Keeps up to 16 MiB of freed memory in the process instead of handing it to the system at once. The lives
/// of a stand take some hundred kB, again and again: by glibc's default every one of them costs the system's
/// work of taking and clearing the pages anew, a fifth of an outlook's time. Does nothing under other
/// libraries.
void keep_freed_memory() noexcept;

}  // namespace sowtide::base
