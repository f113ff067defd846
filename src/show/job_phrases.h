// SPDX-License-Identifier: MIT
// A job and the phrases that what it says is made of.
#pragma once

#include <string>
#include <string_view>

#include "base/text.h"
#include "garden/plan.h"
#include "ground/schedule.h"
#include "work/jobs.h"

namespace trug::show {

// A job and all it can speak of.
struct Subject {
  const Plan& plan;
  const ground::Sowing& sowing;
  const Sheet& sheet;
  const work::Job& job;

  std::string plants() const { return counted(sowing.plants, "plant"); }
};

// "3 to 4 weeks".
std::string range_words(Range range, std::string_view unit);
// "in 4 rows, 22 cm apart each way".
std::string in_rows(const ground::Sowing& sowing);
// " Claws down."
// "35 min", "1 h 20 min": to five minutes.
std::string time_words(double minutes);
std::string how_to_plant(const Sheet& sheet);
// "from 80 to 160 cm along the bed".
std::string at_place(const work::Job& job);
// "6 mm deep".
std::string depth_words(const Sheet& sheet);
// "in a cold frame".
std::string_view where_words(Raised raised);
// "bulb", "corm" or "tuber".
std::string_view word_for_bulb(LifeCycle life_cycle);
// "lift" of bulbs, corms and tubers, "clear" of what else leaves its ground; with "ed" what was
// done.
std::string_view leave_word(const Sheet& sheet);
// "12 corms"; without a number those of the sowing.
std::string bulbs(const Subject& of, int number);
std::string bulbs(const Subject& of);
// What is in hand is not ordered.
int to_order(const Subject& of);
// Of what is bought as plants, with those that the winter takes.
int with_spare(const Subject& of);
// "tulip 'Orchard Dusk'", "tulip (mid)".
std::string kind_of_crop(const Subject& of);
// How a root or tuber is set; empty of seedlings and of cuttings bought of a tuber's crop.
std::string how_to_set_out(const Subject& of);
// What is done with bulbs, corms and tubers once they are lifted.
std::string what_becomes(const Subject& of);
// Where the sheet has pods.
Date pods_ripe(const Subject& of);
// When it is cut first, where it is cut this year.
std::string cut_words(const Subject& of);

}  // namespace trug::show
