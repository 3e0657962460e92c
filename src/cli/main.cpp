// The program: hands the command line, the system's day and Ctrl-C to the verbs.
#include <unistd.h>

#include <atomic>
#include <chrono>
#include <csignal>
#include <ctime>
#include <exception>
#include <iostream>

#include "cli/arguments.hpp"

namespace {

std::atomic<bool> stop_requested{false};

void request_stop(int) { stop_requested = true; }

/// Today by the machine's own clock and time zone.
sowtide::base::Date system_day() {
  const std::time_t now = std::chrono::system_clock::to_time_t(std::chrono::system_clock::now());
  std::tm local{};
  localtime_r(&now, &local);
  return sowtide::base::date_of(local.tm_year + 1900, local.tm_mon + 1, local.tm_mday);
}

}  // namespace

int main(int argc, char** argv) {
  std::signal(SIGINT, request_stop);
  std::signal(SIGTERM, request_stop);
  try {
    return sowtide::cli::run(argc, argv, system_day(),
                             {std::cout, std::cerr, false, isatty(STDERR_FILENO) == 1, &stop_requested});
  } catch (const std::exception& error) {
    std::cerr << "sowtide: a defect of the program: " << error.what() << "\n";
    return sowtide::cli::kExitProblem;
  }
}
