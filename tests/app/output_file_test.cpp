// SPDX-License-Identifier: MIT
#include "app/output_file.h"

#include <gtest/gtest.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>
#include <vector>

namespace trug::app {
namespace {

namespace fs = std::filesystem;
using std::chrono::milliseconds;

// A folder of its own for each test, gone afterwards.
class OutputFileTest : public testing::Test {
 protected:
  void SetUp() override {
    std::string name = (fs::temp_directory_path() / "trug-output-XXXXXX").string();
    ASSERT_NE(::mkdtemp(name.data()), nullptr);
    folder_ = name;
  }
  void TearDown() override { fs::remove_all(folder_); }

  std::string path(const std::string& name = "beds.ics") const { return folder_ / name; }
  std::string read(const std::string& name = "beds.ics") const {
    std::ifstream file(folder_ / name, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
  }
  void write(const std::string& name, const std::string& text) const {
    std::ofstream(folder_ / name, std::ios::binary) << text;
  }
  std::vector<std::string> names() const {
    std::vector<std::string> found;
    for (const auto& entry : fs::directory_iterator(folder_)) {
      found.push_back(entry.path().filename());
    }
    std::sort(found.begin(), found.end());
    return found;
  }
  mode_t mode(const std::string& name = "beds.ics") const {
    struct stat status {};
    EXPECT_EQ(::stat(path(name).c_str(), &status), 0);
    return status.st_mode & 07777;
  }
  // The error number; 0 where nothing was thrown.
  template <class Action>
  int error_of(Action action) const {
    try {
      action();
    } catch (const IoError& error) {
      message_ = error.what();
      return error.code().value();
    }
    return 0;
  }

  fs::path folder_;
  mutable std::string message_;
};

TEST_F(OutputFileTest, ANewFileIsWritten) {
  OutputFile file(path());
  EXPECT_EQ(file.previous(), std::nullopt);
  file.replace("new");
  EXPECT_EQ(read(), "new");
  EXPECT_EQ(names(), std::vector<std::string>{"beds.ics"});
}

TEST_F(OutputFileTest, AnOldFileIsReadAndReplaced) {
  const std::string old = std::string(200000, 'x') + '\0' + "\r\n";
  write("beds.ics", old);
  OutputFile file(path());
  EXPECT_EQ(file.previous(), old);
  file.replace("new");
  EXPECT_EQ(read(), "new");
}

TEST_F(OutputFileTest, AFileNotReplacedIsNotTouched) {
  write("beds.ics", "old");
  const auto time = fs::last_write_time(path());
  { const OutputFile file(path()); }
  EXPECT_EQ(read(), "old");
  EXPECT_EQ(fs::last_write_time(path()), time);
  EXPECT_EQ(names(), std::vector<std::string>{"beds.ics"});
}

TEST_F(OutputFileTest, PermissionsAreKept) {
  write("beds.ics", "old");
  for (const mode_t wanted : {0640U, 0600U, 0664U}) {
    ASSERT_EQ(::chmod(path().c_str(), wanted), 0);
    OutputFile(path()).replace("new");
    EXPECT_EQ(mode(), wanted);
  }
}

TEST_F(OutputFileTest, ANewFileGetsWhatTheUmaskLeaves) {
  const mode_t before = ::umask(027);
  OutputFile(path()).replace("new");
  ::umask(before);
  EXPECT_EQ(mode(), 0640U);
}

TEST_F(OutputFileTest, ALinkIsWrittenThrough) {
  fs::create_directory(folder_ / "shared");
  write("shared/real.ics", "old");
  fs::create_symlink("shared/real.ics", path());
  OutputFile file(path());
  EXPECT_EQ(file.previous(), "old");
  file.replace("new");
  EXPECT_TRUE(fs::is_symlink(path()));
  EXPECT_EQ(read("shared/real.ics"), "new");
  EXPECT_EQ(names(), (std::vector<std::string>{"beds.ics", "shared"}));
}

TEST_F(OutputFileTest, LinksThatLeadAstrayAreRefused) {
  fs::create_symlink("nowhere", path("dangling"));
  fs::create_symlink("round", path("round"));
  fs::create_symlink(".", path("to a folder"));
  fs::create_symlink("/dev/null", path("to a device"));
  EXPECT_EQ(error_of([&] { OutputFile{path("dangling")}; }), ENOENT);
  EXPECT_EQ(error_of([&] { OutputFile{path("round")}; }), ELOOP);
  EXPECT_EQ(error_of([&] { OutputFile{path("to a folder")}; }), EISDIR);
  EXPECT_NE(error_of([&] { OutputFile{path("to a device")}; }), 0);
}

TEST_F(OutputFileTest, ALinkToAnotherUsersFileIsRefused) {
  if (::geteuid() != 0) GTEST_SKIP() << "only root can give a file away";
  write("theirs", "old");
  ASSERT_EQ(::chown(path("theirs").c_str(), 12345, 12345), 0);
  fs::create_symlink("theirs", path());
  EXPECT_EQ(error_of([&] { OutputFile{path()}; }), EPERM);
  EXPECT_EQ(read("theirs"), "old");
}

TEST_F(OutputFileTest, WhatIsNoPlainFileIsRefused) {
  fs::create_directory(path("folder"));
  ASSERT_EQ(::mkfifo(path("pipe").c_str(), 0600), 0);
  EXPECT_EQ(error_of([&] { OutputFile{path("folder")}; }), EISDIR);
  EXPECT_EQ(error_of([&] { OutputFile{path("pipe")}; }), EINVAL);
}

TEST_F(OutputFileTest, AMissingFolderIsNamed) {
  EXPECT_EQ(error_of([&] { OutputFile{path("none/beds.ics")}; }), ENOENT);
  EXPECT_EQ(message_,
            "cannot open the folder of " + path("none/beds.ics") + ": No such file or directory");
}

TEST_F(OutputFileTest, ATrapBesideTheFileIsRefused) {
  write("victim", "precious");
  fs::create_symlink("victim", path(".beds.ics.trug-new"));
  EXPECT_EQ(error_of([&] { OutputFile{path()}; }), ELOOP);
  fs::remove(path(".beds.ics.trug-new"));
  fs::create_hard_link(path("victim"), path(".beds.ics.trug-new"));
  EXPECT_EQ(error_of([&] { OutputFile{path()}; }), EPERM);
  EXPECT_EQ(read("victim"), "precious");
}

TEST_F(OutputFileTest, ASecondRunWaitsAndThenGivesUp) {
  OutputFile first(path());
  EXPECT_EQ(error_of([&] { OutputFile(path(), Access::Usual, milliseconds{50}); }), EWOULDBLOCK);
  EXPECT_EQ(message_, "another run is writing " + path() + ": Resource temporarily unavailable");
  first.replace("first");
  OutputFile second(path(), Access::Usual, milliseconds{50});
  EXPECT_EQ(second.previous(), "first");
}

TEST_F(OutputFileTest, FilesOfOneFolderDoNotWaitForEachOther) {
  const OutputFile first(path("a.ics"));
  EXPECT_NO_THROW(OutputFile(path("b.ics"), Access::Usual, milliseconds{0}).replace("b"));
}

TEST_F(OutputFileTest, AFileIsReplacedOnceOnly) {
  OutputFile file(path());
  file.replace("new");
  EXPECT_THROW(file.replace("newer"), std::logic_error);
  EXPECT_EQ(read(), "new");
}

TEST_F(OutputFileTest, AFullDiskLeavesTheOldFile) {
  write("beds.ics", "old");
  // A limit on the size of files stands for the full disk; SIGXFSZ would end the program.
  const pid_t child = ::fork();
  ASSERT_GE(child, 0);
  if (child == 0) {
    std::signal(SIGXFSZ, SIG_IGN);
    const rlimit limit{1000, 1000};
    ::setrlimit(RLIMIT_FSIZE, &limit);
    try {
      OutputFile(path()).replace(std::string(5000, 'x'));
    } catch (const IoError& error) {
      ::_exit(error.code().value() == EFBIG ? 0 : 2);
    }
    ::_exit(1);
  }
  int status = 0;
  ASSERT_EQ(::waitpid(child, &status, 0), child);
  EXPECT_EQ(status, 0);
  EXPECT_EQ(read(), "old");
  EXPECT_EQ(names(), std::vector<std::string>{"beds.ics"});
}

// Each generation is one letter many times: anything torn shows.
std::string generation(unsigned number) {
  return std::string(20000 + number % 26 * 1000, static_cast<char>('a' + number % 26));
}

// Says so through `ready` once the first generation stands.
[[noreturn]] void write_for_ever(const std::string& path, unsigned number, int ready) {
  OutputFile(path).replace(generation(number));
  if (::write(ready, "r", 1) != 1) ::_exit(1);
  while (true) OutputFile(path).replace(generation(++number));
}

// Killed at any moment, a run leaves the old file or the new one, and nothing in the way.
TEST_F(OutputFileTest, KilledAtAnyMomentTheFileIsWhole) {
  std::mt19937 random(20270514);
  int interrupted = 0;
  for (int round = 0; round < 200; ++round) {
    std::array<int, 2> ends{};
    ASSERT_EQ(::pipe(ends.data()), 0);
    const auto number = static_cast<unsigned>(random());
    const pid_t child = ::fork();
    ASSERT_GE(child, 0);
    if (child == 0) write_for_ever(path(), number, ends[1]);
    ::close(ends[1]);
    char ready = 0;
    ASSERT_EQ(::read(ends[0], &ready, 1), 1) << "the writer wrote nothing";
    ::close(ends[0]);
    ::usleep(static_cast<useconds_t>(random() % 8000));
    ::kill(child, SIGKILL);
    int status = 0;
    ASSERT_EQ(::waitpid(child, &status, 0), child);
    ASSERT_TRUE(WIFSIGNALED(status)) << "the writer ended by itself";
    const std::string after = read();
    ASSERT_FALSE(after.empty());
    ASSERT_EQ(after, generation(static_cast<unsigned>(after.front() - 'a')));
    if (names().size() == 2) ++interrupted;  // the half-done file is still there
  }
  EXPECT_GT(interrupted, 30) << "the writers were hardly ever killed while they wrote";
  OutputFile(path(), Access::Usual, milliseconds{0}).replace("free again");
  EXPECT_EQ(read(), "free again");
  EXPECT_EQ(names(), std::vector<std::string>{"beds.ics"});
}

// Runs that read, add a letter and write, side by side: none overwrites another's letter.
TEST_F(OutputFileTest, NoRunLosesAnothersWork) {
  constexpr int kWriters = 4;
  constexpr int kTimes = 25;
  std::vector<pid_t> children;
  for (int writer = 0; writer < kWriters; ++writer) {
    const pid_t child = ::fork();
    ASSERT_GE(child, 0);
    if (child == 0) {
      for (int i = 0; i < kTimes; ++i) {
        OutputFile file(path(), Access::Usual, std::chrono::minutes{1});
        file.replace(file.previous().value_or("") + "x");
      }
      ::_exit(0);
    }
    children.push_back(child);
  }
  for (const pid_t child : children) {
    int status = 0;
    ASSERT_EQ(::waitpid(child, &status, 0), child);
    EXPECT_EQ(status, 0);
  }
  EXPECT_EQ(read().size(), static_cast<std::size_t>(kWriters * kTimes));
}

}  // namespace
}  // namespace trug::app
