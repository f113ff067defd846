// SPDX-License-Identifier: MIT
// A made-up bed with two plantings on known days.
#include "show/feed_page.h"

#include <gtest/gtest.h>

namespace trug::show {
namespace {

using work::JobKind;

Date day(const std::string& text) { return parse_iso(text).value(); }

class FeedPage : public testing::Test {
 protected:
  FeedPage() {
    plan_.title = "Porch <vases> & \"jars\"";
    plan_.flowering_year = 2027;
    plan_.place = {.latitude = 52,
                   .last_frost = std::chrono::May / 10,
                   .first_frost = std::chrono::October / 12,
                   .temperatures = TwoMeans{.year_mean_c = 9, .warmest_month_c = 17}};
    plan_.beds = {{.name = "long <bed>",
                   .length = Millimetres{5000},
                   .width = Millimetres{1200},
                   .stretches = {{.length = Millimetres{2000}}}}};
    add_planting(plan_, 0, 0, {.crop = "zinnia"});
    add_planting(plan_, 0, 0, {.crop = "o'rose"});
    sheet_.cut_stage = "the stem <stands>";
    sheet_.cautions = {{.kind = Caution::Kind::Poisonous,
                        .text = "all of it & more",
                        .handling = "wash your hands"}};
  }

  void add_job(const std::string& on, JobKind kind, const std::string& text) {
    JobRow job;
    job.key.kind = kind;
    job.crop = job.crop_words = "zinnia";
    job.doing = "Sow";
    job.bed = "long <bed>";
    job.day = day(on);
    job.text = text;
    jobs_.push_back(job);
  }

  // The planting's likely first cut and its lift; stems for `days`.
  void plant(std::size_t crop, const std::string& first_cut, int days, const std::string& lift) {
    ground::Sowing sowing;
    sowing.planting = crop;
    sowing.sheet = &sheet_;
    sowing.timeline.first_cut.likely = day(first_cut);
    sowing.timeline.shares.assign(static_cast<std::size_t>(days), 0.01);
    sowing.lift = day(lift);
    schedule_.sowings.push_back(sowing);
  }

  std::string page(const std::string& today) const {
    return feed_page(plan_, schedule_, jobs_, climate::Climate::from(plan_.place), day(today),
                     {"https://example.org/T/calendar.ics", "webcal://example.org/T/calendar.ics"});
  }

  // The part under a heading that begins so.
  std::string under(const std::string& heading, const std::string& page) const {
    const std::size_t from = page.find("<h2>" + heading);
    if (from == std::string::npos) return "no such heading: " + heading;
    return page.substr(from, page.find("<h2", from + 4) - from);
  }

  Plan plan_;
  Sheet sheet_;
  ground::Schedule schedule_;
  std::vector<JobRow> jobs_;
};

bool has(const std::string& text, const std::string& what) {
  return text.find(what) != std::string::npos;
}

TEST_F(FeedPage, WithoutAPlanItStillLeadsToTheCalendar) {
  const std::string page =
      feed_page_without_plan({"https://example.org/T/calendar.ics", "webcal://example.org/T/x"});
  EXPECT_TRUE(has(page, "<code>https://example.org/T/calendar.ics</code>"));
  EXPECT_TRUE(has(page, "href=\"webcal://example.org/T/x\""));
  EXPECT_TRUE(has(page, "The calendar goes on meanwhile as it was last."));
}

TEST_F(FeedPage, EscapesWhatThePlanSays) {
  add_job("2027-05-12", JobKind::Sow, "Sow <script>alert('x')</script>.");
  jobs_.back().crop = "zinnia <i>";
  jobs_.back().crop_words = "zinnia <i>";
  jobs_.back().person = "Ines & Co";
  jobs_.back().cautions_of = {{"zinnia <i>", {"Irritant: <b>.", "Keep & hold."}}};
  const std::string text = page("2027-05-12");
  EXPECT_TRUE(has(text, "<h1>Porch &lt;vases&gt; &amp; &quot;jars&quot;</h1>")) << text;
  EXPECT_TRUE(has(text, "<title>Porch &lt;vases&gt; &amp; &quot;jars&quot;</title>"));
  EXPECT_TRUE(has(text, "Sow &lt;script&gt;alert(&#39;x&#39;)&lt;/script&gt;."));
  EXPECT_TRUE(
      has(text, "<strong>Sow: zinnia &lt;i&gt;</strong>, long &lt;bed&gt; (Ines &amp; Co)"));
  EXPECT_TRUE(has(under("Take care", text),
                  "<strong>Zinnia &lt;i&gt;</strong>. Irritant: &lt;b&gt;. Keep &amp; hold.</li>"));
  for (const std::string raw :
       {"<script", "<i>", "<b>", "<bed>", "style=", "onclick", "http-equiv"}) {
    EXPECT_FALSE(has(text, raw)) << raw;
  }
}

TEST_F(FeedPage, AWeekRunsFromMondayToSundayAndNextMonthToItsEnd) {
  // 12 May 2027 is a Wednesday.
  for (const char* on :
       {"2027-05-09", "2027-05-10", "2027-05-16", "2027-05-17", "2027-06-30", "2027-07-01"}) {
    add_job(on, JobKind::Sow, std::string("Said on ") + on + ".");
  }
  const std::string text = page("2027-05-12");
  const std::string week = under("This week, until Sun 16 May", text);
  const std::string later = under("After this week, until 30 June", text);
  EXPECT_FALSE(has(text, "2027-05-09"));
  EXPECT_TRUE(has(week, "<h3><time datetime=\"2027-05-10\">Mon 10 May</time></h3>")) << week;
  EXPECT_TRUE(has(week, "<p>Said on 2027-05-10.</p>"));
  EXPECT_TRUE(has(week, "2027-05-16"));
  EXPECT_FALSE(has(week, "2027-05-17"));
  EXPECT_TRUE(has(later, "<h3><time datetime=\"2027-05-17\">Mon 17 May</time></h3>")) << later;
  EXPECT_TRUE(has(later, "2027-06-30"));
  EXPECT_FALSE(has(later, "Said on")) << "later days are a line each";
  EXPECT_FALSE(has(text, "2027-07-01"));
}

TEST_F(FeedPage, LaterJobsOfAKindAndABedShareALine) {
  const auto add = [this](const std::string& doing, const std::string& crop,
                          const std::string& bed) {
    add_job("2027-05-19", JobKind::HardenOff, "");
    jobs_.back().doing = doing;
    jobs_.back().crop_words = crop;
    jobs_.back().bed = bed;
  };
  add("Harden off", "zinnia <i>", "long <bed>");
  add("Plant out", "cosmos", "long <bed>");
  add("Harden off", "dahlia 2", "long <bed>");
  add("Harden off", "late: cosmos", "wall bed");
  const std::string later = under("After this week, until 30 June", page("2027-05-12"));
  EXPECT_TRUE(has(later,
                  "<ul>\n"
                  "<li>Harden off: zinnia &lt;i&gt; and dahlia 2, long &lt;bed&gt;</li>\n"
                  "<li>Plant out: cosmos, long &lt;bed&gt;</li>\n"
                  "<li>Harden off: late: cosmos, wall bed</li>\n"
                  "</ul>\n"))
      << later;
}

TEST_F(FeedPage, NextMonthAtTheTurnOfTheYear) {
  add_job("2028-01-31", JobKind::Sow, "");
  add_job("2028-02-01", JobKind::Sow, "");
  const std::string text = page("2027-12-31");
  EXPECT_TRUE(has(under("After this week, until 31 January", text), "2028-01-31")) << text;
  EXPECT_FALSE(has(text, "2028-02-01"));
}

TEST_F(FeedPage, CutsFromTheFirstCutToTheLastOrTheLift) {
  plant(0, "2027-07-20", 50, "2027-08-31");  // lifted before its last stems
  plant(1, "2027-07-25", 10, "2027-09-30");  // over before it is lifted
  const struct {
    const char* today;
    bool zinnia, rose;
  } table[] = {{"2027-07-19", false, false}, {"2027-07-20", true, false},
               {"2027-07-25", true, true},   {"2027-08-03", true, true},
               {"2027-08-04", true, false},  {"2027-08-31", true, false},
               {"2027-09-01", false, false}};
  for (const auto& row : table) {
    SCOPED_TRACE(row.today);
    const std::string text = under("To cut now", page(row.today));
    EXPECT_EQ(has(text, "Zinnia"), row.zinnia);
    EXPECT_EQ(has(text, "O&#39;rose"), row.rose);
    EXPECT_EQ(has(text, "Nothing, by the usual weather."), !row.zinnia && !row.rose);
  }
  EXPECT_TRUE(
      has(page("2027-07-25"),
          "<li><strong>O&#39;rose</strong>, long &lt;bed&gt;, until about <time "
          "datetime=\"2027-08-03\">3 August</time>. Cut when the stem &lt;stands&gt;.</li>"))
      << page("2027-07-25");
}

TEST_F(FeedPage, WhatIsCutCarriesItsCautionOnce) {
  plant(0, "2027-07-20", 20, "2027-09-30");
  add_job("2027-07-22", JobKind::Sow, "");
  jobs_.back().cautions = {"Poisonous: all of it & more. Wash your hands."};
  const std::string text = under("Take care", page("2027-07-22"));
  EXPECT_TRUE(has(text, "Poisonous: all of it &amp; more. Wash your hands.")) << text;
  EXPECT_EQ(text.find("Poisonous"), text.rfind("Poisonous"));
  EXPECT_TRUE(has(text, "local rules and qualified advice"));
  EXPECT_TRUE(under("Take care", page("2027-05-01")).starts_with("no such heading"));
}

TEST_F(FeedPage, NamesItsAddressesLanguageAndLandmark) {
  const std::string text = page("2027-05-12");
  for (const std::string wanted :
       {"<html xmlns=\"http://www.w3.org/1999/xhtml\" lang=\"en\">", "<main>", "</main>",
        "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\" />",
        "<link rel=\"stylesheet\" href=\"style.css\" />",
        "<a href=\"webcal://example.org/T/calendar.ics\">",
        "<code>https://example.org/T/calendar.ics</code>", "<a href=\"calendar.ics\">",
        "<img src=\"qr.svg\"", "<img src=\"qr-webcal.svg\"", "<h2 id=\"telephone\">",
        "<a href=\"#telephone\">", "<p>No job falls in these days.</p>"}) {
    EXPECT_TRUE(has(text, wanted)) << wanted;
  }
  EXPECT_EQ(text.find("<h1>"), text.rfind("<h1>"));
}

}  // namespace
}  // namespace trug::show
