// SPDX-License-Identifier: MIT
#include "show/why.h"

#include <fmt/format.h>

#include <cstdlib>
#include <optional>
#include <set>
#include <span>
#include <string_view>
#include <utility>

#include "base/text.h"
#include "climate/frost.h"
#include "growth/crop_clock.h"
#include "show/job_phrases.h"
#include "show/job_words.h"
#include "show/refusal_words.h"
#include "show/table.h"
#include "show/why_facts.h"

namespace trug::show {
namespace {

using ground::Sowing;

std::string day_hours(const climate::Climate& climate, Date day) {
  return fmt::format("{} h from sunrise to sunset, {} h with civil twilight",
                     number(climate.day_hours(day, climate::Horizon::SunriseToSunset)),
                     number(climate.day_hours(day, climate::Horizon::CivilTwilight)));
}

std::string where_stood(const Plan& plan, const Sowing& sowing) {
  switch (sowing.raised_by().raised) {
    case Raised::Heated: {
      const auto cool = grown_cool_from(*sowing.sheet, sowing.start);
      return fmt::format("in warmth at {} degC{}", number(plan.place.heated_c),
                         cool ? ", from " + plain_day(*cool) + " in an unheated frame" : "");
    }
    case Raised::Frame:
      return fmt::format("in an unheated frame, {} degC above outdoors",
                         number(growth::Rules{}.frame_gain_c));
    case Raised::NurseryBed:
      return "in a nursery bed, as warm as outdoors";
    case Raised::InPlace:
      return "where it is to flower";
  }
  return "";
}

std::string by_warmth(const Growth& growth, double spread_c) {
  return fmt::format("heat counts above {} degC, up to {} degC; a day varies by {} degC",
                     number(growth.base_c), number(growth.top_c), number(spread_c));
}

std::string by_light(const AfterLight& light) {
  return fmt::format("days count from {}, whole ones from {} to {} degC",
                     light.below_h >= 24 ? std::string("the longest day")
                                         : fmt::format("when they are under {} hours from "
                                                       "sunrise to sunset",
                                                       number(light.below_h)),
                     number(light.cold_b_c), number(light.hot_c_c));
}

// How a day is known that is past.
std::string known(const std::optional<Date>& day, bool told) {
  return !day ? "" : told ? ", as it was told" : ", recorded";
}

// What the garden's own records move its forecast by; empty: nothing.
std::string own_clock_words(const Sowing& sowing, const ground::OwnClock& own) {
  if (own.days_late == 0 || sowing.begun.first_cut || sowing.without_flower) return "";
  return fmt::format("{} {} by the garden's own clock, {} first cuts recorded",
                     counted(std::abs(own.days_late), "day"),
                     own.days_late > 0 ? "later" : "sooner", own.dates);
}

// Where the early and the late day come from, when not from the usual spread.
std::string years_words(const growth::Timeline& timeline) {
  if (timeline.years == 0) return "";
  const std::string without = timeline.years_without == 0 ? ""
                                                          : fmt::format("; in {} of them no flower",
                                                                        timeline.years_without);
  return fmt::format("spread by the weather of {} recorded years, and by variety and place{}",
                     timeline.years, without);
}

// One sowing from its start to its lift.
class Life {
 public:
  Life(const Plan& plan, const Sowing& sowing, const ground::OwnClock& own,
       const climate::Climate& climate, Style style)
      : plan_(plan),
        own_(own),
        sowing_(sowing),
        sheet_(*sowing.sheet),
        climate_(climate),
        style_(style) {}

  std::string text() const {
    const bool by_heat = !timeline().forecast.stages.empty();
    return start() + cold() + (by_heat ? reckoned_by_heat() : reckoned_by_window()) + in_pot() +
           pinching() + weather() + frost() + winter() + summer() + first_cut() +
           row("", own_clock_words(sowing_, own_)) + row("", years_words(timeline())) + end();
  }

 private:
  std::string row(std::string_view label, const std::string& text) const {
    if (text.empty()) return "";
    constexpr int kColumn = 20;
    const std::string lines = indented(text, kColumn, style_);
    return "  " + padded(label, kColumn - 2) + lines.substr(kColumn);
  }
  const growth::Timeline& timeline() const { return sowing_.timeline; }

  std::string start() const {
    if (sowing_.stands) {
      return row("established",
                 "counted as full grown; its year begins on " + long_day(sowing_.start));
    }
    const Way& way = sowing_.raised_by();
    if (sowing_.young_plants) {
      return row("into the bed", long_day(sowing_.in_ground) + ", young plants in hand") + window();
    }
    std::string text =
        row(way.method == Method::Seed ? "sown" : "begun",
            long_day(sowing_.start) + known(sowing_.begun.start, sowing_.begun.start_told) + ", " +
                where_stood(plan_, sowing_));
    if (sowing_.in_ground != sowing_.start) {
      const double weeks = days_between(sowing_.start, sowing_.in_ground) / 7.0;
      text +=
          row("into the bed",
              fmt::format(
                  "{}{}, after {} weeks, then a week without progress", long_day(sowing_.in_ground),
                  known(sowing_.begun.in_ground, sowing_.begun.in_ground_told), number(weeks)));
    }
    return text + window();
  }

  std::string window() const {
    const DateRange& window = sowing_.window;
    return row("usual time", fmt::format("{} to {}: {}", plain_day(window.from),
                                         plain_day(window.until - Days{1}), place_in_window()));
  }

  std::string place_in_window() const {
    if (sowing_.days_early() > 0) return counted(sowing_.days_early(), "day") + " before it";
    if (sowing_.days_late() > 0) return counted(sowing_.days_late(), "day") + " after it";
    return "inside it";
  }

  std::string reckoned_by_heat() const {
    std::string text;
    for (const Step& step : steps(sowing_)) {
      const std::string end = step.end ? plain_day(*step.end) : "not reached";
      text += row(step.name, fmt::format("{}: needs {} {}, had {}", end, number(step.need, 0),
                                         step.unit, number(step.reached, 0)));
    }
    const Growth& growth = *sowing_.spec().growth();
    text += row("", growth.after_light ? by_light(*growth.after_light)
                                       : by_warmth(growth, climate_.spread_c()));
    text += row("day length then", day_hours(climate_, timeline().first_flower.likely));
    return text;
  }

  std::string cold() const {
    if (!sowing_.cold) return "";
    return row("winter's cold",
               fmt::format("{} cold days, and it needs {}", number(sowing_.cold->found, 0),
                           number(sowing_.cold->needed, 0)));
  }

  std::string in_pot() const {
    const auto& forecast = timeline().forecast;
    std::string text;
    for (const auto& [day, what] : {std::pair{forecast.outgrows_module, "a module"},
                                    std::pair{forecast.outgrows_pot, "a 9 cm pot"}}) {
      if (day && *day < sowing_.in_ground) {
        text += row(text.empty() ? "too big" : "",
                    fmt::format("for {} from {}", what, plain_day(*day)));
      }
    }
    return text;
  }

  std::string pinching() const {
    if (!sowing_.pinched) return "";
    const auto& day = timeline().forecast.pinched;
    const Pinch& pinch = sheet_.pinch;
    std::string text = day ? fmt::format("from {}, ", plain_day(*day)) : std::string();
    text += pinch.costs_days.high > 0
                ? fmt::format("costs {} days, counted in", number(pinch.costs_days.middle(), 0))
                : fmt::format("costs {} degree-days, counted in", number(pinch.cost_kd, 0));
    return row("pinching", text);
  }

  std::string summer() const {
    const auto& slow = timeline().slow;
    if (!timeline().too_hot_from && !timeline().pause && !slow) return "";
    const auto limit = number(sheet_.stop_above_max_c.value_or(0));
    if (slow) {
      return row("summer", fmt::format("over {} degC by day from {}: fewer to cut until {}", limit,
                                       plain_day(slow->from), plain_day(slow->until - Days{1})));
    }
    const std::string text =
        timeline().too_hot_from
            ? fmt::format("over {} degC by day from {}: it ends", limit,
                          plain_day(*timeline().too_hot_from))
            : fmt::format("over {} degC by day from {}: nothing to cut until {}", limit,
                          plain_day(timeline().pause->from),
                          plain_day(timeline().pause->until - Days{1}));
    return row("summer", text);
  }

  std::string reckoned_by_window() const {
    const std::string_view reason = !climate_.has_temperatures() ? "the plan gives no temperatures"
                                    : sowing_.raised_by().needs == Needs::Tunnel
                                        ? "its heat is known in the open only"
                                        : "the sheet has no heat constants";
    return row("reckoned by", fmt::format("the trade's windows, since {}", reason));
  }

  std::string weather() const {
    const auto& until = timeline().measured_until;
    if (!until) return "";
    const bool all = *until >= timeline().first_flower.likely;
    return row("weather", fmt::format("measured until {}{}", plain_day(*until),
                                      all ? "" : "; averages from then on"));
  }

  std::string frost() const {
    if (sowing_.stands || frost_class(sheet_) == FrostClass::Hardy) return "";
    const Date last = climate_.frosts(plan_.flowering_year).last;
    const auto safe = climate::frost_safe_day(last, climate::kSpringSpreadDays, plan_.place.risk);
    return row("frost",
               fmt::format("last garden frost {} on average, {} days more or less; one "
                           "year in {} it comes after {}",
                           plain_day(last), number(climate::kSpringSpreadDays),
                           number(1 / plan_.place.risk, 0), short_day(safe.value_or(last))));
  }

  std::string winter() const {
    if (!sowing_.overwinters || !plan_.place.coldest_c) return "";
    return row("winter",
               fmt::format("survives {} degC; your coldest night is {} degC: {} "
                           "live{}",
                           number(sheet_.survives_c), number(*plan_.place.coldest_c),
                           in_ten(sowing_.alive), sowing_.under_fleece ? ", covered" : ""));
  }

  std::string first_cut() const {
    if (sowing_.without_flower) {
      return row("first cut", sowing_.timeline.shares.size() > 1
                                  ? "none within the year, in the weather that was measured"
                                  : "none within the year");
    }
    if (timeline().basis == growth::Basis::Recorded) {
      return row("first cut", long_day(timeline().first_cut.likely) + ", recorded");
    }
    const auto& cut = timeline().first_cut;
    return row("first cut", fmt::format("{}; eight years in ten {} to {}", long_day(cut.likely),
                                        short_day(cut.early), short_day(cut.late)));
  }

  std::string end() const {
    const std::string last_cut =
        !sowing_.gives_stems() ? std::string("none: it is too young to be cut")
        : !sowing_.is_cut()
            ? fmt::format("none: it is {}ed first", leave_word(sheet_))
            : long_day(sowing_.last_cut()) + (timeline().cut_short ? ", ended by the season" : "");
    if (sowing_.stands_until_stored()) return row("last cut", last_cut);
    const std::string lifted = stays_in_ground(sheet_.life_cycle)
                                   ? std::string("stays")
                                   : long_day(sowing_.lift) + known(sowing_.begun.lift, false) +
                                         (sowing_.another_follows() ? ", for the next crop" : "");
    return row("last cut", last_cut) + row(fmt::format("{}ed", leave_word(sheet_)), lifted);
  }

  const Plan& plan_;
  const ground::OwnClock& own_;
  const Sowing& sowing_;
  const Sheet& sheet_;
  const climate::Climate& climate_;
  Style style_;
};

// Of a succession, on its own part of the ground.
std::string heading(const Sowing& sowing, std::size_t all) {
  return fmt::format("\nSowing {} of {}, {} to {} cm along the bed\n", sowing.number, all,
                     whole_cm(sowing.offset), whole_cm(sowing.offset + sowing.length));
}

std::string constants_list(const Sowing& sowing, Style style) {
  Table table({{"figure"}, {"value", false}, {"source"}});
  for (const Constant& constant : constants(sowing)) {
    table.add({constant.key, number(constant.value), constant.source});
  }
  return "\nFigures and where they come from\n" + table.text(style);
}

// What to look for besides the date, a line for each job that has a sign.
std::string signs(const Reckoned& reckoned, std::size_t planting, Style style) {
  std::string text;
  std::set<work::JobKind> told;
  for (const JobRow& job : reckoned.rows) {
    if (!job.parts.empty() || job.planting != planting || !told.insert(job.key.kind).second)
      continue;
    const Sheet& sheet = *reckoned.schedule.at(job.sowing).sheet;
    const std::string sign = sign_of(sheet, job.key.kind);
    if (sign.empty()) continue;
    text += hanging(fmt::format("{}: {}", work::trait(job.key.kind).words, sign), 2, 4, style);
  }
  return text.empty() ? "" : "\nSigns to look for\n" + text;
}

// The day that the reckoning above gives for a job; nullopt: it is not its own.
std::optional<Date> reckoned_day(const JobRow& job, const Sowing& sowing) {
  using enum work::JobKind;
  const work::JobKind kind = job.key.kind;
  if (kind == FirstCut) return sowing.timeline.first_cut.likely;
  if (kind == Pinch) return sowing.timeline.forecast.pinched;
  if (kind == Lift) return sowing.lift;
  return std::nullopt;
}

// Its jobs from its start on, and which of them stand on another day than was reckoned.
std::string on_your_days(const Reckoned& reckoned, std::size_t planting, Style style) {
  std::string text;
  for (const JobRow& job : reckoned.rows) {
    if (job.planting != planting || !job.parts.empty() || job.told_with) continue;
    const auto day = reckoned_day(job, reckoned.schedule.at(job.sowing));
    const std::string moved =
        !day || *day == job.day ? ""
        : reckoned.plan.work.days.empty()
            ? fmt::format(", reckoned {}", short_day(*day))
            : fmt::format(", the nearest of your days to {}", short_day(*day));
    text += hanging(fmt::format("{}: {}{}", job.title, long_day(job.day), moved), 2, 4, style);
  }
  return text.empty() ? "" : "\nIts jobs, on your days\n" + text;
}

std::string way_words(const ground::WayReport& report, const Sheet& sheet, bool taken) {
  std::string words = sheet.ways[report.way].name;
  if (report.group) words += " (" + report.group->name + ")";
  words += ": ";
  words += report.allowed > 0 ? counted(report.allowed, "possible date")
           : taken            ? std::string("none by the rules")
                              : std::string("none possible");
  if (taken) words += ", taken";
  if (report.allowed == 0 && report.refusal) words += ": " + refusal_words(*report.refusal);
  return words;
}

std::string ways(const ground::Weighed& weighed, std::span<const Sowing> sowings, Style style) {
  std::string text = "\nWays weighed\n";
  for (const ground::WayReport& report : weighed.candidates->reports) {
    const bool taken = !sowings.empty() && sowings.front().way == report.way &&
                       sowings.front().group == report.group;
    text += hanging(way_words(report, *weighed.sheet, taken), 2, 4, style);
  }
  return text;
}

}  // namespace

std::string why_page(const Reckoned& reckoned, std::size_t planting,
                     const climate::Climate& climate, Style style) {
  const std::string& name = reckoned.plan.plantings[planting].name;
  const auto sowings = reckoned.schedule.of(planting);
  const ground::Weighed& weighed = reckoned.schedule.weighed[planting];
  if (sowings.empty()) return name + " is left out of the plan.\n" + ways(weighed, sowings, style);
  const Sowing& first = sowings.front();
  std::string text =
      fmt::format("{}: {}{}\n", name, first.stands ? "stands there" : first.raised_by().name,
                  first.group ? ", group " + first.group->name : "");
  for (const Sowing& sowing : sowings) {
    if (sowing.number > 0) text += heading(sowing, sowings.size());
    text += Life(reckoned.plan, sowing, reckoned.schedule.own, climate, style).text();
  }
  return text + on_your_days(reckoned, planting, style) + signs(reckoned, planting, style) +
         constants_list(first, style) + ways(weighed, sowings, style);
}

}  // namespace trug::show
