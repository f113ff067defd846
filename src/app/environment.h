// SPDX-License-Identifier: MIT
// All of the outside world the program may use, passed in by main() and by tests.
#pragma once

#include <array>
#include <chrono>
#include <cstdint>
#include <functional>
#include <istream>
#include <ostream>
#include <string>
#include <vector>

#include "base/date.h"
#include "base/files.h"

namespace trug::app {

struct Moment {
  Date today;  // of the gardener's place
  std::chrono::sys_seconds now;
};

class Inputs;

struct Environment {
  const FileReader& files;
  std::ostream& out;  // the product only
  std::ostream& err;  // everything else
  Date today;         // of the gardener's place
  std::chrono::sys_seconds now;
  bool colour = false;  // out is a terminal that shows it, and nobody forbade it
  int width = 100;      // columns of the terminal
  std::function<std::array<std::uint8_t, 16>()> random;
  // `today` and `now` at the time of the call, for the command that goes on for days.
  std::function<Moment()> clock;
  const Inputs* inputs = nullptr;  // what run() has read; set by it
  std::istream* in = nullptr;      // answers to questions; null: nobody answers
};

// The same with other files and streams.
Environment with(const Environment& environment, const FileReader& files, std::ostream& out,
                 std::ostream& err);

// Exit codes, stable.
inline constexpr int kDone = 0;
inline constexpr int kFindings = 1;  // broken ones of check; any under --strict
inline constexpr int kBadInput = 2;  // nothing written
inline constexpr int kRefused = 3;   // cannot read, write or bind; a file that is not ours
inline constexpr int kOurBug = 70;

// Runs the program; `arguments` without its name. Never throws.
int run(const std::vector<std::string>& arguments, const Environment& environment);

}  // namespace trug::app
