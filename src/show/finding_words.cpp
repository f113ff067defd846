// SPDX-License-Identifier: MIT
#include "show/finding_words.h"

#include <fmt/format.h>

#include <cmath>
#include <cstdlib>
#include <variant>

#include "base/text.h"
#include "show/refusal_words.h"
#include "show/season_words.h"
#include "show/week_words.h"

namespace trug::show {
namespace {

using show::numbers;
using show::words;

// A function or two for each finding: its words and, where it has them, its numbers.

std::string words(const ask::CannotGrow& f, const About& about) {
  return fmt::format("{} cannot be grown here this year: {}: {}", about.name,
                     f.way.empty() ? "no way" : f.way,
                     f.refusal ? refusal_words(*f.refusal) : "no way of its sheet fits");
}

std::string words(const ask::GroundTaken& f, const About& about) {
  if (f.hardly) {
    return fmt::format(
        "{} is left out: behind {}, which can leave the ground on {} at the earliest, it would "
        "give {} of {} stems in the weeks of the wish",
        about.name, about.planting(f.before->planting).asked.crop, plain_day(f.before->day),
        number(f.hardly->stems, 0), number(f.hardly->best_stems, 0));
  }
  std::string neighbours;
  if (f.before) {
    neighbours =
        fmt::format("{} can leave the ground on {} at the earliest",
                    about.planting(f.before->planting).asked.crop, plain_day(f.before->day));
  }
  if (f.after) {
    neighbours +=
        fmt::format("{}{} must have it by {}", f.before ? " and " : "",
                    about.planting(f.after->planting).asked.crop, plain_day(f.after->day));
  }
  const std::string in_ground =
      f.in_ground_from == f.in_ground_to
          ? "only on " + plain_day(f.in_ground_from)
          : fmt::format("from {} to {}", plain_day(f.in_ground_from), plain_day(f.in_ground_to));
  return fmt::format("{} is left out: it can go into the ground {} and leave it from {} on, but {}",
                     about.name, in_ground, plain_day(f.lift_from), neighbours);
}

std::string words(const ask::NotInCut& f, const About& about) {
  const std::string in_cut = f.first_cut ? "its first cut would be on " + plain_day(*f.first_cut)
                                         : std::string("it would not flower within the year");
  return fmt::format("{} will not be in cut before it leaves the ground on {}: {}{}", about.name,
                     plain_day(f.lift), f.measured ? "in the weather that was measured " : "",
                     in_cut);
}

std::string words(const ask::ShortWeeks& f, const About&) {
  return fmt::format("{} of {} weeks of the wish {}, by {} in all: {}", f.mondays.size(), f.weeks,
                     f.mondays.size() == 1 ? "goes short of its vase" : "go short of their vases",
                     counted(static_cast<int>(std::lround(f.missing_stems)), "stem"),
                     weeks_of(f.mondays));
}
Numbers numbers(const ask::ShortWeeks& f) {
  return {{"short_weeks", static_cast<double>(f.mondays.size())},
          {"weeks", f.weeks},
          {"missing_stems", f.missing_stems}};
}

std::string words(const ask::LateStart& f, const About& about) {
  const std::string start =
      fmt::format("{} ({}) goes into the ground on {}", about.name, f.way, plain_day(f.in_ground));
  if (f.days_early > 0) {
    return fmt::format("{}, {} before the usual time (from {})", start,
                       counted(f.days_early, "day"), short_day(f.window.from));
  }
  const std::string late =
      fmt::format("{}, {} after the usual time (until {})", start, counted(f.days_late, "day"),
                  short_day(f.window.until - Days{1}));
  if (f.before) {
    return fmt::format("{}: {} has the ground until {}", late, about.planting(*f.before).asked.crop,
                       plain_day(f.lift));
  }
  if (f.first_allowed) {
    return fmt::format("{}: none of its usual days can be had, the first that can is {}", late,
                       plain_day(*f.first_allowed));
  }
  return late;
}
Numbers numbers(const ask::LateStart& f) {
  if (f.days_early > 0) return {{"days_early", f.days_early}};
  return {{"days_late", f.days_late}};
}

std::string words(const ask::HeldBack& f, const About& about) {
  const std::string late =
      f.days_late > 0 ? fmt::format(", {} after the usual time,", counted(f.days_late, "day")) : "";
  return fmt::format(
      "{} waits for {}, which leaves the ground on {}: it goes in on {}{} and gives {} of the {} "
      "stems it would "
      "give on free ground",
      about.name, about.planting(f.before).asked.crop, plain_day(f.lift), plain_day(f.in_ground),
      late, number(f.stems, 0), number(f.free_stems, 0));
}
Numbers numbers(const ask::HeldBack& f) {
  return {{"days_late", f.days_late}, {"stems", f.stems}, {"free_stems", f.free_stems}};
}

std::string words(const ask::OneGroup& f, const About& about) {
  return fmt::format(
      "{} is all of one group, {}: {} would be cut in the {}, which {} short; group = \"{}\" with "
      "a planting of its own asks for it",
      about.name, f.group, listed(f.others, "or"), weeks_of(f.mondays),
      f.mondays.size() == 1 ? "goes" : "go", f.others.front());
}
Numbers numbers(const ask::OneGroup& f) {
  return {{"weeks", static_cast<double>(f.mondays.size())}};
}

std::string words(const ask::FewerSowings& f, const About& about) {
  return fmt::format("{}: {} {} useful here, {} were asked for", about.name,
                     counted(f.useful, "sowing"), f.useful == 1 ? "is" : "are", f.asked);
}
Numbers numbers(const ask::FewerSowings& f) { return {{"useful", f.useful}, {"asked", f.asked}}; }

std::string words(const ask::AgainstRule& f, const About& about) {
  return fmt::format("{} keeps its place because it {}: {}; {}", about.name,
                     f.stands ? "stands there" : "is pinned", refusal_words(f.refusal),
                     told_words(f.refusal));
}
Numbers numbers(const ask::AgainstRule& f) {
  const ground::Refusal& r = f.refusal;
  Numbers list;
  if (r.found_day && r.wanted_day) {
    list.emplace_back("days", std::abs(days_between(*r.found_day, *r.wanted_day)));
  }
  if (r.found != r.wanted) list.insert(list.end(), {{"found", r.found}, {"wanted", r.wanted}});
  const bool is_share = r.rule == ground::Rule::WinterCold || r.rule == ground::Rule::FrostRisk;
  if (is_share) list.emplace_back("share", r.share);
  return list;
}

std::string words(const ask::AgainstTold& f, const About& about) {
  std::vector<std::string> changes;
  for (const auto& one : f.changed) {
    changes.push_back(fmt::format("{} {} in the place of {}", one.key, one.now, one.then));
  }
  return fmt::format("{} began on {}; since then the plan says {}, and that is taken", about.name,
                     plain_day(f.started), listed(changes));
}

std::string words(const ask::FewStems& f, const About& about) {
  if (f.best_week_stems <= 0) {
    return fmt::format(
        "{} gives nothing to cut this year: it is too young, its first stems come in {}",
        about.name, f.first_year);
  }
  return fmt::format(
      "{} gives {} stems in its best week, and under {} of a kind do not show in a vase",
      about.name, number(f.best_week_stems), number(f.least_stems));
}
Numbers numbers(const ask::FewStems& f) {
  return {
      {"best_week_stems", f.best_week_stems}, {"least_stems", f.least_stems}, {"plants", f.plants}};
}

std::string words(const ask::AboveWish& f, const About& about) {
  return fmt::format("{} gives {} stems in {} that want {} of all crops together", about.name,
                     number(f.stems, 0), counted(f.weeks, "week"), number(f.wanted_stems, 0));
}
Numbers numbers(const ask::AboveWish& f) {
  return {{"plants", f.plants},
          {"weeks", f.weeks},
          {"stems", f.stems},
          {"wanted_stems", f.wanted_stems}};
}

std::string words(const ask::TooManyPlants& f, const About& about) {
  return fmt::format("{} has {} plants where {} fit at {} cm", about.name, f.plants, f.room,
                     number(f.spacing_cm));
}
Numbers numbers(const ask::TooManyPlants& f) {
  return {{"plants", f.plants}, {"room", f.room}, {"spacing_cm", f.spacing_cm}};
}

std::string words(const ask::TooNarrow& f, const About& about) {
  return fmt::format("{} stands {} cm apart, and its ground is {} cm {}", about.name,
                     number(f.spacing_cm), f.side_cm, f.across ? "wide" : "long");
}
Numbers numbers(const ask::TooNarrow& f) {
  return {{"side_cm", f.side_cm}, {"spacing_cm", f.spacing_cm}};
}

std::string words(const ask::UnusedBed& f, const About& about) {
  return fmt::format("{} cm of {} are no stretch: nothing grows there", f.length_cm,
                     about.plan.beds[f.bed].name);
}
Numbers numbers(const ask::UnusedBed& f) { return {{"length_cm", f.length_cm}}; }

std::string words(const ask::BareGround& f, const About& about) {
  return fmt::format(
      "stretch {} of {} lies bare from {} to {}{}: {} weeks of the growing season", f.stretch,
      about.plan.beds[f.bed].name, plain_day(f.days.from), plain_day(f.days.until - Days{1}),
      f.after ? ", after " + about.planting(*f.after).asked.crop : "", number(f.weeks, 0));
}
Numbers numbers(const ask::BareGround& f) { return {{"weeks", f.weeks}}; }

std::string words(const ask::OffColour& f, const About& about) {
  return fmt::format("{} has none of the wish's colours: it is {}, and the wish is for {}",
                     about.name, listed(f.colours, "or"), listed(f.wished, "or"));
}

std::string words(const ask::UnknownColours& f, const About& about) {
  std::vector<std::string> names;
  for (const std::size_t planting : f.plantings) names.push_back(about.planting(planting).name);
  return fmt::format(
      "nothing says which colours {} will be, {} of the {} stems of the wish's weeks: as a mix "
      "they may be any; colours = [...] with the crop says what you buy",
      listed(names), number(f.stems, 0), number(f.all_stems, 0));
}
Numbers numbers(const ask::UnknownColours& f) {
  return {{"stems", f.stems}, {"all_stems", f.all_stems}};
}

std::string words(const ask::CostsStems& f, const About& about) {
  return fmt::format("keeping {} costs its stretch {} stems of the {} it could give", about.name,
                     number(f.stems, 0), number(f.stems + f.stretch_stems, 0));
}
Numbers numbers(const ask::CostsStems& f) {
  return {{"stems", f.stems}, {"stretch_stems", f.stretch_stems}};
}

std::string words(const ask::HardlyFrost& f, const About&) {
  return fmt::format(
      "frost hardly comes here, {} days of the year are free of it: tender crops need not wait for "
      "it, but windows that count from frosts mean little, hardy annuals are for your coolest "
      "months, and biennials, bulbs and peonies miss their cold",
      f.frost_free_days);
}
Numbers numbers(const ask::HardlyFrost& f) { return {{"frost_free_days", f.frost_free_days}}; }

std::string words(const ask::ShortSeason& f, const About& about) {
  std::vector<std::string> needs;
  for (const auto& need : f.needs) {
    needs.push_back(fmt::format("{} needs {}", about.planting(need.planting).name, need.weeks));
  }
  return fmt::format("the frost-free season is {} weeks: {}", number(f.frost_free_weeks, 0),
                     needs.empty()
                         ? "raise tender crops in warmth, and let hardy ones carry the wish"
                         : listed(needs));
}
Numbers numbers(const ask::ShortSeason& f) { return {{"frost_free_weeks", f.frost_free_weeks}}; }

std::string words(const ask::MaximaGuessed& f, const About& about) {
  std::vector<std::string> names;
  for (const std::size_t planting : f.plantings) names.push_back(about.planting(planting).name);
  return fmt::format(
      "the plan gives no maxima: they are guessed from its means, and by that guess heat ends or "
      "pauses {}; mean_max_c and mean_min_c in the place of mean_c make it sure",
      listed(names));
}
Numbers numbers(const ask::MaximaGuessed& f) {
  return {{"plantings", static_cast<double>(f.plantings.size())}};
}

std::string words(const ask::SeasonOver& f, const About& about) {
  return fmt::format("{}: flowering_year = {} in this plan makes the next season of it{}",
                     f.wish_past ? "the weeks of the wish are past"
                                 : "nothing of this plan, as it is, can be begun any more",
                     f.next_year,
                     about.plan.calendar ? ", and its calendar keeps what was done" : "");
}
Numbers numbers(const ask::SeasonOver& f) { return {{"next_year", f.next_year}}; }

std::string words(const ask::NotSettled& f, const About&) {
  return fmt::format(
      "the search was stopped after {} choices of a stretch: another choice may be better",
      f.calls);
}
Numbers numbers(const ask::NotSettled& f) { return {{"calls", f.calls}}; }

std::string words(const ask::BeginsAnew& f, const About& about) {
  const std::string file =
      about.plan.calendar ? "" : ", and calendar = \"garden.ics\" to name its calendar";
  return fmt::format(
      "this plan begins anew every day, today with what can still be begun: paste began = {} at "
      "its top{}",
      iso(f.today), file);
}

std::string words(const ask::MemoryUnreadable& f, const About&) {
  return fmt::format("{} tells nothing of what was chosen before: {}; all is chosen anew", f.file,
                     f.why);
}

std::string words(const ask::TakenAsDone& f, const About& about) {
  std::vector<std::string> starts;
  for (const auto& start : f.starts) {
    starts.push_back(fmt::format("{} {} on {}", work::trait(start.kind).words,
                                 about.planting(start.planting).name, plain_day(start.day)));
  }
  return fmt::format("{} before today {} taken as done{}: [[happened]] says what was otherwise",
                     counted(f.jobs, "job"), f.jobs == 1 ? "is" : "are",
                     starts.empty() ? "" : ", among them " + listed(starts));
}
Numbers numbers(const ask::TakenAsDone& f) { return {{"jobs", f.jobs}}; }

// What a frame would add, where that was asked.
std::string frame_words(const ask::ShelterAssumed& f) {
  if (!f.frame_stems) return "";
  const int stems = static_cast<int>(std::lround(*f.frame_stems));
  if (stems <= 0 && f.frame_weeks <= 0) return "; a frame would add no stems to this plan";
  std::vector<std::string> parts;
  if (f.frame_weeks > 0) {
    parts.push_back(fmt::format("{} with {}", counted(f.frame_weeks, "week"),
                                f.frame_weeks == 1 ? "its vase" : "their vases"));
  }
  if (stems > 0) parts.push_back(counted(stems, "stem"));
  return "; a frame would add " + listed(parts);
}

std::string words(const ask::ShelterAssumed& f, const About&) {
  return fmt::format(
      "the plan has no [shelter]: a windowsill at {} degC with two trays, open ground and no frame "
      "are taken for what there is{}",
      number(f.heated_c), frame_words(f));
}
Numbers numbers(const ask::ShelterAssumed& f) {
  if (!f.frame_stems) return {};
  return {{"frame_stems", *f.frame_stems}, {"frame_weeks", f.frame_weeks}};
}

std::string words(const ask::Overfull& f, const About&) {
  const bool trays = f.place == Raised::Heated;
  const std::string place = trays                      ? "in warmth"
                            : f.place == Raised::Frame ? "in a frame"
                                                       : "in a nursery bed";
  const std::string wanted =
      trays ? counted(static_cast<int>(std::ceil(f.wanted)), "tray") : number(f.wanted) + " m2";
  return fmt::format("what is raised {} wants {} at once where there {} {}: {}", place, wanted,
                     trays && f.room != 1 ? "are" : "is", number(f.room), weeks_of(f.mondays));
}
Numbers numbers(const ask::Overfull& f) {
  return {{"weeks", static_cast<double>(f.mondays.size())}, {"wanted", f.wanted}, {"room", f.room}};
}

std::string words(const ask::StartFailed& f, const About&) {
  return fmt::format("failed on {}: {}", plain_day(f.on),
                     f.again ? fmt::format("begun again on {}", plain_day(*f.again))
                             : std::string("there is no time or room to begin it again"));
}

std::string words(const ask::RecordedOtherwise& f, const About&) {
  return fmt::format("{} on {}, not on {} as pinned: what happened counts, the pin can go",
                     word_of(kHappenings, f.what), plain_day(f.on), plain_day(f.pinned));
}

std::string words(const ask::NotDone& f, const About& about) {
  if (!f.there.empty()) {
    std::vector<std::string> there;
    for (const work::JobKind kind : f.there) there.emplace_back(work::trait(kind).words);
    return fmt::format("{} is no job of {}: it has {}", work::trait(f.kind).words, about.name,
                       listed(there));
  }
  return fmt::format("{}: not done by {}, and too late now", work::trait(f.kind).words,
                     plain_day(f.on));
}

// The others have none.
template <class Other>
Numbers numbers(const Other&) {
  return {};
}

}  // namespace

std::string message(const Plan& plan, const ask::Finding& finding) {
  About about{plan, finding.planting ? plan.plantings[*finding.planting].name : ""};
  if (finding.sowing > 0) about.name += fmt::format(" {}", finding.sowing);
  return std::visit([&](const auto& found) { return words(found, about); }, finding.found);
}

Numbers numbers(const ask::Finding& finding) {
  return std::visit([](const auto& found) { return numbers(found); }, finding.found);
}

}  // namespace trug::show
