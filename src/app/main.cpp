// SPDX-License-Identifier: MIT
#include <fcntl.h>
#include <malloc.h>
#include <sys/ioctl.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <chrono>
#include <cstdint>
#include <cstdlib>
#include <ctime>
#include <iostream>
#include <optional>
#include <string>
#include <system_error>

#include "app/environment.h"
#include "app/real_files.h"
#include "app/terminal.h"

namespace {

// The civil day where the gardener is: the one use of the local time zone.
trug::Date local_today() {
  const std::time_t now = std::time(nullptr);
  std::tm local{};
  localtime_r(&now, &local);
  return trug::make_date(local.tm_year + 1900, static_cast<unsigned>(local.tm_mon) + 1,
                         static_cast<unsigned>(local.tm_mday));
}

trug::app::Moment moment() {
  return {local_today(),
          std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now())};
}

// The kernel's own generator: secret links are made of it.
std::array<std::uint8_t, 16> random_octets() {
  std::array<std::uint8_t, 16> octets{};
  if (getentropy(octets.data(), octets.size()) != 0) {
    throw std::system_error(errno, std::generic_category(), "no randomness to be had");
  }
  return octets;
}

std::optional<std::string> variable(const char* name) {
  const char* value = std::getenv(name);
  return value ? std::optional<std::string>(value) : std::nullopt;
}

trug::app::Terminal standard_output() {
  winsize size{};
  const bool known = ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 0;
  return trug::app::terminal({.is_terminal = isatty(STDOUT_FILENO) == 1,
                              .columns = known ? std::optional<int>(size.ws_col) : std::nullopt,
                              .variable = variable});
}

// Whoever closed one of the three standard files must not have a file of ours opened in its place,
// to be filled with what goes to the screen. What is written to such a one fails, and is told.
void hold_standard_files() {
  for (const int number : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO}) {
    if (fcntl(number, F_GETFD) < 0) open("/dev/null", O_RDONLY);
  }
}

// The choice takes and gives back the same memory thousands of times. The GNU C library would hand
// it to the system each time and ask for it anew, which took more than all the reckoning.
void keep_freed_memory() {
#ifdef __GLIBC__
  constexpr int kMebibyte = 1024 * 1024;
  mallopt(M_TRIM_THRESHOLD, 64 * kMebibyte);
  mallopt(M_MMAP_THRESHOLD, kMebibyte);
  mallopt(M_TOP_PAD, kMebibyte);
#endif
}

}  // namespace

int main(int count, char** words) {
  keep_freed_memory();
  hold_standard_files();
  std::ios::sync_with_stdio(false);
  const trug::app::RealFiles files;
  const trug::app::Moment start = moment();
  const trug::app::Terminal terminal = standard_output();
  const trug::app::Environment environment{.files = files,
                                           .out = std::cout,
                                           .err = std::cerr,
                                           .today = start.today,
                                           .now = start.now,
                                           .colour = terminal.colour,
                                           .width = terminal.width,
                                           .random = random_octets,
                                           .clock = moment,
                                           .in = &std::cin};
  return trug::app::run({words + 1, words + count}, environment);
}
