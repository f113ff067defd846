// SPDX-License-Identifier: MIT
#include "app/command_facts.h"

#include <algorithm>
#include <cstddef>

#include "app/command_line.h"
#include "work/jobs.h"

namespace trug::app {
namespace {

// What the help calls an option: CLI11 keeps its names without their dashes.
OptionFacts facts_of(const CLI::Option& option) {
  OptionFacts facts;
  if (option.get_positional()) {
    facts.name = option.get_name(true);
  } else {
    facts.name = "--" + option.get_lnames().front();
    if (!option.get_snames().empty()) facts.short_name = "-" + option.get_snames().front();
    if (option.get_expected_max() > 0) facts.value = option.get_type_name();
  }
  facts.help = option.get_description();
  facts.usual = option.get_default_str();
  facts.required = option.get_required();
  facts.repeats = option.get_expected_max() > 1;
  return facts;
}

CommandFacts facts_of(const CLI::App& app) {
  CommandFacts facts{app.get_name(), app.get_description(), {}, {}, {}};
  const std::string footer = app.get_footer();
  const std::size_t example = footer.find("  trug ");
  if (example != std::string::npos) {
    facts.example = footer.substr(example + 2, footer.find('\n', example) - example - 2);
  }
  for (const CLI::Option* option : app.get_options()) {
    (option->get_positional() ? facts.arguments : facts.options).push_back(facts_of(*option));
  }
  return facts;
}

}  // namespace

std::vector<CommandFacts> command_facts() {
  const CommandLine line;
  std::vector<CommandFacts> facts{facts_of(line.app())};
  facts.front().name.clear();
  for (const CLI::App* command : line.commands()) facts.push_back(facts_of(*command));
  return facts;
}

std::vector<std::string> value_words(std::string_view value) {
  if (value == "USE") return {"import", "feed"};
  if (value == "BY") return {"bed", "person", "kind"};
  if (value == "EVENT") return {"job", "day"};
  if (value == "UNIT") return {"c", "f", "tenths"};
  if (value == "PAPER") return {"a4", "a3"};
  if (value == "WHEN") return {"auto", "always", "never"};
  std::vector<std::string> words;
  if (value == "ROLE") {
    for (const auto& role : kRoles) words.emplace_back(role.word);
    return words;
  }
  if (value != "KIND") return words;
  for (const work::JobTrait& kind : work::kTraits) words.emplace_back(kind.word);
  for (const auto& group : work::kJobGroups) words.emplace_back(group.word);
  std::ranges::sort(words);
  return words;
}

}  // namespace trug::app
