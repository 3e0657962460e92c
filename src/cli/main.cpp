// The program: hands the command line, the system's day and Ctrl-C to the verbs.
#include <unistd.h>

#include <atomic>
#include <chrono>
#include <csignal>
#include <ctime>
#include <exception>
#include <iostream>

#include "base/memory.hpp"
#include "cli/arguments.hpp"

namespace {

std::atomic<bool> stop_requested{false};

/// Ctrl-C once asks for a stop; twice ends the program at once.
void request_stop(int signal) {
  stop_requested = true;
  std::signal(signal, SIG_DFL);
}

const std::atomic<bool>& catch_stop() {
  std::signal(SIGINT, request_stop);
  std::signal(SIGTERM, request_stop);
  return stop_requested;
}

/// Today by the machine's own clock and time zone.
sowtide::base::Date system_day() {
  const std::time_t now = std::chrono::system_clock::to_time_t(std::chrono::system_clock::now());
  std::tm local{};
  localtime_r(&now, &local);
  return sowtide::base::date_of(local.tm_year + 1900, local.tm_mon + 1, local.tm_mday);
}

}  // namespace

int main(int argc, char** argv) {
  sowtide::base::keep_freed_memory();
  try {
    return sowtide::cli::run(argc, argv, system_day(),
                             {std::cout, std::cerr, false, isatty(STDERR_FILENO) == 1, catch_stop});
  } catch (const std::exception& error) {
    std::cerr << "sowtide: a defect of the program: " << error.what() << "\n";
    return sowtide::cli::kExitProblem;
  }
}
