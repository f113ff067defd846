// SPDX-License-Identifier: MIT
#include "read/plan_reader.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "base/text.h"
#include "read/bed_reader.h"
#include "read/crop_reader.h"
#include "read/holdings_reader.h"
#include "read/text_file.h"
#include "read/toml_table.h"
#include "read/units.h"
#include "read/wish_reader.h"

namespace trug::read {
namespace {

constexpr std::string_view kTop = "before the first heading";
constexpr std::string_view kCrop = "[[bed.stretch.crop]]";
constexpr KeyHome kHomes[] = {
    {"flowering_year", kTop},
    {"title", kTop},
    {"garden", kTop},
    {"began", kTop},
    {"calendar", kTop},
    {"latitude", "[place]"},
    {"last_frost", "[place]"},
    {"first_frost", "[place]"},
    {"frost_meaning", "[place]"},
    {"mean_c", "[place]"},
    {"mean_f", "[place]"},
    {"mean_max_c", "[place]"},
    {"mean_max_f", "[place]"},
    {"mean_min_c", "[place]"},
    {"mean_min_f", "[place]"},
    {"year_mean_c", "[place]"},
    {"year_mean_f", "[place]"},
    {"warmest_month_c", "[place]"},
    {"warmest_month_f", "[place]"},
    {"weather", "[place]"},
    {"heated_c", "[shelter]"},
    {"heated_f", "[shelter]"},
    {"heated_trays", "[shelter]"},
    {"frame_m2", "[shelter]"},
    {"nursery_m2", "[shelter]"},
    {"coldest_c", "[place]"},
    {"coldest_f", "[place]"},
    {"snow", "[place]"},
    {"risk", "[place]"},
    {"days_late", "[place]"},
    {"stems_times", "[place]"},
    {"vases_per_week", "[wish]"},
    {"stems_per_vase", "[wish]"},
    {"from", "[wish]"},
    {"to", "[wish]"},
    {"colours", "[wish]"},
    {"mixed", "[wish]"},
    {"like", "[wish]"},
    {"dislike", "[wish]"},
    {"safe", "[wish]"},
    {"colours", kCrop},
    {"days", "[work]"},
    {"remind_days_before", "[work]"},
    {"remind_at", "[work]"},
    {"remind", "[work]"},
    {"care", "[work]"},
    {"days_between_crops", "[work]"},
    {"bed", "[[bed]]"},
    {"name", "[[bed]]"},
    {"stretch", "[[bed.stretch]]"},
    {"crop", kCrop},
    {"crops", "[[bed.stretch]]"},
    {"person", "[[bed]]"},
    {"cover", "[[bed]]"},
    {"since", kCrop},
    {"person", kCrop},
    {"width_m", "[[bed]]"},
    {"width_cm", "[[bed]]"},
    {"width_ft", "[[bed]]"},
    {"width_in", "[[bed]]"},
    {"length_m", "[[bed]]"},
    {"length_m", "[[bed.stretch]]"},
    {"length_cm", "[[bed]]"},
    {"length_cm", "[[bed.stretch]]"},
    {"length_ft", "[[bed]]"},
    {"length_ft", "[[bed.stretch]]"},
    {"length_in", "[[bed]]"},
    {"length_in", "[[bed.stretch]]"},
    {"variety", kCrop},
    {"group", kCrop},
    {"id", "[[bed]]"},
    {"id", kCrop},
    {"plants", kCrop},
    {"spacing_cm", kCrop},
    {"spacing_in", kCrop},
    {"keep", kCrop},
    {"pods", kCrop},
    {"pinch", kCrop},
    {"successions", kCrop},
    {"gap_weeks", kCrop},
    {"leave", kCrop},
    {"way", kCrop},
    {"start_on", kCrop},
    {"plant_on", kCrop},
    {"lift_on", kCrop},
    {"not_before", kCrop},
    {"crop", "[[elsewhere]]"},
    {"name", "[[elsewhere]]"},
    {"plants", "[[elsewhere]]"},
    {"person", "[[elsewhere]]"},
    {"since", "[[elsewhere]]"},
    {"crop", "[[have]]"},
    {"what", "[[have]]"},
    {"number", "[[have]]"},
    {"planting", "[[happened]]"},
    {"what", "[[happened]]"},
    {"on", "[[happened]]"},
    {"stems", "[[happened]]"},
    {"note", "[[happened]]"},
    {"job", "[[happened]]"},
    {"succession", "[[happened]]"},
};

constexpr std::string_view kPlaceExample =
    "[place] under it stand latitude, last_frost, first_frost and frost_meaning: 'trug help place'";
// A line to paste that names all three.
constexpr std::string_view kFrostMeaningExample =
    "frost_meaning = \"garden\"  # the average frost that marks tender plants; or \"air\": the "
    "average 0 degC in a weather screen; or \"safe\": nine years in ten have none after it";

constexpr std::size_t kLongestPath = 500;
// Degrees Celsius beyond which nothing lies anywhere (memory): monthly means reach 42, the means of
// a month's maxima 50, a year's mean 35. What is above is most likely in Fahrenheit.
constexpr Bounds kMonthMean{-60, 45};
constexpr Bounds kMonthMaximum{-60, 55};
constexpr Bounds kYearMean{-60, 40};

// "sheds/garden.toml": "garden".
std::string stem_of(const std::string& path) {
  const std::string name = path.substr(path.rfind('/') + 1);
  return name.substr(0, name.rfind('.'));
}

// The mean of the coldest month: of two means, as far below the year's as the warmest lies above
// it.
std::optional<double> coldest_month_c(const Temperatures& temperatures) {
  if (const auto* monthly = std::get_if<MonthlyMeans>(&temperatures)) {
    return *std::ranges::min_element(monthly->mean_c);
  }
  if (const auto* two = std::get_if<TwoMeans>(&temperatures)) {
    return 2 * two->year_mean_c - two->warmest_month_c;
  }
  return std::nullopt;
}

// No winter's usual coldest night is warmer than its coldest month.
void check_coldest(const Place& place, TomlTable& table) {
  const auto month_c = coldest_month_c(place.temperatures);
  if (!place.coldest_c || !month_c || *place.coldest_c <= *month_c) return;
  const bool celsius = table.has("coldest_c");
  table.error(
      celsius ? "coldest_c" : "coldest_f",
      fmt::format("the usual coldest night, {} degC, is warmer than the coldest month, {} degC",
                  number(*place.coldest_c), number(*month_c)),
      celsius ? "in degrees Fahrenheit? then write coldest_f" : "");
}

class PlanReader {
 public:
  PlanReader(TomlTable& file, SheetLibrary& sheets, Diagnostics& diagnostics)
      : file_(file), sheets_(sheets), diagnostics_(diagnostics) {}

  Plan read(const std::string& path) {
    plan_.file = path;
    plan_.flowering_year =
        file_.whole_number("flowering_year", required("flowering_year = 2027"), {1902, 2098})
            .value_or(2000);
    plan_.title = file_.text("title").value_or(printable(stem_of(path)));
    read_garden();
    plan_.began = file_.date("began");
    plan_.calendar = file_.text("calendar", kOptional, kLongestPath);
    if (auto place = file_.table("place", required(kPlaceExample))) read_place(*place);
    if (auto wish = file_.table("wish")) read_wish(*wish, sheets_, diagnostics_, kHomes, plan_);
    if (auto work = file_.table("work")) read_work(*work);
    refuse_for_now(file_, "years", "write one plan for each flowering year");
    if (auto shelter = file_.table("shelter")) read_shelter(*shelter, kHomes, plan_);
    read_beds(file_, sheets_, diagnostics_, kHomes, plan_);
    read_elsewhere(file_, sheets_, diagnostics_, kHomes, plan_);
    read_have(file_, sheets_, diagnostics_, kHomes, plan_);
    read_happened(file_, sheets_, diagnostics_, kHomes, plan_);
    if (!file_.has("bed") && !file_.has("wish") && !file_.has("elsewhere")) {
      diagnostics_.error(file_.at(), "the plan has neither a [[bed]] nor a [wish]");
    }
    file_.finish(kHomes);
    return std::move(plan_);
  }

 private:
  void read_garden() {
    const auto text = file_.text("garden");
    if (!text) return;
    plan_.garden = parse_uuid(*text);
    if (!plan_.garden) {
      file_.error("garden", fmt::format("'garden' must be a UUID, not '{}'", *text),
                  "leave it out, and the calendar will print a fresh one to paste");
    }
  }

  void read_place(TomlTable& table) {
    Place& place = plan_.place;
    place.at = table.at();
    const auto latitude = table.number("latitude", required("latitude = 52.4, south negative"));
    place.latitude = latitude.value_or(0);
    if (std::abs(place.latitude) >= 90) {
      table.error("latitude",
                  fmt::format("'latitude' must lie between -90 and 90, not at {}", place.latitude));
    }
    const auto last = table.month_day("last_frost", required("last_frost = \"14 May\""));
    const auto first = table.month_day("first_frost", required("first_frost = \"9 October\""));
    place.last_frost = last.value_or(MonthDay{});
    place.first_frost = first.value_or(MonthDay{});
    if (latitude && last && first) check_frosts(table);
    place.frost_meaning =
        table.choice("frost_meaning", kFrostMeanings, required(kFrostMeaningExample))
            .value_or(FrostMeaning::Garden);
    place.temperatures = read_temperatures(table);
    place.coldest_c = read_celsius(table, "coldest", kMonthMean);
    check_coldest(place, table);
    place.snow = table.boolean("snow");
    place.risk = table.number("risk", kOptional, {0.01, 0.5}).value_or(place.risk);
    place.days_late = table.whole_number("days_late", kOptional, {-60, 60}).value_or(0);
    place.stems_times = table.number("stems_times", kOptional, {0.2, 5}).value_or(1);
    place.weather = table.text("weather", kOptional, kLongestPath);
    table.finish(kHomes);
  }

  // In one season, counted from 24 July (south: 24 January, growth models, 4), the first frost
  // comes before the last: true in mild places too, whose first frost falls in January.
  void check_frosts(TomlTable& table) {
    const Place& place = plan_.place;
    const MonthDay start{std::chrono::month{is_southern(place) ? 1u : 7u}, std::chrono::day{24}};
    if (days_into_season(start, place.first_frost) <= days_into_season(start, place.last_frost))
      return;
    table.error("last_frost",
                fmt::format("the last frost, {}, and the first, {}, seem to be swapped",
                            short_day(place.last_frost), short_day(place.first_frost)),
                "last_frost is the last of spring, first_frost the first of autumn; south of the "
                "equator the latitude is negative; in figures a date is year, month, day");
  }

  Temperatures read_temperatures(TomlTable& table) {
    const auto mean = read_monthly_celsius(table, "mean", kMonthMean);
    const auto highest = read_monthly_celsius(table, "mean_max", kMonthMaximum);
    const auto lowest = read_monthly_celsius(table, "mean_min", kMonthMean);
    const auto year = read_celsius(table, "year_mean", kYearMean);
    const auto warmest = read_celsius(table, "warmest_month", kMonthMean);
    const auto key_of = [&](const std::string& name) {
      for (const char* unit : {"_c", "_f"}) {
        if (table.has(name + unit)) return name + unit;
      }
      return std::string{};
    };
    check_pair(table, key_of("mean_max"), key_of("mean_min"), "mean_max", "mean_min");
    check_pair(table, key_of("year_mean"), key_of("warmest_month"), "year_mean", "warmest_month");
    check_one_form(table, {key_of("mean"), key_of("mean_max"), key_of("year_mean")});
    if (mean) return monthly(*mean);
    if (highest && lowest) return monthly(*highest, *lowest, key_of("mean_min"), table);
    if (year && warmest) {
      if (*year > *warmest) {
        table.error(key_of("warmest_month"), "the warmest month is colder than the year's mean");
      }
      return TwoMeans{*year, *warmest};
    }
    return NoTemperatures{};
  }

  void check_pair(TomlTable& table, const std::string& one, const std::string& other,
                  std::string_view one_name, std::string_view other_name) {
    if (one.empty() == other.empty()) return;
    const bool lacks_other = other.empty();
    const std::string& present = lacks_other ? one : other;
    table.error(present, fmt::format("'{}' needs '{}{}' beside it", present,
                                     lacks_other ? other_name : one_name,
                                     present.substr(present.size() - 2)));
  }

  void check_one_form(TomlTable& table, std::vector<std::string> keys) {
    std::erase(keys, std::string{});
    if (keys.size() < 2) return;
    table.error(keys[1], fmt::format("'{}' and '{}' both give the temperatures", keys[0], keys[1]),
                "keep the monthly means, they are the best");
  }

  MonthlyMeans monthly(const std::vector<double>& mean) {
    MonthlyMeans result;
    std::ranges::copy(mean, result.mean_c.begin());
    return result;
  }

  MonthlyMeans monthly(const std::vector<double>& highest, const std::vector<double>& lowest,
                       const std::string& low_key, TomlTable& table) {
    MonthlyMeans result;
    result.max_c.emplace();
    for (std::size_t month = 0; month < 12; ++month) {
      result.mean_c[month] = (highest[month] + lowest[month]) / 2;
      (*result.max_c)[month] = highest[month];
    }
    for (std::size_t month = 0; month < 12; ++month) {
      if (lowest[month] <= highest[month]) continue;
      table.error(low_key,
                  fmt::format("in month {} the mean minimum is above the mean maximum", month + 1));
      break;
    }
    return result;
  }

  void read_work(TomlTable& table) {
    Work& work = plan_.work;
    work.days = table.weekdays("days");
    work.remind_days_before = table.whole_number("remind_days_before", kOptional, {1, 30})
                                  .value_or(work.remind_days_before);
    work.remind_at_minutes = table.time_of_day("remind_at").value_or(work.remind_at_minutes);
    work.remind = table.choice("remind", kReminds).value_or(work.remind);
    work.care = table.boolean("care").value_or(work.care);
    if (const auto day = table.date("no_jobs_before")) {
      table.error("no_jobs_before", "the day a plan begins stands at its top",
                  fmt::format("move it there: began = {}", iso(*day)));
    }
    work.days_between_crops = table.whole_number("days_between_crops", kOptional, {0, 60})
                                  .value_or(work.days_between_crops);
    table.finish(kHomes);
  }

  TomlTable& file_;
  SheetLibrary& sheets_;
  Diagnostics& diagnostics_;
  Plan plan_;
};

}  // namespace

std::span<const KeyHome> plan_keys() { return kHomes; }

std::optional<Plan> read_plan(const FileReader& files, const std::string& path,
                              SheetLibrary& sheets, Diagnostics& diagnostics) {
  const std::size_t errors_before = diagnostics.error_count();
  const auto bytes = read_bytes(files, path, diagnostics);
  if (!bytes) return std::nullopt;
  auto file = TomlTable::parse(*bytes, path, diagnostics);
  if (!file) return std::nullopt;
  Plan plan = PlanReader(*file, sheets, diagnostics).read(path);
  if (diagnostics.error_count() > errors_before) return std::nullopt;
  return plan;
}

}  // namespace trug::read
