// SPDX-License-Identifier: MIT
// The feed through days and edits, with a clock and randomness of the test's own, and the file of
// its links.
#include "app/feed_keeper.h"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <numbers>
#include <sstream>

#include "app/feed_links.h"
#include "app/output_file.h"
#include "app/real_files.h"
#include "plan_text.h"

namespace trug::app {
namespace {

namespace fs = std::filesystem;

const std::string kPlan = head_text(R"(title = "Porch vases"
garden = "5f0e9c1c-2f43-4a4e-8f0b-8a2f6f5f0a11"
)") + std::string(kShelterText) +
                          bed_text("long bed", "5", "1.2", {{"2", R"(crops = ["cornflower"])"}});

const std::string kToken(feed::kTokenLength, 'a');

class FeedKeeperTest : public testing::Test {
 protected:
  FeedKeeperTest() {
    std::string name = (fs::temp_directory_path() / "feed-keeper-XXXXXX").string();
    EXPECT_NE(::mkdtemp(name.data()), nullptr);
    folder_ = name;
    options_.plans = {path("garden.toml")};
    write("garden.toml", kPlan);
    set_day("2027-03-01");
    site_.set_links({{feed::token_hash(kToken), feed::LinkState::Active}});
  }
  ~FeedKeeperTest() override { fs::remove_all(folder_); }

  std::string path(const std::string& name) const { return (folder_ / name).string(); }
  void write(const std::string& name, const std::string& text) const {
    std::ofstream(path(name), std::ios::binary) << text;
  }
  std::string read(const std::string& name) const {
    std::ifstream stream(path(name), std::ios::binary);
    std::ostringstream text;
    text << stream.rdbuf();
    return text.str();
  }
  void set_day(const std::string& day) {
    moment_.today = parse_iso(day).value();
    moment_.now = moment_.today;
  }
  std::string get(const std::string& name) const {
    const feed::Response response = site_.answer({"GET", "/" + kToken + "/" + name, "", ""});
    return response.status == 200 ? *response.body : "status " + std::to_string(response.status);
  }
  FeedKeeper keeper() {
    return {options_, environment_, path("garden.feed.ics"), "http://127.0.0.1:8017",
            site_,    gardens_};
  }
  // A change is acted on when two looks have seen the same.
  static void look_twice(FeedKeeper& keeper) {
    keeper.look();
    keeper.look();
  }

  fs::path folder_;
  RealFiles files_;
  std::ostringstream out_, err_;
  Moment moment_;
  std::uint8_t octet_ = 0;
  Options options_;
  feed::Site site_;
  Gardens gardens_;
  Environment environment_{.files = files_,
                           .out = out_,
                           .err = err_,
                           .random =
                               [this] {
                                 std::array<std::uint8_t, 16> octets{};
                                 octets.fill(octet_++);
                                 return octets;
                               },
                           .clock = [this] { return moment_; }};
};

TEST_F(FeedKeeperTest, ServesTheFileItWrites) {
  FeedKeeper feed = keeper();
  EXPECT_EQ(get("calendar.ics"), "status 503");
  ASSERT_EQ(feed.start(), kDone) << err_.str();
  EXPECT_EQ(get("calendar.ics"), read("garden.feed.ics"));
  EXPECT_NE(get("").find("Porch vases"), std::string::npos);
  EXPECT_EQ(get("").find("qr.svg"), std::string::npos) << "no telephone reaches 127.0.0.1";
  EXPECT_TRUE(get("chart.svg").starts_with("<?xml"));
  EXPECT_NE(read("garden.feed.ics").find("X-PUBLISHED-TTL"), std::string::npos) << "not for a feed";
}

TEST_F(FeedKeeperTest, ANewDayIsOnThePageAndLeavesTheCalendar) {
  FeedKeeper feed = keeper();
  ASSERT_EQ(feed.start(), kDone);
  const std::string calendar = get("calendar.ics");
  EXPECT_NE(get("").find("Mon 1 March 2027"), std::string::npos);
  feed.look();
  set_day("2027-03-02");
  feed.look();
  EXPECT_NE(get("").find("Tue 2 March 2027"), std::string::npos);
  EXPECT_EQ(get("calendar.ics"), calendar);
}

TEST_F(FeedKeeperTest, AnEditIsTakenUpWhenTheFileLiesStill) {
  FeedKeeper feed = keeper();
  ASSERT_EQ(feed.start(), kDone);
  const std::string before = get("calendar.ics");
  std::string plan = kPlan;
  plan.replace(plan.find("10 May"), 6, "24 May");
  write("garden.toml", plan);
  feed.look();
  EXPECT_EQ(get("calendar.ics"), before) << "it may still be written to";
  feed.look();
  EXPECT_NE(get("calendar.ics"), before);
  EXPECT_EQ(get("calendar.ics"), read("garden.feed.ics"));
}

TEST_F(FeedKeeperTest, ASheetBesideThePlanIsWatchedToo) {
  FeedKeeper feed = keeper();
  ASSERT_EQ(feed.start(), kDone);
  fs::create_directory(path("crops"));
  write("crops/cornflower.toml", "name = 3\n");
  look_twice(feed);
  EXPECT_NE(err_.str().find("crops/cornflower.toml:"), std::string::npos) << err_.str();
  EXPECT_NE(err_.str().find("The feed stays as it was."), std::string::npos);
}

// Three years of made-up weather, `warmer` by so many degrees.
std::string daily_record(double warmer) {
  std::string text = "date,tmin_c,tmax_c\n";
  for (Date day = make_date(2024, 1, 1); day < make_date(2027, 1, 1); day += Days{1}) {
    const double mean = 10 - 7 * std::cos(2 * std::numbers::pi * (day_of_year(day) - 20) / 365);
    text += iso(day) + "," + std::to_string(mean + warmer - 4) + "," +
            std::to_string(mean + warmer + 4) + "\n";
  }
  return text;
}

TEST_F(FeedKeeperTest, ThePlansWeatherIsWatchedToo) {
  std::string plan = kPlan;
  plan.insert(plan.find("[shelter]"), "weather = \"daily.csv\"\n\n");
  write("garden.toml", plan);
  write("daily.csv", daily_record(0));
  FeedKeeper feed = keeper();
  ASSERT_EQ(feed.start(), kDone) << err_.str();
  const std::string before = get("calendar.ics");
  look_twice(feed);
  EXPECT_EQ(get("calendar.ics"), before) << "nothing was edited";
  write("daily.csv", daily_record(3));
  look_twice(feed);
  EXPECT_NE(get("calendar.ics"), before) << err_.str();
  EXPECT_EQ(get("calendar.ics"), read("garden.feed.ics"));
}

TEST_F(FeedKeeperTest, AWeatherFileThatWasMissingIsTakenUpWhenItComes) {
  FeedKeeper feed = keeper();
  ASSERT_EQ(feed.start(), kDone) << err_.str();
  const std::string before = get("calendar.ics");
  std::string plan = kPlan;
  plan.insert(plan.find("[shelter]"), "weather = \"daily.csv\"\n\n");
  write("garden.toml", plan);
  look_twice(feed);
  EXPECT_NE(err_.str().find("The feed stays as it was."), std::string::npos) << err_.str();
  EXPECT_EQ(get("calendar.ics"), before);
  write("daily.csv", daily_record(3));
  look_twice(feed);
  EXPECT_NE(get("calendar.ics"), before) << err_.str();
}

TEST_F(FeedKeeperTest, AStartWithABrokenPlanServesTheLastGoodCalendar) {
  std::string last;
  {
    FeedKeeper feed = keeper();
    ASSERT_EQ(feed.start(), kDone);
    last = get("calendar.ics");
  }
  set_day("2027-03-03");
  write("garden.toml", kPlan + "length_m = \"long\"\n");
  site_.publish({"nothing yet", "", "", "", {}});
  err_.str("");
  FeedKeeper feed = keeper();
  EXPECT_EQ(feed.start(), kDone);
  EXPECT_EQ(get("calendar.ics"), last);
  EXPECT_EQ(read("garden.feed.ics"), last);
  EXPECT_NE(get("").find("The plan they are reckoned from cannot be read"), std::string::npos);
  EXPECT_NE(get("").find("Wed 3 March 2027"), std::string::npos);
  EXPECT_NE(get("").find("http://127.0.0.1:8017/" + kToken + "/calendar.ics"), std::string::npos);
  EXPECT_NE(err_.str().find(": error:"), std::string::npos) << err_.str();
  EXPECT_TRUE(err_.str().ends_with("The plan " + path("garden.toml") +
                                   " cannot be published. Served instead, until it is mended: the "
                                   "last good calendar, " +
                                   path("garden.feed.ics") + ", of 1 March 2027.\n"))
      << err_.str();

  std::string plan = kPlan;
  plan.replace(plan.find("10 May"), 6, "24 May");
  write("garden.toml", plan);
  look_twice(feed);
  EXPECT_NE(get("calendar.ics"), last) << err_.str();
  EXPECT_EQ(get("calendar.ics"), read("garden.feed.ics"));
  EXPECT_NE(get("").find("Wed 3 March 2027"), std::string::npos);
}

TEST_F(FeedKeeperTest, AStartWithABrokenPlanAndNoCalendarOfOursFails) {
  write("garden.toml", kPlan + "length_m = \"long\"\n");
  {
    FeedKeeper feed = keeper();
    EXPECT_EQ(feed.start(), kBadInput);
  }
  write("garden.feed.ics", "my own notes\n");
  FeedKeeper feed = keeper();
  EXPECT_EQ(feed.start(), kBadInput);
  EXPECT_EQ(get("calendar.ics"), "status 503");
  EXPECT_EQ(read("garden.feed.ics"), "my own notes\n");
}

// Three vases a week are more than two metres of cornflowers give.
TEST_F(FeedKeeperTest, UnderStrictAPlanWithFindingsIsNotPublished) {
  options_.strict = true;
  std::string plan = kPlan;
  plan.insert(plan.find("[[bed]]"),
              "[wish]\nvases_per_week = 3\nfrom = \"20 May\"\nto = \"30 September\"\n\n");
  write("garden.toml", plan);
  {
    FeedKeeper feed = keeper();
    EXPECT_EQ(feed.start(), kFindings) << err_.str();
    EXPECT_EQ(get("calendar.ics"), "status 503");
    EXPECT_FALSE(fs::exists(path("garden.feed.ics")));
    EXPECT_TRUE(err_.str().ends_with("With --strict, a plan that has findings is not published.\n"))
        << err_.str();
  }
  options_.strict = false;
  FeedKeeper feed = keeper();
  EXPECT_EQ(feed.start(), kDone) << err_.str();
}

TEST_F(FeedKeeperTest, ABrokenEditKeepsTheLastGoodFeed) {
  FeedKeeper feed = keeper();
  ASSERT_EQ(feed.start(), kDone);
  const std::string before = get("calendar.ics");
  write("garden.toml", kPlan + "length_m = \"long\"\n");
  look_twice(feed);
  EXPECT_NE(err_.str().find("garden.toml:"), std::string::npos) << err_.str();
  EXPECT_NE(err_.str().find("The feed stays as it was."), std::string::npos);
  EXPECT_EQ(get("calendar.ics"), before);
  EXPECT_EQ(read("garden.feed.ics"), before);
  EXPECT_NE(get("").find("earlier plan.</strong> Since <time datetime=\"2027-03-01\">"),
            std::string::npos);
  err_.str("");
  look_twice(feed);
  EXPECT_EQ(err_.str(), "") << "told once";
  set_day("2027-03-04");
  look_twice(feed);
  EXPECT_NE(get("").find("Thu 4 March 2027"), std::string::npos) << "the day goes on";
  EXPECT_NE(get("").find("Since <time datetime=\"2027-03-01\">"), std::string::npos);
  err_.str("");
  write("garden.toml", kPlan);
  look_twice(feed);
  EXPECT_EQ(err_.str(), "The feed is what its plan says again.\n");
  EXPECT_EQ(get("").find("earlier plan"), std::string::npos);
  EXPECT_EQ(get("calendar.ics"), before);
}

TEST_F(FeedKeeperTest, AForeignFileIsNotReplaced) {
  write("garden.feed.ics", "my own notes\n");
  FeedKeeper feed = keeper();
  EXPECT_EQ(feed.start(), kRefused);
  EXPECT_EQ(read("garden.feed.ics"), "my own notes\n");
  EXPECT_EQ(get("calendar.ics"), "status 503");
}

TEST_F(FeedKeeperTest, WhatCannotBeWrittenIsNotServed) {
  FeedKeeper feed = keeper();
  ASSERT_EQ(feed.start(), kDone);
  const std::string before = get("calendar.ics");
  fs::remove(path("garden.feed.ics"));
  fs::create_directory(path("garden.feed.ics"));
  set_day("2027-03-02");
  feed.look();
  EXPECT_NE(err_.str().find("error: not a plain file"), std::string::npos) << err_.str();
  EXPECT_EQ(get("calendar.ics"), before);
}

TEST_F(FeedKeeperTest, AFileThatGoesMissingIsMadeAnewWithHigherNumbers) {
  FeedKeeper feed = keeper();
  ASSERT_EQ(feed.start(), kDone);
  EXPECT_NE(get("calendar.ics").find("SEQUENCE:0\r\n"), std::string::npos);
  fs::remove(path("garden.feed.ics"));
  set_day("2027-03-02");
  feed.look();
  EXPECT_EQ(get("calendar.ics").find("SEQUENCE:0\r\n"), std::string::npos)
      << "clients would think the events older than those they have";
  EXPECT_EQ(get("calendar.ics"), read("garden.feed.ics"));
}

// While nothing was served the file went missing, or lost its end: that there are links proves that
// there was a calendar.
TEST_F(FeedKeeperTest, BesideLinksAMissingOrDamagedFileCountsAsLost) {
  ASSERT_EQ(keeper().start(), kDone);
  const std::string whole = read("garden.feed.ics");
  ASSERT_TRUE(add_link(path("garden.feed.links"), kToken, environment_));
  set_day("2027-03-02");
  for (const std::string& left :
       {std::string("gone"), std::string(), whole.substr(0, whole.size() / 2)}) {
    SCOPED_TRACE(left.size());
    write("garden.feed.ics", left);
    if (left == "gone") fs::remove(path("garden.feed.ics"));
    Gardens gardens;
    FeedKeeper feed(options_, environment_, path("garden.feed.ics"), "http://x", site_, gardens);
    EXPECT_EQ(feed.start(), kDone);
    EXPECT_NE(err_.str().find("garden.feed.ics counts as lost: its jobs are numbered above any a "
                              "calendar may remember\n"),
              std::string::npos)
        << err_.str();
    EXPECT_EQ(get("calendar.ics").find("SEQUENCE:0\r\n"), std::string::npos);
    EXPECT_NE(get("calendar.ics").find("SEQUENCE:37"), std::string::npos) << "minutes since 2020";
    err_.str("");
    EXPECT_EQ(feed.start(), kDone);
    EXPECT_EQ(err_.str().find("counts as lost"), std::string::npos);
  }
}

TEST_F(FeedKeeperTest, WithoutLinksADamagedFileIsTheGardenersToDecide) {
  ASSERT_EQ(keeper().start(), kDone);
  const std::string half = read("garden.feed.ics").substr(0, 900);
  write("garden.feed.ics", half);
  EXPECT_EQ(keeper().start(), kRefused);
  EXPECT_NE(err_.str().find("hint: --lost makes it anew"), std::string::npos) << err_.str();
  EXPECT_EQ(read("garden.feed.ics"), half);
  write("garden.feed.ics", "my own notes\n");
  ASSERT_TRUE(add_link(path("garden.feed.links"), kToken, environment_));
  options_.lost = true;
  EXPECT_EQ(keeper().start(), kRefused);
  EXPECT_EQ(read("garden.feed.ics"), "my own notes\n");
  write("garden.feed.ics", half);
  FeedKeeper feed = keeper();
  EXPECT_EQ(feed.start(), kDone);
  // Once: the next version is a later version of this one.
  const std::string calendar = get("calendar.ics");
  set_day("2027-03-03");
  look_twice(feed);
  EXPECT_EQ(get("calendar.ics"), calendar);
}

TEST_F(FeedKeeperTest, TwoPlansOfOneGardenAndYearAreRefused) {
  FeedKeeper first = keeper();
  ASSERT_EQ(first.start(), kDone);
  // A copy with another crop; the last good calendar of an earlier run does not stand in for it.
  write("copy.toml", kPlan);
  write("copy.feed.ics", read("garden.feed.ics"));
  Options options = options_;
  options.plans = {path("copy.toml")};
  feed::Site site;
  FeedKeeper copy(options, environment_, path("copy.feed.ics"), "http://x", site, gardens_);
  EXPECT_EQ(copy.start(), kBadInput);
  EXPECT_NE(err_.str().find("copy.toml have one garden and flowering year"), std::string::npos)
      << err_.str();
  // Another year of the garden is another calendar.
  std::string next(kPlan);
  next.replace(next.find("2027"), 4, "2028");
  write("copy.toml", next);
  fs::remove(path("copy.feed.ics"));
  EXPECT_EQ(copy.start(), kDone);
  // While both are served, an edit that makes them one leaves the feed as it was.
  write("copy.toml", kPlan);
  const std::string before = read("copy.feed.ics");
  look_twice(copy);
  EXPECT_TRUE(err_.str().ends_with("The feed stays as it was.\n")) << err_.str();
  EXPECT_EQ(read("copy.feed.ics"), before);
  // And the log ends well where the edit is taken back.
  write("copy.toml", next);
  look_twice(copy);
  EXPECT_TRUE(err_.str().ends_with("The feed is what its plan says again.\n")) << err_.str();
}

TEST_F(FeedKeeperTest, ItsFileIsForItsOwnerUntilTheGardenerOpensIt) {
  ASSERT_EQ(keeper().start(), kDone);
  const auto mine = fs::perms::owner_read | fs::perms::owner_write;
  EXPECT_EQ(fs::status(path("garden.feed.ics")).permissions(), mine);
  fs::permissions(path("garden.feed.ics"), mine | fs::perms::group_read);
  std::string plan = kPlan;
  plan.replace(plan.find("10 May"), 6, "20 May");
  write("garden.toml", plan);
  ASSERT_EQ(keeper().start(), kDone);
  EXPECT_EQ(fs::status(path("garden.feed.ics")).permissions(), mine | fs::perms::group_read);
}

TEST_F(FeedKeeperTest, LinksAreKeptAsHashesForTheirOwnerAlone) {
  const std::string file = path("garden.feed.links");
  EXPECT_EQ(links_path(path("garden.feed.ics")), file);
  const std::string first = new_token(environment_), second = new_token(environment_);
  EXPECT_NE(first, second);
  EXPECT_TRUE(feed::is_token(first));
  ASSERT_TRUE(add_link(file, first, environment_));
  write("garden.feed.links",
        read("garden.feed.links") + "# active " + feed::token_hash(second) + " is the kitchen's\n");
  ASSERT_TRUE(add_link(file, second, environment_));
  EXPECT_EQ(fs::status(file).permissions(), fs::perms::owner_read | fs::perms::owner_write);
  const std::string text = read("garden.feed.links");
  EXPECT_EQ(text.find(first), std::string::npos);
  EXPECT_EQ(text.find(second), std::string::npos);

  EXPECT_EQ(withdraw_links(file, kToken, environment_), 0);
  EXPECT_EQ(read("garden.feed.links"), text);
  EXPECT_EQ(withdraw_links(file, second, environment_), 1);
  const std::vector<feed::Link> expected{{feed::token_hash(first), feed::LinkState::Active},
                                         {feed::token_hash(second), feed::LinkState::Revoked}};
  EXPECT_EQ(read_links(file, environment_), expected);
  EXPECT_NE(read("garden.feed.links").find("# active "), std::string::npos) << "a remark stays";
  EXPECT_EQ(withdraw_links(file, std::nullopt, environment_), 2);
  EXPECT_EQ(read_links(file, environment_)->front().state, feed::LinkState::Revoked);
}

TEST_F(FeedKeeperTest, NothingIsAddedToAWrongFileOfLinksAndTheBrakesWork) {
  const std::string wrong = "active " + kToken + "\n";
  write("garden.feed.links", wrong);
  EXPECT_FALSE(add_link(path("garden.feed.links"), kToken, environment_));
  EXPECT_EQ(read("garden.feed.links"), wrong);
  EXPECT_EQ(withdraw_links(path("garden.feed.links"), std::nullopt, environment_), 1);
  EXPECT_EQ(read("garden.feed.links"), "# " + wrong);
  EXPECT_NE(err_.str().find("garden.feed.links:1:1: error:"), std::string::npos) << err_.str();
  EXPECT_EQ(err_.str().find(kToken), std::string::npos) << "it might be a secret";
}

TEST(Links, ATokenIsFoundInEveryFormOfALink) {
  for (const std::string& link :
       {kToken, "https://example.org/garden/" + kToken + "/calendar.ics",
        "webcal://127.0.0.1:8017/" + kToken + "/calendar.ics", "http://x/" + kToken + "/"}) {
    EXPECT_EQ(token_in(link), kToken) << link;
  }
  for (const std::string& link : {std::string(), std::string("https://example.org/garden/"),
                                  kToken + "a", kToken.substr(1)}) {
    EXPECT_EQ(token_in(link), std::nullopt) << link;
  }
}

}  // namespace
}  // namespace trug::app
