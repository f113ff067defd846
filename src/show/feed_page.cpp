// SPDX-License-Identifier: MIT
#include "show/feed_page.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <map>
#include <string_view>
#include <vector>

#include "base/text.h"
#include "show/caution_words.h"
#include "show/markup.h"
#include "show/pages.h"

namespace trug::show {
namespace {

constexpr std::string_view kStyle = R"(:root {
  color-scheme: light dark;
  --paper: #fdfcf8;
  --ink: #22241f;
  --soft: #585b52;
  --link: #1c4f8a;
}
@media (prefers-color-scheme: dark) {
  :root {
    --paper: #191a17;
    --ink: #e7e5dc;
    --soft: #aeada2;
    --link: #9cc4f5;
  }
}
html { background: var(--paper); color: var(--ink); }
body {
  margin: 0 auto;
  max-width: 36rem;
  padding: 1.25rem 1.25rem 3rem;
  font: 1.0625rem/1.5 "Iowan Old Style", "Palatino Linotype", Palatino, "Noto Serif", Georgia, serif;
  overflow-wrap: break-word;
}
h1 { margin: 0; font-size: 1.6rem; line-height: 1.2; }
h2 { margin: 2.2rem 0 0.5rem; font-size: 1.2rem; line-height: 1.3; }
h3 { margin: 1.2rem 0 0.3rem; font-size: 1.0625rem; }
p { margin: 0.5rem 0; }
ul { margin: 0.5rem 0; padding-left: 1.1rem; }
li { margin: 0.3rem 0; }
li p { margin: 0.1rem 0; }
time { white-space: nowrap; }
.soft { color: var(--soft); }
a { color: var(--link); text-underline-offset: 0.15em; }
a:focus-visible { outline: 3px solid var(--link); outline-offset: 3px; }
code { font-size: 0.95rem; overflow-wrap: anywhere; }
figure { margin: 1.2rem 0; }
figure img { display: block; width: 13rem; max-width: 100%; height: auto; }
figcaption { margin-top: 0.3rem; }
@media print {
  h2 { break-after: avoid; }
  li, figure { break-inside: avoid; }
}
)";

constexpr std::string_view kHowToSubscribe =
    R"(<h2 id="telephone">This calendar on your telephone</h2>
<p>Whoever has the address can read the calendar, so hand it on with care.</p>
<p>iPhone, iPad and Mac: <a href="{webcal}">subscribe to the calendar</a>, or point the camera at the first square. To be reminded, turn off “Remove Alerts” there.</p>
<p>Other calendars: look for a way to add one by its address, often called “from URL” or “subscribe”, and paste this:</p>
<p><code>{address}</code></p>
<p>Google has it on its web page only, not in its telephone app, and leaves out the reminders of calendars that come from outside: there, set a notification for the calendar itself. To read the jobs once and never again, <a href="calendar.ics">fetch the file</a>.</p>
<figure><img src="qr-webcal.svg" width="208" height="208" alt="QR code that subscribes an iPhone or iPad to the calendar" /><figcaption>For iPhone and iPad.</figcaption></figure>
<figure><img src="qr.svg" width="208" height="208" alt="QR code of the calendar’s address" /><figcaption>The address above, for everything else.</figcaption></figure>
)";

std::string time_element(Date day, const std::string& words) {
  return fmt::format("<time datetime=\"{}\">{}</time>", iso(day), words);
}

// "quay bed", "wall bed (Ines)".
std::string place_words(const work::Job& job) {
  return job.person ? fmt::format("{} ({})", job.bed, *job.person) : job.bed;
}

// ", quay bed"; nothing for what has no place.
std::string in_place(const std::string& place) {
  return place.empty() ? "" : ", " + escaped(place);
}

// Each line of the text on one of its own.
std::string as_lines(std::string text) {
  for (std::size_t at = text.find('\n'); at != std::string::npos; at = text.find('\n', at + 6)) {
    text.replace(at, 1, "<br />");
  }
  return text;
}

using JobsOfDay = std::vector<const JobRow*>;

// Each job with what it says.
std::string told(const JobsOfDay& day) {
  std::string text;
  for (const JobRow* job : day) {
    text +=
        fmt::format("<li>\n<p><strong>{}</strong>{}</p>\n<p>{}</p>\n</li>\n", escaped(job->title()),
                    in_place(place_words(*job)), as_lines(escaped(job->text)));
  }
  return text;
}

// A line for each kind of job and place: "Plant out: dahlia and zinnia, wall bed (Ines)".
std::string named(const JobsOfDay& day) {
  struct Line {
    std::string doing, place;
    std::vector<std::string> crops;
  };
  std::vector<Line> lines;
  for (const JobRow* job : day) {
    const std::string place = place_words(*job);
    auto line = std::ranges::find_if(lines, [&](const Line& other) {
      return other.doing == job->doing && other.place == place;
    });
    if (line == lines.end()) line = lines.insert(line, {job->doing, place, {}});
    line->crops.push_back(job->crop_words);
  }
  std::string text;
  for (const Line& line : lines) {
    text += fmt::format("<li>{}: {}{}</li>\n", escaped(line.doing), escaped(listed(line.crops)),
                        in_place(line.place));
  }
  return text;
}

struct Page {
  const Plan& plan;
  const ground::Schedule& schedule;
  const std::vector<JobRow>& jobs;
  Date today;
  // The cautions of the crops that the page speaks of.
  std::map<std::string, std::vector<std::string>> cautions = {};

  Date week_start() const { return monday_of(today); }
  Date week_end() const { return week_start() + Days{7}; }
  // The first day after next month.
  Date horizon() const {
    const std::chrono::year_month_day day{today};
    return Date{(day.year() / day.month() + std::chrono::months{2}) / std::chrono::day{1}};
  }

  void note_cautions(const JobRow& job) {
    for (const auto& [crop, lines] : job.cautions_of) cautions[crop] = lines;
  }

  std::string this_week() {
    return fmt::format("<h2>This week, until {}</h2>\n", weekday_and_day(week_end() - Days{1})) +
           day_by_day({week_start(), week_end()}, told);
  }

  // From after this week to the end of next month.
  std::string later() {
    return fmt::format("<h2>After this week, until {}</h2>\n", short_day(horizon() - Days{1})) +
           day_by_day({week_end(), horizon()}, named);
  }

  // The days that have jobs, with the lines of each.
  std::string day_by_day(DateRange days, std::string (*lines)(const JobsOfDay&)) {
    std::map<Date, JobsOfDay> by_day;
    for (const JobRow& job : jobs) {
      if (!days.contains(job.day) || job.told_with) continue;
      note_cautions(job);
      by_day[job.day].push_back(&job);
    }
    std::string text;
    for (const auto& [day, its_jobs] : by_day) {
      text += fmt::format("<h3>{}</h3>\n<ul>\n{}</ul>\n", time_element(day, weekday_and_day(day)),
                          lines(its_jobs));
    }
    return text.empty() ? "<p>No job falls in these days.</p>\n" : text;
  }

  // What stands in flower, by the likely dates.
  std::string to_cut() {
    std::string list;
    for (const ground::Sowing& sowing : schedule.sowings) {
      if (today < sowing.timeline.first_cut.likely || today > sowing.last_cut()) continue;
      list += cut_line(sowing);
      if (!sowing.sheet->cautions.empty()) {
        cautions[plan.plantings[sowing.planting].asked.crop] = caution_lines(*sowing.sheet);
      }
    }
    if (list.empty()) return "<h2>To cut now</h2>\n<p>Nothing, by the usual weather.</p>\n";
    return "<h2>To cut now</h2>\n<p>By the usual weather; the plants know better.</p>\n<ul>\n" +
           list + "</ul>\n";
  }

  std::string cut_line(const ground::Sowing& sowing) const {
    const Planting& planting = plan.plantings[sowing.planting];
    const Date until = sowing.last_cut();
    const std::string crop =
        planting.asked.crop + (sowing.number > 0 ? fmt::format(" {}", sowing.number) : "");
    std::string line =
        fmt::format("<li><strong>{}</strong>, {}, until about {}.", escaped(capitalised(crop)),
                    escaped(bed_name(plan, planting)), time_element(until, short_day(until)));
    if (!sowing.sheet->cut_stage.empty()) {
      line += fmt::format(" Cut when {}.", escaped(sowing.sheet->cut_stage));
    }
    return line + "</li>\n";
  }

  // To be called last: it speaks of the crops the others have named.
  std::string take_care() const {
    if (cautions.empty()) return "";
    std::string text = "<h2>Take care</h2>\n<ul>\n";
    for (const auto& [crop, lines] : cautions) {
      text += fmt::format("<li><strong>{}</strong>.", escaped(capitalised(crop)));
      for (const std::string& line : lines) text += " " + escaped(line);
      text += "</li>\n";
    }
    return text +
           "</ul>\n<p>No list of harmful plants is complete; local rules and qualified "
           "advice stand above this one.</p>\n";
  }
};

std::string page_head(const std::string& title) {
  return fmt::format(
      "<!DOCTYPE html>\n<html xmlns=\"http://www.w3.org/1999/xhtml\" lang=\"en\">\n<head>\n"
      "<meta charset=\"utf-8\" />\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\" />\n"
      "<meta name=\"color-scheme\" content=\"light dark\" />\n"
      "<meta name=\"robots\" content=\"noindex\" />\n"
      "<title>{}</title>\n<link rel=\"stylesheet\" href=\"style.css\" />\n</head>\n<body>\n<main>\n"
      "<h1>{}</h1>\n",
      title, title);
}

std::string page_end(const FeedAddresses& addresses) {
  return fmt::format(kHowToSubscribe, fmt::arg("webcal", addresses.webcal),
                     fmt::arg("address", addresses.calendar)) +
         "</main>\n</body>\n</html>\n";
}

}  // namespace

std::string feed_page(const Plan& plan, const ground::Schedule& schedule,
                      const std::vector<JobRow>& jobs, const climate::Climate& climate, Date today,
                      const FeedAddresses& addresses) {
  Page page{plan, schedule, jobs, today};
  std::string text = page_head(escaped(plan.title));
  text += fmt::format(
      "<p class=\"soft\">{}</p>\n"
      "<p><a href=\"#telephone\">This calendar on your telephone</a></p>\n",
      time_element(today, long_day(today)));
  text += page.this_week();
  text += page.to_cut();
  text += page.later();
  text += page.take_care();
  if (const std::string note = trust_note(climate); !note.empty()) {
    text += fmt::format("<p>{}</p>\n", escaped(note));
  }
  return text + page_end(addresses);
}

std::string feed_page_without_plan(const FeedAddresses& addresses) {
  return page_head("The week’s jobs are missing") +
         "<p>The plan they are reckoned from cannot be read at present. Whoever keeps it can see "
         "what is wrong where trug runs; once it is mended they stand here again.</p>\n"
         "<p>The calendar goes on meanwhile as it was last.</p>\n" +
         page_end(addresses);
}

std::string feed_style() { return std::string(kStyle); }

}  // namespace trug::show
