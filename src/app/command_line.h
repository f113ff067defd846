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

// The command line, built once for each run: reading it fills the options.
class CommandLine {
 public:
  CommandLine();
  CommandLine(const CommandLine&) = delete;
  CommandLine& operator=(const CommandLine&) = delete;

  CLI::App& app() { return app_; }
  const CLI::App& app() const { return app_; }
  Options& options() { return options_; }
  // In the order of the help.
  std::vector<const CLI::App*> commands() const;

  // Days as they were written: they are known once `--today` is.
  struct Days {
    std::optional<std::string> today, from, to;
  };
  const Days& days() const { return days_; }

 private:
  CLI::App& command(const std::string& name, const std::string& help, const std::string& example);
  void shown_options(CLI::App& app);
  void plan_argument(CLI::App& app);
  void plan_options(CLI::App& app);
  void crop_folders(CLI::App& app);
  void only_option(CLI::App& app);
  void output_option(CLI::App& app, const std::string& help);
  void check();
  void jobs();
  void calendar();
  void why();
  void chart();
  void crop();
  void frost();
  void record_columns(CLI::App& app);
  void feed();
  void feed_links(CLI::App& app, CLI::Option* url);
  void help();

  CLI::App app_;
  Options options_;
  Days days_;
};

}  // namespace trug::app
