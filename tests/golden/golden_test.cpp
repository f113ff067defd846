// SPDX-License-Identifier: MIT
// The whole program, run in this process, against what it is to print and write: one folder a case.
//
//   cmd      the command line, one word a line; {out} is a fresh folder
//   *.toml   files of the case, by the names the command line gives them
//   before/  what lies in {out} before the run
//   stdout, stderr, exit, after/   what comes out; after/ is all of {out}
//
// Names that begin with "examples/" or "tests/" are the repository's own, those with "made/" are
// made below. Two kinds of cases: those that show words are run with --crops tests/golden/sheets,
// six invented sheets without heats, most on the plan tests/golden/porch.toml, and do not change
// when rules or figures of growth do; the seven named reckoned-* show what the real sheets give.
// A calendar is kept as a table of its events (NAME.events), but for those called whole.ics.
//
// `test_golden --renew [CASE...]` writes what comes out into the folders and prints what is other
// than before, a line a case: read the difference as a gardener before you keep it.
#include <fmt/format.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <map>
#include <set>
#include <sstream>

#include "app/environment.h"
#include "app/real_files.h"
#include "app/version.h"
#include "golden/renewal.h"

namespace trug::golden {
namespace {

namespace fs = std::filesystem;

const fs::path kCases = fs::path(TRUG_SOURCE_DIR) / "tests/golden";

// Files too large or too odd to keep.
const MemoryFiles& made() {
  static const MemoryFiles files({
      {"made/large.toml", "title = \"" + std::string(2 << 20, 'x') + "\"\n"},
      {"made/binary.toml", std::string("\x7f"
                                       "ELF\x02\x01\x01\0\0\xff\xfe",
                                       11)},
      {"made/not_text.toml", "title = \"Na\xefve vases\"\n"},
      {"made/deep.toml", "x = " + std::string(5000, '[') + std::string(5000, ']') + "\n"},
      {"made/nested.toml", "x = " + std::string(40, '[') + std::string(40, ']') + "\n"},
      {"made/folder/plan.toml", ""},
  });
  return files;
}

// The files of one case by relative names, so that no path of the machine is printed.
class CaseFiles : public FileReader {
 public:
  explicit CaseFiles(fs::path folder) : folder_(std::move(folder)) {}
  FileBytes read(const std::string& path, std::size_t limit) const override {
    if (path.starts_with("made/")) return made().read(path, limit);
    return real_.read(place(path), limit);
  }
  std::optional<std::vector<std::string>> list(const std::string& folder,
                                               std::string_view ending) const override {
    if (folder.starts_with("made/")) return made().list(folder, ending);
    return real_.list(place(folder), ending);
  }

 private:
  std::string place(const std::string& path) const {
    const bool ours = path.starts_with("examples/") || path.starts_with("tests/");
    return ((ours ? fs::path(TRUG_SOURCE_DIR) : folder_) / path).string();
  }

  fs::path folder_;
  app::RealFiles real_;
};

std::string text_of(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

void replace_all(std::string& text, const std::string& what, const std::string& with) {
  for (std::size_t at = 0; (at = text.find(what, at)) != std::string::npos; at += with.size()) {
    text.replace(at, what.size(), with);
  }
}

using Files = std::map<std::string, std::string>;

Files files_in(const fs::path& folder) {
  Files found;
  if (!fs::is_directory(folder)) return found;
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    if (!entry.is_regular_file()) continue;
    found[fs::relative(entry.path(), folder).string()] = text_of(entry.path());
  }
  return found;
}

void write(const fs::path& path, const std::string& text) {
  fs::create_directories(path.parent_path());
  std::ofstream(path, std::ios::binary) << text;
}

// One row an event: its day, kind, title, bed and UID.
std::string table_of(std::string calendar) {
  replace_all(calendar, "\r\n ", "");
  std::string rows;
  std::map<std::string, std::string> event;
  std::istringstream in(calendar);
  for (std::string line; std::getline(in, line);) {
    if (line.ends_with('\r')) line.pop_back();
    const std::size_t end_of_name = std::min(line.find(':'), line.find(';'));
    const std::size_t colon = line.find(':');
    if (colon == std::string::npos) continue;
    const std::string value = line.substr(colon + 1);
    if (line == "BEGIN:VEVENT") event.clear();
    event.insert({line.substr(0, end_of_name), value});
    if (line != "END:VEVENT") continue;
    const std::string& day = event["DTSTART"];
    const std::string bed = event["LOCATION"].substr(0, event["LOCATION"].find("\\,"));
    rows +=
        fmt::format("{}-{}-{}  {:<15}  {:<28}  {:<16}  {}\n", day.substr(0, 4), day.substr(4, 2),
                    day.substr(6, 2), event["CATEGORIES"], event["SUMMARY"], bed, event["UID"]);
  }
  return rows;
}

// What is kept of the files that came out.
Files kept(const Files& files) {
  Files result;
  for (const auto& [name, text] : files) {
    const bool ours = text.find("X-TRUG-MEMORY") != std::string::npos;
    if (name.ends_with(".ics") && name != "whole.ics" && ours) {
      result[name + ".events"] = table_of(text);
    } else {
      result[name] = text;
    }
  }
  return result;
}

struct TemporaryFolder {
  TemporaryFolder() {
    std::string name = (fs::temp_directory_path() / "trug-golden-XXXXXX").string();
    if (::mkdtemp(name.data()) == nullptr) throw std::runtime_error("no temporary folder");
    path = name;
  }
  ~TemporaryFolder() { fs::remove_all(path); }
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;

  fs::path path;
};

struct Outcome {
  std::string out, err, exit;
  Files after;

  bool operator==(const Outcome&) const = default;
};

std::vector<std::string> arguments(const fs::path& folder, const std::string& out) {
  std::vector<std::string> words;
  std::ifstream file(folder / "cmd");
  for (std::string line; std::getline(file, line);) {
    replace_all(line, "{out}", out);
    words.push_back(line);
  }
  return words;
}

std::array<std::uint8_t, 16> not_random() {
  std::array<std::uint8_t, 16> bytes{};
  for (std::size_t i = 0; i < bytes.size(); ++i) bytes[i] = static_cast<std::uint8_t>(17 * i);
  return bytes;
}

// What the case prints and writes today; what depends on the machine and the version is taken out.
Outcome outcome(const std::string& name) {
  const fs::path folder = kCases / name;
  const TemporaryFolder temporary;
  const std::string out_folder = temporary.path.string();
  const auto plain = [&](std::string text) {
    replace_all(text, out_folder, "{out}");
    replace_all(text, "trug " + std::string(app::kVersion), "trug {version}");
    return text;
  };
  if (fs::exists(folder / "before")) {
    fs::copy(folder / "before", out_folder, fs::copy_options::recursive);
  }
  const CaseFiles files(folder);
  std::ostringstream out, err;
  const Date today = make_date(2027, 2, 14);
  const app::Environment environment{.files = files,
                                     .out = out,
                                     .err = err,
                                     .today = today,
                                     .now = today + std::chrono::hours{9},
                                     .random = not_random};
  const int code = app::run(arguments(folder, out_folder), environment);
  Outcome result{plain(out.str()), plain(err.str()), std::to_string(code) + "\n", {}};
  for (auto& [file, text] : files_in(out_folder)) result.after[file] = plain(text);
  return result;
}

// What lies in the case's folder, as one text.
std::string all_of(const std::string& name) {
  const fs::path folder = kCases / name;
  std::string text = text_of(folder / "stdout") + text_of(folder / "stderr");
  text += text_of(folder / "exit");
  for (const auto& [file, content] : files_in(folder / "after")) text += file + "\n" + content;
  return text;
}

void renew(const std::string& name) {
  const fs::path folder = kCases / name;
  const bool is_new = !fs::exists(folder / "stdout");
  const std::string before = all_of(name);
  const Outcome found = outcome(name);
  write(folder / "stdout", found.out);
  write(folder / "stderr", found.err);
  write(folder / "exit", found.exit);
  fs::remove_all(folder / "after");
  for (const auto& [file, text] : kept(found.after)) write(folder / "after" / file, text);
  const std::string after = all_of(name);
  if (is_new) {
    std::cout << name << ": a new case\n";
  } else if (before != after) {
    std::cout << name << ": " << in_words(difference(before, after)) << "\n";
  }
}

std::vector<std::string> cases() {
  std::vector<std::string> names;
  for (const auto& entry : fs::directory_iterator(kCases)) {
    if (fs::exists(entry.path() / "cmd")) names.push_back(entry.path().filename().string());
  }
  std::ranges::sort(names);
  return names;
}

class Golden : public testing::TestWithParam<std::string> {};

TEST_P(Golden, PrintsAndWritesWhatItDid) {
  const fs::path folder = kCases / GetParam();
  const Outcome found = outcome(GetParam());
  EXPECT_EQ(found.err, text_of(folder / "stderr"));
  EXPECT_EQ(found.out, text_of(folder / "stdout"));
  EXPECT_EQ(found.exit, text_of(folder / "exit"));
  EXPECT_EQ(kept(found.after), files_in(folder / "after"));
  // Whatever is refused leaves what lies in {out} byte for byte.
  const bool refused = found.exit == "2\n" || found.exit == "3\n";
  if (refused) {
    EXPECT_EQ(found.after, files_in(folder / "before"));
  }
}

// Two runs of one plan print and write the same bytes.
TEST_P(Golden, IsTheSameTwice) { EXPECT_TRUE(outcome(GetParam()) == outcome(GetParam())); }

INSTANTIATE_TEST_SUITE_P(Case, Golden, testing::ValuesIn(cases()), [](const auto& entry) {
  std::string name = entry.param;
  std::ranges::replace(name, '-', '_');
  return name;
});

TEST(Renewal, TellsWhatIsOther) {
  const std::string list =
      "Porch vases: 3 jobs\n\nMay 2027\n"
      "  Sat  1  sow              long bed/ember star            16            1 May to 9 May\n"
      "  Sat  8  plant out        long bed/ember star            16            1 May to 9 May\n"
      "\nJune 2027\n"
      "  Sat  5  thin             long bed/lantern daisy                       5 to 9 June\n";
  const std::string table =
      "2027-05-01  sow  long bed/ember star  f1b2dc52-12f7-5419-9734-5a08ffd0b0ef\n";
  struct Row {
    std::string before, after;
    Difference expected;
  };
  const auto with = [](std::string text, const std::string& what, const std::string& by) {
    replace_all(text, what, by);
    return text;
  };
  const std::vector<Row> rows = {
      {list, list, {}},
      {list, with(list, "Sat  1", "Sat 22"), {.moved = 1, .median_days = 21}},
      {list, with(list, "May 2027", "April 2027"), {.moved = 2, .median_days = 30}},
      {list, with(list, "16            1 May", "18            1 May"), {.texts = 2}},
      {list, with(list, "Porch", "Quay"), {.texts = 1}},
      {list, with(list, "ember star   ", "ember star ! "), {.texts = 2}},
      {list, with(list, "lantern daisy", "quay bells   "), {.fresh = 1, .gone = 1}},
      {table, with(table, "05-01", "05-04"), {.moved = 1, .median_days = 3}},
      {table, with(table, "f1b2", "f1b3"), {.fresh = 1, .gone = 1}},
      {table, table + "more\n", {.texts = 1}},
  };
  for (const Row& row : rows) {
    EXPECT_EQ(in_words(difference(row.before, row.after)), in_words(row.expected)) << row.after;
  }
}

}  // namespace

// Every case, or those that are named.
int renew_all(const std::set<std::string>& named) {
  for (const std::string& name : cases()) {
    if (named.empty() || named.contains(name)) renew(name);
  }
  return 0;
}

}  // namespace trug::golden

int main(int argc, char** argv) {
  testing::InitGoogleTest(&argc, argv);
  const std::vector<std::string> words(argv + 1, argv + argc);
  if (!words.empty() && words[0] == "--renew") {
    return trug::golden::renew_all({words.begin() + 1, words.end()});
  }
  return RUN_ALL_TESTS();
}
