// SPDX-License-Identifier: MIT
// The commands and their options: the one table that the command line is read by, and that help,
// manual page, shell completions and the tests of README are made of.
#pragma once

#include <CLI/CLI.hpp>
#include <optional>
#include <string>
#include <vector>

#include "app/options.h"

namespace trug::app {

// Days as they were written: which they are is known once `--today` is.
struct WrittenDays {
  std::optional<std::string> today, from, to;
};

// The command line, built once for each run: reading it fills the options.
class CommandLine {
 public:
  CommandLine();
  CommandLine(const CommandLine&) = delete;
  CommandLine& operator=(const CommandLine&) = delete;

  CLI::App& app() { return app_; }
  const CLI::App& app() const { return app_; }
  Options& options() { return options_; }
  const Options& options() const { return options_; }
  // In the order of the help.
  std::vector<const CLI::App*> commands() const;

  const WrittenDays& days() const { return days_; }

 private:
  CLI::App app_;
  Options options_;
  WrittenDays days_;
};

}  // namespace trug::app
