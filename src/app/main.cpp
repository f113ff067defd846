// SPDX-License-Identifier: MIT
#include <sys/ioctl.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <chrono>
#include <cstdint>
#include <cstdlib>
#include <ctime>
#include <iostream>
#include <system_error>

#include "app/environment.h"
#include "app/real_files.h"

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

int terminal_width() {
  winsize size{};
  if (ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col >= 60) return size.ws_col;
  return 100;
}

}  // namespace

int main(int count, char** words) {
  std::ios::sync_with_stdio(false);
  const trug::app::RealFiles files;
  const trug::app::Moment start = moment();
  const bool terminal = isatty(STDOUT_FILENO) == 1;
  const trug::app::Environment environment{.files = files,
                                           .out = std::cout,
                                           .err = std::cerr,
                                           .today = start.today,
                                           .now = start.now,
                                           .colour = terminal && std::getenv("NO_COLOR") == nullptr,
                                           .width = terminal ? terminal_width() : 100,
                                           .random = random_octets,
                                           .clock = moment};
  return trug::app::run({words + 1, words + count}, environment);
}
