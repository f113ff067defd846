// SPDX-License-Identifier: MIT
// A first plan, asked for or taken by options, to the calendar.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <string>
#include <vector>

#include "app/start_judge.h"
#include "app/start_questions.h"
#include "program.h"
#include "read/plan_reader.h"

namespace trug::app {
namespace {

// A household with a short wish, so that the reckoning is quick.
const StartAnswers kAnswers{{"latitude", "52.4"},
                            {"temperatures", "10.1, 16.8"},
                            {"last-frost", "12 May"},
                            {"first-frost", "18 October"},
                            {"frost-meaning", "garden"},
                            {"beds", "2.6 x 1.1"},
                            {"trays", "2"},
                            {"frame", "0"},
                            {"vases", "1"},
                            {"stems", "10"},
                            {"from", "20 July"},
                            {"to", "20 August"},
                            {"colours", "white, pink"},
                            {"like", "none"},
                            {"dislike", "cosmos"},
                            {"safe", "yes"},
                            {"days", "Sat and Sun"},
                            {"remind", "must"},
                            {"title", "Doorstep flowers"}};

std::vector<const Question*> asked() {
  std::vector<const Question*> list;
  for (const Question& question : start_questions()) {
    if (!question.asked.empty()) list.push_back(&question);
  }
  return list;
}

// A line an answer, as they are asked.
std::string typed(const StartAnswers& answers) {
  std::string text;
  for (const Question* question : asked()) text += answers.find(question->name)->second + "\n";
  return text;
}

std::vector<std::string> words(const StartAnswers& answers, const std::vector<std::string>& more) {
  std::vector<std::string> list{"start"};
  for (const auto& [name, answer] : answers) {
    const bool is_flag = find_question(name)->shape == Shape::YesNo;
    if (is_flag && answer != "yes") continue;
    list.push_back("--" + name);
    if (!is_flag) list.push_back(answer);
  }
  list.insert(list.end(), more.begin(), more.end());
  return list;
}

StartAnswers but(StartAnswers answers, const std::string& name, const std::string& answer) {
  answers[name] = answer;
  return answers;
}

class Start : public Program {
 protected:
  Start() { now_ = {make_date(2026, 11, 26), make_date(2026, 11, 26) + std::chrono::hours{9}}; }

  Plan plan(const std::string& name) const {
    read::SheetLibrary library;
    Diagnostics diagnostics;
    const auto plan = read::read_plan(RealFiles(), path(name), library, diagnostics);
    EXPECT_TRUE(plan) << diagnostics.render();
    return plan.value_or(Plan());
  }
};

// From nothing to the calendar: the plan holds, keeps to the wish, and the next command works.
TEST_F(Start, TakesOptionsInOneLine) {
  const Answer started = run(words(kAnswers, {"-o", "@vases.toml", "--seed", "hedge"}));
  ASSERT_EQ(started.exit, kDone) << started.err;
  EXPECT_NE(started.out.find("Next: trug check @vases.toml, then trug calendar @vases.toml"),
            std::string::npos)
      << started.out;
  const Plan made = plan("vases.toml");
  EXPECT_EQ(made.flowering_year, 2027);
  EXPECT_EQ(made.began, make_date(2026, 11, 26));
  EXPECT_EQ(made.calendar, "vases.ics");
  EXPECT_TRUE(made.garden);
  ASSERT_FALSE(made.plantings.empty());
  read::SheetLibrary library;
  Diagnostics diagnostics;
  for (const Planting& planting : made.plantings) {
    const CropEntry& crop = planting.asked;
    const Sheet& sheet = *library.find(crop.crop, diagnostics);
    EXPECT_NE(crop.crop, "cosmos");
    EXPECT_TRUE(is_harmless(sheet)) << crop.crop;
    const auto& colours = crop.colours.empty() ? sheet.colours : crop.colours;
    const bool is_green = sheet.roles.front() == Role::Foliage;
    EXPECT_TRUE(is_green || std::ranges::all_of(colours,
                                                [](const std::string& colour) {
                                                  return colour == "white" || colour == "pink";
                                                }))
        << crop.crop;
  }
  const Answer checked = run({"check", "@vases.toml"});
  EXPECT_EQ(checked.exit, kDone) << checked.out;
  EXPECT_EQ(count_of("broken:", checked.out), 0) << checked.out;
  const Answer calendar = run({"calendar", "@vases.toml"});
  EXPECT_EQ(calendar.exit, kDone) << calendar.err;
  EXPECT_NE(read("vases.ics").find("BEGIN:VEVENT"), std::string::npos);
}

// Asked, it is the plan of the options; with the same seed the same bytes, with another another
// garden and nothing else.
TEST_F(Start, AsksForTheSamePlan) {
  const Answer by_options = run(words(kAnswers, {"-o", "@a.toml", "--seed", "hedge"}));
  ASSERT_EQ(by_options.exit, kDone) << by_options.err;
  const Answer by_asking = run({"start", "-o", "@b.toml", "--seed", "hedge"}, typed(kAnswers));
  ASSERT_EQ(by_asking.exit, kDone) << by_asking.err;
  const auto without = [](std::string text, const std::string& key) {
    const std::size_t at = text.find(key + " = ");
    return text.erase(at, text.find('\n', at) - at);
  };
  EXPECT_EQ(without(read("a.toml"), "calendar"), without(read("b.toml"), "calendar"));
  const Answer other = run(words(kAnswers, {"-o", "@c.toml", "--seed", "lane"}));
  ASSERT_EQ(other.exit, kDone) << other.err;
  EXPECT_NE(plan("a.toml").garden, plan("c.toml").garden);
  const auto rest = [&](const char* name) {
    return without(without(read(name), "calendar"), "garden");
  };
  EXPECT_EQ(rest("a.toml"), rest("c.toml"));
}

// Each wrong answer is told what would be right, and asked again.
struct Slip {
  const char* question;
  const char* answer;
  const char* said;
};
const Slip kSlips[] = {
    {"latitude", "by the sea", "is no latitude"},
    {"latitude", "91", "must lie between -90 and 90"},
    {"latitude", "", "must be answered"},
    {"temperatures", "10, 12, 14", "twelve or two are wanted"},
    {"temperatures", "warm", "is no temperature"},
    {"temperatures", "10, 4", "warmest month is colder than the year's mean"},
    {"last-frost", "soon", "day"},
    {"last-frost", "30 February", "no calendar has"},
    {"first-frost", "28 May", "swapped"},
    {"frost-meaning", "usual", "must be"},
    {"beds", "large", "is no length x width"},
    {"beds", "2.6 x wide", "is no length x width"},
    {"beds", "a: 2.6 x 1, a: 1.5 x 1", "another bed"},
    {"trays", "two", "is no number"},
    {"vases", "-1", "must be from 0.1"},
    {"stems", "2.5", "whole"},
    {"to", "2 July", "before it begins"},
    {"colours", "whitish", "crop is known in 'whitish'"},
    {"like", "tulip of mine", "no sheet"},
    {"dislike", "cosmoss", "did you mean"},
    {"safe", "perhaps", "neither yes nor no"},
    {"days", "Someday", "day"},
    {"remind", "often", "must be"},
};

TEST_F(Start, AsksAgainAfterAWrongAnswer) {
  std::string text;
  for (const Question* question : asked()) {
    for (const Slip& slip : kSlips) {
      if (slip.question == question->name) text += std::string(slip.answer) + "\n";
    }
    text += kAnswers.find(question->name)->second + "\n";
  }
  const Answer started = run({"start", "-o", "@garden.toml"}, text);
  EXPECT_EQ(started.exit, kDone) << started.err;
  for (const Slip& slip : kSlips) {
    EXPECT_NE(started.err.find(slip.said), std::string::npos) << slip.said << started.err;
  }
}

// By options the same slips are refused, with the option's name.
TEST_F(Start, RefusesWrongOptions) {
  for (const Slip& slip : kSlips) {
    const bool is_flag = find_question(slip.question)->shape == Shape::YesNo;
    if (is_flag || std::string_view(slip.answer).empty()) continue;
    const Answer refused = run(words(but(kAnswers, slip.question, slip.answer), {"-o", "@x.toml"}));
    EXPECT_EQ(refused.exit, kBadInput) << slip.question << slip.answer;
    EXPECT_NE(refused.err.find(slip.said), std::string::npos) << refused.err;
    EXPECT_NE(refused.err.find("error: --"), std::string::npos) << refused.err;
  }
  EXPECT_TRUE(names().empty());
}

// What has no usual answer is asked for, all of it at once.
TEST_F(Start, NamesTheOptionsThatAreNeeded) {
  const Answer refused = run({"start", "--vases", "2", "-o", "@garden.toml"});
  EXPECT_EQ(refused.exit, kBadInput);
  for (const char* name : {"latitude", "last-frost", "first-frost", "beds", "from", "to"}) {
    EXPECT_EQ(count_of(fmt::format("error: --{} is needed", name), refused.err), 1) << refused.err;
  }
  EXPECT_EQ(count_of("is needed", refused.err), 6) << refused.err;
}

// Wherever the answers end, nothing is written.
TEST_F(Start, WritesNothingBeforeTheLastAnswer) {
  const std::string all = typed(kAnswers);
  for (std::size_t end = 0; end < all.size(); ++end) {
    if (end > 0 && all[end - 1] != '\n') continue;
    const Answer ended = run({"start", "-o", "@garden.toml"}, all.substr(0, end));
    EXPECT_EQ(ended.exit, kBadInput);
    EXPECT_NE(ended.err.find("nothing is written"), std::string::npos) << ended.err;
    EXPECT_EQ(ended.out, "");
  }
  EXPECT_TRUE(names().empty());
}

TEST_F(Start, GoesBackAndTellsMore) {
  const std::string text = "back\n0\nback\n?\n" + typed(kAnswers);
  const Answer started = run({"start", "-o", "@garden.toml"}, text);
  ASSERT_EQ(started.exit, kDone) << started.err;
  EXPECT_EQ(plan("garden.toml").place.latitude, 52.4);
  EXPECT_NE(started.err.find("Degrees"), std::string::npos) << started.err;
}

TEST_F(Start, WritesOverNoFile) {
  write("garden.toml", "mine\n");
  for (const std::vector<std::string>& line :
       {std::vector<std::string>{"start", "-o", "@garden.toml"},
        words(kAnswers, {"-o", "@garden.toml"})}) {
    const Answer refused = run(line, typed(kAnswers));
    EXPECT_EQ(refused.exit, kBadInput);
    EXPECT_NE(refused.err.find("name another file"), std::string::npos) << refused.err;
    EXPECT_EQ(read("garden.toml"), "mine\n");
  }
}

// To the standard output goes the plan alone.
TEST_F(Start, PrintsThePlanWhereAsked) {
  const Answer printed = run(words(kAnswers, {"-o", "-", "--seed", "hedge"}));
  ASSERT_EQ(printed.exit, kDone) << printed.err;
  EXPECT_TRUE(printed.out.starts_with("flowering_year = 2027")) << printed.out;
  EXPECT_NE(printed.err.find("Next:"), std::string::npos);
  EXPECT_TRUE(names().empty());
}

// The next flowers that can still be sown for.
TEST(StartJudge, ChoosesTheYear) {
  const struct {
    Date today;
    const char* latitude;
    const char* last;
    const char* first;
    const char* from;
    const char* to;
    int year;
  } cases[] = {
      {make_date(2026, 11, 26), "52.4", "12 May", "18 October", "20 June", "20 September", 2027},
      {make_date(2027, 3, 1), "52.4", "12 May", "18 October", "20 June", "20 September", 2027},
      {make_date(2027, 6, 1), "52.4", "12 May", "18 October", "20 June", "20 September", 2028},
      {make_date(2026, 8, 1), "41.3 S", "12 October", "10 May", "20 November", "20 April", 2027},
      {make_date(2026, 12, 1), "-41.3", "12 October", "10 May", "20 November", "20 April", 2028},
  };
  for (const auto& one : cases) {
    const MemoryFiles none({});
    std::ostringstream out, err;
    const Environment environment{.files = none, .out = out, .err = err, .today = one.today};
    StartJudge judge(Options(), environment, "garden.toml");
    StartAnswers answers = kAnswers;
    answers["latitude"] = one.latitude;
    answers["last-frost"] = one.last;
    answers["first-frost"] = one.first;
    answers["from"] = one.from;
    answers["to"] = one.to;
    const Verdict verdict = judge.judge(answers);
    ASSERT_TRUE(verdict.plan) << one.latitude << iso(one.today);
    const std::string text = judge.text(answers, *verdict.plan);
    EXPECT_TRUE(text.starts_with(fmt::format("flowering_year = {}\n", one.year)))
        << iso(one.today) << one.latitude << text;
  }
}

// How beds, days and degrees may be written.
TEST(StartQuestions, TakeWhatPeopleWrite) {
  const struct {
    const char* question;
    const char* answer;
    const char* line;
  } cases[] = {
      {"latitude", "41.3 S", "latitude = -41.3"},
      {"latitude", "41,3 south", "latitude = -41.3"},
      {"latitude", "-41.3", "latitude = -41.3"},
      {"latitude", "52.4\xC2\xB0 N", "latitude = 52.4"},
      {"temperatures", "10.1 16.8", "year_mean_c = 10.1\nwarmest_month_c = 16.8"},
      {"temperatures", "1,2,4,7,11,14,16,15,12,8,4,2",
       "mean_c = [1, 2, 4, 7, 11, 14, 16, 15, 12, 8, 4, 2]"},
      {"temperatures", "data/daily.csv", "weather = \"../data/daily.csv\""},
      {"beds", "2.6 x 1.1", "[[bed]]\nname = \"flower bed\"\nlength_m = 2.6\nwidth_m = 1.1"},
      {"beds", "gate: 8.5x4 ft", "[[bed]]\nname = \"gate\"\nlength_ft = 8.5\nwidth_ft = 4"},
      {"beds", "20ft x 4ft", "[[bed]]\nname = \"flower bed\"\nlength_ft = 20\nwidth_ft = 4"},
      {"beds", "4.2m x 90 cm", "[[bed]]\nname = \"flower bed\"\nlength_m = 4.2\nwidth_cm = 90"},
      {"beds", "2.6 \xC3\x97 1.1, 4.5 x 0.9", "name = \"bed 2\"\nlength_m = 4.5\nwidth_m = 0.9"},
      {"days", "Sat and Sun", "days = [\"Sat\", \"Sun\"]"},
      {"days", "Wed, Sat", "days = [\"Wed\", \"Sat\"]"},
      {"colours", "White, Pink", "colours = [\"white\", \"pink\"]"},
      {"safe", "Y", "safe = true"},
      {"title", "Ana's \"best\"", "title = \"Ana's \\\"best\\\"\""},
  };
  for (const auto& one : cases) {
    const Draft made = draft({{one.question, one.answer}}, 2027, make_date(2026, 11, 26), "plans");
    EXPECT_TRUE(made.wrong.empty()) << one.answer;
    EXPECT_NE(made.text.find(std::string(one.line) + "\n"), std::string::npos) << made.text;
    const auto lines = static_cast<std::size_t>(std::ranges::count(made.text, '\n'));
    EXPECT_EQ(made.questions.size(), lines);
  }
}

// Every usual answer is a right one.
TEST(StartQuestions, HaveUsualAnswersThatAreRight) {
  const MemoryFiles none({});
  std::ostringstream out, err;
  const Environment environment{
      .files = none, .out = out, .err = err, .today = make_date(2026, 11, 26)};
  StartJudge judge(Options(), environment, "garden.toml");
  StartAnswers answers;
  for (const Question& question : start_questions()) {
    answers[std::string(question.name)] =
        question.usual.empty() ? kAnswers.find(question.name)->second : std::string(question.usual);
  }
  const Verdict verdict = judge.judge(answers);
  EXPECT_TRUE(verdict.plan);
  EXPECT_TRUE(verdict.complaints.empty());
}

// A record tells the frost dates; the plan keeps to the record and not to its averages of today.
TEST_F(Start, TakesFrostDatesFromARecord) {
  std::string daily = "date,tmin_c,tmax_c\n";
  for (Date day = make_date(2005, 1, 1); day < make_date(2026, 11, 1); day += Days{1}) {
    const double angle = 2 * std::numbers::pi * (day_of_year(day) - 20) / 365;
    const double mean = 9.8 - 7 * std::cos(angle) + year_of(day) % 3;
    daily += fmt::format("{},{:.1f},{:.1f}\n", iso(day), mean - 5, mean + 5);
  }
  write("data/daily.csv", daily);
  StartAnswers answers = kAnswers;
  answers["temperatures"] = path("data/daily.csv");
  answers.erase("last-frost");
  answers.erase("first-frost");
  const Answer started = run(words(answers, {"-o", "@garden.toml"}));
  ASSERT_EQ(started.exit, kDone) << started.err;
  const std::string text = read("garden.toml");
  EXPECT_EQ(count_of("mean_max_c", text), 0) << text;
  const Place place = plan("garden.toml").place;
  ASSERT_TRUE(place.weather);
  const Answer frost = run({"frost", "@data/daily.csv", "--place"});
  for (const std::string& line :
       {fmt::format("last_frost = \"{}\"", short_day(place.last_frost)),
        fmt::format("first_frost = \"{}\"", short_day(place.first_frost))}) {
    EXPECT_NE(frost.out.find(line), std::string::npos) << line << frost.out;
  }
  const Answer checked = run({"check", "@garden.toml"});
  EXPECT_EQ(checked.exit, kDone) << checked.out << checked.err;
}

}  // namespace
}  // namespace trug::app
