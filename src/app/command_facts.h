// SPDX-License-Identifier: MIT
// The table of commands and options as plain values, for the documents made of it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace trug::app {

struct OptionFacts {
  std::string name;        // "--output"; an argument: "plan"
  std::string short_name;  // "-o", or empty
  std::string value;       // "FILE"; empty for a flag and for arguments
  std::string help;
  std::string usual;  // what it is when it is not given, or empty
  bool required = false;
  bool repeats = false;
};

struct CommandFacts {
  std::string name;
  std::string help;
  std::string example;  // "trug check garden.toml"
  std::vector<OptionFacts> arguments;
  std::vector<OptionFacts> options;
};

// Every command, in the order of the help. The first, without a name, holds the options that stand
// before any command.
std::vector<CommandFacts> command_facts();

// What a value may be: "import" and "feed" of "USE". Empty: any text.
std::vector<std::string> value_words(std::string_view value);

}  // namespace trug::app
