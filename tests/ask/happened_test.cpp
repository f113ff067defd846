// SPDX-License-Identifier: MIT
// What really happened, and what is in hand: everything later is reckoned from it.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <string>

#include "ask/reckon.h"
#include "ground/plan_choice.h"
#include "work/planned.h"

namespace trug::ask {
namespace {

using work::Job;
using work::JobKind;

struct Record {
  std::string what, on, more = "";
};

std::string bed(const std::string& crops) {
  return "[[bed]]\nname = \"lane\"\nlength_m = 2.3\nwidth_m = 0.9\n"
         "[[bed.stretch]]\nlength_m = 2.2\n" +
         crops + "\n";
}

std::string happened(const std::string& crop, const std::vector<Record>& records) {
  std::string text;
  for (const Record& r : records) {
    text += "[[happened]]\nplanting = \"lane/" + crop + "\"\nwhat = \"" + r.what +
            "\"\non = " + r.on + "\n" + r.more;
  }
  return text;
}

Planned grown(const std::string& crop, const std::vector<Record>& records) {
  return planned("", bed("crops = [\"" + crop + "\"]") + happened(crop, records));
}

const ground::Sowing& only(const Planned& p) {
  EXPECT_EQ(p.schedule.sowings.size(), 1u);
  return p.schedule.sowings.at(0);
}

Date day(const std::string& text) { return parse_iso(text).value(); }

// Every crop and day here: what is recorded is where the schedule has it, though no rule allows it.
TEST(Happened, WhatHasBegunStandsWhateverTheRulesSay) {
  struct Case {
    std::string crop;
    std::vector<Record> records;
    std::string start, in_ground;
  };
  const Case cases[] = {
      {"cornflower", {{"sown", "2027-04-18"}}, "2027-04-18", "2027-04-18"},
      // Weeks before the last frost, and in midwinter.
      {"zinnia",
       {{"sown", "2027-02-20"}, {"planted-out", "2027-04-01"}},
       "2027-02-20",
       "2027-04-01"},
      // So late that it hardly flowers, and so late that it does not.
      {"zinnia", {{"sown", "2027-07-20"}}, "2027-07-20", "2027-07-20"},
      {"sunflower", {{"sown", "2027-09-20"}}, "2027-09-20", "2027-09-20"},
      {"tulip", {{"planted", "2027-01-20"}}, "2027-01-20", "2027-01-20"},
      {"sweet william", {{"planted-out", "2026-10-03"}}, "", "2026-10-03"},
      {"dahlia", {{"planted", "2027-05-22"}}, "", "2027-05-22"},
  };
  for (const Case& c : cases) {
    const Planned p = grown(c.crop, c.records);
    const ground::Sowing& sowing = only(p);
    if (!c.start.empty()) {
      EXPECT_EQ(iso(sowing.start), c.start) << c.crop;
    }
    EXPECT_EQ(iso(sowing.in_ground), c.in_ground) << c.crop;
  }
}

TEST(Happened, WhatWasSownLateFlowersLate) {
  const Date usual = only(grown("cornflower", {{"sown", "2027-03-27"}})).timeline.first_cut.likely;
  const Date late = only(grown("cornflower", {{"sown", "2027-05-08"}})).timeline.first_cut.likely;
  EXPECT_GE(days_between(usual, late), 14);
}

TEST(Happened, RaisedPlantsStillWaitForTheFrosts) {
  const Planned p = grown("zinnia", {{"sown", "2027-03-02"}});
  EXPECT_EQ(iso(only(p).start), "2027-03-02");
  EXPECT_GE(only(p).in_ground, day("2027-05-15"));
  // Beyond their usual weeks in pots too they go out on a day of the gardener's.
  const Planned saturdays = planned("", "[work]\ndays = [\"Sat\"]\n" + bed("crops = [\"zinnia\"]") +
                                            happened("zinnia", {{"sown", "2027-03-02"}}));
  EXPECT_EQ(std::chrono::weekday{only(saturdays).in_ground}, std::chrono::Saturday);
}

TEST(Happened, TheRecordedJobIsDoneOnItsDayAndSaysWhatWasNoted) {
  const Planned p = grown("cornflower", {{"sown", "2027-04-18", "note = \"last year's seed\"\n"}});
  const auto sown = p.of_kind(JobKind::Sow);
  ASSERT_EQ(sown.size(), 1u);
  EXPECT_EQ(sown[0]->day, day("2027-04-18"));
  EXPECT_EQ(sown[0]->state, Job::State::Recorded);
  EXPECT_EQ(sown[0]->note, "last year's seed");
  EXPECT_GT(p.of_kind(JobKind::Thin).at(0)->day, day("2027-04-18"));
}

// Bulbs, bought plants, raised plants and seed: the record is that of the job which has the day.
TEST(Happened, EveryRecordFindsItsJob) {
  struct Case {
    std::string crop, what;
    JobKind kind;
  };
  const Case cases[] = {
      {"tulip", "planted", JobKind::Plant},         {"zinnia", "planted", JobKind::PlantOut},
      {"zinnia", "planted-out", JobKind::PlantOut}, {"sunflower", "sown", JobKind::Sow},
      {"snapdragon", "pinched", JobKind::Pinch},    {"zinnia", "first-cut", JobKind::FirstCut},
      {"zinnia", "lifted", JobKind::Lift},
  };
  for (const Case& c : cases) {
    const std::string on = c.what == "lifted"  ? "2027-09-04"
                           : c.crop == "tulip" ? "2026-11-20"
                                               : "2027-06-20";
    const Planned p = grown(c.crop, {{c.what, on}});
    const auto jobs = p.of_kind(c.kind);
    ASSERT_EQ(jobs.size(), 1u) << c.crop << " " << c.what;
    EXPECT_EQ(iso(jobs[0]->day), on) << c.crop << " " << c.what;
    EXPECT_EQ(jobs[0]->state, Job::State::Recorded) << c.crop << " " << c.what;
  }
}

TEST(Happened, AFirstCutMovesTheRestOfItsPlanting) {
  const Planned before = grown("zinnia", {});
  const Date likely = only(before).timeline.first_cut.likely;
  const std::string late = iso(likely + Days{20});
  const Planned p = grown("zinnia", {{"first-cut", late}});
  EXPECT_EQ(only(p).timeline.basis, growth::Basis::Recorded);
  EXPECT_EQ(iso(only(p).timeline.first_cut.likely), late);
  EXPECT_EQ(only(p).timeline.first_cut.early, only(p).timeline.first_cut.late);
  // Nothing says it began otherwise than it should have.
  EXPECT_LE(std::abs(days_between(only(p).start, only(before).start)), 28);
  EXPECT_LT(stems(only(p)), stems(only(before)));
}

// 40 of the stems were cut by then: they count, and the rest follows.
TEST(Happened, CountedStemsStandForTheForecast) {
  const Date first = only(grown("zinnia", {})).timeline.first_cut.likely;
  const std::string from = iso(first), until = iso(first + Days{24});
  const Planned plain = grown("zinnia", {{"first-cut", from}});
  const Planned p = grown("zinnia", {{"first-cut", from},
                                     {"cut", iso(first + Days{10}), "stems = 15\n"},
                                     {"cut", until, "stems = 25\n"}});
  const auto forecast = ground::stems_by_day(only(plain));
  const auto counted = ground::stems_by_day(only(p));
  const auto sum = [](const std::vector<double>& list, std::ptrdiff_t from_day, std::ptrdiff_t to) {
    return std::accumulate(list.begin() + from_day, list.begin() + to, 0.0);
  };
  const auto size = static_cast<std::ptrdiff_t>(counted.size());
  EXPECT_NEAR(sum(counted, 0, 25), 40, 1e-9);
  const double ratio = 40 / sum(forecast, 0, 25);
  const double rest = sum(counted, 25, size) / sum(forecast, 25, size);
  EXPECT_GT(std::abs(1 - ratio), std::abs(1 - rest));
  EXPECT_GT((ratio - 1) * (rest - 1), 0);
}

// Each count is of the days since the one before it, and one after the forecast's end still counts.
TEST(Happened, CountedStemsAreInTheirOwnWeeks) {
  const Date first = only(grown("zinnia", {})).timeline.first_cut.likely;
  const auto by_day =
      ground::stems_by_day(only(grown("zinnia", {{"first-cut", iso(first)},
                                                 {"cut", iso(first), "stems = 7\n"},
                                                 {"cut", iso(first + Days{1}), "stems = 2\n"},
                                                 {"cut", iso(first + Days{1}), "stems = 3\n"},
                                                 {"cut", iso(first + Days{14}), "stems = 21\n"}})));
  EXPECT_NEAR(by_day.at(0), 7, 1e-9);
  EXPECT_NEAR(by_day.at(1), 5, 1e-9);
  EXPECT_NEAR(std::accumulate(by_day.begin() + 2, by_day.begin() + 15, 0.0), 21, 1e-9);
  const auto tulips = grown("tulip", {{"first-cut", "2027-04-20"},
                                      {"cut", "2027-04-20", "stems = 9\n"},
                                      {"cut", "2027-06-20", "stems = 4\n"}});
  const auto late = ground::stems_by_day(only(tulips));
  EXPECT_EQ(late.size(), 62u);
  EXPECT_NEAR(late.back(), 4, 4);
}

// A pinch on the day that was reckoned changes nothing; each later one delays the first cut more
// (but for days too cold to grow), by no more days than it came late, since later days are warmer.
TEST(Happened, APinchMovesTheForecast) {
  for (const std::string crop : {"cosmos", "dahlia", "sweet pea"}) {
    const ground::Sowing begun = only(grown(crop, {}));
    const bool is_sown = begun.raised_by().method == Method::Seed;
    std::vector<Record> records = {{is_sown ? "sown" : "planted", iso(begun.start)}};
    if (begun.in_ground != begun.start) records.push_back({"planted-out", iso(begun.in_ground)});
    const Planned free = grown(crop, records);
    const Date due = only(free).timeline.forecast.pinched.value();
    const auto cut_if_pinched = [&](Date on) {
      auto all = records;
      all.push_back({"pinched", iso(on)});
      return only(grown(crop, all)).timeline.first_cut.likely;
    };
    EXPECT_EQ(cut_if_pinched(due), only(free).timeline.first_cut.likely) << crop;
    Date before = cut_if_pinched(due);
    for (int late = 7; late <= 28; late += 7) {
      const Date cut = cut_if_pinched(due + Days{late});
      EXPECT_GE(cut, before) << crop << " " << late;
      EXPECT_LE(cut, only(free).timeline.first_cut.likely + Days{late}) << crop << " " << late;
      before = cut;
    }
    EXPECT_GT(before, only(free).timeline.first_cut.likely + Days{3}) << crop;
    EXPECT_LE(cut_if_pinched(due - Days{4}), only(free).timeline.first_cut.likely) << crop;
  }
}

// Nobody advises it of a zinnia.
TEST(Happened, APinchThatNobodyAskedForDelaysToo) {
  const Planned free = grown("zinnia", {});
  const std::string on = iso(only(free).in_ground + Days{14});
  const Planned p = grown("zinnia", {{"sown", iso(only(free).start)},
                                     {"planted-out", iso(only(free).in_ground)},
                                     {"pinched", on}});
  EXPECT_TRUE(only(p).pinched);
  EXPECT_GT(only(p).timeline.first_cut.likely, only(free).timeline.first_cut.likely);
}

// What was cut before it failed was cut.
TEST(Happened, StemsBeforeAFailureCount) {
  const Date first = only(grown("zinnia", {})).timeline.first_cut.likely;
  const Planned p = planned("",
                            "[wish]\nvases_per_week = 1\nstems_per_vase = 10\n"
                            "from = \"1 June\"\nto = \"1 October\"\n" +
                                bed("crops = [\"zinnia\"]") +
                                happened("zinnia", {{"first-cut", iso(first)},
                                                    {"cut", iso(first + Days{6}), "stems = 12\n"},
                                                    {"failed", iso(first + Days{6})}}));
  double stems = 0;
  for (const harvest::Week& week : p.weeks) {
    if (week.monday <= first + Days{6}) stems += week.stems.likely;
  }
  EXPECT_NEAR(stems, 12, 1e-6);
}

// A start begun again in late summer would be cut in October.
TEST(Happened, NothingIsBegunAgainForTheTimeAfterTheWish) {
  const auto with_wish_to = [](const std::string& to) {
    return planned("",
                   "[wish]\nvases_per_week = 1\nstems_per_vase = 10\n"
                   "from = \"1 June\"\nto = \"" +
                       to + "\"\n" + bed("crops = [\"calendula\"]") +
                       happened("calendula", {{"sown", "2027-04-03"}, {"failed", "2027-07-20"}}));
  };
  EXPECT_EQ(only(with_wish_to("20 October")).begun.repeat, 1);
  const Planned p = with_wish_to("20 August");
  EXPECT_TRUE(p.schedule.sowings.empty());
  EXPECT_TRUE(p.finding("cannot-grow") || p.finding("too-late"));
}

// "Plant out", and jobs that a planting never has.
TEST(Happened, AJobIsNamedAsItIsTold) {
  const Planned p = grown("cosmos", {{"not-done", "2027-05-22", "job = \"Plant out\"\n"}});
  EXPECT_GT(only(p).in_ground, day("2027-05-22"));
  for (const std::string job : {"lift", "sow"}) {
    const Planned dahlia = grown("dahlia", {{"not-done", "2027-05-20", "job = \"" + job + "\"\n"}});
    ASSERT_NE(dahlia.finding("not-done"), nullptr) << job;
    EXPECT_FALSE(std::get<NotDone>(dahlia.finding("not-done")->found).there.empty()) << job;
  }
}

// What was not ordered is to be ordered, today or on the day after that, while it can be planted.
TEST(Happened, AnOrderThatWasNotMadeIsStillToBeMade) {
  const Planned p = grown("tulip", {});
  const Date order = p.of_kind(JobKind::OrderBulbs).at(0)->day;
  const Date planted = only(p).start;
  for (Date said = order; said < planted - Days{2}; said += Days{9}) {
    const Planned told = grown("tulip", {{"not-done", iso(said), "job = \"order-bulbs\"\n"}});
    for (const int later : {0, 3}) {
      const Date today = said + Days{later};
      const Reckoned r = reckon(told.plan, told.sheets, {}, today);
      const auto again = std::ranges::find(r.jobs, JobKind::OrderBulbs,
                                           [](const Job& job) { return job.key.kind; });
      ASSERT_NE(again, r.jobs.end()) << iso(today);
      EXPECT_GE(again->day, today);
      EXPECT_LE(again->day, std::max(today, said + Days{1}));
      EXPECT_EQ(again->state, Job::State::Due);
    }
  }
}

// A tulip has one flower: nine in ten counted leave the tenth, however far ahead of the forecast.
TEST(Happened, WhatIsCutOnceGivesNoMoreThanItsPlants) {
  const Planned free = grown("tulip", {});
  const double most =
      only(free).plants * only(free).spec().stems_per_plant(only(free).raised_by()).high;
  for (const double share : {0.3, 0.6, 0.9, 1.2}) {
    const int count = static_cast<int>(share * most);
    const Planned p =
        grown("tulip", {{"first-cut", "2027-04-25"},
                        {"cut", "2027-04-26", "stems = " + std::to_string(count) + "\n"}});
    EXPECT_LE(stems(only(p)), std::max<double>(most, count) + 1e-6) << share;
    EXPECT_GE(stems(only(p)), count - 1e-6) << share;
  }
}

// What was counted of what is cut once is part of it, not besides.
TEST(Happened, WhatIsCutOnceIsCutNoMoreForBeingCounted) {
  const Planned free = grown("tulip", {{"first-cut", "2027-04-25"}});
  const Planned p =
      grown("tulip", {{"first-cut", "2027-04-25"}, {"cut", "2027-04-26", "stems = 40\n"}});
  EXPECT_NEAR(stems(only(p)), stems(only(free)), 1);
}

// Young plants in hand that were set out are those, and nothing is sown for them.
TEST(Happened, WhatWasSetOutWithoutASowingWasInHand) {
  const std::string have = "[[have]]\ncrop = \"foxglove\"\nwhat = \"plants\"\nnumber = 6\n";
  const Planned p = planned("", bed("crops = [\"foxglove\"]") +
                                    happened("foxglove", {{"planted-out", "2026-08-22"}}) + have);
  EXPECT_TRUE(only(p).young_plants);
  EXPECT_EQ(only(p).plants, 6);
  EXPECT_EQ(iso(only(p).in_ground), "2026-08-22");
  for (const JobKind kind : {JobKind::OrderSeed, JobKind::OrderPlants, JobKind::Sow}) {
    EXPECT_TRUE(p.of_kind(kind).empty());
  }
}

// A cut is the first of them where none is called so: nothing is still to be done.
TEST(Happened, ACutIsTheFirstCut) {
  const Planned p = grown("cornflower", {{"sown", "2027-04-03"},
                                         {"cut", "2027-06-28", "stems = 9\n"},
                                         {"cut", "2027-07-04", "stems = 12\n"}});
  const auto cuts = p.of_kind(JobKind::FirstCut);
  ASSERT_EQ(cuts.size(), 1u);
  EXPECT_EQ(iso(cuts[0]->day), "2027-06-28");
  EXPECT_EQ(cuts[0]->state, Job::State::Recorded);
}

// What stood is gone with its failure: no tending is told of it, and it is not begun before.
TEST(Happened, WhatStoodAndFailedIsNotBegunAgainBeforeItsFailure) {
  for (const std::string crop : {"peony", "dahlia", "rose"}) {
    const std::string stands = "[[bed.stretch.crop]]\ncrop = \"" + crop + "\"\nsince = 2022";
    const Planned p = planned("", bed(stands) + happened(crop, {{"failed", "2027-05-25"}}));
    for (const ground::Sowing& sowing : p.schedule.sowings) {
      EXPECT_GE(sowing.start, day("2027-05-25")) << crop;
      EXPECT_FALSE(sowing.stands) << crop;
    }
    for (const Job& job : p.jobs) {
      EXPECT_TRUE(job.key.repeat == 0 || job.day >= day("2027-05-25")) << crop;
    }
  }
}

// Seed that comes up only after two weeks in the fridge is not sown two days after the plan begins;
// what only gains by them is sown without, and no fridge is told for a day or two.
TEST(Happened, SeedIsTreatedInTimeOrNotAtAll) {
  for (const std::string began : {"2026-10-01", "2026-10-12", "2027-03-20"}) {
    const Planned p = planned("began = " + began + "\n", bed("crops = [\"bupleurum\"]"));
    if (p.schedule.sowings.empty()) continue;
    EXPECT_GE(days_between(day(began), only(p).start), 14) << began;
    const auto treats = p.of_kind(JobKind::PreTreat);
    ASSERT_EQ(treats.size(), 1u) << began;
    EXPECT_GE(days_between(treats[0]->day, only(p).start), 14) << began;
  }
  for (int days = 0; days < 60; days += 4) {
    const std::string began = iso(make_date(2027, 2, 20) + Days{days});
    const Planned p = planned("began = " + began + "\n", bed("crops = [\"orlaya\"]"));
    for (const Job* treat : p.of_kind(JobKind::PreTreat)) {
      EXPECT_GE(days_between(treat->day, only(p).start), 7) << began;
    }
  }
}

// Of what stands when a plan begins in summer nothing is told whose time is over.
TEST(Happened, NothingMissedIsToldOfWhatStands) {
  const std::string stands = "[[bed.stretch.crop]]\ncrop = \"hydrangea\"\nsince = 2022";
  const std::string began = "began = 2027-08-01\n";
  const Planned p = planned(began, bed(stands));
  EXPECT_TRUE(p.of_kind(JobKind::Prune).empty());
  EXPECT_FALSE(planned("", bed(stands)).of_kind(JobKind::Prune).empty());
  // Nor of what was set out before it began.
  const Planned out = planned(began, bed("crops = [\"sweet pea\"]") +
                                         happened("sweet pea", {{"planted-out", "2027-04-17"}}));
  for (const JobKind kind : {JobKind::OrderSeed, JobKind::Sow, JobKind::HardenOff}) {
    EXPECT_TRUE(out.of_kind(kind).empty());
  }
}

TEST(Happened, LiftedGroundIsFreeAWeekLater) {
  const std::string crops = "crops = [\"calendula\", \"sunflower\"]";
  const Planned p = planned("", bed(crops) + happened("calendula", {{"lifted", "2027-06-12"}}));
  ASSERT_EQ(p.schedule.sowings.size(), 2u);
  EXPECT_EQ(iso(p.schedule.sowings[0].lift), "2027-06-12");
  EXPECT_GE(p.schedule.sowings[1].in_ground, day("2027-06-19"));
}

// The next was in the day after, whatever a week to clear and feed would have wanted.
TEST(Happened, NothingThatStandsIsLeftOutForItsNeighbour) {
  const std::string crops = "crops = [\"calendula\", \"sunflower\"]";
  const std::string next = happened("sunflower", {{"sown", "2027-06-13"}});
  for (const std::string& before :
       {happened("calendula", {{"lifted", "2027-06-12"}}), happened("calendula", {}),
        happened("calendula", {{"sown", "2027-04-03"}, {"first-cut", "2027-06-20"}})}) {
    const Planned p = planned("", bed(crops) + before + next);
    ASSERT_EQ(p.schedule.sowings.size(), 2u) << before;
    EXPECT_LE(p.schedule.sowings[0].lift, day("2027-06-13")) << before;
    EXPECT_EQ(iso(p.schedule.sowings[1].in_ground), "2027-06-13") << before;
  }
}

TEST(Happened, WhatFailedIsBegunAgainAndItsJobsGo) {
  const Planned p = grown("cornflower", {{"sown", "2027-03-27"}, {"failed", "2027-04-20"}});
  const ground::Sowing& again = only(p);
  EXPECT_EQ(again.begun.repeat, 1);
  EXPECT_GE(again.start, day("2027-04-20"));
  ASSERT_EQ(p.schedule.failed.size(), 1u);
  EXPECT_EQ(iso(p.schedule.failed[0].start), "2027-03-27");
  EXPECT_EQ(iso(p.schedule.failed[0].lift), "2027-04-20");
  for (const Job& job : p.jobs) {
    if (job.key.repeat == 0) {
      EXPECT_LE(job.day, day("2027-04-20")) << to_string(job.key.kind);
      EXPECT_NE(job.key.kind, JobKind::Lift);
    } else {
      EXPECT_GE(job.day, day("2027-04-20")) << to_string(job.key.kind);
    }
  }
  EXPECT_TRUE(std::ranges::any_of(p.jobs, [](const Job& job) {
    return job.key.repeat == 1 && work::trait(job.key.kind).chosen;
  }));
  EXPECT_EQ(p.of_kind(JobKind::FirstCut).size(), 1u);
  ASSERT_NE(p.finding("failed"), nullptr);
  EXPECT_EQ(std::get<StartFailed>(p.finding("failed")->found).again, again.start);
}

TEST(Happened, AFurtherRecordBelongsToTheNewStart) {
  const Planned p = grown(
      "cornflower", {{"sown", "2027-03-27"}, {"failed", "2027-04-20"}, {"sown", "2027-04-25"}});
  EXPECT_EQ(iso(only(p).start), "2027-04-25");
  EXPECT_EQ(only(p).begun.repeat, 1);
}

TEST(Happened, NothingIsBegunAgainInThePast) {
  const Planned p = grown("cornflower", {{"sown", "2027-03-27"}, {"failed", "2027-04-20"}});
  const Reckoned later = reckon(p.plan, p.sheets, {}, make_date(2027, 5, 2));
  EXPECT_GE(later.schedule.sowings.at(0).start, make_date(2027, 5, 2));
}

TEST(Happened, TooLateToBeginAgainIsSaid) {
  const Planned p = grown("cornflower", {{"sown", "2027-03-27"}, {"failed", "2027-09-20"}});
  EXPECT_TRUE(p.schedule.sowings.empty());
  EXPECT_NE(p.finding("too-late"), nullptr);
}

// On the day on which it failed its own jobs are over.
TEST(Happened, WhatFailedIsNotPlantedOutThatDay) {
  const Planned whole = grown("snapdragon", {});
  const Date out = only(whole).in_ground;
  const Planned p = grown("snapdragon", {{"sown", iso(only(whole).start)}, {"failed", iso(out)}});
  for (const Job* job : p.of_kind(JobKind::PlantOut)) EXPECT_EQ(job->key.repeat, 1);
}

// The first of two is begun again after the second, and its ground waits for its flower.
TEST(Happened, WhatIsBegunAgainAfterItsFollowersIsCut) {
  const auto sunflowers = [](const std::string& records) {
    return planned("",
                   bed("[[bed.stretch.crop]]\ncrop = \"sunflower\"\nsuccessions = 2") + records);
  };
  const Planned plain = sunflowers("");
  ASSERT_EQ(plain.schedule.sowings.size(), 2u);
  const Date first = plain.schedule.sowings[0].start, second = plain.schedule.sowings[1].start;
  const Planned p =
      sunflowers(happened("sunflower", {{"sown", iso(first), "succession = 1\n"},
                                        {"failed", iso(second + Days{10}), "succession = 1\n"},
                                        {"sown", iso(second), "succession = 2\n"}}));
  ASSERT_EQ(p.schedule.sowings.size(), 2u);
  for (const ground::Sowing& sowing : p.schedule.sowings) {
    EXPECT_GT(sowing.lift, sowing.timeline.first_cut.likely) << sowing.number;
    EXPECT_TRUE(sowing.gives_stems()) << sowing.number;
  }
  EXPECT_EQ(p.of_kind(JobKind::FirstCut).size(), 2u);
}

TEST(Happened, WhatWasNotSownIsSownAsSoonAsItCanBe) {
  const Planned before = grown("cornflower", {});
  for (const int days_late : {0, 9}) {
    const Date on = only(before).start + Days{days_late};
    EXPECT_EQ(only(grown("cornflower", {{"not-done", iso(on)}})).start, on + Days{1});
  }
}

// What waits for it waits longer, while the plants are here; once they are out that is said, and it
// is asked for no more.
TEST(Happened, AJobThatWasNotDoneIsDueAgainWhileItIsRight) {
  const auto day_of = [](const Planned& p, JobKind kind) { return p.of_kind(kind).at(0)->day; };
  for (const std::string crop : {"strawflower", "statice", "china aster"}) {
    const Planned before = grown(crop, {});
    const Record sown = {"sown", iso(only(before).start)};
    for (const JobKind kind : {JobKind::PrickOut, JobKind::HardenOff}) {
      const std::string job(to_string(kind));
      for (const int days_late : {3, 8, 16}) {
        const Date on = day_of(before, kind) + Days{days_late};
        const Planned p = grown(crop, {sown, {"not-done", iso(on), "job = \"" + job + "\"\n"}});
        SCOPED_TRACE(crop + " " + job + " " + iso(on));
        EXPECT_EQ(day_of(p, kind), on);
        EXPECT_EQ(p.finding("not-done"), nullptr);
        EXPECT_EQ(only(p).start, only(before).start);
        EXPECT_LE(day_of(p, JobKind::PrickOut), day_of(p, JobKind::HardenOff));
        EXPECT_GE(days_between(day_of(p, JobKind::HardenOff), only(p).in_ground), 10);
        EXPECT_GE(only(p).in_ground, only(before).in_ground);
      }
    }
  }
}

// On the very day on which it was due, it is due on the next.
TEST(Happened, AJobThatWasNotDoneOnItsDayIsDueOnTheNext) {
  for (const auto& [crop, kind] :
       {std::pair{"dahlia", JobKind::LiftAndStore}, std::pair{"strawflower", JobKind::PrickOut}}) {
    const Planned before = grown(crop, {});
    const Date due = before.of_kind(kind).at(0)->day;
    const std::string job = "job = \"" + std::string(to_string(kind)) + "\"\n";
    const Planned p = grown(crop, {{"not-done", iso(due), job}});
    ASSERT_EQ(p.of_kind(kind).size(), 1u) << crop;
    EXPECT_EQ(p.of_kind(kind)[0]->day, due + Days{1}) << crop;
  }
}

// A cut says that it was sown and set out before, and nothing is to be sown any more.
TEST(Happened, WhatIsCutWasBegunBefore) {
  for (const std::string crop : {"zinnia", "cosmos", "sunflower", "snapdragon"}) {
    const Date usual = only(grown(crop, {})).timeline.first_cut.likely;
    for (const int off : {-19, 0, 27}) {
      const Date cut = usual + Days{off};
      const Planned p = grown(crop, {{"first-cut", iso(cut)}});
      EXPECT_LT(only(p).in_ground, cut) << crop << off;
      for (const Job& job : p.jobs) {
        if (work::trait(job.key.kind).chosen && job.key.kind != JobKind::Lift) {
          EXPECT_LT(job.day, cut) << crop << off;
        }
      }
    }
  }
}

TEST(Happened, AJobWhoseTimeIsOverIsAskedForNoMore) {
  const Planned before = grown("snapdragon", {});
  const Date late = only(before).in_ground + Days{60};
  const Planned p = grown("snapdragon", {{"not-done", iso(late), "job = \"pinch\"\n"}});
  EXPECT_TRUE(p.of_kind(JobKind::Pinch).empty());
  EXPECT_NE(p.finding("not-done"), nullptr);
}

TEST(Happened, ARecordBeatsAPinAndSaysSoWhereTheyAreApart) {
  const auto pinned = [](const std::string& sown) {
    return planned("", bed("[[bed.stretch.crop]]\ncrop = \"cornflower\"\nstart_on = 2027-04-03") +
                           happened("cornflower", {{"sown", sown}}));
  };
  EXPECT_EQ(iso(only(pinned("2027-04-10")).start), "2027-04-10");
  EXPECT_EQ(pinned("2027-04-10").finding("recorded-otherwise"), nullptr);
  EXPECT_EQ(iso(only(pinned("2027-04-11")).start), "2027-04-11");
  EXPECT_NE(pinned("2027-04-11").finding("recorded-otherwise"), nullptr);
}

TEST(Happened, OneSowingOfASuccessionIsRecordedAndTheOthersFollow) {
  const auto sunflowers = [](const std::string& records) {
    return planned("",
                   bed("[[bed.stretch.crop]]\ncrop = \"sunflower\"\nsuccessions = 3") + records);
  };
  const Planned plain = sunflowers("");
  ASSERT_EQ(plain.schedule.sowings.size(), 3u);
  const Date late = plain.schedule.sowings[0].start + Days{12};
  const Planned p = sunflowers(happened("sunflower", {{"sown", iso(late), "succession = 1\n"}}));
  ASSERT_EQ(p.schedule.sowings.size(), 3u);
  EXPECT_EQ(p.schedule.sowings[0].start, late);
  for (std::size_t i = 1; i < 3; ++i) {
    EXPECT_EQ(p.schedule.sowings[i].number, static_cast<int>(i) + 1);
    EXPECT_GE(days_between(p.schedule.sowings[i - 1].timeline.first_cut.likely,
                           p.schedule.sowings[i].timeline.first_cut.likely),
              10);
  }
}

std::string have(const std::string& crop, const std::string& what, int number) {
  return "[[have]]\ncrop = \"" + crop + "\"\nwhat = \"" + what +
         "\"\nnumber = " + std::to_string(number) + "\n";
}

TEST(InHand, WhatIsInHandIsNotOrdered) {
  struct Case {
    std::string crop, what;
    int number;
    JobKind order;
    std::optional<int> ordered;  // plants; absent: no order
  };
  const int tulips = only(grown("tulip", {})).plants;
  const Case cases[] = {
      {"cornflower", "seed", 5000, JobKind::OrderSeed, std::nullopt},
      {"tulip", "bulbs", tulips, JobKind::OrderBulbs, std::nullopt},
      {"tulip", "bulbs", tulips - 7, JobKind::OrderBulbs, 7},
      {"tulip", "seed", tulips, JobKind::OrderBulbs, tulips},
  };
  for (const Case& c : cases) {
    const Planned p =
        planned("", bed("crops = [\"" + c.crop + "\"]") + have(c.crop, c.what, c.number));
    const auto orders = p.of_kind(c.order);
    ASSERT_EQ(orders.size(), c.ordered ? 1u : 0u) << c.crop << c.number;
    if (c.ordered) {
      EXPECT_EQ(orders[0]->plants, c.ordered) << c.crop << c.number;
    }
  }
}

// What the post brings is begun a week later, where that is as right; what is in hand, at once.
TEST(InHand, WhatIsToBeOrderedIsWaitedFor) {
  for (const auto& row : {std::pair{"zinnia", "seed"}, std::pair{"gladiolus", "bulbs"}}) {
    const auto [crop, what] = row;
    const auto begun = [&](const std::string& held, const char* today) {
      const Planned p = planned("", bed("crops = [\"" + std::string(row.first) + "\"]") + held);
      Plan plan = p.plan;
      plan.began = day(today);
      return reckon(plan, p.sheets, {}, day(today)).schedule.sowings.at(0).start;
    };
    const std::string held = have(crop, what, 5000);
    EXPECT_GE(begun("", "2027-04-20"), day("2027-04-27")) << crop;
    EXPECT_LE(begun(held, "2027-04-20"), begun("", "2027-04-20")) << crop;
  }
  // In the last days of its time there is no waiting.
  const Planned p = planned("", bed("crops = [\"cornflower\"]"));
  Plan plan = p.plan;
  plan.began = day("2027-05-24");
  EXPECT_LT(reckon(plan, p.sheets, {}, day("2027-05-24")).schedule.sowings.at(0).start,
            day("2027-05-31"));
}

// 30 bulbs for two stretches: the one planted first has them.
TEST(InHand, ItIsUsedUpOnce) {
  const std::string two =
      "[[bed]]\nname = \"lane\"\nlength_m = 2.6\nwidth_m = 0.9\n"
      "[[bed.stretch]]\nlength_m = 0.6\ncrops = [\"tulip\"]\n"
      "[[bed.stretch]]\nlength_m = 1.7\n[[bed.stretch.crop]]\ncrop = \"tulip\"\nid = \"far\"\n";
  const auto ordered = [&](const std::string& held) {
    const Planned p = planned("", two + held);
    int sum = 0;
    for (const Job* job : p.of_kind(JobKind::OrderBulbs)) sum += job->plants.value();
    return sum;
  };
  EXPECT_EQ(ordered("") - ordered(have("tulip", "bulbs", 30)), 30);
}

// Where no winter chills them, bulbs that are still to be bought have their weeks in the cold
// before they are planted; means of Los Angeles (memory).
TEST(InHand, BulbsAreChilledBeforeTheyArePlanted) {
  for (const std::string& held : {std::string(), have("tulip", "bulbs", 500)}) {
    Planned p = planned("", bed("crops = [\"tulip\"]") + held);
    p.plan.place.temperatures =
        MonthlyMeans{{14, 14.5, 15.5, 17, 18.5, 20.5, 22.5, 23, 22.5, 20, 17, 14.5}, {}};
    for (const auto& [today, allowed] :
         {std::pair{"2026-10-01", true}, std::pair{"2026-12-20", !held.empty()}}) {
      const Reckoned r = reckon(p.plan, p.sheets, {}, day(today));
      const auto& list = r.schedule.weighed.at(0).candidates->list;
      EXPECT_EQ(!list.empty(), allowed) << today << held;
      for (const ground::Candidate& c : list) {
        if (!held.empty()) continue;
        EXPECT_GE(days_between(day(today), c.start),
                  ground::cold_store_days(*p.sheets.at("tulip")).low)
            << today;
      }
    }
  }
}

TEST(InHand, YoungPlantsGoOutThoughNothingWasSown) {
  for (const std::string crop : {"zinnia", "larkspur", "cosmos"}) {
    const Planned p = planned("", bed("crops = [\"" + crop + "\"]") + have(crop, "plants", 500));
    EXPECT_TRUE(p.of_kind(JobKind::Sow).empty()) << crop;
    EXPECT_TRUE(p.of_kind(JobKind::OrderPlants).empty()) << crop;
    EXPECT_TRUE(p.of_kind(JobKind::OrderSeed).empty()) << crop;
    EXPECT_TRUE(p.of_kind(JobKind::PrickOut).empty()) << crop;
    EXPECT_EQ(p.of_kind(JobKind::PlantOut).size(), 1u) << crop;
    EXPECT_EQ(p.of_kind(JobKind::FirstCut).size(), 1u) << crop;
    // They come from warmth, whoever raised them; larkspur needs none.
    EXPECT_EQ(p.of_kind(JobKind::HardenOff).size(), crop == "larkspur" ? 0u : 1u) << crop;
  }
}

TEST(InHand, YoungPlantsWaitForTheFrostsAndForToday) {
  const Planned p = planned("", bed("crops = [\"zinnia\"]") + have("zinnia", "plants", 500));
  EXPECT_GE(only(p).in_ground, day("2027-05-15"));
  const Reckoned june = reckon(p.plan, p.sheets, {}, make_date(2027, 6, 12));
  EXPECT_GE(june.schedule.sowings.at(0).in_ground, make_date(2027, 6, 12));
}

// Peony: the first stems in the third year after planting, all in the fourth (made the sheet's own
// here; University of Alaska Fairbanks has it not cut until the fourth season).
// Bare roots are for autumn while that lasts; then there are pots. Neither is propped up yet.
TEST(Since, APeonyIsPlantedInAutumnWhileThatCanBeHad) {
  const Planned p = planned("", bed("crops = [\"peony\"]"));
  for (const auto& [today, way] : {std::pair{"2026-08-01", "bare roots in autumn"},
                                   std::pair{"2026-10-15", "bare roots in autumn"},
                                   std::pair{"2026-11-10", "bare roots in autumn"},
                                   std::pair{"2027-02-01", "bought plants"}}) {
    const Reckoned r = reckon(p.plan, p.sheets, {}, day(today));
    ASSERT_EQ(r.schedule.sowings.size(), 1u) << today;
    EXPECT_EQ(r.schedule.sowings[0].raised_by().name, way) << today;
    EXPECT_TRUE(std::ranges::none_of(r.jobs, [](const Job& job) {
      return job.key.kind == JobKind::Support;
    })) << today;
  }
}

TEST(Since, APeonyIsNotCutInItsFirstYears) {
  struct Case {
    std::string since;
    double share;
  };
  const Case cases[] = {{"", 0},
                        {"since = 2027", 0},
                        {"since = 2025", 0},
                        {"since = 2024", 0.5},
                        {"since = 2023", 1},
                        {"since = 2011", 1}};
  Planned old = planned("", bed("[[bed.stretch.crop]]\ncrop = \"peony\"\nsince = 2011"));
  for (const Case& c : cases) {
    Planned p = planned("", bed("[[bed.stretch.crop]]\ncrop = \"peony\"\n" + c.since));
    Sheet peony = *p.sheets.at("peony");
    peony.first_cut_year = 3;
    peony.full_cut_year = 4;
    const Reckoned r = reckon(p.plan, {{"peony", &peony}}, {}, make_date(2026, 1, 1));
    ASSERT_EQ(r.schedule.sowings.size(), 1u) << c.since;
    EXPECT_NEAR(stems(r.schedule.sowings[0]), c.share * stems(only(old)), 1e-9) << c.since;
    const bool cut = std::ranges::any_of(
        r.jobs, [](const Job& job) { return job.key.kind == JobKind::FirstCut; });
    EXPECT_EQ(cut, c.share > 0) << c.since;
  }
}

// Seven in hand are seven in the bed, whatever more the ground would hold.
TEST(InHand, YoungPlantsAreNoMoreThanThereAre) {
  for (const std::string crop : {"snapdragon", "sweet william", "zinnia"}) {
    SCOPED_TRACE(crop);
    const Planned p = planned("", bed("crops = [\"" + crop + "\"]") + have(crop, "plants", 7));
    ASSERT_EQ(p.schedule.of(0).size(), 1u);
    EXPECT_EQ(p.schedule.of(0).front().plants, 7);
    EXPECT_GT(planned("", bed("crops = [\"" + crop + "\"]")).schedule.of(0).front().plants, 7);
  }
}

}  // namespace
}  // namespace trug::ask
