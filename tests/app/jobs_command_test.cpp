// SPDX-License-Identifier: MIT
// Which jobs are shown.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "plan_text.h"
#include "program.h"

namespace trug::app {
namespace {

using Json = nlohmann::json;

class Jobs : public Program {
 protected:
  void SetUp() override {
    Program::SetUp();
    now_ = {*parse_iso("2027-05-03"), *parse_iso("2027-05-03") + std::chrono::hours{9}};
    write("plan.toml",
          head_text("") + std::string(kShelterText) +
              bed_text("lane", "2.3", "0.9", {{"2.2", "crops = [\"cornflower\", \"zinnia\"]"}}) +
              bed_text("yard", "2.3", "0.9", {{"2.2", "crops = [\"zinnia\"]"}}));
  }
  Json asked(std::vector<std::string> options) {
    std::vector<std::string> words = {"jobs", "@plan.toml", "--json"};
    words.insert(words.end(), options.begin(), options.end());
    return Json::parse(run(words).out).at("jobs");
  }
  std::string page(std::vector<std::string> options = {}) {
    std::vector<std::string> words = {"jobs", "@plan.toml"};
    words.insert(words.end(), options.begin(), options.end());
    return run(words).out;
  }
};

TEST_F(Jobs, APageBeginsTodayAndADocumentHoldsTheYear) {
  const Json year = asked({});
  ASSERT_LT(year.front().at("date").get<std::string>(), "2027-05-03");
  EXPECT_EQ(asked({"--all"}).size(), year.size());
  EXPECT_EQ(page().find("March 2027"), std::string::npos);
  EXPECT_NE(page().find(" before: --all shows "), std::string::npos);
  EXPECT_NE(page({"--all"}).find("2026"), std::string::npos);
  EXPECT_EQ(page({"--all"}).find(" before: --all shows "), std::string::npos);
}

TEST_F(Jobs, TheWeekIsSevenDaysAndNextSoMany) {
  for (const Json& job : asked({"--week"})) {
    EXPECT_GE(job.at("date").get<std::string>(), "2027-05-03");
    EXPECT_LE(job.at("date").get<std::string>(), "2027-05-09");
  }
  const Json june = asked({"--week", "--from", "2027-06-01"});
  for (const Json& job : june) EXPECT_LE(job.at("date").get<std::string>(), "2027-06-07");
  EXPECT_EQ(asked({"--next", "3"}).size(), 3u);
  EXPECT_GE(asked({"--next", "3"}).front().at("date").get<std::string>(), "2027-05-03");
}

// By the week; what is told with another job is in that one's time.
TEST_F(Jobs, TakeSoLong) {
  const std::string text = run({"jobs", "@plan.toml", "--all", "--hours"}).out;
  EXPECT_NE(text.find("  takes"), std::string::npos) << text;
  EXPECT_NE(text.find("week of "), std::string::npos) << text;
  EXPECT_EQ(run({"jobs", "@plan.toml", "--all"}).out.find("takes"), std::string::npos);
  double all = 0, longest = 0;
  for (const Json& job : asked({})) {
    const double minutes = job.at("minutes");
    all += minutes;
    longest = std::max(longest, minutes);
  }
  EXPECT_GT(all, 200);
  EXPECT_LT(longest, 180);
}

TEST_F(Jobs, OfABedOrACropAlone) {
  const std::size_t all = asked({}).size();
  const Json lane = asked({"--bed", "Lane"}), zinnia = asked({"--crop", "zinnia"});
  // What is bought for both together is shown with each.
  const auto check = [&](const Json& jobs, const char* field, const std::string& value) {
    int orders = 0;
    for (const Json& job : jobs) {
      if (job.at("items").is_null()) {
        EXPECT_EQ(job.at(field), value);
        continue;
      }
      ++orders;
      EXPECT_TRUE(job.at(field).is_null());
      EXPECT_TRUE(std::ranges::any_of(job.at("items"), [&](const Json& item) {
        return item.dump().find(value) != std::string::npos;
      })) << job;
    }
    EXPECT_GT(orders, 0);
    return jobs.size() - static_cast<std::size_t>(orders);
  };
  const std::size_t orders = asked({"--only", "order"}).size();
  EXPECT_EQ(check(lane, "bed", "lane") + check(asked({"--bed", "yard"}), "bed", "yard") + orders,
            all);
  EXPECT_EQ(check(zinnia, "crop", "zinnia") +
                check(asked({"--crop", "cornflower"}), "crop", "cornflower") + orders,
            all);
  // As shells like a space to be written.
  write("plan.toml", head_text("") + std::string(kShelterText) +
                         bed_text("lane", "2.3", "0.9", {{"2.2", "crops = [\"sweet pea\"]"}}));
  EXPECT_EQ(asked({"--crop", "sweet_pea"}), asked({"--crop", "Sweet pea"}));
  EXPECT_EQ(run({"why", "@plan.toml", "lane", "sweet-pea"}).exit, 0);
  const Answer none = run({"jobs", "@plan.toml", "--bed", "attic"});
  EXPECT_EQ(none.exit, kBadInput);
  EXPECT_NE(none.err.find("there is no planting in a bed 'attic'"), std::string::npos) << none.err;
}

TEST_F(Jobs, GroupsHoldTheirKinds) {
  std::size_t all = 0;
  for (const char* group : {"buying", "raising", "planting", "tending", "cutting", "clearing"}) {
    all += asked({"--only", group}).size();
  }
  EXPECT_EQ(all, asked({}).size());
}

TEST_F(Jobs, CautionsAreNamedAndToldWhereAsked) {
  EXPECT_NE(page().find("Crops marked ! harm. Spreads where it should not: cornflower."),
            std::string::npos)
      << page();
  EXPECT_NE(page({"--cautions"}).find("cornflower: Spreads where it should not: seeds itself"),
            std::string::npos);
}

}  // namespace
}  // namespace trug::app
