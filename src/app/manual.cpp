// SPDX-License-Identifier: MIT
#include "app/manual.h"

#include <fmt/format.h>

#include <string_view>

#include "app/command_facts.h"
#include "app/key_homes.h"
#include "app/small_plan.h"
#include "app/version.h"
#include "show/glossary.h"

namespace trug::app {
namespace {

using show::WordKind;

// Text as roff takes it: its own characters, and no line that begins with one of its requests.
std::string roff(std::string_view text) {
  std::string result;
  for (const char c : text) {
    const bool at_start = result.empty() || result.back() == '\n';
    if (at_start && (c == '.' || c == '\'')) result += "\\&";
    if (c == '\\') {
      result += "\\e";
    } else if (c == '-') {
      result += "\\-";
    } else {
      result += c;
    }
  }
  return result;
}

std::string section(std::string_view name) { return fmt::format(".SH {}\n", name); }

std::string paragraph(std::string_view text) { return fmt::format(".PP\n{}\n", roff(text)); }

// "-o, --output FILE" and what it does.
std::string item(const std::string& term, const std::string& text) {
  return fmt::format(".TP\n\\fB{}\\fR\n{}\n", roff(term), roff(text));
}

std::string block(std::string_view text) { return fmt::format(".nf\n{}.fi\n", roff(text)); }

std::string option_item(const OptionFacts& option) {
  std::string term = option.short_name.empty() ? "" : option.short_name + ", ";
  term += option.name;
  if (!option.value.empty()) term += " " + option.value;
  std::string text = option.help;
  if (!option.usual.empty()) text += fmt::format(" (usual: {})", option.usual);
  return item(term, text);
}

std::string usage(const CommandFacts& command) {
  std::string text = fmt::format("trug {} [OPTION...]", command.name);
  for (const OptionFacts& argument : command.arguments) {
    std::string name = argument.name + (argument.repeats ? "..." : "");
    text += argument.required ? " " + name : " [" + name + "]";
  }
  return text;
}

std::string commands() {
  const std::vector<CommandFacts> facts = command_facts();
  std::string text = section("OPTIONS BEFORE ANY COMMAND");
  for (const OptionFacts& option : facts.front().options) text += option_item(option);
  text += section("COMMANDS");
  for (std::size_t i = 1; i < facts.size(); ++i) {
    const CommandFacts& command = facts[i];
    text += fmt::format(".SS {}\n", roff(usage(command)));
    text += roff(command.help) + "\n";
    for (const OptionFacts& argument : command.arguments)
      text += item(argument.name, argument.help);
    for (const OptionFacts& option : command.options) text += option_item(option);
    text += ".PP\n" + block("Example: " + command.example + "\n");
  }
  return text;
}

std::string words(WordKind kind) {
  std::string text;
  for (const show::GlossaryEntry& entry : show::glossary()) {
    if (entry.kind != kind) continue;
    const bool is_key = kind == WordKind::Key;
    const std::string homes = is_key ? fmt::format(" ({})", homes_of(entry)) : "";
    text +=
        item(is_key ? show::with_units(entry.word) : std::string(entry.word), told(entry) + homes);
  }
  return text;
}

constexpr std::string_view kDates =
    "A day is written as 2027-05-14, \"14 May\", \"14th May\", \"May 14\" or \"14 May 2027\", the "
    "month in English, in full or by its first letters. Options also take today, tomorrow, "
    "yesterday and a weekday, which is the next one, today included; without a year they mean the "
    "next such day, or one of the last thirty days. In a plan such words are refused: tomorrow "
    "they would mean another day.";

std::string exits() {
  return item("0", "done") + item("1", "broken findings, of check; any finding, under --strict") +
         item("2", "bad input or usage; nothing was written") +
         item("3", "the world refuses: cannot read or write, a file that is not trug's") +
         item("70", "a defect of trug");
}

std::string environment() {
  return item("NO_COLOR", "set and not empty: no colour") +
         item("CLICOLOR, CLICOLOR_FORCE",
              "0 for the first: no colour; other than 0 for the second: "
              "colour even where there is no terminal") +
         item("TERM", "dumb: no colour") +
         item("COLUMNS", "how wide lines may be; else as wide as the terminal, or 100") +
         item("TZ", "the time zone that says which day is today");
}

std::string files() {
  return item("crops/", "beside the plan: sheets of your own, to add or replace") +
         item("garden.feed.ics, garden.feed.links",
              "beside garden.toml: the calendar that trug feed keeps, and its links");
}

}  // namespace

std::string manual_page() {
  std::string text =
      fmt::format(".TH TRUG 1 \"{}\" \"trug {}\" \"User Commands\"\n", kReleased, kVersion);
  text += section("NAME") + "trug \\- the year's jobs of a cut\\-flower bed, as a calendar\n";
  text += section("SYNOPSIS") + ".B trug\nCOMMAND [OPTION...] [ARGUMENT...]\n";
  text += section("DESCRIPTION") +
          roff(
              "From a plan (the bed as it lies, frost dates, what you want to cut) trug works out "
              "when to sow, plant out, pinch, support, cut and lift each crop, tells which weeks "
              "will have their vase and where the plan breaks, and writes a standard iCalendar "
              "file. Run again after a change it moves the same jobs and doubles nothing.") +
          "\n" +
          paragraph(
              "A plan named - is read from the standard input, and -o - writes to the "
              "standard output.");
  text += section("A SMALL PLAN") + block(kSmallPlan);
  text += commands();
  text += section("DATES") + roff(kDates) + "\n";
  text += section("HEADINGS OF A PLAN") + words(WordKind::Heading);
  text += section("KEYS OF A PLAN") + words(WordKind::Key);
  text += section("JOBS") + words(WordKind::Job);
  text += section("FINDINGS") + words(WordKind::Finding);
  text += section("OTHER WORDS") + words(WordKind::Term);
  text += section("EXIT STATUS") + exits();
  text += section("ENVIRONMENT") + environment();
  text += section("FILES") + files();
  return text;
}

}  // namespace trug::app
