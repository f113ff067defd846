// SPDX-License-Identifier: MIT
#include "app/change_reasons.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <optional>
#include <set>
#include <string_view>
#include <utility>

#include "app/plan_facts.h"
#include "base/text.h"

namespace trug::app {
namespace {

using calendar::Facts;

std::optional<Date> day_of(const std::string& month_day) {
  return parse_iso("2027-" + month_day);  // frost dates are never 29 February here
}

const std::string& value(const Facts& facts, const std::string& name) {
  static const std::string kNone;
  const auto found = facts.find(name);
  return found == facts.end() ? kNone : found->second;
}

std::string_view before_dash(const std::string& text) {
  return std::string_view(text).substr(0, text.find('-'));
}

// "2027-03-04-1a2b3c4d": the day.
std::optional<Date> measured_until(const std::string& weather) {
  return parse_iso(std::string_view(weather).substr(0, 10));
}

// Days from one frost date to another; later: more than none.
int frost_days(const std::string& before, const std::string& now) {
  const auto from = day_of(before), to = day_of(now);
  if (!from || !to) return 0;
  const int days = days_between(*from, *to);
  // One that crosses the new year has moved by days, not by most of a year.
  return days > 182 ? days - 365 : days < -182 ? days + 365 : days;
}

std::string temperatures_words(const std::string& before, const std::string& now) {
  if (before == "none") return "temperatures given now, none before";
  if (now == "none") return "temperatures no longer given";
  if (before_dash(before) == "monthly" && before_dash(now) == "monthly") {
    return "monthly temperatures changed";
  }
  return "temperatures changed";
}

std::string weather_words(const std::string& before, const std::string& now) {
  const auto from = measured_until(before), to = measured_until(now);
  if (!to) return "no longer counts from measured weather";
  if (!from) return fmt::format("now counts from measured weather, up to {}", plain_day(*to));
  if (from == to) return "measured weather changed";
  return fmt::format("weather measured up to {}, before up to {}", plain_day(*to),
                     plain_day(*from));
}

// The crops of a stretch hand on its ground: each one's days follow from the others' too.
std::vector<std::size_t> chain_of(const Plan& plan, std::size_t planting) {
  for (const std::vector<std::size_t>& chain : chains(plan)) {
    if (std::ranges::find(chain, planting) != chain.end()) return chain;
  }
  return {planting};
}

}  // namespace

// What a job's day hangs on, beside the lines for the whole plan.
struct ChangeReasons::Hangs {
  bool last_frost = false;
  bool first_frost = false;
  bool temperatures = false;
  bool weather = false;
  bool choice = false;             // what is grown how and when
  std::vector<std::string> crops;  // their sheets

  void on(Frost frost) { (frost == Frost::Last ? last_frost : first_frost) = true; }
  void add(const FrostWindow& window) {
    on(window.earliest.from);
    on(window.latest.from);
  }
};

ChangeReasons::ChangeReasons(const Facts& before, std::string product_before, const Facts& now,
                             const Reckoning& reckoning)
    : before_(before), product_before_(std::move(product_before)), now_(now), r_(reckoning) {}

bool ChangeReasons::differs(const std::string& fact) const {
  // What the earlier file says nothing of was not there: a planting or a sheet that is new.
  return value(before_, fact) != value(now_, fact);
}

bool ChangeReasons::weather_came_or_went() const {
  return (value(before_, "weather") == "none") != (value(now_, "weather") == "none");
}

void ChangeReasons::hang_on_planting(std::size_t planting, Hangs& hangs) const {
  const Sheet& sheet = *r_.schedule.weighed[planting].sheet;
  const auto sowings = r_.schedule.of(planting);
  const CropSpec crop = sowings.empty() ? CropSpec(sheet) : sowings.front().spec();
  hangs.temperatures = hangs.temperatures || crop.growth() || is_planted(sheet.life_cycle);
  if (sowings.empty()) return;
  const Way& way = sowings.front().raised_by();
  if (way.window) hangs.add(*way.window);
  const bool by_window = sowings.front().timeline.basis == growth::Basis::Window;
  const auto& flower = crop.first_flower(way);
  if (by_window && flower) hangs.add(*flower);
}

ChangeReasons::Hangs ChangeReasons::hangs(const work::Job& job) const {
  Hangs hangs;
  const work::JobTrait& kind = work::trait(job.key.kind);
  const Sheet& own = *r_.sheets.at(job.crop);
  hangs.crops = {job.crop};
  if (const YearlyJob* yearly = work::yearly_job(job.key.kind, own)) {
    hangs.add(yearly->window);
    return hangs;
  }
  hangs.choice = true;
  for (const std::size_t i : chain_of(r_.plan, job.planting)) {
    if (i != job.planting) hangs.crops.push_back(r_.schedule.weighed[i].sheet->name);
    hang_on_planting(i, hangs);
  }
  hangs.weather = kind.forecast || weather_came_or_went();
  if (kind.frost) hangs.on(*kind.frost);
  return hangs;
}

int ChangeReasons::days_of(const std::string& frost) const {
  return frost_days(value(before_, frost), value(now_, frost));
}

void ChangeReasons::add_frosts(bool last, bool first, std::vector<show::Reason>& reasons) const {
  const auto add = [&](bool wanted, const std::string& fact, std::string_view which) {
    const int days = days_of(fact);
    if (!wanted || days == 0) return;
    reasons.push_back({fact, fmt::format("{} {} {}", which, counted(std::abs(days), "day"),
                                         days > 0 ? "later" : "earlier")});
  };
  add(last, "last-frost", "last frost");
  add(first, "first-frost", "first frost");
  if ((last || first) && differs("frost-meaning")) {
    reasons.push_back({"frost-meaning",
                       fmt::format("frost_meaning is now \"{}\", before \"{}\"",
                                   value(now_, "frost-meaning"), value(before_, "frost-meaning"))});
  }
}

void ChangeReasons::add_weather(bool temperatures, bool weather,
                                std::vector<show::Reason>& reasons) const {
  if (temperatures && differs("temperatures")) {
    reasons.push_back({"temperatures", temperatures_words(value(before_, "temperatures"),
                                                          value(now_, "temperatures"))});
  }
  if (weather && differs("weather")) {
    reasons.push_back(
        {"weather", weather_words(value(before_, "weather"), value(now_, "weather"))});
  }
}

void ChangeReasons::add_lines(bool place, bool wish, std::vector<show::Reason>& reasons) const {
  if (place && differs("place")) reasons.push_back({"place", "other lines of [place] changed"});
  if (wish && differs("wish")) reasons.push_back({"wish", "wish changed"});
  // Files from before this was kept tell nothing of it.
  if (place && before_.contains("shelter") && differs("shelter")) {
    reasons.push_back({"shelter", "shelter, covers or what is in hand changed"});
  }
  if (differs("work")) reasons.push_back({"work", "[work] changed"});
}

void ChangeReasons::add_sheet(const std::string& crop, std::vector<show::Reason>& reasons) const {
  const std::string name = sheet_name(*r_.plan.garden, crop);
  if (before_.contains(name) && differs(name)) {
    reasons.push_back({"sheet", fmt::format("sheet of {} changed", crop)});
  }
}

// What happened to anything on the same ground.
void ChangeReasons::add_records(std::size_t planting, std::vector<show::Reason>& reasons) const {
  const auto chain = chain_of(r_.plan, planting);
  const bool another = std::ranges::any_of(chain, [&](std::size_t i) {
    return differs(records_name(*r_.plan.garden, r_.plan, r_.plan.plantings[i]));
  });
  if (another) reasons.push_back({"happened", "what happened was recorded"});
}

void ChangeReasons::add_version(std::vector<show::Reason>& reasons) const {
  if (product_before_ == product()) return;
  reasons.push_back(
      {"program", fmt::format("reckoned by {}, before by {}", product(), product_before_)});
}

// A frost moves a day its own way and, work days allowed for, no farther than itself. What else
// changed may move it anywhere.
bool ChangeReasons::explains(const show::Reason& reason, int days) const {
  if (reason.code != "last-frost" && reason.code != "first-frost") return true;
  const int frost = days_of(reason.code);
  return (frost > 0) == (days > 0) && std::abs(days) < std::abs(frost) + 7;
}

std::vector<show::Reason> ChangeReasons::of_plan() const {
  std::vector<show::Reason> reasons;
  add_frosts(true, true, reasons);
  add_weather(true, true, reasons);
  add_lines(true, true, reasons);
  const auto any_differs = [&](std::string_view kind) {
    const auto one = [&](const auto& fact) {
      return fact.first.starts_with(kind) && differs(fact.first);
    };
    return std::ranges::any_of(before_, one) || std::ranges::any_of(now_, one);
  };
  if (any_differs("happened/")) reasons.push_back({"happened", "what happened was recorded"});
  if (any_differs("ground/")) reasons.push_back({"ground", "bed or crops changed"});
  std::set<std::string> crops;
  for (const auto& [crop, sheet] : r_.sheets) crops.insert(crop);
  for (const std::string& crop : crops) add_sheet(crop, reasons);
  add_version(reasons);
  return reasons;
}

std::vector<show::Reason> ChangeReasons::of_job(const work::Job& job, int days) const {
  const Hangs on = hangs(job);
  std::vector<show::Reason> reasons;
  add_frosts(on.last_frost, on.first_frost, reasons);
  add_weather(on.temperatures, on.weather, reasons);
  add_lines(on.choice, on.choice, reasons);
  if (differs(ground_name(*r_.plan.garden, r_.plan, r_.plan.plantings[job.planting]))) {
    reasons.push_back({"ground", "bed or crops changed"});
  }
  add_records(job.planting, reasons);
  for (const std::string& crop : on.crops) add_sheet(crop, reasons);
  add_version(reasons);
  if (!on.choice) return reasons;
  if (reasons.empty() && !of_plan().empty()) {
    reasons.push_back({"weeks", "chosen otherwise for the weeks the beds leave short"});
  } else if (!reasons.empty() && std::ranges::none_of(reasons, [&](const show::Reason& reason) {
               return explains(reason, days);
             })) {
    reasons.push_back({"choice", "chosen otherwise"});
  }
  return reasons;
}

}  // namespace trug::app
