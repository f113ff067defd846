// SPDX-License-Identifier: MIT
#include "app/terminal.h"

#include <gtest/gtest.h>

#include <map>

namespace trug::app {
namespace {

using Variables = std::map<std::string, std::string>;

Terminal with(bool is_terminal, std::optional<int> columns, const Variables& variables) {
  return terminal({is_terminal, columns, [&variables](const char* name) {
                     const auto found = variables.find(name);
                     return found == variables.end() ? std::nullopt : std::optional(found->second);
                   }});
}

// no-color.org: NO_COLOR counts when it is set and not empty. bixense.com/clicolors: CLICOLOR=0
// means no colour, CLICOLOR_FORCE other than 0 colour even where there is no terminal.
TEST(Terminal, IsColouredWhereItMayBe) {
  const Variables plain{{"TERM", "xterm"}};
  const struct {
    bool is_terminal;
    Variables variables;
    bool expected;
  } rows[] = {
      {true, {{"TERM", "xterm"}}, true},
      {false, {{"TERM", "xterm"}}, false},
      {true, {}, false},
      {true, {{"TERM", "dumb"}}, false},
      {true, {{"TERM", "xterm"}, {"NO_COLOR", "1"}}, false},
      {true, {{"TERM", "xterm"}, {"NO_COLOR", ""}}, true},
      {true, {{"TERM", "xterm"}, {"CLICOLOR", "0"}}, false},
      {true, {{"TERM", "xterm"}, {"CLICOLOR", "1"}}, true},
      {false, {{"TERM", "xterm"}, {"CLICOLOR", "1"}}, false},
      {false, {{"CLICOLOR_FORCE", "1"}}, true},
      {false, {{"CLICOLOR_FORCE", "0"}}, false},
      {true, {{"TERM", "dumb"}, {"CLICOLOR_FORCE", "1"}}, true},
      {true, {{"TERM", "xterm"}, {"CLICOLOR_FORCE", "1"}, {"NO_COLOR", "1"}}, false},
  };
  for (const auto& row : rows) {
    std::string name = row.is_terminal ? "terminal" : "pipe";
    for (const auto& [key, value] : row.variables) name += " " + key + "=" + value;
    SCOPED_TRACE(name);
    EXPECT_EQ(with(row.is_terminal, 80, row.variables).colour, row.expected);
  }
}

TEST(Terminal, IsAsWideAsItsUserSays) {
  const struct {
    const char* variable;  // COLUMNS; null: not set
    bool is_terminal;
    std::optional<int> columns;
    int expected;
  } rows[] = {
      {nullptr, false, std::nullopt, 100},
      {nullptr, true, 80, 80},
      {nullptr, true, 45, 45},
      {nullptr, true, 200, 200},
      {nullptr, true, {}, 100},
      {nullptr, true, 10, 30},
      {nullptr, false, 80, 100},
      {"40", true, 80, 40},
      {"60", false, {}, 60},
      {"1", true, 80, 30},
      {"0", true, 80, 80},
      {"-5", true, 80, 80},
      {"wide", true, 80, 80},
      {"", true, 80, 80},
      {"80x24", true, 90, 90},
      {"99999999999999", true, 90, 90},
  };
  for (const auto& row : rows) {
    SCOPED_TRACE(row.variable ? row.variable : "not set");
    Variables variables;
    if (row.variable) variables["COLUMNS"] = row.variable;
    EXPECT_EQ(with(row.is_terminal, row.columns, variables).width, row.expected);
  }
}

}  // namespace
}  // namespace trug::app
