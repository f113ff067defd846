// SPDX-License-Identifier: MIT
#include "show/job_words.h"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <string_view>

#include "base/text.h"
#include "show/clearing_words.h"
#include "show/job_sentences.h"
#include "show/winter_words.h"
#include "work/job_kinds.h"
#include "work/seeds.h"

namespace trug::show {
namespace {

using work::Job;
using work::JobKind;

// --- What each kind of job says. ---

std::string order_seed(const Subject& of) {
  return fmt::format("Order seed for {} plants of {}; it is sown from {}.", to_order(of),
                     kind_of_crop(of), short_day(of.sowing.start));
}

std::string order_bulbs(const Subject& of) {
  return fmt::format("Order {} of {} for planting on {}.", bulbs(of, with_spare(of)),
                     kind_of_crop(of), short_day(of.sowing.start));
}

std::string order_plants(const Subject& of) {
  return fmt::format("Order {} young plants of {} for planting on {}.", with_spare(of),
                     kind_of_crop(of), short_day(of.sowing.in_ground));
}

std::string pre_treat(const Subject& of) {
  if (of.sowing.needs_cold_store) {
    const Range days = ground::cold_store_days(of.sheet);
    return fmt::format(
        "Keep the bulbs in a refrigerator, away from fruit, for {} and plant them straight from "
        "it: the winter here is too mild to chill them in the ground.",
        range_words({days.low / 7, days.high / 7}, "weeks"));
  }
  const Pretreatment& p = *of.sheet.pretreat;
  const std::string_view need = p.needed ? "" : " It helps; it is not a must.";
  return fmt::format("{}{}", p.text.empty() ? "Treat the seed before sowing." : p.text, need);
}

std::string sow_in_place(const Subject& of) {
  std::string text = fmt::format("Sow where it is to flower, {}, {}; thin later to {} {}. {}",
                                 depth_words(of.sheet), at_place(of.job), of.plants(),
                                 in_rows(of.sowing), cut_words(of));
  if (of.job.soil_c) {
    text += fmt::format(
        " The soil should hold {} degC for a week: measure it, the date is good to a week.",
        number(*of.job.soil_c));
  }
  if (of.job.winter_takes_some) {
    text += " Sow " + more_for_the_winter(of.sowing) + ".";
  }
  return text;
}

std::string sow_to_raise(const Subject& of) {
  const int plants = work::plants_to_raise(of.sowing);
  const int seedlings = static_cast<int>(std::ceil(plants * work::kSeedlingsPerPlant));
  const Raised raised = of.sowing.raised_by().raised;
  const bool cool =
      raised == Raised::Heated && grown_cool_from(of.sheet, of.sowing.start).has_value();
  return fmt::format(
      "Sow {}, {}. {} seedlings make sure of {}{}, to be planted out on {}.{}", where_words(raised),
      depth_words(of.sheet), seedlings, counted(plants, "plant"),
      plants > of.sowing.plants ? fmt::format(", {} of them to spare", plants - of.sowing.plants)
                                : "",
      short_day(of.sowing.in_ground),
      !cool                          ? ""
      : of.plan.shelter.frame_m2 > 0 ? " Once they are up, grow them on cool, in a frame."
                                     : " Once they are up, grow them on cool, in good light.");
}

std::string sow(const Subject& of) {
  return of.job.where == Raised::InPlace ? sow_in_place(of) : sow_to_raise(of);
}

std::string prick_out(const Subject& of) {
  if (of.sowing.raised_by().raised == Raised::NurseryBed) {
    return fmt::format("Line out {} seedlings in the nursery bed, 15 to 20 cm apart in rows.",
                       work::plants_to_raise(of.sowing));
  }
  return fmt::format("Prick out {} seedlings into modules or 9 cm pots.",
                     work::plants_to_raise(of.sowing));
}

std::string pot_on(const Subject& of) {
  if (of.sowing.raised_by().raised == Raised::NurseryBed) {
    return fmt::format("Lift {} of the strongest from the nursery bed into one-litre pots.",
                       of.sowing.plants);
  }
  return "Pot on into 9 cm pots or larger, so that they do not stand still.";
}

std::string harden_off(const Subject& of) {
  const std::string until = short_day(of.sowing.in_ground);
  if (of.job.where == Raised::Frame) {
    return fmt::format(
        "Move the plants to the cold frame: open it by day, longer each day, and in the last "
        "nights too{}, until {}.",
        of.job.frost_may_come ? " unless frost is forecast" : "", until);
  }
  return of.job.frost_may_come
             ? fmt::format(
                   "Put the plants out by day, longer each day, in or covered by night, "
                   "until {}.",
                   until)
             : fmt::format(
                   "Stand the plants outdoors, at first in shade and out of the wind, "
                   "until {}.",
                   until);
}

std::string plant_out(const Subject& of) {
  std::string text = fmt::format("Plant out {} {}, {}.{} {}", of.plants(), in_rows(of.sowing),
                                 at_place(of.job), how_to_set_out(of), cut_words(of));
  if (of.over) {
    text += fmt::format(" Set them with a trowel: {}s of {} lie under them.",
                        word_for_bulb(of.over->life_cycle), of.over->name);
  }
  const int spare = work::plants_to_raise(of.sowing) - of.sowing.plants;
  if (of.job.winter_takes_some && spare > 0) {
    text += fmt::format(
        " Keep the other {} where they stand: slugs, wet and frost take some over the winter.",
        spare);
  }
  return text;
}

std::string plant(const Subject& of) {
  if (of.job.where != Raised::InPlace) {
    return fmt::format("Pot up {} {}, just covered, to be planted out on {}.{}", bulbs(of),
                       where_words(of.sowing.raised_by().raised), short_day(of.sowing.in_ground),
                       how_to_plant(of.sheet));
  }
  return fmt::format("Plant {} {}, {}, {}.{} {}", bulbs(of),
                     of.sheet.depth_mm ? depth_words(of.sheet) : "just under the surface",
                     in_rows(of.sowing), at_place(of.job), how_to_plant(of.sheet), cut_words(of));
}

constexpr Days kAutumn{120};  // before the flower: thinned so early, it has the winter before it

std::string thin(const Subject& of) {
  const double apart = of.sowing.spacing_cm;
  if (of.sowing.overwinters && of.sowing.timeline.first_flower.likely - of.job.day > kAutumn) {
    return fmt::format(
        "Thin to {} cm apart, half of what they want: the winter thins too. To {} cm in spring, {} "
        "in "
        "all.",
        number(apart / 2, 0), number(apart, 0), of.plants());
  }
  return fmt::format("Thin to {} cm apart, {} in all.", number(apart, 0), of.plants());
}

std::string pinch(const Subject& of) {
  const Pinch& p = of.sheet.pinch;
  const std::string at =
      p.sign.empty() && p.at_cm ? " at " + range_words(*p.at_cm, "cm") : std::string();
  const std::string later = p.costs_days.high > 0
                                ? ", " + range_words(p.costs_days, "days") + " later"
                            : p.cost_kd > 0 ? ", a week or two later"
                                            : "";
  return fmt::format("Pinch out the tips{}: there will be more stems{}.", at, later);
}

std::string support(const Subject& of) {
  switch (of.sheet.support) {
    case Sheet::Support::No:
      return "";
    case Sheet::Support::Light:
      return "Give light support while it is low: twigs among the plants, or a string round the "
             "patch.";
    case Sheet::Support::Net:
      return "Stretch netting over it while the plants are 15 to 20 cm high, so that they grow up "
             "through it, and raise it as they grow.";
    case Sheet::Support::Stakes:
      return of.sowing.stands ? "Stake it as the shoots rise, and tie it in as it grows."
                              : "Drive in the stakes first, so that none pierces a root or tuber "
                                "later, and tie in as it grows.";
    case Sheet::Support::Frame:
      return "Put up the frame first: canes or netting as high as it grows. Tie in as it climbs.";
    case Sheet::Support::Ring:
      return "Set a ring or a wide mesh over it when the shoots are a hand high, 15 cm.";
  }
  return "";
}

std::string protect(const Subject& of) { return cover_words(of.plan.place, of.sowing); }

std::string watch_for_frost(const Subject& of) {
  return fmt::format(
      "Watch for frost and keep fleece at hand until {}: after that only one year in twenty "
      "still has one.",
      short_day(of.job.last));
}

// Of the whole flowering only what is cut before it is lifted or the season ends. Where the likely
// cut comes as the heat or the frost does, nothing is promised.
std::string first_cut(const Subject& of) {
  const int stems = static_cast<int>(std::lround(ground::stems(of.sowing)));
  const Date last = of.sowing.last_cut();
  const std::string harvest =
      stems < 1 || last < of.job.day
          ? "Expect hardly a stem before its season ends."
          : fmt::format("About {} in all, until {}.", counted(stems, "stem"), short_day(last));
  const bool pods = of.sheet.pods && of.sowing.lift >= pods_ripe(of);
  return fmt::format("Cut at this stage: {}.{} {}", of.sheet.cut_stage,
                     pods ? " Leave half of the stems for their pods." : "", harvest);
}

std::string cut_back(const Subject& of) {
  return of.sheet.second_flush ? "Cut back hard after the first flowers, for a second flush."
                               : yearly(of);
}

std::string uncover(const Subject& of) {
  return of.sowing.under_fleece && work::is_mulched(of.sheet)
             ? "Draw the mulch off the crowns, so that the shoots come through."
             : "Take the fleece off these plants for good, on a dull, mild day.";
}

std::string disbud(const Subject& of) { return of.sheet.disbud ? of.sheet.disbud->text : ""; }

std::string look_for_seedlings(const Subject& of) {
  const bool in_time = of.job.sow_by && of.job.day <= *of.job.sow_by;
  return "Look whether it has come up. If not, " +
         (in_time ? fmt::format("it can still be sown again until {}.", short_day(*of.job.sow_by))
                  : "it is too late to sow it again this way.");
}

std::string water_in(const Subject&) {
  return "Water in well, and again in every dry week until it has rooted, about a month.";
}

std::string slugs(const Subject&) {
  return "Look for slugs at dusk in the first month; seedlings and young plants go first.";
}

std::string pick(const Subject&) {
  return "Pick through it every two or three days: the more is cut, the more comes.";
}

std::string dead_head(const Subject&) {
  return "Each time, dead-head what was not cut, so that it goes on flowering.";
}

// --- What each says of its window. ---

std::string still_right(const Job& job) {
  return fmt::format(" Still right from {} to {}.", short_day(job.first), short_day(job.last));
}

std::string eight_in_ten(const Job& job) {
  return fmt::format(" In eight years of ten the first cut falls between {} and {}.",
                     short_day(job.first), short_day(job.last));
}

std::string said_already(const Job&) { return ""; }

constexpr std::string_view kClear = "Clear {}";       // of what is not lifted
constexpr std::string_view kCutPods = "Cut {} pods";  // and stood for them
constexpr std::string_view kSoak = "Soak {}";         // what its pre-treatment is, in a word
constexpr std::string_view kChill = "Chill {}";

struct Wording {
  JobKind kind{};
  // With the verb first, so that titles in the order of the alphabet are in that of the work
  // wherever one job of a day waits for another: what frees ground (clear, cut, lift) stands before
  // what fills it (plant, sow), that before what tends it (support, thin).
  std::string_view title;
  std::string (*text)(const Subject&) = nullptr;
  std::string (*window)(const Job&) = still_right;  // where it has more than a day
  // What the day looks like for most crops that have no sign of their own (common practice).
  std::string_view sign = "";
};

// By kind, in the order of the enumerators.
constexpr std::array<Wording, work::kTraits.size()> kWordings{{
    {JobKind::OrderSeed, "Order {} seed", order_seed},
    {JobKind::OrderBulbs, "Order {}", order_bulbs},
    {JobKind::OrderTubers, "Order {}", order_bulbs},
    {JobKind::OrderPlants, "Order {} plants", order_plants},
    {JobKind::PreTreat, "Pre-treat {}", pre_treat},
    {JobKind::Sow, "Sow {}", sow},
    {JobKind::PrickOut, "Prick out {}", prick_out, still_right, "the first true leaves show"},
    {JobKind::PotOn, "Pot on {}", pot_on, still_right, "roots show below"},
    {JobKind::HardenOff, "Harden off {}", harden_off, said_already},
    {JobKind::PlantOut, "Plant out {}", plant_out},
    {JobKind::Plant, "Plant {}", plant},
    {JobKind::Thin, "Thin {}", thin, still_right, "the seedlings touch"},
    {JobKind::Pinch, "Pinch {}", pinch},
    {JobKind::Support, "Support {}", support},
    {JobKind::Protect, "Protect {}", protect},
    {JobKind::WatchForFrost, "Watch {} for frost", watch_for_frost, said_already},
    {JobKind::FirstCut, "Cut {}", first_cut, eight_in_ten},
    {JobKind::CutBack, "Cut back {}", cut_back},
    {JobKind::Lift, "Lift {}", lift},
    {JobKind::LiftAndStore, "Lift and store {}", lift_and_store},
    {JobKind::ClearAndFeed, "Clear up after {}", clear_and_feed},
    {JobKind::Divide, "Divide {}", yearly},
    {JobKind::Prune, "Prune {}", yearly},
    {JobKind::LookForSeedlings, "Look for young {}", look_for_seedlings},
    {JobKind::WaterIn, "Water in {}", water_in},
    {JobKind::Slugs, "Keep slugs off {}", slugs},
    {JobKind::Pick, "Pick {}", pick},
    {JobKind::DeadHead, "Dead-head {}", dead_head},
    {JobKind::Uncover, "Uncover {}", uncover},
    {JobKind::Disbud, "Disbud {}", disbud},
    {JobKind::LookAtStored, "Look at stored {}", look_at_stored, said_already},
    {JobKind::LetDieDown, "Let {} die down", let_die_down},
    {JobKind::Replant, "Replant {}", replant},
}};

// A kind without words, or with another's, does not compile.
consteval bool is_complete() {
  for (std::size_t i = 0; i < kWordings.size(); ++i) {
    if (kWordings[i].kind != static_cast<JobKind>(i) || kWordings[i].text == nullptr) return false;
  }
  return true;
}
static_assert(is_complete());

const Wording& wording_of(JobKind kind) { return kWordings.at(static_cast<std::size_t>(kind)); }

}  // namespace

std::string_view title_pattern(const Subject& of) {
  const JobKind kind = of.job.key.kind;
  if (kind == JobKind::Lift && leave_word(of.sheet) == "clear") {
    return gives_pods(of) ? kCutPods : kClear;
  }
  if (kind == JobKind::PreTreat && of.sowing.needs_cold_store) return kChill;
  if (kind == JobKind::PreTreat && of.sheet.pretreat) {
    if (of.sheet.pretreat->kind == Pretreatment::Kind::Soak) return kSoak;
    if (of.sheet.pretreat->kind == Pretreatment::Kind::Chill) return kChill;
  }
  return wording_of(kind).title;
}

std::string_view name_in_title(JobKind kind, std::string_view title) {
  if (const std::size_t colon = title.find(": "); colon != std::string_view::npos) {
    return title.substr(colon + 2);
  }
  for (const std::string_view pattern : {wording_of(kind).title, kClear, kCutPods, kSoak, kChill}) {
    const std::string_view before = pattern.substr(0, pattern.find("{}"));
    const std::string_view after = pattern.substr(before.size() + 2);
    if (!title.starts_with(before)) continue;
    title.remove_prefix(before.size());
    return after.empty() ? title : title.substr(0, title.find(after));
  }
  return title;
}

std::string sign_of(const Sheet& sheet, JobKind kind) {
  if (kind == JobKind::Pinch) return sheet.pinch.sign;
  const auto own = sheet.signs.find(to_string(kind));
  return own != sheet.signs.end() ? own->second : std::string(wording_of(kind).sign);
}

std::string what_to_do(const Subject& of) {
  const std::string sign = sign_of(of.sheet, of.job.key.kind);
  return wording_of(of.job.key.kind).text(of) +
         (sign.empty() ? "" : fmt::format(" The sign: {}.", sign));
}

std::string job_text(const Subject& of) {
  std::string text = what_to_do(of);
  if (of.job.first != of.job.last) text += wording_of(of.job.key.kind).window(of.job);
  if (of.job.note) text += " Noted: " + *of.job.note;
  return text;
}

}  // namespace trug::show
