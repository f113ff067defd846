// SPDX-License-Identifier: MIT
#include "app/command_options.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>
#include <vector>

#include "app/command_facts.h"
#include "app/option_values.h"
#include "base/text.h"

namespace trug::app {

CLI::Option* word_option(CLI::App& app, const std::string& name, const std::string& value,
                         std::function<void(const std::string&)> take, const std::string& help) {
  return app
      .add_option_function<std::string>(
          name,
          [name, value, take = std::move(take)](const std::string& text) {
            const std::vector<std::string> words = value_words(value);
            if (std::ranges::find(words, text) == words.end()) {
              const std::string first = name.substr(0, name.find(','));
              throw CLI::ValidationError(first,
                                         fmt::format("'{}' must be {}", text, listed(words, "or")));
            }
            take(text);
          },
          help)
      ->type_name(value);
}

CLI::Option* day_option(CLI::App& app, const std::string& name, std::optional<std::string>& target,
                        const std::string& help) {
  return app
      .add_option_function<std::string>(
          name, [&target](const std::string& text) { target = text; }, help)
      ->type_name("DATE");
}

CLI::App& command(Line line, const std::string& name, const std::string& help,
                  const std::string& example) {
  CLI::App& result = *line.app.add_subcommand(name, help)->group("Commands");
  result.footer("Example:\n  trug " + example + "\n");
  return result;
}

void shown_options(CLI::App& app, Line line) {
  word_option(
      app, "--color,--colour", "WHEN",
      [line](const std::string& word) {
        line.options.colour = word == "auto" ? std::nullopt : std::optional(word == "always");
      },
      "colour on the terminal: auto, always or never");
  app.add_flag("--plain", line.options.plain, "no colour");
  app.add_flag("-v,--verbose", line.options.verbose,
               "tell which files were read, and each job of a calendar that changed");
}

void crop_folders(CLI::App& app, Line line) {
  app.add_option("--crops", line.options.crop_folders, "a folder of crop sheets to add or replace")
      ->type_name("DIR");
}

void plan_options(CLI::App& app, Line line) {
  day_option(app, "--today", line.days.today, "reckon as if today were DATE");
  crop_folders(app, line);
  app.add_flag("--strict", line.options.strict, "exit 1 where there are findings");
  shown_options(app, line);
}

void plan_argument(CLI::App& app, Line line) {
  app.add_option_function<std::string>(
         "plan", [line](const std::string& path) { line.options.plans = {path}; },
         "the plan, a TOML file; - is the standard input")
      ->type_name("")
      ->required();
  plan_options(app, line);
}

void only_option(CLI::App& app, Line line) {
  app.add_option_function<std::vector<std::string>>(
         "--only",
         [line](const std::vector<std::string>& texts) {
           for (const std::string& text : texts) {
             const std::vector<work::JobKind> kinds = parse_kinds_option(text);
             line.options.only.insert(line.options.only.end(), kinds.begin(), kinds.end());
           }
         },
         "only such jobs: sow, order, first-cut, or buying, raising, planting, tending, cutting, "
         "clearing")
      ->type_name("KIND")
      ->delimiter(',');
}

CLI::Option* output_option(CLI::App& app, Line line, const std::string& help) {
  return app.add_option("-o,--output", line.options.output, help)
      ->type_name("FILE")
      ->each([](const std::string& name) {
        if (name.empty()) {
          throw CLI::ValidationError("the name of the file to write is empty");
        }
      });
}

void form_options(CLI::App& app, Line line, std::span<const show::Format> formats,
                  const std::string& what) {
  std::vector<CLI::Option*> others;
  for (const show::FormatOption& one : show::kFormatOptions) {
    if (std::ranges::find(formats, one.format) == formats.end()) continue;
    CLI::Option* option = app.add_flag_callback(
        std::string(one.option), [line, one] { line.options.format = one.format; },
        fmt::format("{} as {}", what, one.name));
    for (CLI::Option* other : others) option->excludes(other);
    others.push_back(option);
  }
}

}  // namespace trug::app
