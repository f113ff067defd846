// SPDX-License-Identifier: MIT
#include "show/plan_toml.h"

#include <fmt/format.h>

#include <array>
#include <chrono>
#include <cmath>
#include <cstddef>
#include <optional>
#include <utility>
#include <variant>
#include <vector>

#include "base/text.h"
#include "base/words.h"

namespace trug::show {
namespace {

constexpr int kRemarkColumn = 30;

// No more digits than tell a millionth.
std::string figure(double value) { return fmt::format("{}", std::round(value * 1e6) / 1e6); }
std::string metres(Millimetres length) { return figure(length.value() / 1000.0); }

template <class Values, class Text>
std::string list(const Values& values, Text text) {
  std::string result;
  for (const auto& value : values) result += (result.empty() ? "" : ", ") + text(value);
  return "[" + result + "]";
}
template <class Numbers>
std::string figures(const Numbers& numbers) {
  return list(numbers, [](double value) { return figure(value); });
}

class Writer {
 public:
  explicit Writer(bool commented) : commented_(commented) {}

  // Written before its first key.
  void heading(std::string_view name) { heading_ = fmt::format("\n[{}]\n", name); }
  void entry(std::string_view name) {
    heading_.clear();
    text_ += fmt::format("\n[[{}]]\n", name);
  }
  void key(std::string_view name, const std::string& value, std::string_view remark = {}) {
    const std::string line = fmt::format("{} = {}", name, value);
    text_ += std::exchange(heading_, "");
    text_ += commented_ && !remark.empty()
                 ? fmt::format("{}  # {}\n", padded(line, kRemarkColumn), remark)
                 : line + "\n";
  }
  void word(std::string_view name, std::string_view value, std::string_view remark = {}) {
    key(name, toml_text(value), remark);
  }
  template <class Value>
  void maybe(std::string_view name, const std::optional<Value>& value) {
    if (value) key(name, fmt::format("{}", *value));
  }
  void maybe(std::string_view name, const std::optional<std::string>& value) {
    if (value) word(name, *value);
  }
  void maybe(std::string_view name, const std::optional<Date>& value) {
    if (value) key(name, iso(*value));
  }
  void words(std::string_view name, const std::vector<std::string>& values,
             std::string_view remark = {}) {
    if (!values.empty()) key(name, toml_texts(values), remark);
  }
  std::string take() { return std::move(text_); }

 private:
  bool commented_;
  std::string heading_;
  std::string text_;
};

void write_head(Writer& out, const Plan& plan) {
  out.key("flowering_year", fmt::format("{}", plan.flowering_year), "the year of the flowers");
  out.word("title", plan.title, "the calendar's name");
  if (plan.garden) {
    out.word("garden", to_string(*plan.garden), "by which the calendar knows its jobs again");
  }
  if (plan.began) out.key("began", iso(*plan.began), "nothing is asked for before this day");
  out.maybe("calendar", plan.calendar);
}

// By what kind of figures there are.
struct Temperature {
  Writer& out;
  void operator()(const NoTemperatures&) const {}
  void operator()(const TwoMeans& two) const {
    out.key("year_mean_c", figure(two.year_mean_c), "mean temperature of the year");
    out.key("warmest_month_c", figure(two.warmest_month_c), "and of its warmest month");
  }
  void operator()(const MonthlyMeans& monthly) const {
    if (!monthly.max_c) return out.key("mean_c", figures(monthly.mean_c), "January to December");
    std::array<double, 12> min_c{};
    for (std::size_t month = 0; month < 12; ++month) {
      min_c[month] = 2 * monthly.mean_c[month] - (*monthly.max_c)[month];
    }
    out.key("mean_max_c", figures(*monthly.max_c));
    out.key("mean_min_c", figures(min_c));
  }
};

void write_place(Writer& out, const Place& place) {
  out.heading("place");
  out.key("latitude", figure(place.latitude), "degrees, south negative");
  out.word("last_frost", short_day(place.last_frost));
  out.word("first_frost", short_day(place.first_frost));
  out.word("frost_meaning", word_of(kFrostMeanings, place.frost_meaning),
           "garden, air or safe: trug help frost_meaning");
  std::visit(Temperature{out}, place.temperatures);
  out.maybe("weather", place.weather);
  if (place.coldest_c) out.key("coldest_c", figure(*place.coldest_c), "the usual coldest night");
  if (place.snow) out.key("snow", *place.snow ? "true" : "false", "lies in the cold of winter");
  if (place.risk != Place{}.risk) out.key("risk", figure(place.risk));
  if (place.days_late != 0) out.key("days_late", std::to_string(place.days_late));
  if (place.stems_times != 1) out.key("stems_times", figure(place.stems_times));
}

void write_shelter(Writer& out, const Plan& plan) {
  if (!plan.shelter.given) return;
  out.heading("shelter");
  out.key("heated_c", figure(plan.place.heated_c), "where seedlings stand in warmth");
  out.key("heated_trays", figure(plan.shelter.heated_trays), "trays there is room for there");
  out.key("frame_m2", figure(plan.shelter.frame_m2), "cold frame, square metres");
  out.key("nursery_m2", figure(plan.shelter.nursery_m2), "bed for seedlings, square metres");
}

void write_wish(Writer& out, const std::optional<Wish>& wish) {
  if (!wish) return;
  out.heading("wish");
  out.key("vases_per_week", figure(wish->vases_per_week));
  out.key("stems_per_vase", fmt::format("{}", wish->stems_per_vase));
  out.word("from", short_day(wish->from));
  out.word("to", short_day(wish->to));
  out.words("colours", wish->colours);
  out.words("like", wish->like);
  out.words("dislike", wish->dislike);
  if (wish->safe) out.key("safe", "true", "nothing known to poison or irritate");
  if (!wish->mixed) out.key("mixed", "false");
}

void write_work(Writer& out, const Work& work) {
  const Work usual;
  out.heading("work");
  if (!work.days.empty()) {
    out.key("days",
            list(work.days,
                 [](std::chrono::weekday day) {
                   const Date monday = make_date(2027, 1, 4);
                   const Days after{static_cast<int>(day.iso_encoding()) - 1};
                   return toml_text(short_weekday(monday + after));
                 }),
            "jobs go to these days inside their windows");
  }
  if (work.remind_days_before != usual.remind_days_before) {
    out.key("remind_days_before", fmt::format("{}", work.remind_days_before));
  }
  if (work.remind_at_minutes != usual.remind_at_minutes) {
    out.key("remind_at", fmt::format("{:02}:{:02}:00", work.remind_at_minutes / 60,
                                     work.remind_at_minutes % 60));
  }
  if (work.remind != usual.remind) out.word("remind", word_of(kReminds, work.remind));
  if (work.care) out.key("care", "true");
  if (work.days_between_crops != usual.days_between_crops) {
    out.key("days_between_crops", fmt::format("{}", work.days_between_crops));
  }
}

void write_crop(Writer& out, const CropEntry& crop) {
  out.entry("bed.stretch.crop");
  out.word("crop", crop.crop);
  out.maybe("variety", crop.variety);
  out.maybe("group", crop.group);
  out.maybe("id", crop.id);
  out.maybe("plants", crop.plants);
  if (crop.spacing_cm) out.key("spacing_cm", figure(*crop.spacing_cm));
  out.words("colours", crop.colours);
  if (crop.keep) out.key("keep", "true");
  if (crop.pinch) out.key("pinch", *crop.pinch ? "true" : "false");
  if (!crop.successions) out.word("successions", "all season");
  if (crop.successions && *crop.successions != 1) out.maybe("successions", crop.successions);
  if (crop.gap_days) out.key("gap_weeks", figure(*crop.gap_days / 7.0));
  if (crop.leave > 0) out.key("leave", figure(crop.leave));
  out.maybe("since", crop.since);
  out.maybe("person", crop.person);
  out.maybe("way", crop.pins.way);
  out.maybe("start_on", crop.pins.start_on);
  out.maybe("plant_on", crop.pins.plant_on);
  out.maybe("lift_on", crop.pins.lift_on);
  out.maybe("not_before", crop.pins.not_before);
}

void write_stretch(Writer& out, const Stretch& stretch, const std::vector<CropEntry>& crops) {
  out.entry("bed.stretch");
  out.key("length_m", metres(stretch.length),
          stretch.offset == Millimetres{} ? "stretches lie end to end along the bed" : "");
  std::vector<std::string> names;
  for (const CropEntry& crop : crops) {
    if (crop == CropEntry{.crop = crop.crop, .at = crop.at}) names.push_back(crop.crop);
  }
  if (names.size() == crops.size()) return out.words("crops", names);
  for (const CropEntry& crop : crops) write_crop(out, crop);
}

void write_bed(Writer& out, const Plan& plan, std::size_t index) {
  const Bed& bed = plan.beds[index];
  out.entry("bed");
  out.word("name", bed.name);
  out.maybe("id", bed.id);
  out.key("length_m", metres(bed.length));
  out.key("width_m", metres(bed.width));
  out.maybe("person", bed.person);
  if (bed.cover != Cover::None) out.word("cover", word_of(kCovers, bed.cover));
  for (std::size_t i = 0; i < bed.stretches.size(); ++i) {
    std::vector<CropEntry> crops;
    for (const Planting& planting : plan.plantings) {
      const auto& patch = planting.patch;
      const bool here = patch && patch->bed == index && patch->stretch == static_cast<int>(i) + 1;
      if (here) crops.push_back(planting.asked);
    }
    write_stretch(out, bed.stretches[i], crops);
  }
}

void write_elsewhere(Writer& out, const CropEntry& crop) {
  out.entry("elsewhere");
  out.word("crop", crop.crop);
  out.maybe("name", crop.id);
  out.maybe("plants", crop.plants);
  out.maybe("since", crop.since);
  out.maybe("person", crop.person);
}

void write_happened(Writer& out, const Planting& planting) {
  for (const Happened& happened : planting.happened) {
    out.entry("happened");
    out.word("planting", planting.name);
    out.word("what", word_of(kHappenings, happened.what));
    out.key("on", iso(happened.on));
    if (happened.succession > 0) out.key("succession", fmt::format("{}", happened.succession));
    out.maybe("stems", happened.stems);
    out.maybe("job", happened.job);
    out.maybe("note", happened.note);
  }
}

}  // namespace

std::string toml_text(std::string_view text) {
  std::string result = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') result += '\\';
    result += c;
  }
  return result + '"';
}

std::string toml_texts(const std::vector<std::string>& texts) {
  return list(texts, [](const std::string& text) { return toml_text(text); });
}

std::string plan_toml(const Plan& plan, bool commented) {
  Writer out(commented);
  write_head(out, plan);
  write_place(out, plan.place);
  write_shelter(out, plan);
  write_wish(out, plan.wish);
  write_work(out, plan.work);
  for (std::size_t i = 0; i < plan.beds.size(); ++i) write_bed(out, plan, i);
  for (const Planting& planting : plan.plantings) {
    if (!planting.patch) write_elsewhere(out, planting.asked);
  }
  for (const InHand& have : plan.have) {
    out.entry("have");
    out.word("crop", have.crop);
    out.word("what", word_of(kHeld, have.what));
    out.key("number", fmt::format("{}", have.number));
  }
  for (const Planting& planting : plan.plantings) write_happened(out, planting);
  return out.take();
}

}  // namespace trug::show
