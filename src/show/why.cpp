// SPDX-License-Identifier: MIT
#include "show/why.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <span>

#include "base/text.h"
#include "climate/frost.h"
#include "show/refusal_words.h"
#include "show/table.h"

namespace trug::show {
namespace {

using ground::Sowing;
using Json = nlohmann::ordered_json;

// One step of the reckoning, as a row for people and for programs.
struct Step {
  std::string name;
  Date start;
  std::optional<Date> end;
  double need = 0;
  double reached = 0;
  std::string unit;
};

struct Constant {
  std::string key;
  double value = 0;
  std::string source;
};

std::string source_words(const Sheet& sheet, std::string_view key) {
  const Source* source = source_of(sheet, key);
  if (!source) return "no source";
  switch (source->kind) {
    case Source::Kind::Published:
      return source->name;
    case Source::Kind::CommonPractice:
      return "common practice";
    case Source::Kind::Memory:
      return "memory";
  }
  return "";
}

const std::optional<Growth>& growth_of(const Sowing& sowing) {
  return sowing.group && sowing.group->growth ? sowing.group->growth : sowing.sheet->growth;
}

std::string stage_name(growth::StageName name) {
  switch (name) {
    case growth::StageName::Emerge:
      return "shoots show";
    case growth::StageName::Respond:
      return "able to respond";
    case growth::StageName::Chill:
      return "chilled";
    case growth::StageName::Flower:
      return "first flower";
    case growth::StageName::Light:
      return "days shorten";
  }
  return "";
}

std::vector<Step> steps(const Sowing& sowing) {
  std::vector<Step> result;
  for (const growth::Stage& stage : sowing.timeline.forecast.stages) {
    const bool chill = stage.name == growth::StageName::Chill;
    result.push_back({stage_name(stage.name), stage.start, stage.end, stage.need, stage.reached,
                      chill ? "chilling days" : "degree-days"});
  }
  return result;
}

std::vector<Constant> constants(const Sowing& sowing) {
  const Sheet& sheet = *sowing.sheet;
  std::vector<Constant> result;
  const auto add = [&](std::string key, double value) {
    result.push_back({key, value, source_words(sheet, key)});
  };
  if (const auto& growth = growth_of(sowing)) {
    add("growth.base_c", growth->base_c);
    add("growth.top_c", growth->top_c);
    add("growth.heat_to_respond_kd", growth->heat_to_respond_kd);
    add("growth.heat_to_first_flower_kd", growth->heat_to_first_flower_kd);
    if (growth->vernal_days) add("growth.vernal_days", *growth->vernal_days);
    if (growth->day_length.kind != DayLengthResponse::Kind::Neutral) {
      add("growth.day_length.from_hours", growth->day_length.from_hours);
    }
  }
  add("spacing_cm", sheet.spacing_cm.middle());
  add("stems_per_plant", sowing.stems_per_plant);
  add("cutting_weeks", sheet.cutting_weeks.middle());
  return result;
}

std::string day_hours(const climate::Climate& climate, Date day) {
  return fmt::format("{} h from sunrise to sunset, {} h with civil twilight",
                     number(climate.day_hours(day, climate::Horizon::SunriseToSunset)),
                     number(climate.day_hours(day, climate::Horizon::CivilTwilight)));
}

std::string where_stood(const Plan& plan, const Sheet& sheet, const Way& way, Date start) {
  switch (way.raised) {
    case Raised::Heated: {
      const auto cool = grown_cool_from(sheet, start);
      return fmt::format("in warmth at {} degC{}", number(plan.place.heated_c),
                         cool ? ", from " + plain_day(*cool) + " in an unheated frame" : "");
    }
    case Raised::Frame:
      return "in an unheated frame, 2.5 degC above outdoors";
    case Raised::NurseryBed:
      return "in a nursery bed, as warm as outdoors";
    case Raised::InPlace:
      return "where it is to flower";
  }
  return "";
}

class Page {
 public:
  Page(const Plan& plan, const ground::Schedule& schedule, std::size_t planting,
       const climate::Climate& climate, Style style)
      : plan_(plan),
        planting_(plan.plantings[planting]),
        weighed_(schedule.weighed[planting]),
        sowings_(schedule.of(planting)),
        sheet_(*weighed_.sheet),
        climate_(climate),
        style_(style) {}

  std::string text() {
    if (sowings_.empty()) {
      text_ = planting_.name + " is left out of the plan.\n";
      ways();
      return std::move(text_);
    }
    text_ = fmt::format("{}: {}{}\n", planting_.name, way().name,
                        c().group ? ", group " + c().group->name : "");
    start();
    if (c().timeline.basis == growth::Basis::Window) {
      by_window();
    } else {
      by_heat();
    }
    weather();
    rules();
    end();
    constants_list();
    ways();
    return std::move(text_);
  }

 private:
  std::string row(std::string_view label, const std::string& text) const {
    constexpr int kColumn = 20;
    const std::string lines = indented(text, kColumn, style_);
    return "  " + padded(label, kColumn - 2) + lines.substr(kColumn);
  }
  const Sowing& c() const { return sowings_.front(); }
  const Way& way() const { return c().raised_by(); }

  void start() {
    const Sowing& c = sowings_.front();
    if (c.stands) {
      text_ += row("established", "counted as full grown; its year begins on " + long_day(c.start));
      return;
    }
    const bool sown = way().method == Method::Seed;
    text_ += row(sown ? "sown" : "begun",
                 long_day(c.start) + ", " + where_stood(plan_, sheet_, way(), c.start));
    if (c.in_ground != c.start) {
      text_ += row("into the bed", fmt::format("{}, after {} weeks, then a week without progress",
                                               long_day(c.in_ground),
                                               number(days_between(c.start, c.in_ground) / 7.0)));
    }
    const growth::CropClock clock(climate_, sheet_, c.group, plan_.flowering_year);
    const DateRange window = clock.window_days(*way().window, way().flowers);
    const std::string_view place = c.place == ground::WindowPlace::Outside  ? "after it"
                                   : c.place == ground::WindowPlace::Middle ? "in its middle half"
                                                                            : "inside it";
    text_ += row("trade's window", fmt::format("{} to {}: {}", plain_day(window.from),
                                               plain_day(window.until - Days{1}), place));
  }

  void by_heat() {
    const Growth& growth = *growth_of(c());
    for (const Step& step : steps(c())) {
      const std::string end = step.end ? plain_day(*step.end) : "not reached";
      text_ += row(step.name, fmt::format("{}: needs {} {}, had {}", end, number(step.need, 0),
                                          step.unit, number(step.reached, 0)));
    }
    text_ += row(
        "", fmt::format("heat counts above {} degC, up to {} degC; a day varies by {} degC",
                        number(growth.base_c), number(growth.top_c), number(climate_.spread_c())));
    const Date flower = c().timeline.first_flower.likely;
    text_ += row("day length then", day_hours(climate_, flower));
    if (sheet_.pinch.advice == Pinch::Advice::Yes) {
      text_ += row("pinching", fmt::format("costs {} days, counted in",
                                           number(sheet_.pinch.costs_days.middle(), 0)));
    }
  }

  void by_window() {
    const std::string_view reason = !climate_.has_temperatures()
                                        ? "the plan gives no temperatures"
                                        : "the sheet has no heat constants";
    text_ += row("reckoned by", fmt::format("the trade's windows, since {}", reason));
  }

  void weather() {
    const auto& until = c().timeline.measured_until;
    if (!until) return;
    const bool all = *until >= c().timeline.first_flower.likely;
    text_ += row("weather", fmt::format("measured until {}{}", plain_day(*until),
                                        all ? "" : "; averages from then on"));
  }

  void rules() {
    const Sowing& c = sowings_.front();
    if (!c.stands && frost_class(sheet_) != FrostClass::Hardy) {
      const Date last = climate_.frosts(plan_.flowering_year).last;
      const auto safe = climate::frost_safe_day(last, climate::kSpringSpreadDays, plan_.place.risk);
      text_ += row("frost",
                   fmt::format("last garden frost {} on average, {} days more or less; one "
                               "year in {} it comes after {}",
                               plain_day(last), number(climate::kSpringSpreadDays),
                               number(1 / plan_.place.risk, 0), short_day(safe.value_or(last))));
    }
    if (c.overwinters && plan_.place.coldest_c) {
      text_ += row("winter",
                   fmt::format("survives {} degC; your coldest night is {} degC",
                               number(sheet_.coldest_survived_c), number(*plan_.place.coldest_c)));
    }
  }

  void end() {
    const auto& cut = c().timeline.first_cut;
    text_ += row("first cut", fmt::format("{}; eight years in ten {} to {}", long_day(cut.likely),
                                          short_day(cut.early), short_day(cut.late)));
    years();
    const bool follows = c().another_follows();
    text_ +=
        row("last cut", long_day(sowings_.back().last_cut()) +
                            (sowings_.back().timeline.cut_short ? ", ended by the season" : ""));
    text_ += row("lifted",
                 stays_in_ground(sheet_.life_cycle)
                     ? "stays"
                     : long_day(sowings_.back().lift) + (follows ? ", for the next crop" : ""));
  }

  // Where the early and the late day come from, when not from the usual spread.
  void years() {
    const growth::Timeline& timeline = c().timeline;
    if (timeline.years == 0) return;
    const std::string without =
        timeline.years_without == 0
            ? ""
            : fmt::format("; in {} of them no flower", timeline.years_without);
    text_ += row(
        "", fmt::format("spread by the weather of {} recorded years, and by variety and place{}",
                        timeline.years, without));
  }

  void constants_list() {
    text_ += "\nFigures and where they come from\n";
    Table table({{"figure"}, {"value", false}, {"source"}});
    for (const Constant& constant : constants(c())) {
      table.add({constant.key, number(constant.value), constant.source});
    }
    text_ += table.text(style_);
  }

  void ways() {
    text_ += "\nWays weighed\n";
    for (const ground::WayReport& report : weighed_.candidates->reports) {
      std::string name = sheet_.ways[report.way].name;
      if (report.group) name += " (" + report.group->name + ")";
      std::string verdict = report.allowed > 0 ? counted(report.allowed, "possible date")
                                               : std::string("none possible");
      const bool taken = !sowings_.empty() && c().way == report.way && c().group == report.group;
      if (taken) verdict += ", taken";
      if (report.allowed == 0 && report.refusal) {
        verdict += ": " + refusal_words(*report.refusal);
      }
      text_ += hanging(name + ": " + verdict, 2, 4, style_);
    }
  }

  const Plan& plan_;
  const Planting& planting_;
  const ground::Weighed& weighed_;
  std::span<const Sowing> sowings_;
  const Sheet& sheet_;
  const climate::Climate& climate_;
  Style style_;
  std::string text_;
};

}  // namespace

std::string why_page(const Plan& plan, const ground::Schedule& schedule, std::size_t planting,
                     const climate::Climate& climate, Style style) {
  return Page(plan, schedule, planting, climate, style).text();
}

std::string why_json(const DocumentHead& head, const Plan& plan, const ground::Schedule& schedule,
                     std::size_t planting, const climate::Climate& climate) {
  const auto sowings = schedule.of(planting);
  const ground::Weighed& weighed = schedule.weighed[planting];
  Json document;
  document["format"] = head.format;
  document["program"] = head.program;
  document["today"] = iso(head.today);
  document["planting"] = plan.plantings[planting].name;
  document["stages"] = Json::array();
  document["constants"] = Json::array();
  document["ways"] = Json::array();
  document["way"] = nullptr;
  if (!sowings.empty()) {
    document["way"] = sowings.front().raised_by().name;
    for (const Step& step : steps(sowings.front())) {
      document["stages"].push_back({{"name", step.name},
                                    {"start", iso(step.start)},
                                    {"end", step.end ? Json(iso(*step.end)) : Json(nullptr)},
                                    {"need", step.need},
                                    {"reached", step.reached},
                                    {"unit", step.unit}});
    }
    for (const Constant& constant : constants(sowings.front())) {
      document["constants"].push_back(
          {{"name", constant.key}, {"value", constant.value}, {"source", constant.source}});
    }
  }
  for (const ground::WayReport& report : weighed.candidates->reports) {
    document["ways"].push_back(
        {{"name", weighed.sheet->ways[report.way].name},
         {"group", report.group ? Json(report.group->name) : Json(nullptr)},
         {"dates", report.allowed},
         {"refused", report.allowed == 0 && report.refusal ? Json(refusal_words(*report.refusal))
                                                           : Json(nullptr)}});
  }
  document["measured_until"] = nullptr;
  document["years"] = nullptr;
  document["years_without"] = nullptr;
  if (!sowings.empty()) {
    const growth::Timeline& timeline = sowings.front().timeline;
    if (timeline.measured_until) document["measured_until"] = iso(*timeline.measured_until);
    document["years"] = timeline.years;
    document["years_without"] = timeline.years_without;
  }
  document["trust"] = trust_note(climate);
  return document.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace trug::show
