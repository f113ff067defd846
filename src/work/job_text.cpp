// SPDX-License-Identifier: MIT
#include "work/job_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "base/text.h"

namespace trug::work {
namespace {

using ground::Sowing;

constexpr double kSowExtra = 1.25;   // a quarter more seedlings than plants (memory)
constexpr int kSoilAdviceDays = 21;  // after the soil is likely warm, it surely is

std::string range_words(Range range, std::string_view unit) {
  if (range.low == range.high) return fmt::format("{} {}", number(range.low), unit);
  return fmt::format("{} to {} {}", number(range.low), number(range.high), unit);
}

std::string in_rows(const Sowing& sowing) {
  const std::string apart = number(sowing.spacing_cm, 0);
  if (sowing.rows <= 1) return fmt::format("in one row, {} cm apart", apart);
  return fmt::format("in {} rows, {} cm apart each way", sowing.rows, apart);
}

std::string at_place(const Sowing& sowing) {
  const int at_cm = whole_cm(sowing.offset);
  return fmt::format("from {} to {} cm along the bed", at_cm, at_cm + whole_cm(sowing.length));
}

std::string depth_words(const Sheet& sheet) {
  if (!sheet.depth_mm) return "on the surface, pressed in and not covered, since it wants light";
  return fmt::format("{} deep", *sheet.depth_mm >= 50 ? number(*sheet.depth_mm / 10) + " cm"
                                                      : number(*sheet.depth_mm, 0) + " mm");
}

std::string place_words(Raised raised) {
  switch (raised) {
    case Raised::Heated:
      return "in warmth";
    case Raised::Frame:
      return "in a cold frame";
    case Raised::NurseryBed:
      return "in a nursery bed";
    case Raised::InPlace:
      return "where it is to flower";
  }
  return "";
}

std::string_view word_for_bulb(LifeCycle life_cycle) {
  return life_cycle == LifeCycle::Bulb ? "bulb" : life_cycle == LifeCycle::Corm ? "corm" : "tuber";
}

class Words {
 public:
  Words(const Place& place, const Sowing& sowing, const growth::CropClock& clock, const Job& job)
      : place_(place), sheet_(*sowing.sheet), sowing_(sowing), clock_(clock), job_(job) {}

  std::string text() const {
    std::string result = what();
    const std::string until = window_words();
    if (!until.empty()) result += " " + until;
    return result;
  }

 private:
  const Sowing& c() const { return sowing_; }
  const Way& way() const { return sowing_.raised_by(); }
  std::string plants() const { return counted(sowing_.plants, "plant"); }

  std::string what() const {
    switch (job_.key.kind) {
      case JobKind::OrderSeed:
        return fmt::format("Order seed for {} plants of {}; it is sown from {}.", sowing_.plants,
                           crop(), short_day(c().start));
      case JobKind::OrderBulbs:
        return fmt::format("Order {} of {} for planting on {}.",
                           counted(sowing_.plants, bulb_word()), crop(), short_day(c().start));
      case JobKind::OrderPlants:
        return fmt::format("Order {} young plants of {} for planting on {}.", sowing_.plants,
                           crop(), short_day(c().in_ground));
      case JobKind::PreTreat:
        return pre_treat();
      case JobKind::Sow:
        return way().raised == Raised::InPlace ? sow_in_place() : sow_to_raise();
      case JobKind::PrickOut:
        return fmt::format("Prick out {} seedlings into modules or 9 cm pots.", sowing_.plants);
      case JobKind::PotOn:
        return "Pot on into 9 cm pots or larger, so that they do not stand still.";
      case JobKind::HardenOff:
        return fmt::format("Put the plants out by day, in or covered by night, until {}.",
                           short_day(c().in_ground));
      case JobKind::PlantOut:
        return plant_out();
      case JobKind::Plant:
        return plant();
      case JobKind::Thin:
        return fmt::format("Thin to {} cm apart, {} in all.", number(sowing_.spacing_cm, 0),
                           plants());
      case JobKind::Pinch:
        return pinch();
      case JobKind::Support:
        return sheet_.support == Sheet::Support::Light
                   ? "Give light support: twigs or one string round the patch."
                   : "Support it before the wind lays it flat: netting, or stakes and string.";
      case JobKind::Protect:
        return fmt::format(
            "Lay fleece: the usual coldest night here ({} degC) is colder than it survives bare "
            "({} degC).",
            number(place_.coldest_c.value_or(0)), number(sheet_.coldest_survived_c));
      case JobKind::WatchForFrost:
        return fmt::format(
            "Watch for frost and keep fleece at hand until {}: after that only one year in twenty "
            "still has one.",
            short_day(job_.last));
      case JobKind::FirstCut:
        return first_cut();
      case JobKind::CutBack:
        return sheet_.second_flush ? "Cut back hard after the first flowers, for a second flush."
                                   : yearly(sheet_.cut_back);
      case JobKind::Lift:
        return lift();
      case JobKind::LiftAndStore:
        return yearly(sheet_.lift_and_store);
      case JobKind::ClearAndFeed:
        return fmt::format(
            "Clear and feed the ground, {}{}.", at_place(sowing_),
            sowing_.another_follows()
                ? fmt::format(": the next crop goes in on {}", short_day(*sowing_.next_in_ground))
                : "");
      case JobKind::Divide:
        return yearly(sheet_.divide);
      case JobKind::Prune:
        return yearly(sheet_.prune);
      case JobKind::LookForSeedlings:
        return fmt::format(
            "Look whether it has come up. If not, it can still be sown again until {}.",
            short_day(clock_.window_days(*way().window, way().flowers).until - Days{1}));
      case JobKind::WaterIn:
        return "Water in well, today and in the next days if it stays dry.";
      case JobKind::Slugs:
        return "Look for slugs at dusk; seedlings and young plants go first.";
      case JobKind::Pick:
        return "Pick through every two or three days from now on: the more is cut, the more comes.";
      case JobKind::DeadHead:
        return "Dead-head what was not cut, so that it goes on flowering.";
    }
    return "";
  }

  std::string crop() const {
    return job_.variety ? fmt::format("{} '{}'", job_.crop, *job_.variety) : grouped();
  }
  std::string grouped() const {
    return c().group ? fmt::format("{} ({})", job_.crop, c().group->name) : job_.crop;
  }

  std::string bulb_word() const { return std::string(word_for_bulb(sheet_.life_cycle)); }

  std::string pre_treat() const {
    if (c().needs_cold_store) {
      const Range days = ground::cold_store_days(sheet_);
      return fmt::format(
          "Keep the bulbs in a refrigerator, away from fruit, for {} and plant them straight from "
          "it: the winter here is too mild to chill them in the ground.",
          range_words({days.low / 7, days.high / 7}, "weeks"));
    }
    const Pretreatment& p = *sheet_.pretreat;
    const std::string_view need = p.needed ? "" : " It helps; it is not a must.";
    return fmt::format("{}{}", p.text.empty() ? "Treat the seed before sowing." : p.text, need);
  }

  std::string sow_in_place() const {
    return fmt::format(
               "Sow where it is to flower, {}, {}; thin later to {} {}. First cut about {}.",
               depth_words(sheet_), at_place(sowing_), plants(), in_rows(sowing_), cut_day()) +
           soil_words() +
           (c().overwinters ? " Sow a tenth to a fifth more than that: the winter takes some."
                            : "");
  }

  // In the weeks in which the soil may still be too cold for the seed.
  std::string soil_words() const {
    if (c().start < clock_.season().from) return "";
    const auto soil = clock_.warm_soil();
    if (!soil || (soil->from && c().start >= *soil->from + Days{kSoilAdviceDays})) return "";
    return fmt::format(
        " The soil should hold {} degC for a week: measure it, the date is good to a week.",
        number(soil->needed_c));
  }

  std::string sow_to_raise() const {
    const int seedlings = static_cast<int>(std::ceil(sowing_.plants * kSowExtra));
    const bool cool = way().raised == Raised::Heated && grown_cool_from(sheet_, c().start);
    return fmt::format("Sow {}, {}. {} seedlings make sure of {}, to be planted out on {}.{}",
                       place_words(way().raised), depth_words(sheet_), seedlings, plants(),
                       short_day(c().in_ground),
                       cool ? " Once they are up, grow them on cool, in a frame." : "");
  }

  std::string plant_out() const {
    const bool loses_some =
        way().method == Method::Seed && c().overwinters && c().in_ground < clock_.season().from;
    return fmt::format(
        "Plant out {} {}, {}. First cut about {}.{}", plants(), in_rows(sowing_), at_place(sowing_),
        cut_day(),
        loses_some ? " Keep a tenth to a fifth more in pots: the winter takes some." : "");
  }

  std::string plant() const {
    if (way().weeks_under_cover) {
      return fmt::format("Pot up {} {}, to be planted out on {}.",
                         counted(sowing_.plants, bulb_word()), place_words(way().raised),
                         short_day(c().in_ground));
    }
    return fmt::format("Plant {} {}, {}, {}. First cut about {}.",
                       counted(sowing_.plants, bulb_word()),
                       sheet_.depth_mm ? depth_words(sheet_) : "just under the surface",
                       in_rows(sowing_), at_place(sowing_), cut_day());
  }

  std::string pinch() const {
    const std::string at =
        sheet_.pinch.at_cm ? " at " + range_words(*sheet_.pinch.at_cm, "cm") : "";
    return fmt::format("Pinch out the tips{}: there will be more stems, {} later.", at,
                       range_words(sheet_.pinch.costs_days, "days"));
  }

  std::string first_cut() const {
    // Of the whole flowering only what is cut before it is lifted or the season ends.
    const growth::Timeline& timeline = c().timeline;
    const Date last = std::min(sowing_.lift, timeline.last_cut());
    const auto days =
        static_cast<std::size_t>(std::max(0, days_between(timeline.first_cut.likely, last) + 1));
    const double share = std::accumulate(
        timeline.shares.begin(), timeline.shares.begin() + static_cast<std::ptrdiff_t>(days), 0.0);
    const double stems = c().stems_of(sowing_.plants) * share;
    return fmt::format("Cut at this stage: {}. About {} stems in all, until {}.", sheet_.cut_stage,
                       static_cast<int>(std::lround(stems)), short_day(last));
  }

  std::string lift() const {
    const bool bulb = is_planted(sheet_.life_cycle);
    const std::string how = bulb ? fmt::format("Lift the {}s with the last stems", bulb_word())
                                 : "Pull out and compost";
    if (sowing_.another_follows()) {
      return fmt::format("{}: the ground is wanted for the next crop.", how);
    }
    return fmt::format("{}: it has given what it had.", how);
  }

  static std::string yearly(const std::optional<YearlyJob>& job) {
    if (!job) return "";
    if (!job->every_years || *job->every_years <= 1) return job->text;
    return fmt::format("{} Leave it if it was done less than {} years ago.", job->text,
                       *job->every_years);
  }

  std::string cut_day() const {
    const auto& cut = c().timeline.first_cut;
    return fmt::format("{} ({} to {})", short_day(cut.likely), short_day(cut.early),
                       short_day(cut.late));
  }

  std::string window_words() const {
    const JobKind kind = job_.key.kind;
    const bool said = kind == JobKind::WatchForFrost || kind == JobKind::HardenOff;
    if (said || job_.first == job_.last) return "";
    const std::string first = short_day(job_.first), last = short_day(job_.last);
    return kind == JobKind::FirstCut
               ? fmt::format("In eight years of ten the first cut falls between {} and {}.", first,
                             last)
               : fmt::format("Still right from {} to {}.", first, last);
  }

  const Place& place_;
  const Sheet& sheet_;
  const Sowing& sowing_;
  const growth::CropClock& clock_;
  const Job& job_;
};

std::string_view kind_word(Caution::Kind kind) {
  switch (kind) {
    case Caution::Kind::Poisonous:
      return "Poisonous";
    case Caution::Kind::Irritant:
      return "Irritant";
    case Caution::Kind::Phototoxic:
      return "Burns skin in sunlight";
    case Caution::Kind::Invasive:
      return "Spreads where it should not";
    case Caution::Kind::Thorny:
      return "Thorns";
  }
  return "";
}

std::string sentence(std::string text) {
  if (!text.empty() && text.back() != '.') text += '.';
  return text;
}

}  // namespace

int whole_cm(Millimetres length) { return (length.value() + 5) / 10; }

std::string job_title(const Planting& planting, const Sheet& sheet, const Job& job) {
  const std::string what = job.key.kind == JobKind::OrderBulbs
                               ? fmt::format("order {}s", word_for_bulb(sheet.life_cycle))
                               : words(job.key.kind);
  const std::string sowing = job.key.succession > 0 ? fmt::format(" {}", job.key.succession) : "";
  return fmt::format("{}: {}{}", capitalised(what), planting.asked.id.value_or(planting.asked.crop),
                     sowing);
}

std::string job_text(const Place& place, const Sowing& sowing, const growth::CropClock& clock,
                     const Job& job) {
  return Words(place, sowing, clock, job).text();
}

bool handles_plant(JobKind kind) {
  constexpr JobKind kHandsOff[] = {JobKind::Protect, JobKind::WatchForFrost,
                                   JobKind::LookForSeedlings, JobKind::WaterIn, JobKind::Slugs};
  return std::ranges::find(kHandsOff, kind) == std::end(kHandsOff);
}

std::vector<std::string> caution_lines(const Sheet& sheet) {
  std::vector<std::string> lines;
  for (const Caution& caution : sheet.cautions) {
    std::string line = fmt::format("{}: {}", kind_word(caution.kind), sentence(caution.text));
    if (!caution.handling.empty()) {
      std::string handling = sentence(caution.handling);
      handling[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(handling[0])));
      line += " " + handling;
    }
    lines.push_back(std::move(line));
  }
  return lines;
}

}  // namespace trug::work
