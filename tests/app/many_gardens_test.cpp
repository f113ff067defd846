// SPDX-License-Identifier: MIT
// Many gardens in one run: the same bytes as one by one, whatever the order and the split, and none
// is kept from its calendar by another.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <string>
#include <vector>

#include "program.h"

namespace trug::app {
namespace {

constexpr int kGardens = 24;

// A dozen crops of every life cycle, by turns.
const std::vector<std::string>& crops() {
  static const std::vector<std::string> all = {
      "cosmos", "cornflower", "daffodil", "dahlia",    "larkspur",  "sweet william",
      "zinnia", "peony",      "orlaya",   "gladiolus", "sunflower", "forget-me-not"};
  return all;
}

std::string plan(int number) {
  std::string text = fmt::format(R"(flowering_year = 2027
began = 2026-05-01
title = "Yard {0}"
garden = "5d1c9a70-3c0e-4f0e-8a39-0c6b1f6f{1:04x}"
[place]
latitude = {2}
last_frost = "{3} May"
first_frost = "8 October"
frost_meaning = "garden"
mean_c = [4, 4.4, 6.3, 8.8, 12, 15, 17, 16.8, 14.2, 10.7, 7, 4.7]
[wish]
vases_per_week = 1
stems_per_vase = 12
from = "10 May"
to = "1 October"
[[bed]]
name = "yard"
length_m = 4.4
width_m = 1.1
)",
                                 number, number, 48 + number % 10, 1 + number);
  for (int i = 0; i < 3; ++i) {
    const std::size_t at = static_cast<std::size_t>(number + 5 * i) % crops().size();
    text += fmt::format("[[bed.stretch]]\nlength_m = 1.2\ncrops = [\"{}\"]\n", crops()[at]);
  }
  return text;
}

class ManyGardens : public Program {
 protected:
  void SetUp() override {
    Program::SetUp();
    for (int i = 0; i < kGardens; ++i) write(name(i) + ".toml", plan(i));
    for (const char* folder : {"one", "all", "half"}) {
      std::filesystem::create_directory(path(folder));
    }
  }

  static std::string name(int number) { return fmt::format("yard-{}", number); }

  // Those in one run, in that order.
  Answer calendars(const std::string& folder, const std::vector<int>& numbers) const {
    std::vector<std::string> words = {"calendar", "--out-dir", "@" + folder};
    for (const int i : numbers) words.push_back("@" + name(i) + ".toml");
    return run(words);
  }

  std::vector<int> all() const {
    std::vector<int> numbers(kGardens);
    for (int i = 0; i < kGardens; ++i) numbers[static_cast<std::size_t>(i)] = i;
    return numbers;
  }

  auto written(const std::string& file) const {
    return std::filesystem::last_write_time(path(file));
  }
};

TEST_F(ManyGardens, SameBytesAsOneByOneInAnyOrderAndSplit) {
  for (const int i : all()) {
    const Answer one = run({"calendar", "@" + name(i) + ".toml", "-o", "@one/" + name(i) + ".ics"});
    ASSERT_EQ(one.exit, kDone) << one.err;
  }
  EXPECT_EQ(calendars("all", all()).exit, kDone);
  std::vector<int> backwards = all();
  std::ranges::reverse(backwards);
  const auto middle = backwards.begin() + kGardens / 3;
  EXPECT_EQ(calendars("half", {backwards.begin(), middle}).exit, kDone);
  EXPECT_EQ(calendars("half", {middle, backwards.end()}).exit, kDone);
  for (const int i : all()) {
    const std::string one = read("one/" + name(i) + ".ics");
    EXPECT_GT(count_of("BEGIN:VEVENT", one), 5) << i;
    EXPECT_EQ(read("all/" + name(i) + ".ics"), one) << i;
    EXPECT_EQ(read("half/" + name(i) + ".ics"), one) << i;
  }
}

TEST_F(ManyGardens, AreToldInTheOrderOfTheirPlans) {
  const Answer answer = calendars("all", {7, 2, 11});
  const auto at = [&](int i) { return answer.out.find("@all/" + name(i) + ".ics holds"); };
  EXPECT_EQ(at(7), 0U);
  EXPECT_LT(at(7), at(2));
  EXPECT_LT(at(2), at(11));
  EXPECT_NE(at(11), std::string::npos);
}

TEST_F(ManyGardens, WhatDoesNotChangeIsNotTouched) {
  EXPECT_EQ(calendars("all", all()).exit, kDone);
  const auto before = written("all/yard-3.ics"), moved = written("all/yard-4.ics");
  write("yard-4.toml", plan(4) +
                           "[[bed]]\nname = \"new\"\nlength_m = 1.3\nwidth_m = 1.1\n"
                           "[[bed.stretch]]\nlength_m = 1.3\ncrops = [\"zinnia\"]\n");
  now_.now += std::chrono::hours{1};
  const Answer answer = calendars("all", all());
  EXPECT_EQ(count_of("nothing changed", answer.out), kGardens - 1) << answer.out;
  EXPECT_EQ(written("all/yard-3.ics"), before);
  EXPECT_NE(written("all/yard-4.ics"), moved);
}

TEST_F(ManyGardens, ABrokenPlanIsToldAndTheOthersAreWritten) {
  write("yard-1.toml", "flowering_year = \"soon\"\n");
  std::filesystem::remove(path("yard-5.toml"));
  write("all/yard-6.ics", "somebody else's\r\n");
  const Answer answer = calendars("all", {0, 1, 2, 5, 6, 8});
  EXPECT_EQ(answer.exit, kRefused);  // the highest: a file that is not ours
  EXPECT_NE(answer.err.find("@yard-1.toml:1:18: error:"), std::string::npos) << answer.err;
  EXPECT_NE(answer.err.find("@yard-5.toml: error:"), std::string::npos) << answer.err;
  EXPECT_NE(answer.err.find("@all/yard-6.ics stays as it is"), std::string::npos) << answer.err;
  EXPECT_EQ(read("all/yard-6.ics"), "somebody else's\r\n");
  for (const char* file : {"all/yard-0.ics", "all/yard-2.ics", "all/yard-8.ics"}) {
    EXPECT_GT(count_of("BEGIN:VEVENT", read(file)), 5) << file;
  }
  EXPECT_EQ(calendars("all", {0, 1}).exit, kBadInput);
}

TEST_F(ManyGardens, WhatCannotBeMeantIsRefusedBeforeAnyIsWritten) {
  write("other/yard-2.toml", plan(12));
  struct Case {
    std::vector<std::string> words;
    std::string told;
  };
  const std::vector<Case> cases = {
      {{"--out-dir", "@all", "@yard-2.toml", "@yard-3.toml", "@other/yard-2.toml"},
       "@yard-2.toml and @other/yard-2.toml would both be written to @all/yard-2.ics"},
      {{"--out-dir", "@nowhere", "@yard-2.toml"}, "there is no folder @nowhere"},
      {{"--out-dir", "@all", "-o", "@x.ics", "@yard-2.toml"}, "--out-dir"},
      {{"--out-dir", "@all", "--split", "bed", "@yard-2.toml"}, "--split"},
      {{"--out-dir", "@all", "--json", "@yard-2.toml"}, "--json"},
      {{"@yard-2.toml", "@yard-3.toml"}, "--out-dir"}};
  for (const Case& one : cases) {
    std::vector<std::string> words = {"calendar"};
    words.insert(words.end(), one.words.begin(), one.words.end());
    const Answer answer = run(words);
    EXPECT_EQ(answer.exit, kBadInput) << one.told;
    EXPECT_NE(answer.err.find(one.told), std::string::npos) << answer.err;
  }
  for (const std::string& file : names()) EXPECT_FALSE(file.ends_with(".ics")) << file;
}

TEST_F(ManyGardens, OwnSheetsBesideAPlanAreItsOwn) {
  const std::string sheet = [] {
    std::ifstream file(std::string(TRUG_SOURCE_DIR) + "/crops/cosmos.toml", std::ios::binary);
    return std::string(std::istreambuf_iterator<char>(file), {});
  }();
  write("own/yard-0.toml", plan(0));
  write("own/crops/cosmos.toml", sheet + "nonsense = 1\n");
  const Answer answer = run({"calendar", "--out-dir", "@all", "@own/yard-0.toml", "@yard-12.toml"});
  EXPECT_EQ(answer.exit, kBadInput);
  EXPECT_EQ(count_of("@own/crops/cosmos.toml", answer.err), 1) << answer.err;
  EXPECT_EQ(count_of("BEGIN:VEVENT", read("all/yard-0.ics")), 0);
  EXPECT_GT(count_of("BEGIN:VEVENT", read("all/yard-12.ics")), 5);
}

}  // namespace
}  // namespace trug::app
