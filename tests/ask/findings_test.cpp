// SPDX-License-Identifier: MIT
// What is found in a plan, and what is said of it.
#include "ask/findings.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <numeric>
#include <utility>
#include <variant>

#include "ask/find.h"
#include "growth/places.h"
#include "show/finding_words.h"
#include "work/planned.h"

namespace trug::ask {
namespace {

const std::string kBed =
    "[[bed]]\nname = \"b\"\nlength_m = 4.6\nwidth_m = 0.9\n[[bed.stretch]]\nlength_m = 2.2\n";

std::string crop(const std::string& name, const std::string& more = "") {
  return "[[bed.stretch.crop]]\ncrop = \"" + name + "\"\n" + more;
}

template <class Kind>
const Kind* found(const Planned& p) {
  const Finding* finding = p.finding(Kind::kCode);
  return finding ? &std::get<Kind>(finding->found) : nullptr;
}

// Peonies are not cut in their first two years (common practice).
TEST(Finding, AStartOverThreeWeeksLateIsNoLongerMild) {
  const auto rank = [](Found found) { return Finding{{}, "", {}, std::move(found), {}}.rank(); };
  EXPECT_EQ(rank(LateStart{.days_late = 21}), Rank::Mild);
  EXPECT_EQ(rank(LateStart{.days_late = 22}), Rank::Short);
  EXPECT_EQ(rank(HeldBack{.days_late = 60}), Rank::Short);
  EXPECT_EQ(rank(OwnClockSeen{.days_late = 60}), Rank::Mild) << "of the garden, not of a start";
}

TEST(Findings, WhatIsTooYoungIsSaidWithTheYearOfItsFirstStems) {
  const std::string wish =
      "[wish]\nvases_per_week = 1\nstems_per_vase = 9\nfrom = \"1 May\"\nto = \"1 October\"\n";
  const Planned young = planned("", wish + kBed + crop("peony"));
  ASSERT_TRUE(found<FewStems>(young));
  EXPECT_EQ(found<FewStems>(young)->first_year, young.plan.flowering_year + 2);
  EXPECT_NE(show::message(young.plan, *young.finding("few-stems")).find("first stems come in 2029"),
            std::string::npos);
}

// Heat stops it on the day of its first cut: it is not lifted before, and gives nothing all the
// same.
TEST(Findings, WhatIsCutAndGivesNothingGivesFewStems) {
  const std::string wish =
      "[wish]\nvases_per_week = 1\nstems_per_vase = 9\nfrom = \"1 May\"\nto = \"1 October\"\n";
  int seen = 0;
  for (Date day = make_date(2027, 4, 1); day < make_date(2027, 6, 1); day += Days{1}) {
    Planned kansas = planned("", wish + kBed + crop("godetia", "start_on = " + iso(day) + "\n"));
    kansas.plan.place = six_places().at("Kansas City");
    kansas.climate = climate::Climate::from(kansas.plan.place);
    static_cast<Outcome&>(kansas) = reckon(kansas.garden());
    const auto& sowings = kansas.schedule.sowings;
    if (sowings.empty() || !sowings.front().is_cut()) continue;
    const auto stems = ground::stems_by_day(sowings.front());
    if (std::accumulate(stems.begin(), stems.end(), 0.0) > 0) continue;
    ++seen;
    EXPECT_TRUE(found<FewStems>(kansas)) << iso(day);
  }
  EXPECT_GT(seen, 0);
}

TEST(Findings, ASuccessionThatDoesNotFitIsNoCropThatDoesNotGrow) {
  const Planned p = planned("", kBed + crop("sunflower", "successions = 20\n"));
  EXPECT_FALSE(p.finding("cannot-grow"));
  const auto* fewer = found<FewerSowings>(p);
  ASSERT_TRUE(fewer);
  EXPECT_EQ(fewer->asked, 20);
  EXPECT_GT(fewer->useful, 1);
  EXPECT_LT(fewer->useful, 20);
  const Planned as_said = planned(
      "", kBed + crop("sunflower", "successions = " + std::to_string(fewer->useful) + "\n"));
  EXPECT_EQ(as_said.schedule.of(0).size(), static_cast<std::size_t>(fewer->useful));
}

// What to do next, when this year has nothing left to do.
TEST(Findings, TheSeasonIsOverWhenNothingCanBeBegunOrItsWeeksArePast) {
  const std::string wish =
      "[wish]\nvases_per_week = 1\nstems_per_vase = 9\nfrom = \"1 May\"\nto = \"1 October\"\n";
  const Planned past = planned("flowering_year = 2025\n", wish + kBed + crop("zinnia"));
  ASSERT_TRUE(found<SeasonOver>(past));
  EXPECT_TRUE(found<SeasonOver>(past)->wish_past);
  EXPECT_EQ(found<SeasonOver>(past)->next_year, 2026);
  const Planned late = planned("flowering_year = 2025\n", kBed + crop("zinnia"));
  ASSERT_TRUE(found<SeasonOver>(late));
  EXPECT_FALSE(found<SeasonOver>(late)->wish_past);
  EXPECT_NE(show::message(late.plan, *late.finding("season-over")).find("flowering_year = 2026"),
            std::string::npos);
  EXPECT_FALSE(found<SeasonOver>(planned("", wish + kBed + crop("zinnia"))));
  // A wish without a bed does not end a season.
  EXPECT_FALSE(found<SeasonOver>(planned("", wish)));
}

// Streams are chosen so that only their first may be late; the trade's window is moved for another.
TEST(Findings, LookAtEverySowingOfASuccession) {
  const Planned p = planned("", kBed + crop("sunflower", "successions = 3\n"));
  ASSERT_EQ(p.schedule.of(0).size(), 3u);
  ASSERT_FALSE(found<LateStart>(p));
  ground::Schedule late = p.schedule;
  ground::Sowing& second = late.sowings[1];
  second.window.until = second.in_ground - Days{3};
  const Garden garden = p.garden();
  const auto findings = find({garden, late, late, p.weeks});
  const auto finding = std::ranges::find_if(
      findings, [](const Finding& one) { return std::holds_alternative<LateStart>(one.found); });
  ASSERT_NE(finding, findings.end());
  EXPECT_EQ(finding->sowing, 2);
  EXPECT_EQ(std::get<LateStart>(finding->found).in_ground, second.in_ground);
  EXPECT_TRUE(show::message(p.plan, *finding).starts_with("b/sunflower 2 ("));
}

// Of several ways that are refused the one that came nearest is named: clarkia in Kansas dies in
// the open in winter, and sown in spring it lacks two days before the heat.
TEST(Findings, CannotGrowNamesTheWayThatCameNearest) {
  Planned kansas = planned("", kBed + crop("clarkia"));
  kansas.plan.place = six_places().at("Kansas City");
  kansas.climate = climate::Climate::from(kansas.plan.place);
  static_cast<Outcome&>(kansas) = reckon(kansas.garden());
  const auto* cannot = found<CannotGrow>(kansas);
  ASSERT_TRUE(cannot);
  EXPECT_EQ(cannot->way, "sown in place in spring");
  EXPECT_EQ(cannot->refusal.value().rule, ground::Rule::TooHot);
}

// Set out a month too soon, or under a cover that is not there: grown, and told with the numbers
// and what to do.
TEST(Findings, WhatIsPinnedAgainstARuleIsGrownAndTold) {
  struct Row {
    std::string crop, pins, told;
    bool has_share;
  };
  for (const Row& row : {Row{"zinnia", "start_on = 2027-03-10\nplant_on = 2027-04-10\n",
                             "keep fleece over it then, or begin 46 days later", true},
                         Row{"anemone", "way = \"corms in autumn under cover\"\n",
                             "cover its bed, for its dates are those of a cover", false}}) {
    SCOPED_TRACE(row.crop);
    const Planned p = planned("", kBed + crop(row.crop, row.pins));
    EXPECT_FALSE(p.schedule.of(0).empty());
    EXPECT_FALSE(p.finding("cannot-grow"));
    const Finding* finding = p.finding("against-rule");
    ASSERT_TRUE(finding);
    EXPECT_NE(show::message(p.plan, *finding).find(row.told), std::string::npos)
        << show::message(p.plan, *finding);
    const auto numbers = show::numbers(*finding);
    if (!row.has_share) continue;
    const auto share = std::ranges::find(numbers, "share", [](const auto& n) { return n.first; });
    ASSERT_NE(share, numbers.end());
    EXPECT_GT(share->second, 0.9) << "frost comes after 10 April in nearly all springs";
  }
}

std::string stretch(const std::string& length, const std::string& width, const std::string& more) {
  return "[[bed]]\nname = \"b\"\nlength_m = 4.6\nwidth_m = " + width +
         "\n[[bed.stretch]]\nlength_m = " + length + "\n" + more;
}

TEST(Findings, BedThatIsNoStretchIsToldFromTwentyCentimetresOn) {
  const auto unused = [](const std::string& length) {
    return planned("", stretch(length, "0.9", crop("statice")));
  };
  EXPECT_FALSE(unused("4.6").finding("unused-bed"));
  EXPECT_FALSE(unused("4.41").finding("unused-bed"));
  const Planned p = unused("4.4");
  ASSERT_TRUE(found<UnusedBed>(p));
  EXPECT_EQ(found<UnusedBed>(p)->length_cm, 20);
  EXPECT_EQ(show::message(p.plan, *p.finding("unused-bed")),
            "20 cm of b are no stretch: nothing grows there");
}

// Dahlias stand 45 cm apart here: three quarters of it are 33.75.
TEST(Findings, GroundTooNarrowForItsCrop) {
  const auto narrow = [](const std::string& length, const std::string& width) {
    return planned("", stretch(length, width, crop("dahlia", "spacing_cm = 45\n")));
  };
  EXPECT_FALSE(narrow("1.3", "0.34").finding("too-narrow"));
  const Planned wide = narrow("1.3", "0.33"), lengthwise = narrow("0.3", "0.9");
  ASSERT_TRUE(found<TooNarrow>(wide) && found<TooNarrow>(lengthwise));
  EXPECT_EQ(show::message(wide.plan, *wide.finding("too-narrow")),
            "b/dahlia stands 45 cm apart, and its ground is 33 cm wide");
  EXPECT_EQ(show::message(lengthwise.plan, *lengthwise.finding("too-narrow")),
            "b/dahlia stands 45 cm apart, and its ground is 30 cm long");
}

TEST(Findings, OneCropFarAboveTheWish) {
  const auto wished = [](int stems) {
    return planned("[wish]\nvases_per_week = 1\nstems_per_vase = " + std::to_string(stems) +
                       "\nfrom = \"1 July\"\nto = \"30 September\"\n",
                   stretch("2.2", "0.9", crop("zinnia")));
  };
  const Planned p = wished(4);
  const auto* above = found<AboveWish>(p);
  ASSERT_TRUE(above);
  EXPECT_GT(above->stems, 3 * above->wanted_stems);
  EXPECT_EQ(above->wanted_stems, 4.0 * above->weeks);
  const int a_third = static_cast<int>(above->stems / above->weeks / 3);
  EXPECT_FALSE(wished(a_third + 1).finding("above-wish"));
  EXPECT_TRUE(wished(a_third - 1).finding("above-wish"));
}

// Ammi sown in autumn and dahlias that stand, as the coldest night falls: silent, in graded words,
// and under cover. Shares: Phi((coldest - survives + 4) / 3), ammi -14 and 3 under fleece.
TEST(Findings, WhatTheWinterTakesInGradedWords) {
  const auto told = [](double coldest_c) -> std::string {
    Planned p = planned(
        "",
        stretch("1.3", "0.9", crop("ammi", "way = \"sown in place in autumn\"\nplants = 20\n")));
    p.plan.place.coldest_c = coldest_c;
    static_cast<Outcome&>(p) = reckon(p.plan, p.sheets, {}, make_date(2026, 1, 1));
    const Finding* finding = p.finding("winter-losses");
    return finding ? show::message(p.plan, *finding) : "none";
  };
  EXPECT_EQ(told(-14), "none");
  EXPECT_EQ(told(-16),
            "b/ammi survives -14 degC and your coldest night is -16 degC: about 7 in ten live "
            "bare, nearly all under fleece");
  EXPECT_EQ(told(-20),
            "b/ammi survives -14 degC and your coldest night is -20 degC: about 3 in ten live "
            "bare, about 6 in ten under fleece; have 12 plants to spare for the gaps");
}

// Dahlias of -5 degC that the plan keeps in the ground: of the winter they stood through, or of the
// first that comes; 3 degrees under mulch. Those that are lifted meet none.
TEST(Findings, WhatTheWinterTakesOfTubersThatAreKept) {
  const auto told = [](const std::string& more, double coldest_c) -> std::string {
    Planned p = planned("", stretch("2.3", "1.1", crop("dahlia", more)));
    p.plan.place.coldest_c = coldest_c;
    static_cast<Outcome&>(p) = reckon(p.plan, p.sheets, {}, make_date(2026, 1, 1));
    const Finding* finding = p.finding("winter-losses");
    return finding ? show::message(p.plan, *finding) : "none";
  };
  const std::string losses =
      "b/dahlia survives -5 degC and your coldest night is -9 degC: about 5 in ten live bare, "
      "about "
      "8 in ten under a deep mulch; or lift and store it";
  EXPECT_EQ(told("since = 2024\nkeep = true\n", -9), losses);
  EXPECT_EQ(told("keep = true\n", -9), losses);
  EXPECT_EQ(told("keep = true\n", -4), "none");
  EXPECT_EQ(told("since = 2024\n", -9), "none");
  EXPECT_EQ(told("", -9), "none");
}

// Summer's ground counts from 15 April to 15 September here: a month before the frosts.
TEST(Findings, GroundThatLiesBareThroughTheSummer) {
  const auto bare = [](const std::string& more) {
    return planned("", stretch("2.2", "0.9", more));
  };
  // After the last crop four weeks are left alone.
  const Planned early = bare(crop("daffodil"));
  const auto* after = found<BareGround>(early);
  ASSERT_TRUE(after);
  EXPECT_EQ(after->after, 0u);
  EXPECT_EQ(after->days, (DateRange{early.schedule.of(0).back().lift, make_date(2027, 9, 15)}));
  EXPECT_DOUBLE_EQ(after->weeks, days_between(after->days.from, after->days.until) / 7.0);
  // Corms that are stored in autumn have their ground until then: in leaf they make the next.
  EXPECT_FALSE(bare(crop("gladiolus", "plant_on = 2027-04-10\n")).finding("bare-ground"));
  // Before the first, six.
  const auto planted = [&](const std::string& day) {
    return bare(crop("zinnia", "way = \"bought plants\"\nplant_on = " + day + "\n"));
  };
  EXPECT_FALSE(planted("2027-05-27").finding("bare-ground"));
  const Planned late = planted("2027-05-28");
  ASSERT_TRUE(found<BareGround>(late));
  EXPECT_FALSE(found<BareGround>(late)->after);
  EXPECT_EQ(found<BareGround>(late)->days,
            (DateRange{make_date(2027, 4, 15), make_date(2027, 5, 28)}));
}

// Behind sweet william cornflowers go in weeks after the spring they would give most in; beside it
// they do not wait.
TEST(Findings, ASecondCropThatWaitsForTheFirstSaysWhatItLoses) {
  const auto pinned = [](const std::string& lift) {
    return planned("",
                   kBed + crop("sweet william", "lift_on = " + lift + "\n") + crop("cornflower"));
  };
  const Planned p = pinned("2027-07-10");
  const auto* held = found<HeldBack>(p);
  ASSERT_TRUE(held);
  EXPECT_EQ(held->before, 0u);
  EXPECT_EQ(held->lift, make_date(2027, 7, 10));
  EXPECT_EQ(held->in_ground, p.schedule.of(1)[0].in_ground);
  EXPECT_NEAR(held->stems, stems(p.schedule.of(1)), 1e-6);
  EXPECT_LT(held->stems, 0.75 * held->free_stems);
  const Planned alone = planned("", kBed + crop("cornflower"));
  EXPECT_FALSE(found<HeldBack>(alone));
  EXPECT_GE(held->free_stems, stems(alone.schedule.of(0)) - 1e-6);
}

const std::string kWhite =
    "[wish]\nstems_per_vase = 12\nfrom = \"1 June\"\nto = \"30 September\"\ncolours = "
    "[\"white\"]\n";

TEST(Findings, MixesOfUnknownColourAreNamedTogether) {
  const Planned p =
      planned("", kWhite + kBed + crop("cosmos") + "[[bed.stretch]]\nlength_m = 1.2\n" +
                      crop("zinnia", "colours = [\"white\"]\n"));
  const auto* unknown = found<UnknownColours>(p);
  ASSERT_TRUE(unknown);
  EXPECT_EQ(unknown->plantings, (std::vector<std::size_t>{0}));
  double of_cosmos = 0, all = 0;
  for (const harvest::Week& week : p.weeks) {
    all += week.stems.likely;
    for (const auto& kind : week.kinds) of_cosmos += kind.planting == 0 ? kind.stems.likely : 0;
  }
  EXPECT_NEAR(unknown->stems, of_cosmos, 1e-6);
  EXPECT_NEAR(unknown->all_stems, all, 1e-6);
  EXPECT_FALSE(found<UnknownColours>(
      planned("", kWhite + kBed + crop("cosmos", "colours = [\"white\", \"pink\"]\n"))));
  EXPECT_FALSE(found<UnknownColours>(planned("", kBed + crop("cosmos")))) << "no wish";
}

TEST(Findings, AnotherColourIsSaidWithTheWishs) {
  const Planned p =
      planned("", kWhite + kBed + crop("cosmos", "colours = [\"pink\", \"crimson\"]\n"));
  ASSERT_TRUE(found<OffColour>(p));
  EXPECT_EQ(
      show::message(p.plan, *p.finding("off-colour")),
      "b/cosmos has none of the wish's colours: it is pink or crimson, and the wish is for white");
}

TEST(Findings, ShortWeeksAreNamedByTheirDates) {
  ShortWeeks weeks{{make_date(2027, 5, 3), make_date(2027, 5, 17), make_date(2027, 5, 24)}, 9, 40};
  Plan plan;
  Finding finding;
  finding.key = "wish";
  finding.found = std::move(weeks);
  EXPECT_EQ(
      show::message(plan, finding),
      "3 of 9 weeks of the wish go short of their vases, by 40 stems in all: weeks of 3 May and "
      "17 May to 24 May");
}

TEST(Findings, WeeksThatAreOverGoShortNoMore) {
  const Planned p =
      planned("", "[wish]\nfrom = \"1 June\"\nto = \"19 September\"\n" + kBed + crop("zinnia"));
  const auto short_on = [&](Date today) -> std::optional<ShortWeeks> {
    Garden garden = p.garden();
    garden.today = today;
    for (const Finding& one : find({garden, p.schedule, p.schedule, p.weeks})) {
      if (const auto* weeks = std::get_if<ShortWeeks>(&one.found)) return *weeks;
    }
    return std::nullopt;
  };
  const auto before = short_on(make_date(2027, 5, 1)), on_sunday = short_on(make_date(2027, 6, 6)),
             on_monday = short_on(make_date(2027, 6, 7));
  ASSERT_TRUE(before && on_sunday && on_monday);
  EXPECT_EQ(before->mondays.front(), make_date(2027, 5, 31));
  EXPECT_FALSE(before->some_are_over);
  EXPECT_EQ(on_sunday->mondays, before->mondays);
  EXPECT_EQ(on_monday->mondays.front(), make_date(2027, 6, 7));
  EXPECT_EQ(on_monday->weeks, before->weeks - 1);
  EXPECT_TRUE(on_monday->some_are_over);
  EXPECT_FALSE(short_on(make_date(2027, 9, 20)));
  Finding finding;
  finding.found = ShortWeeks{{make_date(2027, 9, 6)}, 3, 5, true};
  EXPECT_EQ(show::message({}, finding),
            "1 of 3 weeks of the wish that are not over goes short of its vase, by 5 stems in all: "
            "week of 6 September");
}

TEST(Findings, OneShortWeekHasItsOwnWords) {
  Finding finding;
  finding.key = "wish";
  finding.found = ShortWeeks{{make_date(2027, 5, 3)}, 8, 5};
  EXPECT_EQ(show::message({}, finding),
            "1 of 8 weeks of the wish goes short of its vase, by 5 stems in all: week of 3 May");
}

const std::string kSummerWish =
    "[wish]\nstems_per_vase = 12\nfrom = \"1 June\"\nto = \"30 September\"\n";

// Behind what stands until 25 July sunflowers would be cut after the wish: they are left out and
// the numbers told. Where they go in sooner they are late; without a wish every stem counts.
TEST(Findings, WhatIsCutAfterTheWishIsLeftOut) {
  const std::string wish =
      "[wish]\nstems_per_vase = 12\nfrom = \"1 June\"\nto = \"20 September\"\n";
  const auto behind = [](const std::string& head, const std::string& lift) {
    return planned(
        "", head + kBed + crop("sweet william", "lift_on = " + lift + "\n") + crop("sunflower"));
  };
  const Planned p = behind(wish, "2027-07-25");
  EXPECT_TRUE(p.schedule.of(1).empty());
  const auto* taken = found<GroundTaken>(p);
  ASSERT_TRUE(taken && taken->hardly);
  EXPECT_LT(taken->hardly->stems, 0.1 * taken->hardly->best_stems);
  const Planned alone = planned("", wish + kBed + crop("sunflower"));
  EXPECT_NEAR(taken->hardly->best_stems, stems(alone.schedule.of(0)),
              0.2 * taken->hardly->best_stems);
  EXPECT_NE(show::message(p.plan, *p.finding("ground-taken")).find("in the weeks of the wish"),
            std::string::npos);
  EXPECT_FALSE(behind("", "2027-07-25").schedule.of(1).empty());
  EXPECT_FALSE(behind(wish, "2027-07-05").schedule.of(1).empty());
}

// A late start says what held it up: its neighbour or the rules.
// Sweet william of May for a wish of August is grown, and told.
TEST(Findings, WhatIsCutOutsideTheWishIsSaid) {
  const auto wished = [](const std::string& from, const std::string& to) {
    return planned("", "[wish]\nstems_per_vase = 12\nfrom = \"" + from + "\"\nto = \"" + to +
                           "\"\n" + kBed + crop("sweet william"));
  };
  const Planned p = wished("1 August", "20 September");
  const auto* found_out = found<OutOfWish>(p);
  ASSERT_TRUE(found_out);
  EXPECT_EQ(found_out->first_cut, p.schedule.of(0)[0].timeline.first_cut.likely);
  EXPECT_LT(found_out->in_wish, 0.1 * found_out->stems);
  EXPECT_NE(show::message(p.plan, *p.finding("out-of-wish")).find("weeks of the wish"),
            std::string::npos);
  EXPECT_FALSE(found<OutOfWish>(wished("1 May", "20 September")));
}

// The last day that is usual and the last that is possible, each of them tried.
TEST(Findings, TooLateNamesBothLastDays) {
  const Planned p = planned("", kBed + crop("zinnia"));
  const Date late = make_date(2027, 9, 1);
  const Reckoned r = reckon(p.plan, p.sheets, {}, late);
  const auto finding = std::ranges::find(r.findings, "too-late", &Finding::code);
  ASSERT_NE(finding, r.findings.end());
  const auto& told = std::get<TooLate>(finding->found);
  const Date possible = told.latest;
  EXPECT_LT(told.usual, possible);
  EXPECT_FALSE(reckon(p.plan, p.sheets, {}, possible).schedule.sowings.empty());
  EXPECT_TRUE(reckon(p.plan, p.sheets, {}, possible + Days{1}).schedule.sowings.empty());
  const Reckoned usual = reckon(p.plan, p.sheets, {}, told.usual);
  ASSERT_FALSE(usual.schedule.sowings.empty());
  EXPECT_EQ(usual.schedule.sowings[0].days_late(), 0);
}

TEST(Findings, ALateStartSaysWhy) {
  const Planned behind =
      planned("", kSummerWish + kBed + crop("tulip", "lift_on = 2027-06-12\n") + crop("cosmos"));
  const auto* late = found<LateStart>(behind);
  ASSERT_TRUE(late);
  EXPECT_EQ(late->before, 0u);
  EXPECT_EQ(late->lift, make_date(2027, 6, 12));
  const std::string text = show::message(behind.plan, *behind.finding("late-start"));
  EXPECT_NE(text.find(": tulip has the ground until 12 June 2027"), std::string::npos) << text;
  const Planned begun = planned("began = 2027-06-25\n", kSummerWish + kBed + crop("cosmos"));
  late = found<LateStart>(begun);
  ASSERT_TRUE(late && late->first_allowed);
  EXPECT_FALSE(late->before);
  EXPECT_GE(*late->first_allowed, make_date(2027, 6, 25));
}

// Means of a hot continental place (memory).
Planned in_heat(const std::string& beds) {
  Planned p = planned("", beds);
  p.plan.place.latitude = 39;
  p.plan.place.last_frost = std::chrono::April / 28;
  p.plan.place.first_frost = std::chrono::October / 10;
  p.plan.place.temperatures =
      MonthlyMeans{{-1.5, 1.0, 6.5, 12.5, 18.0, 23.5, 26.5, 25.5, 20.5, 13.5, 6.0, -0.5}, {}};
  static_cast<Outcome&>(p) = reckon(p.plan, p.sheets, {}, make_date(2026, 1, 1));
  return p;
}

// Calendulas stop in the heat and begin again: their ground is told. Not where summers are cool,
// nor where they are lifted before.
TEST(Findings, GroundKeptThroughTheHeat) {
  const std::string beds = kBed + crop("calendula");
  const Planned hot = in_heat(beds);
  const auto* pause = found<HeatPause>(hot);
  ASSERT_TRUE(pause);
  EXPECT_GE(days_between(pause->days.from, pause->days.until), 21);
  EXPECT_EQ(pause->lift, hot.schedule.of(0)[0].lift);
  EXPECT_NEAR(pause->stems, stems(hot.schedule.of(0)), 1e-6);
  EXPECT_GT(pause->stems_after, 0);
  EXPECT_LT(pause->stems_after, pause->stems);
  EXPECT_FALSE(found<HeatPause>(planned("", beds)));
  EXPECT_FALSE(found<HeatPause>(in_heat(beds + "lift_on = " + iso(pause->days.from) + "\n")));
}

// Tulips come early, mid and late: where the spring's weeks go short the other groups are named.
TEST(Findings, OneGroupAloneNamesTheOthers) {
  const std::string wish = "[wish]\nstems_per_vase = 12\nfrom = \"10 April\"\nto = \"30 May\"\n";
  const Planned p = planned("", wish + kBed + crop("tulip"));
  const auto* one = found<OneGroup>(p);
  ASSERT_TRUE(one);
  const ground::Sowing& chosen = p.schedule.of(0)[0];
  EXPECT_EQ(one->group, chosen.group->name);
  EXPECT_TRUE(std::ranges::find(one->others, one->group) == one->others.end());
  EXPECT_FALSE(one->others.empty());
  for (const Date monday : one->mondays) {
    EXPECT_TRUE(monday + Days{6} < chosen.timeline.first_cut.likely || monday > chosen.last_cut());
  }
  EXPECT_FALSE(found<OneGroup>(planned("", kBed + crop("tulip")))) << "no wish";
  EXPECT_FALSE(found<OneGroup>(
      planned("", wish + kBed + crop("tulip", "group = \"" + one->group + "\"\n"))));
}

}  // namespace
}  // namespace trug::ask
