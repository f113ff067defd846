// SPDX-License-Identifier: MIT
// Pasting a remedy makes its finding go: one row for each kind that has something to paste.
#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <map>
#include <variant>

#include "ask/advised.h"
#include "ask/ask.h"
#include "show/finding_words.h"
#include "show/remedy_words.h"

namespace trug::ask {
namespace {

struct Row {
  std::string name;
  std::string head;
  std::string beds;  // PASTE stands where the remedy goes
  std::string code;
  bool (*is_remedy)(const Change&) = nullptr;
  std::string at_first;  // stands there before
};

template <class Kind>
bool is(const Change& change) {
  return std::holds_alternative<Kind>(change);
}

std::string with(std::string text, const std::string& pasted) {
  const auto at = text.find("PASTE");
  return at == std::string::npos ? text : text.replace(at, 5, pasted);
}

std::vector<Row> rows() {
  const std::string bed =
      "[[bed]]\nname = \"b\"\nlength_m = 4.6\nwidth_m = 0.9\n[[bed.stretch]]\nlength_m = 2.2\n";
  return {
      {"too many plants", "", bed + "[[bed.stretch.crop]]\ncrop = \"dahlia\"\nPASTE\n",
       "too-many-plants", is<Plants>, "plants = 400"},
      {"ground taken, lift earlier", "",
       "[work]\ndays = [\"Wed\"]\n[wish]\nvases_per_week = 1\nstems_per_vase = 12\n"
       "from = \"1 May\"\nto = \"28 September\"\n" +
           bed +
           "[[bed.stretch.crop]]\ncrop = \"canterbury bells\"\nPASTE\n"
           "[[bed.stretch.crop]]\ncrop = \"china aster\"\nplant_on = 2027-07-07\n",
       "ground-taken", is<LiftOn>},
      {"more sowings than fit", "", bed + "[[bed.stretch.crop]]\ncrop = \"sunflower\"\nPASTE\n",
       "fewer-sowings", is<Sowings>, "successions = 20"},
      {"too few of a kind",
       "[wish]\nstems_per_vase = 24\nfrom = \"1 June\"\nto = \"30 September\"\n",
       bed + "[[bed.stretch.crop]]\ncrop = \"gladiolus\"\nPASTE\n", "few-stems", is<Plants>,
       "plants = 2"},
      {"waits for the first crop", "",
       bed + "[[bed.stretch.crop]]\ncrop = \"tulip\"\nPASTE\n"
             "[[bed.stretch.crop]]\ncrop = \"zinnia\"\n",
       "held-back", is<LiftOn>, "lift_on = 2027-07-05"},
      {"a dear crop", "", bed + "PASTE\n", "costs-stems", is<LeaveOut>,
       "crops = [\"sunflower\", \"cosmos\"]"},
  };
}

TEST(Remedies, MakeTheirFindingGoWhenPasted) {
  for (const Row& row : rows()) {
    SCOPED_TRACE(row.name);
    const Planned before = advised_plan(row.head, with(row.beds, row.at_first));
    const Finding* finding = before.finding(row.code);
    ASSERT_TRUE(finding);
    ASSERT_TRUE(finding->remedy && finding->remedy->change);
    EXPECT_TRUE(row.is_remedy(*finding->remedy->change));
    const auto toml = show::remedy_toml(before.plan, *finding);
    ASSERT_TRUE(toml);
    const Planned after = advised_plan(row.head, with(row.beds, *toml));
    EXPECT_FALSE(after.finding(row.code)) << *toml;
  }
}

// Every remedy of a run: its change clears the finding, breaks nothing, and costs what it says.
TEST(Remedies, AreReckonedInTheWholePlan) {
  for (const Row& row : rows()) {
    SCOPED_TRACE(row.name);
    const Planned p = advised_plan(row.head, with(row.beds, row.at_first));
    for (const Finding& finding : p.findings) {
      if (!finding.remedy || !finding.remedy->change || is<Year>(*finding.remedy->change)) continue;
      const Difference found = ask(p.garden(), p, *finding.remedy->change);
      EXPECT_NEAR(finding.remedy->costs_stems, -found.stems, 1e-6) << finding.code();
      EXPECT_TRUE(std::ranges::none_of(
          found.fresh, [](const Finding& fresh) { return fresh.rank() == Rank::Broken; }));
      if (finding.code() != "costs-stems") {
        EXPECT_TRUE(has(found.cleared, finding)) << finding.code();
      }
    }
  }
}

// Honesty sown in summer flowers in the next.
TEST(Remedies, TheNextYearIsSaidAndNeverPasted) {
  const Planned p =
      advised_plan("began = 2027-02-01\n",
                   "[[bed]]\nname = \"b\"\nlength_m = 4.6\nwidth_m = 0.9\n[[bed.stretch]]\n"
                   "length_m = 2.2\ncrops = [\"honesty\"]\n");
  const Finding* finding = p.finding("too-late");
  ASSERT_TRUE(finding && finding->remedy && finding->remedy->change);
  EXPECT_TRUE(is<Year>(*finding->remedy->change));
  EXPECT_EQ(show::remedy_text(p.plan, *finding),
            "for flowers in 2028 sow it from 16 April 2027 to 9 July 2027 (sown in early summer and "
            "planted in autumn)");
  EXPECT_FALSE(show::remedy_toml(p.plan, *finding));
}

// Larkspur is sown in spring too, or bought.
TEST(Remedies, OfWhatIsSownTooLateAreTheWaysStillPossible) {
  const std::string head = "began = 2027-02-01\n";
  const std::string bed =
      "[[bed]]\nname = \"b\"\nlength_m = 4.6\nwidth_m = 0.9\n[[bed.stretch]]\nlength_m = 2.2\n"
      "[[bed.stretch.crop]]\ncrop = \"larkspur\"\nPASTE\n";
  const Planned p = advised_plan(head, with(bed, "way = \"sown in place in autumn\""));
  const Finding* finding = p.finding("too-late");
  ASSERT_TRUE(finding && finding->remedy);
  EXPECT_TRUE(show::message(p.plan, *finding)
                  .starts_with("b/larkspur: too late to sow: sown in place in autumn: "));
  const auto& ways = finding->remedy->ways;
  for (const std::string way : {"sown in place in spring", "bought plants"}) {
    EXPECT_NE(std::ranges::find(ways, way, &StillPossible::way), ways.end()) << way;
  }
  EXPECT_TRUE(std::ranges::is_sorted(ways, std::greater{}, &StillPossible::stems));
  EXPECT_TRUE(show::remedy_text(p.plan, *finding)
                  .starts_with("still possible: " + ways.front().way + " ("));
  for (const StillPossible& one : ways) {
    EXPECT_NEAR(ask(p.garden(), p, one.change).stems, one.stems, 1e-6);
    const auto toml = show::change_toml(p.plan, one.change);
    ASSERT_TRUE(toml);
    const Planned after = advised_plan(head, with(bed, *toml));
    EXPECT_EQ(after.schedule.of(0)[0].raised_by().name, one.way);
    EXPECT_NEAR(stems(after.schedule.sowings), one.stems, 1e-6);
  }
  Finding fewer = *finding;
  fewer.remedy->ways = {{.change = {}, .way = "bought plants", .stems = -26}};
  EXPECT_EQ(show::remedy_text(p.plan, fewer), "still possible: bought plants (26 stems fewer)");
}

constexpr std::string_view kSummerWish =
    "[wish]\nvases_per_week = 1\nstems_per_vase = 12\nfrom = \"26 July\"\nto = \"18 September\"\n";
constexpr std::string_view kTwoStretches =
    "[[bed]]\nname = \"b\"\nlength_m = 2.6\nwidth_m = 1.1\n"
    "[[bed.stretch]]\nlength_m = 1.5\ncrops = [\"zinnia\"]\n"
    "[[bed.stretch]]\nlength_m = 1.1\n";

// Statice sown at the end of April is cut weeks into the wish; its plants are sold.
TEST(Remedies, WeeksThatALateSowingLeavesEmptyAreFilledByBoughtPlants) {
  const std::string head = "began = 2027-04-25\n";
  const std::string beds = std::string(kSummerWish) + std::string(kTwoStretches);
  const Planned p = advised_plan(head, beds + "crops = [\"statice\"]\n");
  const Finding* finding = p.finding("short-weeks");
  ASSERT_TRUE(finding && finding->remedy && finding->remedy->change);
  ASSERT_TRUE(is<ByWay>(*finding->remedy->change));
  EXPECT_TRUE(show::remedy_text(p.plan, *finding).starts_with("grow statice as bought plants"));
  // A stretch in the short form is written anew.
  const auto pasted = show::remedy_toml(p.plan, *finding);
  ASSERT_TRUE(pasted);
  EXPECT_EQ(*pasted,
            "# stretch 2 of b, in the place of its crops:\n[[bed.stretch.crop]]\n"
            "crop = \"statice\"\nway = \"bought plants\"\n");
  const Planned after = advised_plan(head, beds + *pasted);
  const auto missing = [](const Planned& of) {
    const Finding* weeks = of.finding("short-weeks");
    return weeks ? std::get<ShortWeeks>(weeks->found).missing_stems : 0;
  };
  EXPECT_LT(missing(after), missing(p));
}

// No warm place for seedlings: what cannot be raised can be bought.
TEST(Remedies, WhatCannotBeRaisedHereIsBought) {
  Planned p = planned("",
                      "[[bed]]\nname = \"b\"\nlength_m = 2.6\nwidth_m = 1.1\n[[bed.stretch]]\n"
                      "length_m = 2.2\ncrops = [\"statice\"]\n");
  p.plan.shelter = Shelter{.given = true, .heated_trays = 0, .nursery_m2 = 0};
  static_cast<Outcome&>(p) = reckon(p.garden());
  p.findings = advised(p.garden(), p, [&] { return p.sheets; });
  const Finding* finding = p.finding("cannot-grow");
  ASSERT_TRUE(finding && finding->remedy && finding->remedy->change);
  EXPECT_EQ(show::remedy_text(p.plan, *finding).substr(0, 31), "grow statice as bought plants; ");
}

TEST(Remedies, ThePinsThatARuleSpeaksAgainstAreNamed) {
  const Planned frost =
      advised_plan("",
                   "[[bed]]\nname = \"b\"\nlength_m = 4.6\nwidth_m = 0.9\n[[bed.stretch]]\n"
                   "length_m = 2.2\n[[bed.stretch.crop]]\ncrop = \"zinnia\"\n"
                   "way = \"sown in place in spring\"\nstart_on = 2027-01-05\n");
  EXPECT_FALSE(frost.finding("cannot-grow"));
  const Finding* finding = frost.finding("against-rule");
  ASSERT_TRUE(finding && finding->remedy && finding->remedy->change);
  EXPECT_TRUE(is<Unpin>(*finding->remedy->change));
}

// Half the days' warmth of an average spring: the cut comes weeks later than the day it is lifted.
TEST(Remedies, WhatTheWeatherDelaysIsLiftedLater) {
  const std::string beds =
      "[[bed]]\nname = \"b\"\nlength_m = 4.6\nwidth_m = 0.9\n[[bed.stretch]]\n"
      "length_m = 2.2\n[[bed.stretch.crop]]\ncrop = \"cornflower\"\n"
      "way = \"sown in place in spring\"\nstart_on = 2027-04-01\nlift_on = ";
  const Date cut = planned("", beds + "2027-08-20\n").schedule.of(0)[0].timeline.first_cut.likely;
  auto record = std::make_shared<DailyRecord>();
  record->first = make_date(2027, 3, 1);
  record->days.assign(static_cast<std::size_t>(days_between(record->first, cut)), {3, 11});
  const Planned p =
      advised_plan("", beds + iso(cut + Days{8}) + "\n", {}, MeasuredWeather{record, 3});
  const Finding* finding = p.finding("not-in-cut");
  ASSERT_TRUE(finding);
  EXPECT_EQ(finding->rank(), Rank::Short);
  EXPECT_EQ(std::get<NotInCut>(finding->found).lift, cut + Days{8});
  ASSERT_TRUE(finding->remedy && finding->remedy->change);
  ASSERT_TRUE(is<LiftOn>(*finding->remedy->change));
  EXPECT_GT(std::get<LiftOn>(*finding->remedy->change).day, cut + Days{8});
  EXPECT_TRUE(p.of_kind(work::JobKind::FirstCut).empty());
}

TEST(Remedies, LeavingOutADearCropIsSaidWithTheStretchesOtherCrops) {
  const Planned p =
      planned("",
              "[[bed]]\nname = \"b\"\nlength_m = 4.6\nwidth_m = 0.9\n[[bed.stretch]]\n"
              "length_m = 2.2\ncrops = [\"daffodil\", \"zinnia\"]\n");
  Finding finding = about_planting(p.plan, 0, CostsStems{});
  finding.remedy = Remedy{LeaveOut{0}};
  EXPECT_EQ(show::remedy_toml(p.plan, finding), "crops = [\"zinnia\"]\n");
}

// Not sown before September the zinnia is no neighbour: the canterbury bells before it
// hold the ground.
TEST(Remedies, BlameNoCropThatIsLeftOutItself) {
  const Planned p = advised_plan(
      "",
      "[work]\ndays = [\"Wed\"]\n[wish]\nvases_per_week = 1\nstems_per_vase = 12\n"
      "from = \"1 May\"\nto = \"28 September\"\n"
      "[[bed]]\nname = \"b\"\nlength_m = 4.6\nwidth_m = 0.9\n[[bed.stretch]]\nlength_m = 2.2\n"
      "[[bed.stretch.crop]]\ncrop = \"canterbury bells\"\n"
      "[[bed.stretch.crop]]\ncrop = \"zinnia\"\nnot_before = 2027-09-01\n"
      "[[bed.stretch.crop]]\ncrop = \"china aster\"\nplant_on = 2027-07-07\n");
  ASSERT_TRUE(p.schedule.of(1).empty());
  const Finding* finding = p.finding("ground-taken");
  ASSERT_TRUE(finding && finding->remedy && finding->remedy->change);
  EXPECT_EQ(finding->planting, 2u);
  ASSERT_TRUE(is<LiftOn>(*finding->remedy->change));
  EXPECT_EQ(std::get<LiftOn>(*finding->remedy->change).planting, 0u);
}

// Daffodils cost their stretch stems, and fill weeks of spring that nothing else does: they are not
// to be left out where the wish has those weeks.
TEST(Costs, AreWeighedByTheWeeks) {
  const std::string beds =
      "[[bed]]\nname = \"b\"\nlength_m = 2.3\nwidth_m = 0.9\n[[bed.stretch]]\n"
      "length_m = 2.3\ncrops = [\"sunflower\", \"cosmos\"]\n";
  const auto dear = [&](const std::string& from, const std::string& to) {
    const Planned p = advised_plan(
        "", "[wish]\nstems_per_vase = 12\nfrom = \"" + from + "\"\nto = \"" + to + "\"\n" + beds);
    return p.finding("costs-stems") != nullptr;
  };
  EXPECT_TRUE(advised_plan("", beds).finding("costs-stems"));
  EXPECT_TRUE(dear("1 August", "30 September"));
  EXPECT_FALSE(dear("1 June", "30 July"));
}

// What a crop costs its stretch is a matter of the stretch: other beds' stems change nothing of it.
TEST(Costs, AreTheSameBesideOtherBeds) {
  const auto bed = [](const std::string& name, const std::string& crops) {
    return "[[bed]]\nname = \"" + name +
           "\"\nlength_m = 2.4\nwidth_m = 0.9\n[[bed.stretch]]\nlength_m = 2.2\ncrops = [" + crops +
           "]\n";
  };
  const std::string wish =
      "[wish]\nvases_per_week = 2\nstems_per_vase = 12\nfrom = \"10 May\"\nto = \"10 October\"\n";
  const std::vector<std::string> beds = {
      bed("a", "\"sunflower\", \"cosmos\""), bed("b", "\"cornflower\", \"cosmos\""),
      bed("c", "\"foxglove\", \"statice\""), bed("d", "\"daffodil\", \"sunflower\"")};
  const auto costs = [](const Planned& p) {
    std::map<std::string, double> found;
    for (const Finding& finding : p.findings) {
      const auto* cost = std::get_if<CostsStems>(&finding.found);
      if (cost) found[p.plan.plantings[*finding.planting].name] = cost->stems;
    }
    return found;
  };
  std::map<std::string, double> alone;
  std::string all;
  for (const std::string& one : beds) {
    alone.merge(costs(advised_plan("", wish + one)));
    all += one;
  }
  EXPECT_FALSE(alone.empty());
  EXPECT_EQ(costs(advised_plan("", wish + all)), alone);
}

}  // namespace
}  // namespace trug::ask
