// SPDX-License-Identifier: MIT
// The whole program, run in this process, against what it is to print and write: one folder a case.
//
//   cmd      the command line, one word a line; {out} is a fresh folder
//   *.toml   files of the case, by the names the command line gives them
//   before/  what lies in {out} before the run
//   stdout, stderr, exit, after/   what comes out; after/ is all of {out}
//
// Names that begin with "examples/" are the repository's own, those with "made/" are made below.
// TRUG_UPDATE_GOLDEN=1 writes what comes out into the folders, to be read before it is kept.
#include <gtest/gtest.h>
#include <unistd.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <sstream>

#include "app/environment.h"
#include "app/real_files.h"
#include "app/version.h"

namespace trug::app {
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
    const bool example = path.starts_with("examples/");
    return ((example ? fs::path(TRUG_SOURCE_DIR) : folder_) / path).string();
  }

  fs::path folder_;
  RealFiles real_;
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

struct Outcome {
  std::string out, err, exit;
  Files after;
};

class Golden : public testing::TestWithParam<std::string> {
 protected:
  void SetUp() override {
    std::string name = (fs::temp_directory_path() / "trug-golden-XXXXXX").string();
    ASSERT_NE(::mkdtemp(name.data()), nullptr);
    out_ = name;
    const fs::path before = folder() / "before";
    if (fs::exists(before)) fs::copy(before, out_, fs::copy_options::recursive);
  }
  void TearDown() override { fs::remove_all(out_); }

  fs::path folder() const { return kCases / GetParam(); }

  std::vector<std::string> arguments() const {
    std::vector<std::string> words;
    std::ifstream file(folder() / "cmd");
    for (std::string line; std::getline(file, line);) {
      replace_all(line, "{out}", out_.string());
      words.push_back(line);
    }
    return words;
  }

  // What depends on the machine and on the version is taken out.
  std::string plain(std::string text) const {
    replace_all(text, out_.string(), "{out}");
    replace_all(text, "trug " + std::string(kVersion), "trug {version}");
    return text;
  }

  Outcome outcome() const {
    const CaseFiles files(folder());
    std::ostringstream out, err;
    const Date today = make_date(2027, 2, 14);
    const Environment environment{.files = files,
                                  .out = out,
                                  .err = err,
                                  .today = today,
                                  .now = today + std::chrono::hours{9},
                                  .random = [] {
                                    std::array<std::uint8_t, 16> bytes{};
                                    for (std::size_t i = 0; i < bytes.size(); ++i)
                                      bytes[i] = static_cast<std::uint8_t>(17 * i);
                                    return bytes;
                                  }};
    const int code = run(arguments(), environment);
    Outcome result{plain(out.str()), plain(err.str()), std::to_string(code) + "\n", {}};
    for (auto& [name, text] : files_in(out_)) result.after[name] = plain(text);
    return result;
  }

  fs::path out_;
};

TEST_P(Golden, PrintsAndWritesWhatItDid) {
  const Outcome found = outcome();
  if (std::getenv("TRUG_UPDATE_GOLDEN") != nullptr) {
    write(folder() / "stdout", found.out);
    write(folder() / "stderr", found.err);
    write(folder() / "exit", found.exit);
    fs::remove_all(folder() / "after");
    for (const auto& [name, text] : found.after) write(folder() / "after" / name, text);
    return;
  }
  EXPECT_EQ(found.err, text_of(folder() / "stderr"));
  EXPECT_EQ(found.out, text_of(folder() / "stdout"));
  EXPECT_EQ(found.exit, text_of(folder() / "exit"));
  const Files expected = files_in(folder() / "after");
  for (const auto& [name, text] : found.after) {
    const auto file = expected.find(name);
    EXPECT_EQ(text, file == expected.end() ? "not written before" : file->second) << name;
  }
  for (const auto& [name, text] : expected) {
    EXPECT_TRUE(found.after.contains(name)) << name << " is not written any more";
  }
  // Whatever is refused leaves what lies in {out} byte for byte.
  const bool refused = found.exit == "2\n" || found.exit == "3\n";
  if (refused) {
    EXPECT_EQ(found.after, files_in(folder() / "before"));
  }
}

std::vector<std::string> cases() {
  std::vector<std::string> names;
  for (const auto& entry : fs::directory_iterator(kCases)) {
    if (entry.is_directory()) names.push_back(entry.path().filename().string());
  }
  std::ranges::sort(names);
  return names;
}

INSTANTIATE_TEST_SUITE_P(Case, Golden, testing::ValuesIn(cases()), [](const auto& entry) {
  std::string name = entry.param;
  std::ranges::replace(name, '-', '_');
  return name;
});

// Two runs of one plan print and write the same bytes.
TEST_P(Golden, IsTheSameTwice) {
  const Outcome first = outcome();
  fs::remove_all(out_);
  fs::create_directory(out_);
  const fs::path before = folder() / "before";
  if (fs::exists(before)) fs::copy(before, out_, fs::copy_options::recursive);
  const Outcome second = outcome();
  EXPECT_EQ(first.out, second.out);
  EXPECT_EQ(first.err, second.err);
  EXPECT_EQ(first.after, second.after);
}

}  // namespace
}  // namespace trug::app
