// SPDX-License-Identifier: MIT
// Completions for bash, zsh and fish, made of the table of commands.
#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "app/command_facts.h"
#include "app/manual.h"
#include "show/glossary.h"

namespace trug::app {
namespace {

// What may be put where a value or an argument stands.
enum class Filling { Nothing, File, Plan, Folder, Words };

struct Fill {
  Filling kind = Filling::Nothing;
  std::vector<std::string> words;
};

std::string hyphenated(std::string_view text) {
  std::string word(text);
  std::ranges::replace(word, ' ', '-');
  return word;
}

std::vector<std::string> help_words() {
  std::vector<std::string> words;
  for (const CommandFacts& command : command_facts()) {
    if (!command.name.empty()) words.push_back(command.name);
  }
  for (const show::GlossaryEntry& entry : show::glossary()) {
    // Quotes are the shell's own.
    if (entry.word.find('\'') == std::string_view::npos) words.push_back(hyphenated(entry.word));
  }
  std::ranges::sort(words);
  words.erase(std::unique(words.begin(), words.end()), words.end());
  return words;
}

Fill fill_of(const OptionFacts& option, const std::vector<std::string>& crops) {
  if (option.value == "FILE") return {Filling::File, {}};
  if (option.value == "DIR") return {Filling::Folder, {}};
  if (option.value == "DATE") return {Filling::Words, {"today", "tomorrow"}};
  if (!option.value.empty()) {
    const std::vector<std::string> words = value_words(option.value);
    return {words.empty() ? Filling::Nothing : Filling::Words, words};
  }
  if (option.name == "plan" || option.name == "plans") return {Filling::Plan, {}};
  if (option.name == "record") return {Filling::File, {}};
  if (option.name == "word") return {Filling::Words, help_words()};
  if (option.name != "name" && option.name != "crop") return {};
  std::vector<std::string> names;
  for (const std::string& crop : crops) names.push_back(hyphenated(crop));
  return {Filling::Words, names};
}

std::string joined(const std::vector<std::string>& words, std::string_view between = " ") {
  std::string text;
  for (const std::string& word : words)
    text += fmt::format("{}{}", text.empty() ? "" : between, word);
  return text;
}

std::vector<std::string> command_names(const std::vector<CommandFacts>& commands) {
  std::vector<std::string> names;
  for (const CommandFacts& command : commands) {
    if (!command.name.empty()) names.push_back(command.name);
  }
  return names;
}

// "--output|-o"
std::vector<std::string> spellings(const OptionFacts& option) {
  std::vector<std::string> names{option.name};
  if (!option.short_name.empty()) names.push_back(option.short_name);
  return names;
}

std::string option_words(const CommandFacts& command) {
  std::vector<std::string> words;
  for (const OptionFacts& option : command.options) {
    for (std::string& name : spellings(option)) words.push_back(std::move(name));
  }
  return joined(words);
}

// The words of bash that fill COMPREPLY.
std::string bash_fill(const Fill& fill) {
  switch (fill.kind) {
    case Filling::File:
      return "COMPREPLY=($(compgen -f -- \"$cur\"))";
    case Filling::Plan:
      return "COMPREPLY=($(compgen -f -X '!*.toml' -- \"$cur\") $(compgen -d -- \"$cur\"))";
    case Filling::Folder:
      return "COMPREPLY=($(compgen -d -- \"$cur\"))";
    case Filling::Words:
      return fmt::format("COMPREPLY=($(compgen -W '{}' -- \"$cur\"))", joined(fill.words));
    case Filling::Nothing:
      break;
  }
  return "COMPREPLY=()";
}

std::string bash_command(const CommandFacts& command, const std::vector<std::string>& crops) {
  std::string text =
      fmt::format("    {})\n      case $prev in\n", command.name.empty() ? "''" : command.name);
  for (const OptionFacts& option : command.options) {
    if (option.value.empty()) continue;
    text += fmt::format("        {}) {}; return ;;\n", joined(spellings(option), "|"),
                        bash_fill(fill_of(option, crops)));
  }
  text += "      esac\n      if [[ $cur == -* ]]; then\n";
  text +=
      fmt::format("        COMPREPLY=($(compgen -W '{}' -- \"$cur\"))\n        return\n      fi\n",
                  option_words(command));
  // Later arguments are told from the first by what stands before them, which only the program
  // knows: the first is filled, and the crop of `why`.
  if (!command.arguments.empty()) {
    text += "      " + bash_fill(fill_of(command.arguments.front(), crops)) + "\n";
  }
  return text + "      ;;\n";
}

std::string zsh_escaped(std::string_view text) {
  std::string result;
  for (const char c : text) {
    if (c == '\'') {
      result += "'\\''";
    } else {
      if (c == '[' || c == ']' || c == ':' || c == '\\') result += '\\';
      result += c;
    }
  }
  return result;
}

std::string zsh_action(const Fill& fill) {
  switch (fill.kind) {
    case Filling::File:
      return "_files";
    case Filling::Plan:
      return "_files -g \"*.toml\"";
    case Filling::Folder:
      return "_files -/";
    case Filling::Words:
      return "(" + zsh_escaped(joined(fill.words)) + ")";
    case Filling::Nothing:
      break;
  }
  return " ";
}

std::string zsh_option(const OptionFacts& option, const std::vector<std::string>& crops) {
  const std::string value = option.value.empty() ? ""
                                                 : fmt::format(":{}:{}", zsh_escaped(option.value),
                                                               zsh_action(fill_of(option, crops)));
  std::string text;
  for (const std::string& name : spellings(option)) {
    const bool is_long = name.starts_with("--");
    const std::string_view after = option.value.empty() ? "" : is_long ? "=" : "+";
    text += fmt::format("        '{}{}{}[{}]{}' \\\n", option.repeats ? "*" : "", name, after,
                        zsh_escaped(option.help), value);
  }
  return text;
}

std::string zsh_command(const CommandFacts& command, const std::vector<std::string>& crops) {
  std::string text = fmt::format("    {})\n      _arguments -s \\\n", command.name);
  for (const OptionFacts& option : command.options) text += zsh_option(option, crops);
  for (std::size_t i = 0; i < command.arguments.size(); ++i) {
    const OptionFacts& argument = command.arguments[i];
    const std::string place = argument.repeats ? "*" : std::to_string(i + 1);
    text += fmt::format("        '{}:{}:{}' \\\n", place, zsh_escaped(argument.name),
                        zsh_action(fill_of(argument, crops)));
  }
  return text + "        && return\n      ;;\n";
}

std::string fish_escaped(std::string_view text) {
  std::string result;
  for (const char c : text) {
    if (c == '\'' || c == '\\') result += '\\';
    result += c;
  }
  return result;
}

std::string fish_fill(const Fill& fill) {
  switch (fill.kind) {
    case Filling::File:
      return " -r -F";
    case Filling::Plan:
      // Folders, and files that may be plans.
      return R"fish( -k -a '(__fish_complete_path (commandline -ct) | )fish"
             R"fish(string match -r "^.*(?:/|\.toml)(?=\t|\$)")')fish";
    case Filling::Folder:
      return " -x -a '(__fish_complete_directories)'";
    case Filling::Words:
      return fmt::format(" -x -a '{}'", fish_escaped(joined(fill.words)));
    case Filling::Nothing:
      break;
  }
  return " -x";
}

std::string fish_command(const CommandFacts& command, const std::vector<std::string>& crops) {
  const std::string when =
      command.name.empty()
          ? "complete -c trug -n __fish_use_subcommand"
          : "complete -c trug -n '__fish_seen_subcommand_from " + command.name + "'";
  std::string text;
  for (const OptionFacts& option : command.options) {
    text += fmt::format("{} -l {}", when, option.name.substr(2));
    if (!option.short_name.empty()) text += " -s " + option.short_name.substr(1);
    if (!option.value.empty()) text += fish_fill(fill_of(option, crops));
    text += fmt::format(" -d '{}'\n", fish_escaped(option.help));
  }
  for (const OptionFacts& argument : command.arguments) {
    const Fill fill = fill_of(argument, crops);
    if (fill.kind != Filling::Nothing) text += when + fish_fill(fill) + "\n";
  }
  return text;
}

}  // namespace

std::string bash_completion(const std::vector<std::string>& crops) {
  const std::vector<CommandFacts> commands = command_facts();
  std::string text =
      "# Completion of trug for bash, made of its table of commands.\n"
      "_trug() {\n"
      "  local cur=${COMP_WORDS[COMP_CWORD]} prev=${COMP_WORDS[COMP_CWORD-1]} command='' word\n"
      "  local IFS=$' \\t\\n'\n"
      "  # \"--color=al\" comes in three words.\n"
      "  if [[ $cur == = ]]; then cur=''\n"
      "  elif [[ $prev == = ]]; then prev=${COMP_WORDS[COMP_CWORD-2]}; fi\n"
      "  for word in \"${COMP_WORDS[@]:1:COMP_CWORD-1}\"; do\n"
      "    case $word in\n";
  const std::vector<std::string> names = command_names(commands);
  text += fmt::format("      {}) command=$word; break ;;\n    esac\n  done\n  case $command in\n",
                      joined(names, "|"));
  for (const CommandFacts& command : commands) text += bash_command(command, crops);
  text += "  esac\n";
  text += fmt::format(
      "  if [[ -z $command && $cur != -* ]]; then\n"
      "    COMPREPLY=($(compgen -W '{}' -- \"$cur\"))\n  fi\n}}\n",
      joined(names));
  return text + "complete -o filenames -F _trug trug\n";
}

std::string zsh_completion(const std::vector<std::string>& crops) {
  const std::vector<CommandFacts> commands = command_facts();
  std::string text =
      "#compdef trug\n"
      "# Completion of trug for zsh, made of its table of commands.\n"
      "_trug() {\n"
      "  local context state line\n"
      "  typeset -A opt_args\n"
      "  local -a commands=(\n";
  for (const CommandFacts& command : commands) {
    if (!command.name.empty()) {
      text += fmt::format("    '{}:{}'\n", command.name, zsh_escaped(command.help));
    }
  }
  text += "  )\n  _arguments -C -s \\\n";
  for (const OptionFacts& option : commands.front().options) text += zsh_option(option, crops);
  text +=
      "        '1:command:->command' '*::argument:->argument' && return\n"
      "  case $state in\n"
      "    command) _describe command commands; return ;;\n"
      "  esac\n"
      "  case $words[1] in\n";
  for (const CommandFacts& command : commands) {
    if (!command.name.empty()) text += zsh_command(command, crops);
  }
  return text + "  esac\n}\n_trug \"$@\"\n";
}

std::string fish_completion(const std::vector<std::string>& crops) {
  const std::vector<CommandFacts> commands = command_facts();
  std::string text =
      "# Completion of trug for fish, made of its table of commands.\n"
      "complete -c trug -f\n";
  for (const CommandFacts& command : commands) {
    if (!command.name.empty()) {
      text += fmt::format("complete -c trug -n __fish_use_subcommand -a {} -d '{}'\n", command.name,
                          fish_escaped(command.help));
    }
  }
  for (const CommandFacts& command : commands) text += fish_command(command, crops);
  return text;
}

}  // namespace trug::app
