// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <string>
#include <string_view>
#include <vector>

#include "app/commands.h"
#include "app/key_homes.h"
#include "app/small_plan.h"
#include "base/text.h"
#include "show/glossary.h"

namespace trug::app {
namespace {

constexpr std::size_t kLargestPlan = 1 << 20;

std::string_view kind_words(show::WordKind kind) {
  switch (kind) {
    case show::WordKind::Key:
      return "a key of the plan";
    case show::WordKind::Heading:
      return "a heading of the plan";
    case show::WordKind::Job:
      return "a job";
    case show::WordKind::Finding:
      return "a finding";
    case show::WordKind::Term:
      break;
  }
  return "a word";
}

// "length_m, length_cm, length_ft or length_in: a key of the plan, under [[bed]]".
std::string title(const show::GlossaryEntry& entry) {
  if (entry.kind != show::WordKind::Key)
    return fmt::format("{}: {}", entry.word, kind_words(entry.kind));
  return fmt::format("{}: {}, {}", show::with_units(entry.word), kind_words(entry.kind),
                     homes_of(entry));
}

std::string entry_text(const show::GlossaryEntry& entry, int width) {
  std::string text = title(entry) + "\n";
  for (const std::string& line : wrapped(told(entry), width - 2)) text += "  " + line + "\n";
  return text;
}

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : " ") + word;
  return text;
}

// The plan in this folder, to be named in the hints; empty: none, or it cannot be told.
std::string plan_here(const Environment& environment) {
  for (const std::string& name :
       environment.files.list(".", ".toml").value_or(std::vector<std::string>{})) {
    const FileBytes file = environment.files.read("./" + name, kLargestPlan);
    if (file.state == FileState::Read && file.bytes.find("flowering_year") != std::string::npos)
      return name;
  }
  return "";
}

}  // namespace

int run_help(const Options& options, const Environment& environment) {
  const std::string word = joined(options.words);
  std::string text = help_text(word);
  if (text.ends_with("\n\n")) text.pop_back();
  if (!word.empty()) {
    for (const show::GlossaryEntry& entry : show::find_words(word)) {
      text += (text.empty() ? "" : "\n") + entry_text(entry, environment.width);
    }
  }
  if (text.empty()) {
    const std::string near = show::nearest_word(word);
    environment.err << fmt::format(
        "error: '{}' is no word of trug's\n  hint: {}\n", word,
        near.empty() ? "trug help lists the commands, trug crop the crops; man trug has all words"
                     : fmt::format("did you mean '{}'?", near));
    return kBadInput;
  }
  if (word == "plan") text += fmt::format("\nA small one:\n\n{}", kSmallPlan);
  environment.out << text;
  return kDone;
}

int run_nothing(const Environment& environment) {
  const std::string here = plan_here(environment);
  const std::string plan = here.empty() ? "garden.toml" : here;
  const std::string stem = plan.substr(0, plan.rfind('.'));
  environment.err
      << "trug reckons the year's jobs of a cut-flower bed and writes them as a calendar.\n\n"
      << (here.empty()
              ? "First a plan: trug start asks for place, beds and wish and writes one that keeps "
                "it.\n(Or write it yourself: trug help plan shows a small one.) Then:\n"
              : fmt::format("Here lies {}. Next:\n", here))
      << fmt::format("  trug check {0}\n  trug jobs {0}\n  trug calendar {0} -o {1}.ics\n\n", plan,
                     stem)
      << "trug help lists all commands; trug help WORD says what a word means.\n";
  return kBadInput;
}

}  // namespace trug::app
