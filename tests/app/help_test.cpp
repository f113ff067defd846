// SPDX-License-Identifier: MIT
// `trug help`, `trug` alone, and the one table of words.
#include <gtest/gtest.h>

#include <algorithm>
#include <set>
#include <sstream>

#include "app/environment.h"
#include "app/key_homes.h"
#include "app/small_plan.h"
#include "ask/findings.h"
#include "read/plan_reader.h"
#include "read/sheet_library.h"
#include "show/glossary.h"
#include "work/jobs.h"

namespace trug::app {
namespace {

using show::WordKind;

struct Ran {
  int exit = 0;
  std::string out, err;
};

Ran run_trug(const std::vector<std::string>& words, std::map<std::string, std::string> files = {}) {
  const MemoryFiles memory(std::move(files));
  std::ostringstream out, err;
  const Environment environment{
      .files = memory, .out = out, .err = err, .today = make_date(2026, 11, 25)};
  Ran result;
  result.exit = run(words, environment);
  result.out = out.str();
  result.err = err.str();
  return result;
}

bool knows(std::string_view word, WordKind kind) {
  return std::ranges::any_of(show::find_words(word), [kind](const show::GlossaryEntry& entry) {
    return entry.kind == kind;
  });
}

TEST(Glossary, KnowsEveryKeyAndHeadingOfAPlan) {
  for (const read::KeyHome& home : read::plan_keys()) {
    EXPECT_TRUE(knows(home.key, WordKind::Key) || knows(home.key, WordKind::Heading)) << home.key;
    if (home.heading.starts_with('[')) {
      EXPECT_TRUE(knows(home.heading, WordKind::Heading)) << home.heading;
    }
  }
}

TEST(Glossary, KnowsEveryJob) {
  for (const work::JobTrait& kind : work::kTraits) {
    EXPECT_TRUE(knows(kind.word, WordKind::Job)) << kind.word;
    EXPECT_TRUE(knows(kind.words, WordKind::Job)) << kind.words;
  }
}

TEST(Glossary, KnowsEveryFindingAndRank) {
  for (const std::string_view word : ask::all_finding_codes()) {
    EXPECT_TRUE(knows(word, WordKind::Finding)) << word;
  }
  for (const ask::Rank rank : {ask::Rank::Broken, ask::Rank::Short, ask::Rank::Mild}) {
    EXPECT_TRUE(knows(ask::to_string(rank), WordKind::Term)) << ask::to_string(rank);
  }
}

// The words that stood on the screen and were explained nowhere.
TEST(Glossary, KnowsTheWordsOfTheScreen) {
  for (const char* word : {"not proved best", "vase", "usual time", "stretch", "way", "still right",
                           "remedy", "assumed", "moved", "reworded", "cancelled"}) {
    EXPECT_FALSE(show::find_words(word).empty()) << word;
  }
}

// Nothing in the table that is nowhere else, and nothing twice.
TEST(Glossary, HoldsNoKeyJobOrFindingThatIsNone) {
  std::set<std::pair<std::string_view, WordKind>> seen;
  for (const show::GlossaryEntry& entry : show::glossary()) {
    EXPECT_TRUE(seen.emplace(entry.word, entry.kind).second) << entry.word;
    EXPECT_TRUE(entry.text.ends_with('.')) << entry.text;
    if (entry.kind == WordKind::Key) {
      EXPECT_NE(homes_of(entry), "") << entry.word;
    }
    if (entry.kind == WordKind::Job) {
      EXPECT_TRUE(work::parse_job_kind(entry.word)) << entry.word;
    }
    if (entry.kind != WordKind::Finding) continue;
    const auto codes = ask::all_finding_codes();
    EXPECT_NE(std::ranges::find(codes, entry.word), codes.end()) << entry.word;
  }
}

TEST(Help, TellsOfACommandAndOfWords) {
  const struct {
    std::vector<std::string> words;
    const char* expected;  // somewhere in it
  } rows[] = {
      {{"help"}, "Commands:"},
      {{"help", "jobs"}, "Usage: trug jobs"},
      {{"help", "length_cm"},
       "length_m, length_cm, length_ft or length_in: a key of the plan, under [[bed]] or "
       "[[bed.stretch]]\n  Of a bed"},
      {{"help", "prick", "out"}, "prick-out: a job\n  Move seedlings"},
      {{"help", "SHORT-WEEKS"}, "short-weeks: a finding\n"},
      {{"help", "[[bed.stretch]]"}, "Under it stand crops and length_m."},
      {{"help", "garden"}, "a key of the plan, before the first heading\n"},
      {{"help", "frost"}, "Usage: trug frost"},
      {{"help", "plan"}, "flowering_year = 2027\n"},
  };
  for (const auto& row : rows) {
    const Ran result = run_trug(row.words);
    EXPECT_EQ(result.exit, kDone);
    EXPECT_EQ(result.err, "");
    EXPECT_NE(result.out.find(row.expected), std::string::npos) << row.expected << "\n"
                                                                << result.out;
  }
}

TEST(Help, NamesTheNearestOfAWordItDoesNotKnow) {
  const Ran result = run_trug({"help", "strech"});
  EXPECT_EQ(result.exit, kBadInput);
  EXPECT_EQ(result.err, "error: 'strech' is no word of trug's\n  hint: did you mean 'stretch'?\n");
  EXPECT_EQ(run_trug({"help", "xylophone"}).err,
            "error: 'xylophone' is no word of trug's\n  hint: trug help lists the commands, trug "
            "crop the crops; man trug has all words\n");
}

TEST(Help, WithoutAWordSaysWhatToDoNext) {
  const Ran nothing = run_trug({});
  EXPECT_EQ(nothing.exit, kBadInput);
  EXPECT_NE(nothing.err.find("trug help plan shows a small one"), std::string::npos) << nothing.err;
  const Ran plan =
      run_trug({}, {{"./other.toml", "x = 1\n"}, {"./west.toml", "flowering_year = 2027\n"}});
  EXPECT_NE(plan.err.find("Here lies west.toml. Next:\n  trug check west.toml\n"),
            std::string::npos)
      << plan.err;
}

TEST(Help, ShowsAPlanThatReads) {
  const MemoryFiles files({{"plan.toml", std::string(kSmallPlan)}});
  read::SheetLibrary sheets;
  Diagnostics diagnostics;
  EXPECT_TRUE(read::read_plan(files, "plan.toml", sheets, diagnostics));
  EXPECT_EQ(diagnostics.render(), "");
}

}  // namespace
}  // namespace trug::app
