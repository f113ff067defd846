// SPDX-License-Identifier: MIT
// What goes wrong around a run: files that are none, files of others, slips in options. Nothing is
// lost, nothing is half written, and what is wrong is said in one sentence.
#include <fmt/format.h>
#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include "app/version.h"
#include "program.h"

namespace trug::app {
namespace {

namespace fs = std::filesystem;

constexpr const char* kPlan = R"(flowering_year = 2027
began = 2025-06-01
title = "Tannery yard"
garden = "5d1c9a70-3c0e-4f0e-8a39-0c6b1f6f2a11"
[place]
latitude = 52
last_frost = "12 May"
first_frost = "18 October"
frost_meaning = "garden"
[[bed]]
name = "sunken bed"
length_m = 2.7
width_m = 1.1
[[bed.stretch]]
length_m = 1.2
crops = ["cornflower"]
)";

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  EXPECT_NE(at, std::string::npos) << from;
  return at == std::string::npos ? text : text.replace(at, from.size(), to);
}

std::string all_replaced(std::string text, const std::string& from, const std::string& to) {
  for (std::size_t at = 0; (at = text.find(from, at)) != std::string::npos; at += to.size()) {
    text.replace(at, from.size(), to);
  }
  return text;
}

// The numbers of a calendar, highest last.
std::vector<int> sequences(const std::string& calendar) {
  std::vector<int> found;
  const std::string name = "\r\nSEQUENCE:";
  for (std::size_t at = 0; (at = calendar.find(name, at)) != std::string::npos; ++at) {
    found.push_back(std::stoi(calendar.substr(at + name.size())));
  }
  std::ranges::sort(found);
  return found;
}

class Faults : public Program {
 protected:
  void SetUp() override {
    Program::SetUp();
    write("plan.toml", kPlan);
  }
  Answer calendar(std::vector<std::string> more = {}) const {
    more.insert(more.begin(), {"calendar", "@plan.toml", "-o", "@out.ics"});
    return run(more);
  }
  mode_t mode(const std::string& name) const {
    struct stat status {};
    EXPECT_EQ(::stat(path(name).c_str(), &status), 0) << name;
    return status.st_mode & 07777;
  }
  void set_mode(const std::string& name, mode_t mode) const {
    ASSERT_EQ(::chmod(path(name).c_str(), mode), 0);
  }
  std::string link() const {
    const std::string out = run({"feed", "@plan.toml", "--new-link"}).out;
    const std::size_t from = out.find("http://");
    return out.substr(from, out.find('\n', from) - from);
  }
};

// ---- what is printed

// Takes nothing, as a full disk does.
class Full : public std::streambuf {
  int_type overflow(int_type) override { return traits_type::eof(); }
};

TEST_F(Faults, AnOutputThatTakesNothingIsRefused) {
  const RealFiles files;
  for (const std::vector<std::string>& words :
       std::vector<std::vector<std::string>>{{"check", "plan.toml"},
                                             {"jobs", "plan.toml"},
                                             {"jobs", "plan.toml", "--json"},
                                             {"jobs", "plan.toml", "--csv"},
                                             {"calendar", "plan.toml", "-o", "out.ics"},
                                             {"crop"},
                                             {"--version"},
                                             {"--help"},
                                             {"jobs", "--help"}}) {
    SCOPED_TRACE(words[0]);
    std::vector<std::string> real = words;
    for (std::string& word : real) {
      if (word.ends_with(".toml") || word.ends_with(".ics")) word = path(word);
    }
    Full full;
    std::ostream out(&full);
    std::ostringstream err;
    EXPECT_EQ(app::run(real, {.files = files, .out = out, .err = err, .today = now_.today}),
              kRefused);
    EXPECT_TRUE(
        err.str().ends_with("error: the standard output did not take all that was written to it\n"))
        << err.str();
  }
}

TEST_F(Faults, NamesOfFilesCannotActOnTheTerminal) {
  const std::string name = "p\x1b]0;pwn\x07\u202etxt\u009bx\xff.toml";
  write(name, std::string(kPlan) + "surplus = 1\n");
  const std::string shown = "@p?]0;pwn??txt?x?.toml";
  const Answer wrong = run({"check", "@" + name});
  EXPECT_EQ(wrong.exit, kBadInput);
  EXPECT_TRUE(wrong.err.starts_with(shown + ":17:1: error:")) << wrong.err;
  write(name, kPlan);
  EXPECT_TRUE(run({"jobs", "@" + name}).err.find('\x1b') == std::string::npos);
  const Answer chart = run({"chart", "@" + name, "-o", "@b\x1b[8m.svg"});
  EXPECT_EQ(chart.exit, kDone);
  EXPECT_EQ(chart.out, "@b?[8m.svg: 1 bed, 1 planting\n");
  write("sheets/zin\x1b[2Jnia.toml", "format = 2\n");
  const Answer sheets = run({"crop", "--check", "@sheets"});
  EXPECT_EQ((sheets.out + sheets.err).find('\x1b'), std::string::npos);
  // What programs read is left as it is: JSON has its own way to write such characters.
  EXPECT_NE(run({"jobs", "@" + name, "--json"}).out.find("p\\u001b]0;pwn\\u0007\u202etxt"),
            std::string::npos);
}

TEST_F(Faults, NamesThatLookLikeOthersAreRefused) {
  for (const char* hidden : {"\u202e", "\u2066", "\u200b", "\u2060", "\ufeff", "\u00ad"}) {
    write("plan.toml", replaced(kPlan, "sunken bed", fmt::format("sun{}ken bed", hidden)));
    const Answer answer = run({"check", "@plan.toml"});
    EXPECT_EQ(answer.exit, kBadInput);
    EXPECT_NE(answer.err.find("'name' holds a line break or another character that cannot be seen"),
              std::string::npos)
        << answer.err;
  }
  // Joiners and marks of direction belong to scripts and emoji.
  for (const char* needed : {"\u200d", "\u200c", "\u200e", "\u200f", "\u0301"}) {
    write("plan.toml", replaced(kPlan, "sunken bed", fmt::format("sun{}ken bed", needed)));
    EXPECT_EQ(run({"check", "@plan.toml"}).exit, kDone);
  }
}

TEST_F(Faults, NoCellOfATableIsAFormula) {
  for (const char* formula : {"=HYPERLINK(1)", "+1", "-1", "@SUM(1)"}) {
    write("plan.toml", replaced(kPlan, "sunken bed", formula));
    const std::string table = run({"jobs", "@plan.toml", "--csv"}).out;
    EXPECT_NE(table.find(fmt::format(",'{},", formula)), std::string::npos) << table;
    EXPECT_EQ(table.find(fmt::format(",{},", formula)), std::string::npos) << table;
  }
}

TEST_F(Faults, APlanWithoutATitleIsCalledByItsFile) {
  write("shed beds.toml", replaced(kPlan, "title = \"Tannery yard\"\n", ""));
  EXPECT_NE(run({"check", "@shed beds.toml"}).out.find("shed beds: 1 of 1 plantings fit."),
            std::string::npos);
  run({"calendar", "@shed beds.toml", "-o", "@out.ics", "--split", "bed"});
  EXPECT_NE(read("out-sunken-bed.ics").find("\r\nNAME:shed beds\\, sunken bed\r\n"),
            std::string::npos);
  write("b\xff.toml", replaced(kPlan, "title = \"Tannery yard\"\n", ""));
  EXPECT_EQ(run({"calendar", "@b\xff.toml", "-o", "@b.ics"}).exit, kDone);
  EXPECT_NE(read("b.ics").find("\r\nNAME:b?\r\n"), std::string::npos);
}

// ---- what is read

TEST_F(Faults, APipeIsRefusedAndNobodyWaits) {
  ASSERT_EQ(::mkfifo(path("pipe.toml").c_str(), 0600), 0);
  const Answer plan = run({"check", "@pipe.toml"});
  EXPECT_EQ(plan.exit, kBadInput);
  EXPECT_EQ(plan.err,
            "@pipe.toml: error: this is a pipe or a device, not a file\n"
            "  hint: save what comes out of it in a file\n");
  write("plan.toml", replaced(kPlan, "frost_meaning", "weather = \"pipe.toml\"\nfrost_meaning"));
  EXPECT_EQ(run({"check", "@plan.toml"}).exit, kBadInput);
  write("plan.toml", kPlan);
  fs::create_directory(path("crops"));
  ASSERT_EQ(::mkfifo(path("crops/zinnia.toml").c_str(), 0600), 0);
  EXPECT_EQ(run({"check", "@plan.toml"}).exit, kBadInput);
  EXPECT_EQ(run({"frost", "/dev/zero"}).exit, kBadInput);
  EXPECT_EQ(calendar({"--force"}).exit, kBadInput);
}

TEST_F(Faults, SheetsBesideThePlanThatCannotBeReadAreTold) {
  write("crops", "not a folder");
  const Answer file = run({"check", "@plan.toml"});
  EXPECT_EQ(file.exit, kBadInput);
  EXPECT_TRUE(file.err.starts_with("@crops: error: this is no folder of crop sheets\n"))
      << file.err;
  fs::remove(path("crops"));
  if (::geteuid() == 0) return;  // may read everything
  fs::create_directory(path("crops"));
  set_mode("crops", 0);
  const Answer closed = run({"check", "@plan.toml"});
  EXPECT_EQ(closed.exit, kBadInput);
  EXPECT_TRUE(closed.err.starts_with("@crops: error: this folder cannot be read\n")) << closed.err;
  set_mode("crops", 0700);
}

// ---- what is written

TEST_F(Faults, NothingThatIsReadIsWrittenOver) {
  write("sheets/cornflower.toml", "");
  fs::copy_file(std::string(TRUG_SOURCE_DIR) + "/crops/cornflower.toml",
                path("sheets/cornflower.toml"), fs::copy_options::overwrite_existing);
  std::string record = "date,tmin_c,tmax_c\n";
  for (Date day = make_date(2016, 1, 1); day < make_date(2026, 7, 1); day += Days{1}) {
    record += iso(day) + ",4,14\n";
  }
  write("daily.csv", record);
  write("plan.toml", replaced(kPlan, "frost_meaning", "weather = \"daily.csv\"\nfrost_meaning"));
  fs::create_symlink(path("plan.toml"), path("alias.ics"));
  fs::create_hard_link(path("daily.csv"), path("twin.ics"));
  std::map<std::string, std::string> before;
  for (const std::string& name : names()) before[name] = read(name);
  for (const char* target :
       {"plan.toml", "daily.csv", "sheets/cornflower.toml", "alias.ics", "twin.ics"}) {
    for (const char* command : {"calendar", "chart"}) {
      SCOPED_TRACE(fmt::format("{} {}", command, target));
      const Answer answer = run({command, "@plan.toml", "--crops", "@sheets", "-o",
                                 std::string("@") + target, "--force"});
      EXPECT_EQ(answer.exit, kBadInput);
      EXPECT_EQ(answer.err, fmt::format("error: @{} is read in this run, and never written over\n"
                                        "  hint: name another file\n",
                                        target));
      for (const auto& [name, text] : before) EXPECT_EQ(read(name), text) << name;
    }
  }
  EXPECT_EQ(run({"feed", "@plan.toml", "--new-link", "--qr", "@plan.toml", "--force"}).exit,
            kBadInput);
  EXPECT_EQ(read("plan.toml"), before["plan.toml"]);
  EXPECT_EQ(names().size(), before.size());
}

TEST_F(Faults, AnEmptyNameIsNoFile) {
  for (const char* command : {"calendar", "chart"}) {
    const Answer answer = run({command, "@plan.toml", "-o", ""});
    EXPECT_EQ(answer.exit, kBadInput);
    EXPECT_TRUE(answer.err.starts_with("error: --output: the name of the file to write is empty\n"))
        << answer.err;
  }
}

TEST_F(Faults, ADryRunNeedsNoRightToWrite) {
  fs::create_directory(path("closed"));
  ASSERT_EQ(run({"calendar", "@plan.toml", "-o", "@closed/out.ics"}).exit, kDone);
  const auto before = fs::last_write_time(path("closed"));
  set_mode("closed", 0500);
  const Answer answer = run({"calendar", "@plan.toml", "-o", "@closed/out.ics", "--dry-run"});
  EXPECT_EQ(answer.exit, kDone) << answer.err;
  EXPECT_NE(answer.out.find("nothing changed"), std::string::npos);
  EXPECT_EQ(fs::last_write_time(path("closed")), before) << "root may write, but need not";
  set_mode("closed", 0700);
}

// ---- the earlier calendar

TEST_F(Faults, OtherLineEndsAndMarksAreReadAndMended) {
  calendar();
  const std::string before = read("out.ics");
  const std::string lines = all_replaced(before, "\r\n", "\n");
  const struct {
    const char* name;
    std::string text;
  } table[] = {
      {"LF", lines},
      {"byte-order mark", "\xef\xbb\xbf" + before},
      {"both", "\xef\xbb\xbf" + lines},
      {"an empty line at the end", before + "\r\n"},
      {"empty lines between", all_replaced(before, "END:VEVENT\r\n", "END:VEVENT\r\n\r\n")},
      {"no last line end", before.substr(0, before.size() - 2)}};
  for (const auto& row : table) {
    SCOPED_TRACE(row.name);
    write("out.ics", row.text);
    EXPECT_EQ(calendar().exit, kDone);
    // All as it was, but for the moment of the change in the head.
    const std::string after = read("out.ics");
    const std::size_t from = before.find("BEGIN:VEVENT");
    EXPECT_EQ(after.substr(after.find("BEGIN:VEVENT")), before.substr(from));
    EXPECT_NE(calendar().out.find("nothing changed"), std::string::npos);
    EXPECT_EQ(read("out.ics"), after);
  }
}

TEST_F(Faults, TodayMovesThePlansDayAndNotTheClock) {
  calendar();
  EXPECT_NE(read("out.ics").find("\r\nDTSTAMP:20260803T090000Z\r\n"), std::string::npos);
  write("plan.toml", replaced(kPlan, "12 May", "30 May"));
  now_.now += std::chrono::hours{24};
  calendar({"--today", "2027-02-01"});
  EXPECT_EQ(read("out.ics").find("DTSTAMP:2027"), std::string::npos);
  EXPECT_NE(read("out.ics").find("\r\nDTSTAMP:20260804T090000Z\r\n"), std::string::npos);
  for (const char* day : {"5000-01-01", "9999-12-31", "2101-01-01", "1899-12-31"}) {
    const Answer answer = calendar({"--today", day});
    EXPECT_EQ(answer.exit, kBadInput) << day;
    EXPECT_NE(answer.err.find(fmt::format("'{}' must lie between 1900 and 2100", day)),
              std::string::npos)
        << answer.err;
  }
}

TEST_F(Faults, NumbersAndStampsAtTheirEnds) {
  calendar();
  const std::string first = read("out.ics");
  // At the largest SEQUENCE the file goes on being trug's own.
  write("out.ics", all_replaced(first, "\r\nSEQUENCE:0\r\n", "\r\nSEQUENCE:2147483646\r\n"));
  for (const char* frost : {"19 May", "26 May", "14 May"}) {
    write("plan.toml", replaced(kPlan, "12 May", frost));
    const Answer answer = calendar();
    EXPECT_EQ(answer.exit, kDone) << answer.err;
  }
  EXPECT_EQ(sequences(read("out.ics")).back(), 2147483647);
  // A moment after which there is none.
  write("plan.toml", kPlan);
  for (const char* name : {"DTSTAMP:", "LAST-MODIFIED:"}) {
    const std::string late = all_replaced(first, fmt::format("\r\n{}20260803T090000Z", name),
                                          fmt::format("\r\n{}99991231T235959Z", name));
    write("out.ics", late);
    const bool kept = std::string_view(name) == "LAST-MODIFIED:";
    EXPECT_EQ(calendar().exit, kept ? kDone : kRefused);
    EXPECT_EQ(read("out.ics"), late);
  }
}

TEST_F(Faults, AnEventTakenOutByHandComesBackAboveWhatWasSeen) {
  calendar();
  for (const char* frost : {"19 May", "26 May", "14 May"}) {
    write("plan.toml", replaced(kPlan, "12 May", frost));
    calendar();
  }
  const std::string before = read("out.ics");
  const int highest = sequences(before).back();
  ASSERT_EQ(highest, 3);
  const std::size_t from = before.find("BEGIN:VEVENT"), end = before.find("END:VEVENT", from);
  write("out.ics", before.substr(0, from) + before.substr(end + 12));
  calendar();
  std::vector<int> now = sequences(read("out.ics"));
  EXPECT_EQ(now.size(), sequences(before).size());
  EXPECT_GE(std::ranges::count(now, highest), std::ranges::count(sequences(before), highest));
}

TEST_F(Faults, ALostOrDamagedCalendarIsNumberedAboveAnythingSeen) {
  calendar();
  const std::string whole = read("out.ics");
  // What is left of it is not replaced unasked.
  for (const std::string& rest : {whole.substr(0, 700), std::string()}) {
    write("out.ics", rest);
    const Answer refused = calendar();
    EXPECT_EQ(refused.exit, kRefused);
    EXPECT_TRUE(refused.err.ends_with(
        "\n  hint: name another file; --lost replaces what is left of this one\n"))
        << refused.err;
    EXPECT_EQ(read("out.ics"), rest);
    EXPECT_EQ(calendar({"--lost"}).exit, kDone);
    EXPECT_GT(sequences(read("out.ics")).front(), 3'000'000);
  }
  // A file of others is no such rest.
  write("out.ics", "BEGIN:VCALENDAR\r\n");
  EXPECT_EQ(calendar({"--lost"}).exit, kRefused);
  // An older copy in its place: what does not change is numbered anew too, once.
  write("out.ics", whole);
  const Answer copy = calendar({"--lost"});
  EXPECT_EQ(copy.exit, kDone);
  // But for the order of seed, which lies behind.
  const std::vector<int> numbers = sequences(read("out.ics"));
  EXPECT_GT(numbers.at(1), 3'000'000);
  EXPECT_GT(numbers.size(), 3u);
  EXPECT_NE(copy.err.find("note: @out.ics was there: its events are numbered anew"),
            std::string::npos)
      << copy.err;
}

TEST_F(Faults, AnEarlierFileHasALimit) {
  write("out.ics", "");
  fs::resize_file(path("out.ics"), 1'000'000'000);
  const Answer answer = calendar();
  EXPECT_EQ(answer.exit, kRefused);
  EXPECT_EQ(answer.err, "error: cannot read @out.ics: File too large\n");
}

// ---- links

TEST_F(Faults, AnEmptyLinkIsNoReasonToServe) {
  const Answer answer = run({"feed", "@plan.toml", "--revoke", ""});
  EXPECT_EQ(answer.exit, kBadInput);
  EXPECT_EQ(names(), std::vector<std::string>{"plan.toml"});
}

TEST_F(Faults, BrakesWorkWhateverElseStandsInTheFile) {
  for (const char* option : {"--revoke", "--revoke-all"}) {
    const std::string one = link(), other = link();
    write("plan.feed.links",
          read("plan.feed.links") + "active oops\nactiv \xff\n# the kitchen telephone\n");
    std::vector<std::string> words{"feed", "@plan.toml", option};
    if (std::string_view(option) == "--revoke") words.push_back(one);
    const Answer answer = run(words);
    EXPECT_EQ(answer.exit, kDone) << answer.err;
    EXPECT_NE(answer.err.find("note: what is wrong in @plan.feed.links is a remark now\n"),
              std::string::npos)
        << answer.err;
    const std::string after = read("plan.feed.links");
    const int still = std::string_view(option) == "--revoke" ? 1 : 0;
    EXPECT_EQ(count_of("\nactive ", after), still) << after;
    EXPECT_NE(after.find("\n# active oops\n# activ \xff\n# the kitchen telephone\n"),
              std::string::npos)
        << after;
    // It reads again.
    EXPECT_EQ(run({"feed", "@plan.toml", "--revoke-all"}).err, "");
    fs::remove(path("plan.feed.links"));
  }
  // Line ends of another system are no mistake.
  const std::string one = link();
  write("plan.feed.links", all_replaced(read("plan.feed.links"), "\n", "\r\n"));
  EXPECT_EQ(run({"feed", "@plan.toml", "--revoke", one}).err, "");
  EXPECT_EQ(count_of("\nrevoked ", read("plan.feed.links")), 1);
}

TEST_F(Faults, SecretsAreForTheirOwnerWhateverLayThere) {
  const std::string drawing = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n";
  run({"feed", "@plan.toml", "--new-link", "--qr", "@door.svg"});
  for (const char* name : {"door.svg", "plan.feed.links"}) {
    EXPECT_EQ(mode(name), 0600U) << name;
    set_mode(name, 0644);
  }
  // Left by a run that died, open for all.
  for (const char* name : {".door.svg.trug-new", ".plan.feed.links.trug-new"}) {
    write(name, "");
    set_mode(name, 0644);
  }
  run({"feed", "@plan.toml", "--new-link", "--qr", "@door.svg"});
  for (const char* name : {"door.svg", "plan.feed.links"}) EXPECT_EQ(mode(name), 0600U) << name;
  write("mine.svg", drawing);
  set_mode("mine.svg", 0664);
  EXPECT_EQ(run({"feed", "@plan.toml", "--new-link", "--qr", "@mine.svg", "--force"}).exit, kDone);
  EXPECT_EQ(mode("mine.svg"), 0600U);
  set_mode("plan.feed.links", 0644);
  run({"feed", "@plan.toml", "--revoke-all"});
  EXPECT_EQ(mode("plan.feed.links"), 0600U);
}

}  // namespace
}  // namespace trug::app
