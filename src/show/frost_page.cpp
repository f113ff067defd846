// SPDX-License-Identifier: MIT
#include "show/frost_page.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <string_view>
#include <utility>
#include <vector>

#include "base/text.h"
#include "show/table.h"

namespace trug::show {
namespace {

using climate::FrostDates;
using climate::FrostStatistics;
using climate::FrostWinter;

constexpr int kMostRows = 12;   // of one picture
constexpr int kMostMarks = 40;  // in one row

std::string heading(const std::string& text, Style style) {
  return "\n" + bold(text, style) + "\n";
}

std::string tenths_words(double value) { return fmt::format("{:.1f}", tenths(value)); }

std::string day_words(const std::optional<double>& days, bool southern,
                      std::string_view absent = "") {
  return days ? short_day(climate::winter_day(*days, southern)) : std::string(absent);
}

// "24 July" and the day before it.
std::string winter_words(bool southern) {
  return southern ? "24 January to 23 January" : "24 July to 23 July";
}

const FrostDates& dates_of(const FrostStatistics& statistics, Frost which) {
  return which == Frost::Last ? statistics.last : statistics.first;
}

std::string record_words(const FrostReport& report) {
  return fmt::format("{} to {}", plain_day(report.record.first),
                     plain_day(report.record.until() - Days{1}));
}

std::string gaps_words(const FrostReport& report) {
  if (report.gaps.empty()) return "every day has a minimum";
  const Gap& longest = *std::ranges::max_element(report.gaps, {}, &Gap::days);
  const std::string missing =
      counted(report.days_missing(), "day without a minimum", "days without a minimum");
  if (report.days_missing() == 1) return fmt::format("{}, {}", missing, plain_day(longest.from));
  return fmt::format("{}, most together {} from {}", missing, longest.days,
                     plain_day(longest.from));
}

// What the number of winters with frost keeps from being said; empty where all can be.
std::string shortness(const FrostDates& dates) {
  if (dates.winters == 0) return "the record tells no winter whole";
  if (dates.with_frost == 0) return fmt::format("no frost in {}", counted(dates.winters, "winter"));
  if (dates.with_frost < climate::kFewestForSpread) {
    return fmt::format("{} with frost: no average under five", counted(dates.with_frost, "winter"));
  }
  if (dates.with_frost < climate::kFewestForLevels) {
    return fmt::format("{} with frost: no levels under ten", counted(dates.with_frost, "winter"));
  }
  return "";
}

class FrostPage {
 public:
  FrostPage(const FrostReport& report, Style style) : report_(report), style_(style) {}

  std::string text() {
    text_ = fmt::format("{}: {}, {}; {}\n", report_.file, record_words(report_),
                        counted(static_cast<int>(report_.record.days.size()), "day"),
                        gaps_words(report_));
    for (const Frost which : {Frost::Last, Frost::First}) {
      table(which);
      picture(which);
    }
    garden();
    months();
    cold();
    return std::move(text_);
  }

 private:
  void paragraph(const std::string& words) { text_ += indented(words, 2, style_); }

  void table(Frost which) {
    const bool last = which == Frost::Last;
    text_ += heading(last ? "Last frost: over by this day in so many winters of 100"
                          : "First frost: come by this day in so many winters of 100",
                     style_);
    Table levels({{"minimum up to", false},
                  {"10"},
                  {"50"},
                  {"90"},
                  {"mean"},
                  {"spread", false},
                  {"earliest and latest"}});
    for (const FrostStatistics& statistics : report_.thresholds) {
      levels.add(level_cells(statistics, which));
    }
    text_ += levels.text(style_);
    for (const FrostStatistics& statistics : report_.thresholds) notes(statistics, which);
  }

  std::vector<std::string> level_cells(const FrostStatistics& statistics, Frost which) const {
    const FrostDates& dates = dates_of(statistics, which);
    const auto day = [&](const std::optional<double>& days) {
      return day_words(days, report_.southern, "-");
    };
    const auto level = [&](std::size_t i) {
      if (!dates.levels) return std::string("-");
      return day_words((*dates.levels)[i], report_.southern, "no frost");
    };
    const std::string extremes =
        dates.earliest ? fmt::format("{} to {}", day(dates.earliest), day(dates.latest)) : "-";
    const std::string spread =
        dates.spread_days ? fmt::format("{:.0f} d", *dates.spread_days) : "-";
    return {number(statistics.threshold_c) + " degC",
            level(0),
            level(1),
            level(2),
            day(dates.mean),
            spread,
            extremes};
  }

  void notes(const FrostStatistics& statistics, Frost which) {
    const FrostDates& dates = dates_of(statistics, which);
    const std::string at = number(statistics.threshold_c) + " degC: ";
    const std::string lack = shortness(dates);
    if (!lack.empty()) paragraph(at + lack);
    if (dates.often_without_frost() && dates.with_frost > 0) {
      paragraph(fmt::format("{}{} of {} had none", at, dates.winters - dates.with_frost,
                            counted(dates.winters, "winter")));
    }
    if (dates.skewed) {
      paragraph(at + "these dates lean to the early side, so the levels are counted");
    } else if (dates.levels_differ) {
      const auto& counted_days = *dates.counted;
      paragraph(fmt::format("{}counted instead of smoothed, the levels are {}, {} and {}", at,
                            day_words(counted_days[0], report_.southern, "no frost"),
                            day_words(counted_days[1], report_.southern, "no frost"),
                            day_words(counted_days[2], report_.southern, "no frost")));
    }
  }

  std::vector<int> frost_days(double threshold_c, Frost which) const {
    std::vector<int> days;
    for (const FrostWinter& winter :
         climate::frost_winters(report_.record, threshold_c, report_.southern)) {
      const bool known = which == Frost::Last ? winter.last_known : winter.first_known;
      const auto& date = which == Frost::Last ? winter.last : winter.first;
      if (known && date) days.push_back(climate::days_into_winter(*date, report_.southern));
    }
    return days;
  }

  // A row for each week or more, a mark for each winter (or for several, where they are many).
  void picture(Frost which) {
    const double threshold = report_.thresholds.front().threshold_c;
    const std::vector<int> days = frost_days(threshold, which);
    if (days.empty()) return;
    const auto [low, high] = std::ranges::minmax(days);
    const int width = 7 * ((high - low + 1 + 7 * kMostRows - 1) / (7 * kMostRows));
    std::vector<int> rows(static_cast<std::size_t>((high - low) / width + 1), 0);
    for (const int day : days) ++rows[static_cast<std::size_t>((day - low) / width)];
    const int marks = std::min(kMostMarks, std::max(10, style_.width - 24));
    const int worth = (*std::ranges::max_element(rows) + marks - 1) / marks;
    text_ += fmt::format("\n  {} at {} degC; a row is {} from its date, a mark {}\n",
                         which == Frost::Last ? "Last frosts" : "First frosts", number(threshold),
                         counted(width, "day"), counted(worth, "winter"));
    for (std::size_t i = 0; i < rows.size(); ++i) {
      const int start = low + width * static_cast<int>(i);
      text_ +=
          fmt::format("  {}|{}\n", padded(day_words(start, report_.southern), 14),
                      std::string(static_cast<std::size_t>((rows[i] + worth - 1) / worth), 'o'));
    }
  }

  void garden() {
    text_ += heading("Garden frost, as plans count it", style_);
    const FrostDates& last = report_.garden.last;
    const FrostDates& first = report_.garden.first;
    if (!last.mean || !first.mean) {
      for (const Frost which : {Frost::Last, Frost::First}) {
        const std::string lack = shortness(dates_of(report_.garden, which));
        if (!lack.empty()) paragraph(fmt::format("{}: {}", to_string(which), lack));
      }
      return;
    }
    paragraph(
        fmt::format("A minimum up to {} degC: last {}, first {} on average. The plan's lines "
                    "for this place: trug frost {} --place",
                    number(kGardenFrostC), day_words(last.mean, report_.southern),
                    day_words(first.mean, report_.southern), report_.file));
  }

  void months() {
    text_ += heading("Temperatures, degC", style_);
    if (!report_.temperatures) {
      paragraph(
          "no monthly figures: each month needs twenty days with both a minimum and a "
          "maximum");
      return;
    }
    Table table({{"month", false},
                 {"maxima", false, true},
                 {"means", false, true},
                 {"minima", false, true}});
    for (unsigned month = 1; month <= 12; ++month) {
      const std::size_t i = month - 1;
      table.add({std::string(short_month(std::chrono::month{month})),
                 tenths_words(report_.temperatures->max_c[i]),
                 tenths_words(report_.temperatures->mean_c[i]),
                 tenths_words(report_.temperatures->min_c[i])});
    }
    text_ += table.text(style_);
    paragraph(
        fmt::format("from {}, a day's mean differs from its season's by {} degC (standard "
                    "deviation)",
                    report_.southern ? "September to April" : "March to October",
                    tenths_words(report_.temperatures->spread_c)));
  }

  void cold() {
    text_ += heading("Cold", style_);
    if (report_.usual_coldest_c) {
      paragraph(fmt::format("a winter's coldest night: {} degC on average",
                            tenths_words(*report_.usual_coldest_c)));
    } else {
      paragraph("a winter's coldest night: no winter is whole");
    }
    if (report_.coldest) {
      paragraph(fmt::format("the coldest of all: {} degC on {}",
                            tenths_words(report_.coldest->celsius),
                            plain_day(report_.coldest->day)));
    }
    paragraph("Frost winters run from " + winter_words(report_.southern) +
              "; one with ten days missing where they matter is left out.");
  }

  const FrostReport& report_;
  Style style_;
  std::string text_;
};

std::string month_list(const std::array<double, 12>& values) {
  std::string list;
  for (const double value : values) list += (list.empty() ? "" : ", ") + tenths_words(value);
  return "[" + list + "]";
}

// "last_frost" or "first_frost": a line of the plan, or why there is none.
std::string frost_line(const FrostReport& report, Frost which) {
  const FrostDates& dates = dates_of(report.garden, which);
  const std::string key = which == Frost::Last ? "last_frost" : "first_frost";
  if (!dates.mean) return fmt::format("# {}: {}\n", key, shortness(dates));
  std::string note;
  if (dates.often_without_frost()) {
    note = fmt::format("  # {} of {} had none", dates.winters - dates.with_frost,
                       counted(dates.winters, "winter"));
  }
  return fmt::format("{} = \"{}\"{}\n", key, day_words(dates.mean, report.southern), note);
}

}  // namespace

std::string frost_page(const FrostReport& report, Style style) {
  return FrostPage(report, style).text();
}

std::string place_block(const FrostReport& report, std::optional<double> latitude) {
  std::string text = fmt::format("[place]\n# from {}, {}\n", report.file, record_words(report));
  text += latitude ? fmt::format("latitude = {}\n", number(*latitude, 4))
                   : std::string("# latitude = 52.4  (put yours; degrees, south negative)\n");
  text += frost_line(report, Frost::Last) + frost_line(report, Frost::First);
  if (report.garden.last.mean && report.garden.first.mean) {
    text += fmt::format("frost_meaning = \"garden\"  # averages of minima up to {} degC\n",
                        number(kGardenFrostC));
  }
  if (report.temperatures) {
    text += "mean_max_c = " + month_list(report.temperatures->max_c) + "\n";
    text += "mean_min_c = " + month_list(report.temperatures->min_c) + "\n";
  } else {
    text += "# mean_max_c, mean_min_c: each month needs twenty days with both\n";
  }
  if (report.usual_coldest_c) {
    text += "coldest_c = " + tenths_words(*report.usual_coldest_c) + "\n";
  } else {
    text += "# coldest_c: no winter is whole\n";
  }
  return text;
}

}  // namespace trug::show
