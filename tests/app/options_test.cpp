// SPDX-License-Identifier: MIT
#include "app/options.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>
#include <fstream>
#include <iterator>
#include <sstream>

#include "app/environment.h"

namespace trug::app {
namespace {

struct Parsed {
  ParsedOptions result;
  std::string out, err;
};

Parsed parse(const std::vector<std::string>& arguments) {
  std::ostringstream out, err;
  Parsed parsed{parse_options(arguments, out, err), {}, {}};
  parsed.out = out.str();
  parsed.err = err.str();
  return parsed;
}

Options options(const std::vector<std::string>& arguments) {
  const Parsed parsed = parse(arguments);
  EXPECT_EQ(parsed.err, "");
  EXPECT_TRUE(parsed.result.options);
  return parsed.result.options.value_or(Options{});
}

std::string readme() {
  std::ifstream file(TRUG_SOURCE_DIR "/README.md");
  return {std::istreambuf_iterator<char>(file), {}};
}

// A word of its own: "--only", but not within "--only-this".
bool mentions(const std::string& text, const std::string& word) {
  const auto is_word = [](char c) {
    return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '-';
  };
  for (std::size_t at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) {
    const std::size_t end = at + word.size();
    if ((at == 0 || !is_word(text[at - 1])) && (end == text.size() || !is_word(text[end])))
      return true;
  }
  return false;
}

TEST(Options, TheReadmeTellsOfEveryCommandAndOption) {
  const std::string text = readme();
  ASSERT_NE(text, "") << "there is no README.md";
  const std::vector<std::string> names = all_option_names();
  ASSERT_GE(names.size(), 20u);
  for (const std::string& name : names) {
    const std::string word = name.starts_with("-") ? name : "trug " + name;
    EXPECT_TRUE(mentions(text, word)) << "README.md does not mention " << word;
  }
}

TEST(Options, NamesHoldTheCommandsAndTheirOptions) {
  const std::vector<std::string> names = all_option_names();
  for (const std::string name : {"check", "jobs", "calendar", "crop", "--today", "--only",
                                 "--output", "--json", "--crops", "--strict", "--plain"}) {
    EXPECT_NE(std::ranges::find(names, name), names.end()) << name;
  }
}

TEST(Options, ReadsJobs) {
  const Options o = options({"jobs", "a.toml", "--from", "2027-03-01", "--to=2027-03-31", "--only",
                             "sow", "--only", "first-cut", "--today", "2027-02-14", "--crops",
                             "mine", "--strict", "--plain", "-v", "--csv"});
  EXPECT_EQ(o.command, "jobs");
  EXPECT_EQ(o.plans, std::vector<std::string>{"a.toml"});
  EXPECT_EQ(o.from, parse_iso("2027-03-01"));
  EXPECT_EQ(o.to, parse_iso("2027-03-31"));
  EXPECT_EQ(o.only, (std::vector{work::JobKind::Sow, work::JobKind::FirstCut}));
  EXPECT_EQ(o.today, parse_iso("2027-02-14"));
  EXPECT_EQ(o.crop_folders, std::vector<std::string>{"mine"});
  EXPECT_TRUE(o.strict && o.plain && o.verbose && o.csv);
  EXPECT_FALSE(o.json || o.full);
}

TEST(Options, ReadsCalendar) {
  const Options o = options({"calendar", "a.toml", "-o", "a.ics", "--for", "feed", "--split", "bed",
                             "--dry-run", "--lost", "--force", "--json"});
  EXPECT_EQ(o.output, "a.ics");
  EXPECT_EQ(o.split, "bed");
  EXPECT_TRUE(o.feed && o.dry_run && o.lost && o.force && o.json);
  EXPECT_FALSE(options({"calendar", "a.toml", "-o", "a.ics"}).feed);
  EXPECT_FALSE(options({"calendar", "a.toml", "-o", "a.ics", "--for", "import"}).feed);
}

// Nothing of one command line is left in the next.
TEST(Options, EachCommandLineBeginsAnew) {
  options({"jobs", "a.toml", "--only", "sow"});
  EXPECT_TRUE(options({"jobs", "a.toml"}).only.empty());
}

TEST(Options, HelpIsNoError) {
  for (const std::vector<std::string>& words :
       {std::vector<std::string>{"--help"}, {"help"}, {"jobs", "--help"}, {"calendar", "-h"}}) {
    const Parsed parsed = parse(words);
    EXPECT_FALSE(parsed.result.options);
    EXPECT_EQ(parsed.result.exit, kDone);
    EXPECT_EQ(parsed.err, "");
    EXPECT_NE(parsed.out.find("Example:"), std::string::npos) << parsed.out;
  }
}

}  // namespace
}  // namespace trug::app
