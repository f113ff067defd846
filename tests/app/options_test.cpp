// SPDX-License-Identifier: MIT
#include "app/options.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>
#include <fstream>
#include <iterator>
#include <regex>
#include <sstream>

#include "app/command_facts.h"
#include "app/environment.h"
#include "app/manual.h"

namespace trug::app {
namespace {

const Date kToday = make_date(2026, 11, 25);  // a Wednesday

struct Parsed {
  ParsedOptions result;
  std::string out, err;
};

Parsed parse(const std::vector<std::string>& arguments) {
  std::ostringstream out, err;
  Parsed parsed{parse_options(arguments, kToday, out, err), {}, {}};
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

// Every document names every command and option of the one table.
TEST(Options, AreInReadmeManualAndCompletions) {
  const std::vector<std::string> crops{"zinnia"};
  // The manual page escapes its hyphens; fish writes long options without theirs.
  std::string manual = std::regex_replace(manual_page(), std::regex(R"(\\f[BIR])"), " ");
  std::erase(manual, '\\');
  const struct {
    const char* name;
    std::string text;
    std::string option;  // before the name of an option
  } documents[] = {{"README.md", readme(), "--"},
                   {"manual page", manual, "--"},
                   {"bash", bash_completion(crops), "--"},
                   {"zsh", zsh_completion(crops), "--"},
                   {"fish", fish_completion(crops), "-l "}};
  const std::vector<CommandFacts> commands = command_facts();
  ASSERT_GE(commands.size(), 10u);
  for (const auto& document : documents) {
    ASSERT_NE(document.text, "") << document.name;
    for (const CommandFacts& command : commands) {
      EXPECT_TRUE(command.name.empty() || mentions(document.text, command.name))
          << document.name << " does not mention " << command.name;
      for (const OptionFacts& option : command.options) {
        const std::string word = document.option + option.name.substr(2);
        EXPECT_TRUE(mentions(document.text, word)) << document.name << " does not mention " << word;
      }
    }
  }
}

TEST(Options, TableHoldsTheCommandsAndTheirOptions) {
  std::string names;
  for (const CommandFacts& command : command_facts()) {
    names += "|" + command.name + " ";
    for (const OptionFacts& option : command.arguments) names += option.name + " ";
    for (const OptionFacts& option : command.options) names += option.name + option.value + " ";
  }
  for (const char* word :
       {"|check plan ", "|why plan bed crop ", "|help word ", "--todayDATE ", "--onlyKIND ",
        "--outputFILE ", "--json ", "--cropsDIR ", "--strict ", "--plain ", "--colorWHEN "}) {
    EXPECT_NE(names.find(word), std::string::npos) << word << " in " << names;
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
  EXPECT_TRUE(o.strict && o.plain && o.verbose);
  EXPECT_EQ(o.format, show::Format::Csv);
  EXPECT_FALSE(o.full);
}

TEST(Options, TakesDaysAsPeopleWriteThem) {
  const struct {
    const char* text;
    const char* from;
    const char* to;  // counted from --from
  } rows[] = {
      {"2027-05-14", "2027-05-14", "2027-05-14"},  {"today", "2026-11-25", "2026-11-25"},
      {"tomorrow", "2026-11-26", "2026-11-26"},    {"Saturday", "2026-11-28", "2026-11-28"},
      {"28 November", "2026-11-28", "2026-11-28"}, {"1 November", "2026-11-01", "2026-11-01"},
      {"5th May", "2027-05-05", "2027-05-05"},     {"May 5th", "2027-05-05", "2027-05-05"},
      {"1 October", "2027-10-01", "2027-10-01"},
  };
  for (const auto& row : rows) {
    SCOPED_TRACE(row.text);
    EXPECT_EQ(options({"jobs", "a.toml", "--from", row.text}).from, parse_iso(row.from));
    EXPECT_EQ(options({"jobs", "a.toml", "--from", row.text, "--to", row.text}).to,
              parse_iso(row.to));
  }
  const Options o = options({"jobs", "a.toml", "--from", "1 March", "--to", "31 January"});
  EXPECT_EQ(o.from, parse_iso("2027-03-01"));
  EXPECT_EQ(o.to, parse_iso("2028-01-31"));
}

// --today stands for the clock: what is told relative to today is told relative to it.
TEST(Options, CountDaysFromTheDayThatIsGiven) {
  const Options o = options({"jobs", "a.toml", "--from", "tomorrow", "--today", "1 March"});
  EXPECT_EQ(o.today, parse_iso("2027-03-01"));
  EXPECT_EQ(o.from, parse_iso("2027-03-02"));
}

TEST(Options, TakeKindsOfJobsByAPartOfTheirWord) {
  using enum work::JobKind;
  const struct {
    const char* text;
    std::vector<work::JobKind> kinds;
  } rows[] = {
      {"sow", {Sow}},
      {"plant", {Plant}},
      {"order", {OrderSeed, OrderBulbs, OrderTubers, OrderPlants}},
      {"cut", {FirstCut, CutBack}},
      {"harden", {HardenOff}},
      {"sow,first-cut", {Sow, FirstCut}},
      {"buying", {OrderSeed, OrderBulbs, OrderTubers, OrderPlants}},
  };
  for (const auto& row : rows) {
    EXPECT_EQ(options({"jobs", "a.toml", "--only", row.text}).only, row.kinds) << row.text;
  }
}

TEST(Options, AreUnderstoodBeforeTheCommandWhereAllHaveThem) {
  const Options o = options({"--verbose", "--plain", "--color=never", "check", "a.toml"});
  EXPECT_TRUE(o.verbose && o.plain);
  EXPECT_EQ(o.colour, false);
  EXPECT_EQ(options({"check", "a.toml", "--color", "always"}).colour, true);
  EXPECT_FALSE(options({"check", "a.toml", "--colour", "auto"}).colour);
}

TEST(Options, TellWhatWouldBeRight) {
  const struct {
    std::vector<std::string> words;
    const char* expected;
  } rows[] = {
      {{"jobs", "a", "--from", "1.3.2027"},
       "error: --from: '1.3.2027': which is the day and which the month? write it as 2027-05-14, "
       "\"14 May\", today or Saturday\n  hint: trug jobs --help tells what it takes\n"},
      {{"jobs", "a", "--from", "30 February"},
       "error: --from: '30 February', a day that no calendar has; write it as 2027-05-14, "
       "\"14 May\", today or Saturday\n  hint: trug jobs --help tells what it takes\n"},
      {{"jobs", "a", "--from", "2027-03-31", "--to", "2027-03-01"},
       "error: --to: 1 March 2027 lies before --from, 31 March 2027\n"
       "  hint: trug jobs --help tells what it takes\n"},
      {{"jobs", "a", "--only", "grub"},
       "error: --only: 'grub' is no kind of job; there are buying, clear-and-feed, "
       "clearing, cut-back, cutting, dead-head, disbud, divide, first-cut, harden-off, "
       "let-die-down, lift, lift-and-store, look-at-stored, look-for-seedlings, "
       "order-bulbs, order-plants, order-seed, order-tubers, pick, pinch, plant, plant-out, "
       "planting, "
       "pot-on, pre-treat, prick-out, protect, prune, raising, replant, slugs, sow, "
       "support, tending, thin, uncover, watch-for-frost and water-in\n"
       "  hint: trug jobs --help tells what it takes\n"},
      {{"--today", "2027-01-01", "check", "a"},
       "error: '--today' comes after a command, as in: trug check --today\n"
       "  hint: trug check --help tells what it takes\n"},
      {{"../garden.toml"},
       "error: a plan comes after a command: trug check ../garden.toml\n"
       "  hint: trug --help lists the commands\n"},
      {{"check", "a", "--color", "red"},
       "error: --color: 'red' must be auto, always or never\n"
       "  hint: trug check --help tells what it takes\n"},
      {{"check", "a", "--strickt=1"},
       "error: there is no option '--strickt'; did you mean '--strict'?\n"
       "  hint: trug check --help tells what it takes\n"},
  };
  for (const auto& row : rows) {
    const Parsed parsed = parse(row.words);
    EXPECT_FALSE(parsed.result.options);
    EXPECT_EQ(parsed.result.exit, kBadInput);
    EXPECT_EQ(parsed.err, row.expected);
  }
}

TEST(Options, ReadsCalendar) {
  const Options o = options({"calendar", "a.toml", "-o", "a.ics", "--for", "feed", "--split", "bed",
                             "--dry-run", "--lost", "--force", "--json"});
  EXPECT_EQ(o.output, "a.ics");
  EXPECT_EQ(o.split, "bed");
  EXPECT_TRUE(o.feed && o.dry_run && o.lost && o.force);
  EXPECT_EQ(o.format, show::Format::Json);
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
       {std::vector<std::string>{"--help"}, {"-h"}, {"jobs", "--help"}, {"calendar", "-h"}}) {
    const Parsed parsed = parse(words);
    EXPECT_FALSE(parsed.result.options);
    EXPECT_EQ(parsed.result.exit, kDone);
    EXPECT_EQ(parsed.err, "");
    EXPECT_NE(parsed.out.find("Example:"), std::string::npos) << parsed.out;
  }
}

TEST(Options, TellTheVersion) {
  for (const char* word : {"-V", "--version"}) {
    const Parsed parsed = parse({word});
    EXPECT_EQ(parsed.result.exit, kDone);
    EXPECT_TRUE(parsed.out.starts_with("trug 0.")) << parsed.out;
  }
}

}  // namespace
}  // namespace trug::app
