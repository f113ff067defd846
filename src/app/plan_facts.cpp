// SPDX-License-Identifier: MIT
#include "app/plan_facts.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <set>
#include <string>
#include <variant>
#include <vector>

#include "app/version.h"
#include "base/text.h"

namespace trug::app {
namespace {

using calendar::Facts;

// Figures one after the other, so that different ones give different texts.
class Figures {
 public:
  template <class Value>
  Figures& operator<<(const Value& value) {
    text_ += fmt::format("{}\x1f", value);
    return *this;
  }
  template <class Value>
  Figures& operator<<(const std::optional<Value>& value) {
    return value ? *this << *value : *this << "-";
  }
  Figures& operator<<(const std::optional<Date>& day) { return *this << (day ? iso(*day) : "-"); }
  Figures& operator<<(const std::vector<std::string>& words) {
    *this << words.size();
    for (const std::string& word : words) *this << word;
    return *this;
  }
  const std::string& text() const { return text_; }

 private:
  std::string text_;
};

// Eight hexadecimal digits: two texts look the same once in four thousand million times.
std::string digest(const Uuid& garden, const std::string& text) {
  return to_string(uuid_v5(garden, text)).substr(0, 8);
}

std::string temperatures(const Uuid& garden, const Temperatures& given) {
  Figures figures;
  if (const auto* two = std::get_if<TwoMeans>(&given)) {
    figures << two->year_mean_c << two->warmest_month_c;
    return "two-" + digest(garden, figures.text());
  }
  if (const auto* months = std::get_if<MonthlyMeans>(&given)) {
    for (const double c : months->mean_c) figures << c;
    if (months->max_c) {
      for (const double c : *months->max_c) figures << c;
    }
    return "monthly-" + digest(garden, figures.text());
  }
  return "none";
}

std::string weather_words(const Uuid& garden, const std::optional<MeasuredWeather>& weather) {
  if (!weather) return "none";
  const DailyRecord& record = *weather->record;
  Figures figures;
  figures << weather->spread_c << iso(record.first);
  for (const DailyWeather& day : record.days) figures << day.min_c << day.max_c;
  return iso(record.until() - Days{1}) + "-" + digest(garden, figures.text());
}

std::string other_lines(const Uuid& garden, const Place& place) {
  Figures figures;
  figures << place.latitude << place.risk << place.heated_c << place.coldest_c;
  if (place.snow) figures << "snow" << *place.snow;
  if (place.days_late != 0) figures << "days late" << place.days_late;
  if (place.stems_times != 1) figures << "stems times" << place.stems_times;
  return digest(garden, figures.text());
}

std::string wish(const Uuid& garden, const std::optional<Wish>& wish) {
  if (!wish) return "none";
  Figures figures;
  figures << wish->vases_per_week << wish->stems_per_vase << iso(wish->from) << iso(wish->to)
          << wish->colours;
  if (!wish->mixed) figures << "one kind";
  return digest(garden, figures.text());
}

std::string work_lines(const Uuid& garden, const Work& work) {
  Figures figures;
  std::set<unsigned> days;
  for (const std::chrono::weekday day : work.days) days.insert(day.iso_encoding());
  for (const unsigned day : days) figures << day;
  figures << work.days_between_crops << work.care;
  return digest(garden, figures.text());
}

// What a planting's days hang on in its own stretch: the ground and every crop of it.
std::string ground(const Uuid& garden, const Plan& plan, const std::vector<std::size_t>& chain,
                   std::size_t place) {
  const Patch patch = plan.plantings[chain[place]].patch.value_or(Patch{});
  Figures figures;
  figures << place << patch.width.value() << patch.length.value();
  for (const std::size_t i : chain) {
    const CropEntry& crop = plan.plantings[i].asked;
    const Pins& pins = crop.pins;
    figures << crop.crop << crop.group << crop.plants << crop.spacing_cm << crop.colours
            << crop.keep << crop.pods << crop.successions << crop.gap_days << crop.since << pins.way
            << pins.start_on << pins.plant_on << pins.lift_on << pins.not_before;
    if (crop.leave > 0) figures << crop.leave;
    if (crop.pinch) figures << (*crop.pinch ? "pinch" : "no pinch");
  }
  return digest(garden, figures.text());
}

std::string records(const Uuid& garden, const Planting& planting) {
  Figures figures;
  for (const Happened& happened : planting.happened) {
    figures << word_of(kHappenings, happened.what) << iso(happened.on) << happened.succession
            << happened.stems << happened.job;
  }
  return digest(garden, figures.text());
}

// What there is to raise plants in, over the beds and in hand.
std::string shelter_lines(const Uuid& garden, const Plan& plan) {
  Figures figures;
  figures << plan.shelter.heated_trays << plan.shelter.frame_m2 << plan.shelter.nursery_m2;
  for (const Bed& bed : plan.beds) figures << word_of(kCovers, bed.cover);
  for (const InHand& held : plan.have) {
    figures << held.crop << word_of(kHeld, held.what) << held.number;
  }
  return digest(garden, figures.text());
}

}  // namespace

std::string ground_name(const Uuid& garden, const Plan& plan, const Planting& planting) {
  const CropEntry& crop = planting.asked;
  Figures figures;
  figures << (planting.patch ? bed_identity(*bed_of(plan, planting)) : "") << crop.crop
          << crop.id.value_or("1");
  return "ground/" + digest(garden, folded(figures.text()));
}

std::string records_name(const Uuid& garden, const Plan& plan, const Planting& planting) {
  return "happened/" + ground_name(garden, plan, planting).substr(std::string("ground/").size());
}

std::string sheet_name(const Uuid& garden, const std::string& crop) {
  return "figures/" + digest(garden, folded(crop));
}

Facts facts_of(const Plan& plan, const ground::Sheets& sheets,
               const std::optional<MeasuredWeather>& weather) {
  const Uuid& garden = *plan.garden;
  const Place& place = plan.place;
  Facts facts{{"year", std::to_string(plan.flowering_year)},
              {"last-frost", iso(place.last_frost)},
              {"first-frost", iso(place.first_frost)},
              {"frost-meaning", std::string(word_of(kFrostMeanings, place.frost_meaning))},
              {"temperatures", temperatures(garden, place.temperatures)},
              {calendar::kDailyFact, weather_words(garden, weather)},
              {"place", other_lines(garden, place)},
              {"wish", wish(garden, plan.wish)},
              {"work", work_lines(garden, plan.work)},
              {"shelter", shelter_lines(garden, plan)},
              {"program", kVersion}};
  for (const auto& chain : chains(plan)) {
    for (std::size_t i = 0; i < chain.size(); ++i) {
      const Planting& planting = plan.plantings[chain[i]];
      const std::string& crop = planting.asked.crop;
      facts[ground_name(garden, plan, planting)] = ground(garden, plan, chain, i);
      if (!planting.happened.empty()) {
        facts[records_name(garden, plan, planting)] = records(garden, planting);
      }
      facts[sheet_name(garden, crop)] = digest(garden, sheets.at(crop)->figures);
    }
  }
  return facts;
}

void compare_facts(Facts before, Facts now, Plan& plan) {
  before.erase(calendar::kDailyFact);
  now.erase(calendar::kDailyFact);
  plan.unchanged = before == now;
  const auto differs = [&](const std::string& name) {
    const auto old = before.find(name), fresh = now.find(name);
    if (old == before.end() || fresh == now.end()) return old != before.end() || fresh != now.end();
    return old->second != fresh->second;
  };
  for (const auto& chain : chains(plan)) {
    const bool touched = std::ranges::any_of(chain, [&](std::size_t i) {
      const Planting& planting = plan.plantings[i];
      return differs(ground_name(*plan.garden, plan, planting)) ||
             differs(records_name(*plan.garden, plan, planting)) ||
             differs(sheet_name(*plan.garden, planting.asked.crop));
    });
    for (const std::size_t i : chain) plan.plantings[i].touched = touched;
  }
}

}  // namespace trug::app
