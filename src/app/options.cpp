// SPDX-License-Identifier: MIT
#include "app/options.h"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>
#include <utility>

#include "app/command_line.h"
#include "app/environment.h"
#include "app/version.h"
#include "base/day_text.h"
#include "base/text.h"

namespace trug::app {
namespace {

// A day without a year is the next one, or one of the last month: "--from" may look back a little.
constexpr Days kLookBack{30};

// Throws CLI::ValidationError.
Date day_of(const std::string& option, const std::string& text, Date today, Date earliest) {
  if (const auto relative = parse_relative_day(text, today)) return *relative;
  const DayReading reading = read_written_day(text);
  if (reading.day) return on_or_after(*reading.day, earliest);
  const std::string_view wrong = fault_words(reading.fault);
  throw CLI::ValidationError(
      option, fmt::format("'{}'{}{} write it as 2027-05-14, \"14 May\", today or Saturday", text,
                          wrong, wrong.ends_with('?') ? "" : ";"));
}

// Plans are about no other years.
Date bounded(Date day) {
  if (day >= make_date(1900, 1, 1) && day < make_date(2101, 1, 1)) return day;
  throw CLI::ValidationError(
      "--today", fmt::format("'{}' must lie between 1900 and 2100, as plans do", iso(day)));
}

void read_days(CommandLine& line, Date today) {
  const WrittenDays& days = line.days();
  Options& options = line.options();
  if (days.today) options.today = bounded(day_of("--today", *days.today, today, today));
  const Date counted_from = options.today.value_or(today);
  if (days.from) {
    options.from = day_of("--from", *days.from, counted_from, counted_from - kLookBack);
  }
  if (days.to) {
    const Date earliest = options.from.value_or(counted_from - kLookBack);
    options.to = day_of("--to", *days.to, counted_from, earliest);
  }
  if (options.from && options.to && *options.to < *options.from) {
    throw CLI::ValidationError(
        "--to",
        fmt::format("{} lies before --from, {}", plain_day(*options.to), plain_day(*options.from)));
  }
}

// What the standard streams cannot do.
void check_streams(const CommandLine& line) {
  const Options& options = line.options();
  const bool serves = !line.app().get_subcommands().empty() &&
                      line.app().get_subcommands().front()->get_name() == "feed";
  if (serves && std::ranges::find(options.plans, kStandardStream) != options.plans.end()) {
    throw CLI::ValidationError("plans", "the feed reads its plan again and again: name a file");
  }
  for (const auto& [option, file] :
       {std::pair("--file", options.feed_file), std::pair("--qr", options.qr_file)}) {
    if (file == kStandardStream) throw CLI::ValidationError(option, "name a file");
  }
  if (options.output != kStandardStream) return;
  if (!options.split.empty()) {
    throw CLI::ValidationError("--split", "several files cannot go to the standard output");
  }
  if (options.is_json()) {
    throw CLI::ValidationError("--json", "the standard output takes the calendar: name a file");
  }
}

// Many gardens have a folder for their calendars.
void check_many(const CommandLine& line) {
  const Options& options = line.options();
  if (line.app().get_subcommands().empty()) return;
  if (line.app().get_subcommands().front()->get_name() != "calendar") return;
  if (options.out_folder.empty() && options.plans.size() > 1) {
    throw CLI::ValidationError("plan", "several plans want a folder: --out-dir DIR");
  }
  if (options.out_folder.empty()) return;
  for (const auto& [option, given] :
       {std::pair("--split", !options.split.empty()), std::pair("--json", options.is_json())}) {
    if (given) throw CLI::ValidationError(option, "is for one plan, and --out-dir for many");
  }
}

// CLI11 words most errors well.
ParsedOptions usage(const CommandLine& line, const std::string& message, std::ostream& err) {
  const auto used = line.app().get_subcommands();
  err << "error: " << message << "\n  hint: trug "
      << (used.empty() ? "--help lists the commands"
                       : used.front()->get_name() + " --help tells what it takes")
      << "\n";
  return {std::nullopt, kBadInput};
}

std::vector<std::string> option_names(const CLI::App& app) {
  std::vector<std::string> names;
  for (const CLI::Option* option : app.get_options()) {
    for (const std::string& name : option->get_lnames()) names.push_back("--" + name);
    for (const std::string& name : option->get_snames()) names.push_back("-" + name);
  }
  return names;
}

bool looks_like_a_file(std::string_view word) {
  return word == "-" || word.ends_with(".toml") || word.find('/') != std::string_view::npos;
}

std::string no_command(const CommandLine& line, const std::string& word) {
  std::vector<std::string> names;
  for (const CLI::App* command : line.commands()) names.push_back(command->get_name());
  const std::string near = nearest(word, names);
  if (!near.empty()) return fmt::format("there is no command '{}'; did you mean '{}'?", word, near);
  if (looks_like_a_file(word)) {
    return fmt::format("a plan comes after a command: trug check {}", word);
  }
  return fmt::format("there is no command '{}'", word);
}

std::string no_option(const CommandLine& line, const std::string& word) {
  const auto used = line.app().get_subcommands();
  const std::string name = word.substr(0, word.find('='));
  for (const CLI::App* command : line.commands()) {
    if (!used.empty() && command != used.front()) continue;
    const std::vector<std::string> known = option_names(*command);
    if (std::ranges::find(known, name) == known.end()) continue;
    return fmt::format("'{}' comes after a command, as in: trug {} {}", name, command->get_name(),
                       name);
  }
  const std::string near = nearest(name, option_names(used.empty() ? line.app() : *used.front()));
  return near.empty() ? fmt::format("'{}' is not understood here", word)
                      : fmt::format("there is no option '{}'; did you mean '{}'?", name, near);
}

ParsedOptions unknown_words(const CommandLine& line, std::ostream& err) {
  const std::vector<std::string> words = line.app().remaining(true);
  const std::string word = words.empty() ? "" : words.front();
  const bool is_command =
      line.app().get_subcommands().empty() && (!word.starts_with("-") || word == "-");
  return usage(line, is_command ? no_command(line, word) : no_option(line, word), err);
}

}  // namespace

ParsedOptions parse_options(const std::vector<std::string>& arguments, Date today,
                            std::ostream& out, std::ostream& err) {
  CommandLine line;
  try {
    // CLI11 takes the words last first.
    line.app().parse(std::vector<std::string>(arguments.rbegin(), arguments.rend()));
    read_days(line, today);
    check_streams(line);
    check_many(line);
  } catch (const CLI::CallForHelp&) {
    out << line.app().help();  // of the command that was named, where one was
    return {std::nullopt, kDone};
  } catch (const CLI::CallForVersion&) {
    out << "trug " << kVersion << "\n";
    return {std::nullopt, kDone};
  } catch (const CLI::ExtrasError&) {
    return unknown_words(line, err);
  } catch (const CLI::ParseError& error) {
    return usage(line, error.what(), err);
  }
  const auto used = line.app().get_subcommands();
  if (!used.empty()) line.options().command = used.front()->get_name();
  return {line.options(), kDone};
}

std::string help_text(const std::string& command) {
  CommandLine line;
  for (const CLI::App* known : line.commands()) {
    if (known->get_name() == command) return known->help("trug");
  }
  return command.empty() ? line.app().help() : "";
}

}  // namespace trug::app
