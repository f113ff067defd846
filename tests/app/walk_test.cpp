// SPDX-License-Identifier: MIT
// Gardens walked through fourteen months, edited on the way: what has begun stays as it was told.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <iterator>
#include <map>
#include <optional>
#include <random>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "calendar/memory.h"
#include "program.h"
#include "show/job_words.h"
#include "work/job_kinds.h"

namespace trug::app {
namespace {

#ifndef TRUG_WALK_GARDENS
#define TRUG_WALK_GARDENS 20
#define TRUG_WALK_DAYS 13
#endif
constexpr unsigned kGardens = TRUG_WALK_GARDENS;
constexpr Days kStep{TRUG_WALK_DAYS};
constexpr unsigned kStepsToAnEdit = 52 / TRUG_WALK_DAYS;  // on the mean
constexpr const char* kGarden = "8c0d1f3e-5b7a-4e21-9f46-2a6b7c8d9e10";

// One of each habit and way of beginning: annuals hardy and tender, biennials, bulbs, corms and
// tubers, a perennial, a succession.
constexpr const char* kCrops[] = {"cornflower", "zinnia",      "larkspur", "tulip",
                                  "snapdragon", "dahlia",      "cosmos",   "sweet william",
                                  "ranunculus", "gladiolus",   "stock",    "achillea",
                                  "nigella",    "strawflower", "sunflower"};
constexpr std::string_view kSucceeding = "sunflower";  // sown three times

// Of which of them a title speaks, in whatever number: no two begin alike. Empty: of none.
std::string crop_in(std::string_view title) {
  const auto* crop = std::ranges::find_if(kCrops, [&](std::string_view name) {
    return title.find(name.substr(0, 5)) != std::string_view::npos;
  });
  return crop == std::end(kCrops) ? "" : *crop;
}

// What the gardener may change, as numbers.
struct Text {
  int last_frost = 10;   // day of May
  int first_frost = 12;  // of October
  int vases = 2;
  int warmer = 0;  // tenths of a degree
  int days_between = 7;
  std::vector<std::vector<std::string>> stretches;
  std::string happened;  // as its lines

  std::string plan() const;
};

std::string Text::plan() const {
  std::string text = "flowering_year = 2027\nbegan = 2026-08-01\ncalendar = \"garden.ics\"\n";
  text += std::string("garden = \"") + kGarden + "\"\n\n[place]\nlatitude = 52.5\n";
  text += "last_frost = \"" + std::to_string(last_frost) + " May\"\n";
  text += "first_frost = \"" + std::to_string(first_frost) + " October\"\n";
  text += "frost_meaning = \"garden\"\nmean_c = [";
  for (const int tenths : {18, 25, 52, 91, 136, 167, 186, 181, 144, 100, 56, 28}) {
    const int value = tenths + warmer;
    text += std::to_string(value / 10) + "." + std::to_string(value % 10) + ", ";
  }
  text += "]\n\n[shelter]\nheated_trays = 10\nframe_m2 = 4\nnursery_m2 = 4\n\n[wish]\n";
  text += "vases_per_week = " + std::to_string(vases) + "\n";
  text += "stems_per_vase = 9\nfrom = \"1 May\"\nto = \"15 October\"\n\n";
  text += "[work]\ndays_between_crops = " + std::to_string(days_between) + "\n\n";
  text += "[[bed]]\nname = \"lane\"\nlength_m = 9.1\nwidth_m = 0.9\n";
  for (const auto& crops : stretches) {
    text += "\n[[bed.stretch]]\nlength_m = 1.3\n";
    for (const std::string& crop : crops) {
      text += "[[bed.stretch.crop]]\ncrop = \"" + crop + "\"\n";
      if (crop == kSucceeding) text += "successions = 3\n";
    }
  }
  return text + happened;
}

class Walk : public Program {
 protected:
  // One garden from its first calendar to the end of its flowering.
  void walk(unsigned seed) {
    SCOPED_TRACE(testing::Message() << "garden " << seed);
    random_.seed(seed);
    std::filesystem::remove(path("garden.ics"));
    text_ = {};
    told_ = {};
    plant();
    for (Date day = make_date(2026, 8, 1); day < make_date(2027, 10, 1); day += kStep) {
      SCOPED_TRACE(iso(day));
      const bool edited =
          day > make_date(2026, 8, 1) && below(kStepsToAnEdit) == 0 ? edit() : false;
      now_ = {day, day + std::chrono::hours{9}};
      write("plan.toml", text_.plan());
      const Answer answer = run({"calendar", "@plan.toml"});
      ASSERT_EQ(answer.exit, 0) << answer.err;
      compare(edited);
      if (HasFailure()) {
        ADD_FAILURE() << answer.out;
        return;
      }
    }
  }

  int begun = 0, moved = 0, recorded = 0;  // that were looked at

 private:
  unsigned below(unsigned limit) { return static_cast<unsigned>(random_() % limit); }
  const char* a_crop() { return kCrops[below(std::size(kCrops))]; }

  bool grows(const std::string& crop) const {
    for (const auto& crops : text_.stretches) {
      for (const std::string& other : crops) {
        if (other == crop) return true;
      }
    }
    return false;
  }

  void plant() {
    const std::size_t stretches = 2 + below(3);
    while (text_.stretches.size() < stretches) {
      if (const std::string crop = a_crop(); !grows(crop)) text_.stretches.push_back({crop});
    }
  }

  bool edit() {
    switch (below(7)) {
      case 0:
        text_.last_frost = 1 + static_cast<int>(below(28));
        return true;
      case 1:
        text_.first_frost = 1 + static_cast<int>(below(28));
        return true;
      case 2:
        text_.vases = 1 + static_cast<int>(below(4));
        return true;
      case 3:
        text_.warmer = static_cast<int>(below(20));
        return true;
      case 4:
        text_.days_between = 3 + static_cast<int>(below(12));
        return true;
      case 5:
        return record_first_cut();
      default:
        if (const std::string crop = a_crop(); !grows(crop)) {
          text_.stretches[below(static_cast<unsigned>(text_.stretches.size()))].push_back(crop);
        }
        return true;
    }
  }

  // Of a planting that was told to be cut first within the last week, and of which nothing is
  // recorded: it was so the day before yesterday.
  bool record_first_cut() {
    const Date cut = now_.today - Days{2};
    if (!told_) return false;
    for (const auto& [uid, event] : told_->events) {
      if (event.cancelled || event.category != "first-cut") continue;
      if (event.start > now_.today || event.start < now_.today - Days{7}) continue;
      const std::string crop = crop_in(event.summary);
      if (!grows(crop) || crop == kSucceeding) continue;
      const std::string planting = "planting = \"lane/" + crop + "\"\n";
      if (text_.happened.find(planting) != std::string::npos) continue;
      text_.happened +=
          "\n[[happened]]\n" + planting + "what = \"first-cut\"\non = " + iso(cut) + "\n";
      ++recorded;
      return true;
    }
    return false;
  }

  // The file that was written against the one before it.
  void compare(bool edited) {
    const calendar::ReadMemory file = calendar::read_memory(read("garden.ics"));
    ASSERT_EQ(file.refused, "");
    std::map<std::string, calendar::Event> events;
    for (const auto& stored : file.memory.events) events[stored.event.uid] = stored.event;
    if (told_) {
      compare_starts(file.memory);
      compare_events(events, edited);
    }
    look_for_twins(events);
    told_ = Seen{std::move(events), file.memory.plantings};
  }

  // What was sown or planted before today was so, and keeps its way, days and plants.
  void compare_starts(const calendar::Memory& now) {
    for (const auto& [id, year, old] : told_->starts) {
      const bool in_ground = old.in_ground < now_.today;
      if (old.start >= now_.today) continue;
      ++begun;
      const auto same = std::ranges::find(now.plantings, id, &calendar::PlantingLine::id);
      ASSERT_NE(same, now.plantings.end()) << old.way << " of " << iso(old.start) << " is gone";
      EXPECT_EQ(same->start.way, old.way);
      EXPECT_EQ(same->start.group, old.group);
      EXPECT_EQ(iso(same->start.start), iso(old.start)) << old.way;
      EXPECT_EQ(same->start.plants, old.plants);
      EXPECT_EQ(same->start.at, old.at);
      if (in_ground) {
        EXPECT_EQ(iso(same->start.in_ground), iso(old.in_ground)) << old.way;
      } else {
        EXPECT_GE(iso(same->start.in_ground), iso(now_.today)) << old.way;
      }
    }
  }

  void compare_events(const std::map<std::string, calendar::Event>& now, bool edited) {
    for (const auto& [uid, event] : now) {
      const auto old = told_->events.find(uid);
      if (old == told_->events.end()) {
        EXPECT_GE(iso(event.start), iso(now_.today)) << event.summary << " is new in the past";
        EXPECT_TRUE(edited) << event.summary << " is new without an edit";
        continue;
      }
      const auto kind = work::parse_job_kind(event.category);
      ASSERT_TRUE(kind);
      const bool stays =
          event.start == old->second.start && event.cancelled == old->second.cancelled;
      if (!stays) ++moved;
      const bool may = edited || work::trait(*kind).forecast;
      EXPECT_TRUE(stays || may) << event.summary << ": " << iso(old->second.start) << " to "
                                << iso(event.start);
    }
    for (const auto& [uid, old] : told_->events) {
      if (old.cancelled || old.end > now_.today || now.contains(uid)) continue;
      EXPECT_LT(old.end + Days{400}, now_.today) << old.summary << " is gone";
    }
  }

  // One planting is ordered once, and begun once.
  void look_for_twins(const std::map<std::string, calendar::Event>& events) {
    std::map<std::string, std::set<std::string>> orders, starts;
    for (const auto& [uid, event] : events) {
      if (event.cancelled) continue;
      if (event.order) {
        for (const auto& [start, plants] : event.order->plants) {
          orders[to_string(start)].insert(uid);
        }
        continue;
      }
      const auto kind = work::parse_job_kind(event.category);
      ASSERT_TRUE(kind) << event.category;
      const std::string crop =
          fmt::format("{}, {}", show::name_in_title(*kind, event.summary), event.location);
      EXPECT_FALSE(event.category.starts_with("order-")) << crop << " is ordered alone";
      if (kind == work::JobKind::Sow || kind == work::JobKind::Plant) {
        starts[crop].insert(event.category);
      }
    }
    for (const auto* each : {&orders, &starts}) {
      for (const auto& [crop, kinds] : *each) EXPECT_EQ(kinds.size(), 1U) << crop;
    }
  }

  struct Seen {
    std::map<std::string, calendar::Event> events;
    std::vector<calendar::PlantingLine> starts;
  };
  std::mt19937 random_;
  Text text_;
  std::optional<Seen> told_;
};

TEST_F(Walk, WhatHasBegunStaysAsItWasTold) {
  for (unsigned seed = 1; seed <= kGardens && !HasFailure(); ++seed) walk(seed);
  EXPECT_GT(begun, 500);
  EXPECT_GT(moved, 100);
  EXPECT_GT(recorded, 0);
}

}  // namespace
}  // namespace trug::app
