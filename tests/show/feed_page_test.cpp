// SPDX-License-Identifier: MIT
// A made-up bed with two plantings on known days.
#include "show/feed_page.h"

#include <gtest/gtest.h>

#include <optional>
#include <string>
#include <utility>
#include <vector>

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
    job.title = "Sow zinnias";
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
    sowing.stems_per_plant = 5;
    schedule_.sowings.push_back(sowing);
  }

  // A week of the wish with so many of twelve stems.
  void add_week(const std::string& monday, double usable, std::vector<harvest::Lack> lacks = {}) {
    harvest::Week week;
    week.monday = day(monday);
    week.wished = true;
    week.vase = {.wanted = 12, .usable = usable};
    week.vase.lacks = std::move(lacks);
    weeks_.push_back(week);
    plan_.wish = Wish{};
  }

  std::string page(const std::string& today, std::optional<Date> broken_since = {},
                   bool only_here = false) const {
    const auto climate = climate::Climate::from(plan_.place);
    return feed_page(
        {plan_, schedule_, weeks_, jobs_, climate}, day(today),
        {"https://example.org/T/calendar.ics", "webcal://example.org/T/calendar.ics", only_here},
        broken_since);
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
  std::vector<harvest::Week> weeks_;
};

bool has(const std::string& text, const std::string& what) {
  return text.find(what) != std::string::npos;
}

TEST_F(FeedPage, WithoutAPlanItStillLeadsToTheCalendar) {
  const std::string page = feed_page_without_plan(
      day("2027-03-03"), {"https://example.org/T/calendar.ics", "webcal://example.org/T/x"});
  EXPECT_TRUE(has(page, "<code>https://example.org/T/calendar.ics</code>"));
  EXPECT_TRUE(has(page, "href=\"webcal://example.org/T/x\""));
  EXPECT_TRUE(has(page, "The calendar goes on meanwhile as it was last."));
  EXPECT_TRUE(has(page, "Wed 3 March 2027")) << "since when";
}

TEST_F(FeedPage, EscapesWhatThePlanSays) {
  add_job("2027-05-12", JobKind::Sow, "Sow <script>alert('x')</script>.");
  jobs_.back().crop = "zinnia <i>";
  jobs_.back().title = "Sow zinnia <i>";
  jobs_.back().person = "Ines & Co";
  jobs_.back().cautions_of = {{"zinnia <i>", {"Irritant: <b>.", "Keep & hold."}}};
  const std::string text = page("2027-05-12");
  EXPECT_TRUE(has(text, "<h1>Porch &lt;vases&gt; &amp; &quot;jars&quot;</h1>")) << text;
  EXPECT_TRUE(has(text, "<title>Porch &lt;vases&gt; &amp; &quot;jars&quot;</title>"));
  EXPECT_TRUE(has(text, "Sow &lt;script&gt;alert(&#39;x&#39;)&lt;/script&gt;."));
  EXPECT_TRUE(has(text, "<strong>Sow zinnia &lt;i&gt;</strong>, long &lt;bed&gt; (Ines &amp; Co)"));
  EXPECT_TRUE(has(under("Take care", text),
                  "<strong>Zinnia &lt;i&gt;</strong>. Irritant: &lt;b&gt;. Keep &amp; hold.</li>"));
  for (const std::string raw :
       {"<script", "<i>", "<b>", "<bed>", "style=", "onclick", "http-equiv"}) {
    EXPECT_FALSE(has(text, raw)) << raw;
  }
}

TEST_F(FeedPage, TodayComesFirstThenWhatIsNext) {
  // 12 May 2027 is a Wednesday.
  for (const char* on : {"2027-05-09", "2027-05-10", "2027-05-12", "2027-05-16", "2027-05-17",
                         "2027-06-30", "2027-07-01"}) {
    add_job(on, JobKind::Sow, std::string("Said on ") + on + ".");
  }
  const std::string text = page("2027-05-12");
  EXPECT_TRUE(has(under("Today", text), "<p>Said on 2027-05-12.</p>")) << text;
  const std::string next = under("Next", text);
  EXPECT_TRUE(has(next, "<h3><time datetime=\"2027-05-16\">Sun 16 May</time></h3>")) << next;
  EXPECT_TRUE(has(next, "<p>Said on 2027-05-16.</p>"));
  const std::string after = under("After that, until 30 June", text);
  EXPECT_TRUE(has(
      after, "<li><strong><time datetime=\"2027-05-17\">Mon 17 May</time></strong> Sow: zinnia"))
      << after;
  EXPECT_TRUE(has(after, "2027-06-30"));
  EXPECT_FALSE(has(after, "Said on")) << "later days are a line each";
  EXPECT_FALSE(has(after, "2027-05-16")) << "told already";
  EXPECT_FALSE(has(text, "2027-07-01"));
  EXPECT_TRUE(has(under("Earlier this week", text), "2027-05-10"));
  EXPECT_FALSE(has(text, "2027-05-09"));
  const std::vector<std::string> order{"<h2>Today", "<h2>Next", "<h2>To cut in May", "<h2>The beds",
                                       "id=\"telephone\""};
  for (std::size_t i = 1; i < order.size(); ++i) {
    EXPECT_LT(text.find(order[i - 1]), text.find(order[i])) << order[i];
  }
}

TEST_F(FeedPage, WhatIsNextIsNamedHoweverFarOff) {
  add_job("2028-03-04", JobKind::Sow, "Said in spring.");
  const std::string text = page("2027-10-20");
  EXPECT_TRUE(has(under("Today", text), "Nothing falls on this day.")) << text;
  EXPECT_TRUE(has(under("Next", text), "Sat 4 March 2028</time>")) << text;
  EXPECT_TRUE(has(under("Next", text), "Said in spring."));
  EXPECT_TRUE(has(under("Next", page("2028-03-04")), "No more jobs lie ahead in this plan."));
}

TEST_F(FeedPage, WhatIsToldWithAnotherHasNoLineOfItsOwn) {
  add_job("2027-05-12", JobKind::WaterIn, "Said with another.");
  jobs_.back().told_with = 0;
  EXPECT_FALSE(has(page("2027-05-12"), "Said with another."));
  EXPECT_FALSE(has(page("2027-05-11"), "2027-05-12"));
}

TEST_F(FeedPage, SaysSinceWhenItIsOfAnEarlierPlan) {
  EXPECT_FALSE(has(page("2027-05-12"), "earlier plan"));
  const std::string text = page("2027-05-12", day("2027-05-10"));
  const std::size_t note = text.find("This page is of an earlier plan.");
  ASSERT_NE(note, std::string::npos);
  EXPECT_TRUE(has(text.substr(note), "Since <time datetime=\"2027-05-10\">Mon 10 May 2027</time>"));
  EXPECT_LT(note, text.find("<h2>Today"));
}

TEST_F(FeedPage, TheWeeksThatGoShortAreNamed) {
  EXPECT_FALSE(has(page("2027-05-12"), "<h2>Vases")) << "no wish";
  add_week("2027-04-26", 2, {harvest::Lack::Stems});
  add_week("2027-05-03", 12);
  add_week("2027-05-10", 2, {harvest::Lack::Stems});
  add_week("2027-05-17", 2, {harvest::Lack::Stems});
  add_week("2027-05-24", 8, {harvest::Lack::Main, harvest::Lack::Kind});
  const std::string text = under("Vases", page("2027-05-16"));
  EXPECT_TRUE(has(text, "<p>1 of the 5 weeks has its vases by the usual weather.</p>")) << text;
  EXPECT_TRUE(has(text,
                  "<ul>\n<li>Weeks of 10 May to 17 May: less than half of the vases, wanting "
                  "stems</li>\n"
                  "<li>Week of 24 May: half of the vases or more, wanting a main flower and a "
                  "second kind</li>\n</ul>"))
      << text;
  EXPECT_FALSE(has(under("Vases", page("2027-06-01")), "<li>")) << "all of them past";
}

TEST_F(FeedPage, CodesOnlyForAddressesThatATelephoneReaches) {
  const std::string far = page("2027-05-12"), near = page("2027-05-12", {}, true);
  EXPECT_TRUE(has(far, "qr.svg"));
  EXPECT_FALSE(has(near, "qr"));
  EXPECT_TRUE(has(near, "--listen 192.168.1.20:8017"));
  EXPECT_TRUE(has(near, "<code>https://example.org/T/calendar.ics</code>"));
}

// The secret is in the address: on paper it would hang in the shed for all to read.
TEST_F(FeedPage, NothingSecretIsPrinted) {
  const std::string text = page("2027-05-12");
  const std::string telephone = "<div class=\"screen\"><h2 id=\"telephone\">";
  EXPECT_LT(text.find(telephone), text.find("https://example.org"));
  EXPECT_LT(text.find(telephone), text.find("webcal://"));
  EXPECT_LT(text.find(telephone), text.find("calendar.ics"));
  EXPECT_EQ(text.find("</div>", text.find(telephone)), text.rfind("</div>")) << "to the page's end";
  const std::string print = feed_style().substr(feed_style().find("@media print"));
  EXPECT_TRUE(has(print, ".screen { display: none; }"));
  EXPECT_TRUE(has(feed_style(), "@page { size: A4; margin: 0; }")) << "no room for the address";
}

TEST_F(FeedPage, LaterJobsOfAKindAndABedShareALine) {
  const auto add = [this](const std::string& doing, const std::string& crop,
                          const std::string& bed) {
    add_job("2027-05-19", JobKind::HardenOff, "");
    jobs_.back().doing = doing;
    jobs_.back().crop_words = crop;
    jobs_.back().bed = bed;
  };
  add_job("2027-05-13", JobKind::Sow, "");
  add("Harden off", "zinnia <i>", "long <bed>");
  add("Plant out", "cosmos", "long <bed>");
  add("Harden off", "dahlia 2", "long <bed>");
  add("Harden off", "late: cosmos", "wall bed");
  const std::string later = under("After that, until 30 June", page("2027-05-12"));
  EXPECT_TRUE(has(later,
                  " Harden off: zinnia &lt;i&gt; and dahlia 2, long &lt;bed&gt;."
                  " Plant out: cosmos, long &lt;bed&gt;."
                  " Harden off: late: cosmos, wall bed.</li>\n"))
      << later;
}

TEST_F(FeedPage, NextMonthAtTheTurnOfTheYear) {
  add_job("2028-01-01", JobKind::Sow, "");
  add_job("2028-01-31", JobKind::Sow, "");
  add_job("2028-02-01", JobKind::Sow, "");
  const std::string text = page("2027-12-31");
  EXPECT_TRUE(has(under("After that, until 31 January", text), "2028-01-31")) << text;
  EXPECT_FALSE(has(text, "2028-02-01"));
}

TEST_F(FeedPage, CutsOfTheMonthUntilTheLastOrTheLift) {
  plant(0, "2027-07-20", 50, "2027-08-31");  // lifted before its last stems
  plant(1, "2027-08-25", 10, "2027-09-30");  // over before it is lifted
  const struct {
    const char *today, *month;
    bool zinnia, rose;
  } table[] = {{"2027-06-30", "June", false, false},     {"2027-07-01", "July", true, false},
               {"2027-07-31", "July", true, false},      {"2027-08-01", "August", true, true},
               {"2027-08-31", "August", true, true},     {"2027-09-01", "September", false, true},
               {"2027-09-03", "September", false, true}, {"2027-09-04", "September", false, false}};
  for (const auto& row : table) {
    SCOPED_TRACE(row.today);
    const std::string text = under(std::string("To cut in ") + row.month, page(row.today));
    EXPECT_EQ(has(text, "Zinnia"), row.zinnia);
    EXPECT_EQ(has(text, "O&#39;rose"), row.rose);
    EXPECT_EQ(has(text, "Nothing, by the usual weather."), !row.zinnia && !row.rose);
  }
  EXPECT_TRUE(has(page("2027-08-01"),
                  "<li><strong>O&#39;rose</strong>, long &lt;bed&gt;, from about <time "
                  "datetime=\"2027-08-25\">25 August</time> until about <time "
                  "datetime=\"2027-09-03\">3 September</time>. Cut when the stem "
                  "&lt;stands&gt;.</li>"))
      << page("2027-08-01");
  EXPECT_TRUE(has(page("2027-08-25"), "O&#39;rose</strong>, long &lt;bed&gt;, until about <time"));
  schedule_.sowings[1].stems_per_plant = 0;  // too young to be cut
  EXPECT_FALSE(has(page("2027-08-25"), "O&#39;rose"));
}

TEST_F(FeedPage, WhatIsCutCarriesItsCautionOnce) {
  plant(0, "2027-07-20", 20, "2027-09-30");
  add_job("2027-07-22", JobKind::Sow, "");
  jobs_.back().cautions = {{"zinnia", {"Poisonous: all of it & more. Wash your hands."}}};
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
        "<a href=\"#telephone\">", "<img src=\"chart.svg\"", "<a href=\"chart.svg\">"}) {
    EXPECT_TRUE(has(text, wanted)) << wanted;
  }
  EXPECT_EQ(text.find("<h1>"), text.rfind("<h1>"));
}

}  // namespace
}  // namespace trug::show
