// SPDX-License-Identifier: MIT
// What several commands take, as the command line's table is made of.
#pragma once

#include <CLI/CLI.hpp>
#include <functional>
#include <optional>
#include <span>
#include <string>

#include "app/command_line.h"
#include "app/options.h"
#include "show/format.h"

namespace trug::app {

// What reading the command line fills.
struct Line {
  CLI::App& app;
  Options& options;
  WrittenDays& days;
};

// An option whose value is one of a few words: those of `value_words(value)`.
CLI::Option* word_option(CLI::App& app, const std::string& name, const std::string& value,
                         std::function<void(const std::string&)> take, const std::string& help);
CLI::Option* day_option(CLI::App& app, const std::string& name, std::optional<std::string>& target,
                        const std::string& help);
CLI::App& command(Line line, const std::string& name, const std::string& help,
                  const std::string& example);
// Before the command or after it.
void shown_options(CLI::App& app, Line line);
void crop_folders(CLI::App& app, Line line);
void plan_options(CLI::App& app, Line line);
// What every command that reckons a plan takes.
void plan_argument(CLI::App& app, Line line);
void only_option(CLI::App& app, Line line);
CLI::Option* output_option(CLI::App& app, Line line, const std::string& help);
// One of these forms in the place of a page.
void form_options(CLI::App& app, Line line, std::span<const show::Format> formats,
                  const std::string& what);

}  // namespace trug::app
