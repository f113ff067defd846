// SPDX-License-Identifier: MIT
// Calendars split into files, and calendars of some kinds of job only: nothing of one is ever taken
// for another, and nothing is left behind.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include "program.h"

namespace trug::app {
namespace {

struct TestBed {
  std::string name;
  std::string person;  // empty: nobody
  std::string crop;
};

std::string plan(const std::vector<TestBed>& beds) {
  std::string text = R"(flowering_year = 2027
began = 2025-06-01
title = "Tannery yard"
garden = "5d1c9a70-3c0e-4f0e-8a39-0c6b1f6f2a11"
[place]
latitude = 52
last_frost = "12 May"
first_frost = "18 October"
frost_meaning = "garden"
)";
  if (beds.empty()) text += "[wish]\nfrom = \"10 May\"\nto = \"1 October\"\n";
  for (const TestBed& bed : beds) {
    text += fmt::format("[[bed]]\nname = \"{}\"\nlength_m = 2.7\nwidth_m = 1.1\n", bed.name);
    if (!bed.person.empty()) text += fmt::format("person = \"{}\"\n", bed.person);
    text += fmt::format("[[bed.stretch]]\nlength_m = 1.2\ncrops = [\"{}\"]\n", bed.crop);
  }
  return text;
}

class CalendarParts : public Program {
 protected:
  // `calendar plan.toml -o out.ics` and what follows.
  Answer calendar(const std::string& plan, std::vector<std::string> more = {}) const {
    write("plan.toml", plan);
    more.insert(more.begin(), {"calendar", "@plan.toml", "-o", "@out.ics"});
    return run(more);
  }
  int live(const std::string& name) const { return count_of("STATUS:CONFIRMED", read(name)); }
  int cancelled(const std::string& name) const { return count_of("STATUS:CANCELLED", read(name)); }
};

TEST_F(CalendarParts, NamesThatDifferInCaseOnlyAreOnePerson) {
  for (const auto& [one, other] : {std::pair{"Ilka", "ilka"}, std::pair{"Everyone", ""}}) {
    SCOPED_TRACE(one);
    const std::string two = plan({{"north", one, "cosmos"}, {"south", other, "cornflower"}});
    const std::string file = fmt::format("out-{}.ics", other[0] ? other : "everyone");
    EXPECT_EQ(calendar(two, {"--split", "person"}).exit, kDone);
    EXPECT_EQ(names(), (std::vector<std::string>{file, "out-orders.ics", "plan.toml"}));
    EXPECT_EQ(cancelled(file), 0);
    EXPECT_EQ(count_of("SUMMARY:Order", read(file)), 0);
    EXPECT_GT(count_of("SUMMARY:Cut cosmos", read(file)), 0);
    EXPECT_GT(count_of("SUMMARY:Cut cornflowers", read(file)), 0);
    const std::string before = read(file);
    EXPECT_NE(calendar(two, {"--split", "person"}).out.find("nothing changed"), std::string::npos);
    EXPECT_EQ(read(file), before);
    std::filesystem::remove(path(file));
  }
}

TEST_F(CalendarParts, TwoPartsOfOnePathAreRefusedBeforeAnythingIsWritten) {
  for (const char* force : {"--plain", "--force"}) {
    const Answer answer = calendar(plan({{"east bed", "", "cosmos"},
                                         {"west bed", "", "cosmos"},
                                         {"west-bed", "", "cornflower"}}),
                                   {"--split", "bed", force});
    EXPECT_EQ(answer.exit, kBadInput);
    EXPECT_EQ(answer.err,
              "error: 'west bed' and 'west-bed' would both be written to @out-west-bed.ics\n"
              "  hint: give one of them another name, or split another way\n");
    EXPECT_EQ(names(), std::vector<std::string>{"plan.toml"});
  }
}

TEST_F(CalendarParts, ANameTooLongForAFileIsRefusedBeforeAnythingIsWritten) {
  std::string flowers;
  for (int i = 0; i < 70; ++i) flowers += "\U0001F33B";
  const Answer answer = calendar(plan({{"east", "Ann", "cosmos"}, {"west", flowers, "cosmos"}}),
                                 {"--split", "person"});
  EXPECT_EQ(answer.exit, kBadInput);
  EXPECT_NE(answer.err.find("would have a name of 288 octets, more than 240"), std::string::npos)
      << answer.err;
  EXPECT_EQ(names(), std::vector<std::string>{"plan.toml"});
}

TEST_F(CalendarParts, APartThatIsNoMoreIsCancelledInItsFile) {
  const std::vector<TestBed> beds{{"north", "", "cosmos"}, {"south, low", "", "cornflower"}};
  calendar(plan(beds), {"--split", "bed"});
  const int jobs = live("out-south--low.ics");
  ASSERT_GT(jobs, 3);
  const std::string renamed = plan({{"north", "", "cosmos"}, {"south wall", "", "cornflower"}});
  const Answer dry = calendar(renamed, {"--split", "bed", "--dry-run"});
  EXPECT_NE(dry.out.find(
                fmt::format("@out-south--low.ics would hold {} events: {} cancelled", jobs, jobs)),
            std::string::npos)
      << dry.out;
  EXPECT_EQ(live("out-south--low.ics"), jobs);
  const Answer answer = calendar(renamed, {"--split", "bed"});
  EXPECT_EQ(answer.exit, kDone);
  EXPECT_EQ(cancelled("out-south--low.ics"), jobs);
  EXPECT_EQ(live("out-south--low.ics"), 0);
  EXPECT_EQ(live("out-south-wall.ics"), jobs);
  EXPECT_NE(answer.err.find("note: the plan has no jobs for 'south, low' any more: "
                            "@out-south--low.ics says so to the calendars that have it; delete it "
                            "once they have taken that up\n"),
            std::string::npos)
      << answer.err;
  // Said once.
  EXPECT_EQ(calendar(renamed, {"--split", "bed"}).err.find("note:"), std::string::npos);
  // The bed comes back.
  calendar(plan(beds), {"--split", "bed"});
  EXPECT_EQ(live("out-south--low.ics"), jobs);
}

TEST_F(CalendarParts, FilesOfOtherSplitsAndGardensAreLeftAlone) {
  const std::string before = plan({{"north", "Ann", "cosmos"}, {"south", "Ilka", "cornflower"}});
  for (const char* split : {"bed", "person", "kind"}) calendar(before, {"--split", split});
  calendar(before, {"--split", "bed", "--only", "sow"});  // refused: those are the beds' files
  write("out-notes.ics", "mine\n");
  std::string other = before;
  other.replace(other.find("5d1c"), 4, "0000");
  write("other.toml", other);
  run({"calendar", "@other.toml", "-o", "@out-of-town.ics"});
  std::map<std::string, std::string> files;
  for (const std::string& name : names()) files[name] = read(name);
  for (const char* split : {"bed", "person", "kind"}) {
    EXPECT_EQ(calendar(before, {"--split", split}).exit, kDone);
    for (const auto& [name, text] : files) EXPECT_EQ(read(name), text) << name << " " << split;
  }
  EXPECT_EQ(names().size(), files.size());
}

TEST_F(CalendarParts, ABedWithoutJobsAndAPlanWithoutThem) {
  calendar(plan({{"north", "", "cosmos"}, {"south", "", "cornflower"}}), {"--split", "bed"});
  std::string empty = plan({{"north", "", "cosmos"}, {"south", "", "cornflower"}});
  empty.erase(empty.find("crops = [\"cornflower\"]"));
  calendar(empty, {"--split", "bed"});
  EXPECT_EQ(live("out-south.ics"), 0);
  EXPECT_GT(cancelled("out-south.ics"), 0);
  EXPECT_GT(live("out-north.ics"), 0);
  // A feed leaves them out, and says that it has ended.
  std::filesystem::remove(path("out-south.ics"));
  std::filesystem::remove(path("out-north.ics"));
  calendar(plan({{"north", "", "cosmos"}}), {"--split", "bed", "--for", "feed"});
  calendar(plan({}), {"--split", "bed", "--for", "feed"});
  EXPECT_EQ(live("out-north.ics"), 1);
  EXPECT_NE(read("out-north.ics").find("SUMMARY:This calendar has ended"), std::string::npos);
  // Nothing to write is said.
  std::filesystem::remove(path("out-north.ics"));
  std::filesystem::remove(path("out-orders.ics"));
  const Answer answer = calendar(plan({}), {"--split", "bed"});
  EXPECT_EQ(answer.exit, kDone);
  EXPECT_TRUE(answer.err.starts_with("note: there are no jobs, so no file to split into\n"))
      << answer.err;
}

TEST_F(CalendarParts, OnlySomeKindsIsACalendarOfItsOwn) {
  const std::string garden = plan({{"north", "Ann", "cosmos"}, {"south", "", "cornflower"}});
  calendar(garden);
  const std::string full = read("out.ics");
  const Answer over = calendar(garden, {"--only", "sow"});
  EXPECT_EQ(over.exit, kRefused);
  EXPECT_EQ(read("out.ics"), full);
  EXPECT_EQ(over.err,
            "error: @out.ics stays as it is, since it is the calendar of another garden, or of "
            "another part of this one\n"
            "  hint: name another file; --force throws that calendar away\n");
  std::filesystem::remove(path("out.ics"));

  // Whichever way the kinds are given.
  calendar(garden, {"--only", "sow", "--only", "plant-out"});
  const std::string some = read("out.ics");
  EXPECT_NE(some.find("NAME:Tannery yard\\, only plant-out and sow\r\n"), std::string::npos);
  EXPECT_EQ(live("out.ics"),
            count_of("CATEGORIES:Sow\r", some) + count_of("CATEGORIES:Plant out\r", some));
  calendar(garden, {"--only", "plant-out", "--only", "sow", "--only", "sow"});
  EXPECT_EQ(read("out.ics"), some);
  std::filesystem::remove(path("out.ics"));

  // With a split: the beds' own files are others, and a bed that is gone is seen to in its kind.
  calendar(garden, {"--split", "bed", "--only", "sow"});
  const Answer gone =
      calendar(plan({{"north", "Ann", "cosmos"}}), {"--split", "bed", "--only", "sow"});
  EXPECT_EQ(live("out-south.ics"), 0) << gone.out;
  EXPECT_GT(cancelled("out-south.ics"), 0);
  EXPECT_EQ(calendar(garden, {"--split", "bed"}).exit, kRefused);
}

}  // namespace
}  // namespace trug::app
