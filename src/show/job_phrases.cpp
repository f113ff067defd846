// SPDX-License-Identifier: MIT
#include "show/job_phrases.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "base/words.h"
#include "work/job_kinds.h"
#include "work/seeds.h"

namespace trug::show {
namespace {

using ground::Sowing;
using work::Job;

constexpr Word<Raised> kPlaces[] = {{Raised::InPlace, "where it is to flower"},
                                    {Raised::Heated, "in warmth"},
                                    {Raised::Frame, "in a cold frame"},
                                    {Raised::NurseryBed, "in a nursery bed"}};
static_assert(names_all(kPlaces));

std::string cut_day(const Subject& of) {
  const growth::DateSpread& cut = of.sowing.timeline.first_cut;
  return fmt::format("{} ({} to {})", short_day(cut.likely), short_day(cut.early),
                     short_day(cut.late));
}

}  // namespace

std::string range_words(Range range, std::string_view unit) {
  if (range.low == range.high) return fmt::format("{} {}", number(range.low), unit);
  return fmt::format("{} to {} {}", number(range.low), number(range.high), unit);
}

std::string in_rows(const Sowing& sowing) {
  if (sowing.length.value() == 0) return "outside the beds";
  const std::string apart = number(sowing.spacing_cm, 0);
  if (sowing.sheet->arrangement == Arrangement::DoubleRow) {
    return fmt::format("in one double row along the bed, {} cm apart", apart);
  }
  if (const auto& row_cm = sowing.sheet->row_cm) {
    return fmt::format("in rows along the bed, {} cm from row to row and {} cm in the row",
                       number(*row_cm, 0), apart);
  }
  if (sowing.rows <= 1) return fmt::format("in one row, {} cm apart", apart);
  return fmt::format("in {} rows, {} cm apart each way", sowing.rows, apart);
}

std::string time_words(double minutes) {
  const int all = static_cast<int>(std::lround(minutes / 5)) * 5;
  if (all < 60) return fmt::format("{} min", std::max(5, all));
  const int rest = all % 60;
  return rest == 0 ? fmt::format("{} h", all / 60) : fmt::format("{} h {} min", all / 60, rest);
}

std::string how_to_plant(const Sheet& sheet) {
  return sheet.planting ? " " + capitalised(*sheet.planting) + "." : "";
}

std::string at_place(const Job& job) {
  if (job.length_cm == 0) return "where the plan has it";
  return fmt::format("from {} to {} cm along the bed", job.at_cm, job.at_cm + job.length_cm);
}

std::string depth_words(const Sheet& sheet) {
  if (!sheet.depth_mm) return "on the surface, pressed in and not covered, since it wants light";
  return fmt::format("{} deep", *sheet.depth_mm >= 50 ? number(*sheet.depth_mm / 10) + " cm"
                                                      : number(*sheet.depth_mm, 0) + " mm");
}

std::string_view leave_word(const Sheet& sheet) {
  return work::word_for(work::JobKind::Lift, sheet.life_cycle);
}

std::string_view where_words(Raised raised) { return word_of(kPlaces, raised); }

std::string_view word_for_bulb(LifeCycle life_cycle) {
  return life_cycle == LifeCycle::Bulb ? "bulb" : life_cycle == LifeCycle::Corm ? "corm" : "tuber";
}

std::string bulbs(const Subject& of, int number) {
  return counted(number, std::string(word_for_bulb(of.sheet.life_cycle)));
}
std::string bulbs(const Subject& of) { return bulbs(of, of.sowing.plants); }

int to_order(const Subject& of) { return of.job.plants.value_or(of.sowing.plants); }
int with_spare(const Subject& of) {
  return static_cast<int>(std::ceil(to_order(of) * work::begun_per_plant(of.sowing) - 1e-9));
}

std::string kind_of_crop(const Subject& of) {
  if (of.job.variety) return fmt::format("{} '{}'", of.job.crop, *of.job.variety);
  return of.sowing.group ? fmt::format("{} ({})", of.job.crop, of.sowing.group->name) : of.job.crop;
}

std::string cut_words(const Subject& of) {
  if (of.sowing.gives_stems()) return fmt::format("First cut about {}.", cut_day(of));
  const int year = of.plan.flowering_year;
  const auto& since = of.plan.plantings[of.job.planting].asked.since;
  const int first = first_year_in_cut(of.sheet, since, year);
  if (first <= year) return "Nothing of it is cut this year.";
  return fmt::format("It is too young to be cut this year: the first stems come in {}.", first);
}

std::string how_to_set_out(const Subject& of) {
  const Method method = of.sowing.raised_by().method;
  const bool is_root = method == Method::Bulb ||
                       (method == Method::BoughtPlants && !is_planted(of.sheet.life_cycle));
  return is_root ? how_to_plant(of.sheet) : "";
}

Date pods_ripe(const Subject& of) {
  return of.sowing.timeline.first_cut.likely +
         Days{std::lround(7 * of.sheet.pods->weeks_after_cut)};
}

std::string what_becomes(const Subject& of) {
  if (of.sheet.lift_and_store) return " Dry them and store them free of frost.";
  if (of.sheet.stays_under) {
    return " Lay them in the shade with their leaves until these have yellowed, and keep them dry "
           "until autumn.";
  }
  return " They seldom flower as well a second year: compost them.";
}

}  // namespace trug::show
