// SPDX-License-Identifier: MIT
#include "show/feed_page.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cstddef>
#include <map>
#include <string_view>
#include <vector>

#include "base/text.h"
#include "show/caution_words.h"
#include "show/markup.h"
#include "show/pages.h"
#include "show/week_words.h"

namespace trug::show {
namespace {

constexpr std::string_view kHowToSubscribe =
    R"(<p>Whoever has the address can read the calendar, so hand it on with care.</p>
<p>iPhone, iPad and Mac: <a href="{webcal}">subscribe to the calendar</a>, or point the camera at the first square. To be reminded, turn off “Remove Alerts” there.</p>
<p>Other calendars: look for a way to add one by its address, often called “from URL” or “subscribe”, and paste this:</p>
<p><code>{address}</code></p>
<p>Google has it on its web page only, not in its telephone app, and leaves out the reminders of calendars that come from outside: there, set a notification for the calendar itself. To read the jobs once and never again, <a href="calendar.ics">fetch the file</a>.</p>
<figure><img src="qr-webcal.svg" width="208" height="208" alt="QR code that subscribes an iPhone or iPad to the calendar" /><figcaption>For iPhone and iPad.</figcaption></figure>
<figure><img src="qr.svg" width="208" height="208" alt="QR code of the calendar’s address" /><figcaption>The address above, for everything else.</figcaption></figure>
)";

constexpr std::string_view kOnlyHere =
    R"(<p>Only this machine can open it at present. For the telephones of the house let trug listen on this machine’s own address at home:</p>
<p><code>trug feed garden.toml --listen 192.168.1.20:8017</code></p>
<p>Programs on this machine can <a href="{webcal}">subscribe to the calendar</a>, or take its address:</p>
<p><code>{address}</code></p>
<p>To read the jobs once and never again, <a href="calendar.ics">fetch the file</a>.</p>
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
        fmt::format("<li>\n<p><strong>{}</strong>{}</p>\n<p>{}</p>\n</li>\n", escaped(job->title),
                    in_place(place_words(*job)), as_lines(escaped(job->text)));
  }
  return text;
}

// A sentence for each kind of job and place: "Plant out: dahlia and zinnia, wall bed (Ines)."
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
    text += fmt::format(" {}: {}{}.", escaped(line.doing), escaped(listed(line.crops)),
                        in_place(line.place));
  }
  return text;
}

std::string section(const std::string& heading, const std::string& text) {
  return text.empty() ? "" : fmt::format("<h2>{}</h2>\n{}", heading, text);
}

struct Page {
  const FeedGarden& garden;
  Date today;
  // The cautions of the crops that the page speaks of.
  std::map<std::string, std::vector<std::string>> cautions = {};

  // The first day after next month.
  Date horizon() const {
    const std::chrono::year_month_day day{today};
    return Date{(day.year() / day.month() + std::chrono::months{2}) / std::chrono::day{1}};
  }

  void note_cautions(const JobRow& job) {
    for (const auto& [crop, lines] : job.cautions_of) cautions[crop] = lines;
  }

  // The first day with jobs after today; nullopt: there is none.
  std::optional<Date> next_day() const {
    std::optional<Date> next;
    for (const JobRow& job : garden.jobs) {
      if (job.told_with || job.day <= today) continue;
      if (!next || job.day < *next) next = job.day;
    }
    return next;
  }

  std::string now() {
    const JobsOfDay jobs = jobs_of(today);
    return section("Today", jobs.empty() ? "<p>Nothing falls on this day.</p>\n"
                                         : "<ul>\n" + told(jobs) + "</ul>\n");
  }

  // However far off.
  std::string next() {
    const auto day = next_day();
    if (!day) return section("Next", "<p>No more jobs lie ahead in this plan.</p>\n");
    const bool this_year = year_of(*day) == year_of(today);
    const std::string date = this_year ? weekday_and_day(*day) : long_day(*day);
    return section("Next", fmt::format("<h3>{}</h3>\n<ul>\n{}</ul>\n", time_element(*day, date),
                                       told(jobs_of(*day))));
  }

  // In short: what follows it to the end of next month, and what the week had before.
  std::string around() {
    const Date next = next_day().value_or(today);
    return section(fmt::format("After that, until {}", short_day(horizon() - Days{1})),
                   day_by_day({next + Days{1}, horizon()})) +
           section("Earlier this week", day_by_day({monday_of(today), today}));
  }

  JobsOfDay jobs_of(Date day) {
    JobsOfDay result;
    for (const JobRow& job : garden.jobs) {
      if (job.day != day || job.told_with) continue;
      note_cautions(job);
      result.push_back(&job);
    }
    return result;
  }

  // A line for each day that has jobs.
  std::string day_by_day(DateRange days) {
    std::string text;
    for (Date day = days.from; day < days.until; day += Days{1}) {
      const JobsOfDay jobs = jobs_of(day);
      if (jobs.empty()) continue;
      text += fmt::format("<li><strong>{}</strong>{}</li>\n",
                          time_element(day, weekday_and_day(day)), named(jobs));
    }
    return text.empty() ? "" : "<ul>\n" + text + "</ul>\n";
  }

  // What is cut from today to the end of the month, by the likely dates.
  std::string cuts() {
    const std::chrono::year_month_day day{today};
    const Date month_end{(day.year() / day.month() + std::chrono::months{1}) / std::chrono::day{1}};
    std::string list;
    for (const ground::Sowing& sowing : garden.schedule.sowings) {
      if (!sowing.is_cut() || !sowing.gives_stems()) continue;
      if (sowing.timeline.first_cut.likely >= month_end || today > sowing.last_cut()) continue;
      list += cut_line(sowing);
      if (!sowing.sheet->cautions.empty()) {
        cautions[garden.plan.plantings[sowing.planting].asked.crop] = caution_lines(*sowing.sheet);
      }
    }
    const std::string heading =
        fmt::format("To cut in {}", month_name(std::chrono::month{month_of(today)}));
    if (list.empty()) return section(heading, "<p>Nothing, by the usual weather.</p>\n");
    return section(
        heading, "<p>By the usual weather; the plants know better.</p>\n<ul>\n" + list + "</ul>\n");
  }

  std::string cut_line(const ground::Sowing& sowing) const {
    const Planting& planting = garden.plan.plantings[sowing.planting];
    const Date from = sowing.timeline.first_cut.likely, until = sowing.last_cut();
    const std::string crop =
        planting.asked.crop + (sowing.number > 0 ? fmt::format(" {}", sowing.number) : "");
    std::string line = fmt::format(
        "<li><strong>{}</strong>, {}, {}until about {}.", escaped(capitalised(crop)),
        escaped(bed_name(garden.plan, planting)),
        from > today ? fmt::format("from about {} ", time_element(from, short_day(from))) : "",
        time_element(until, short_day(until)));
    if (!sowing.sheet->cut_stage.empty()) {
      line += fmt::format(" Cut when {}.", escaped(sowing.sheet->cut_stage));
    }
    return line + "</li>\n";
  }

  // To be called after all that speak of crops.
  std::string take_care() const {
    if (cautions.empty()) return "";
    std::string list;
    for (const auto& [crop, lines] : cautions) {
      list += fmt::format("<li><strong>{}</strong>.", escaped(capitalised(crop)));
      for (const std::string& line : lines) list += " " + escaped(line);
      list += "</li>\n";
    }
    return section("Take care",
                   "<ul>\n" + list +
                       "</ul>\n<p>No list of harmful plants is complete; local rules and "
                       "qualified advice stand above this one.</p>\n");
  }

  // How many weeks of the wish have their vases; those to come that have not, with what is wanting.
  std::string weeks() const {
    if (!garden.plan.wish) return "";
    std::string list;
    const std::vector<harvest::Week>& all = garden.weeks;
    for (std::size_t first = 0; first < all.size();) {
      std::vector<Date> mondays;
      std::size_t next = first;
      for (; next < all.size() && all[next].vase.state() == all[first].vase.state() &&
             all[next].vase.lacks == all[first].vase.lacks;
           ++next) {
        if (all[next].monday + Days{7} > today) mondays.push_back(all[next].monday);
      }
      if (!mondays.empty() && all[first].vase.state() != harvest::WeekState::Full) {
        list += fmt::format("<li>{}</li>\n", capitalised(week_words(mondays, all[first].vase)));
      }
      first = next;
    }
    if (!list.empty()) list = "<p>Those to come that have not:</p>\n<ul>\n" + list + "</ul>\n";
    return section("Vases",
                   fmt::format("<p>{} by the usual weather.</p>\n{}", full_weeks(all), list));
  }
};

constexpr std::string_view kChart =
    R"(<div class="screen"><h2>The beds</h2>
<figure class="chart"><a href="chart.svg"><img src="chart.svg" alt="What stands where through the year, a page for each bed; its words are in the picture itself" /></a></figure>
</div>
)";

// What stands on the page while it is of an earlier plan.
std::string broken_note(Date since) {
  return fmt::format(
      "<p class=\"broken\"><strong>This page is of an earlier plan.</strong> Since {} the plan "
      "cannot be taken up as it was edited. Whoever keeps it can see what is wrong where trug "
      "runs; the calendar stays as it was until it is mended.</p>\n",
      time_element(since, long_day(since)));
}

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
  return "<div class=\"screen\"><h2 id=\"telephone\">This calendar on your telephone</h2>\n" +
         fmt::format(fmt::runtime(addresses.only_here ? kOnlyHere : kHowToSubscribe),
                     fmt::arg("webcal", addresses.webcal),
                     fmt::arg("address", addresses.calendar)) +
         "</div>\n</main>\n</body>\n</html>\n";
}

}  // namespace

std::string feed_page(const FeedGarden& garden, Date today, const FeedAddresses& addresses,
                      std::optional<Date> broken_since) {
  Page page{garden, today};
  std::string text = page_head(escaped(garden.plan.title));
  text += fmt::format(
      "<p class=\"soft\">{}</p>\n"
      "<p class=\"screen\"><a href=\"#telephone\">This calendar on your telephone</a></p>\n",
      time_element(today, long_day(today)));
  if (broken_since) text += broken_note(*broken_since);
  text += page.now();
  text += page.next();
  text += page.cuts();
  text += page.weeks();
  text += page.around();
  text += page.take_care();
  if (const std::string note = trust_note(garden.climate); !note.empty()) {
    text += fmt::format("<p>{}</p>\n", escaped(note));
  }
  return text + std::string(kChart) + page_end(addresses);
}

std::string feed_page_without_plan(Date since, const FeedAddresses& addresses) {
  return page_head("The week’s jobs are missing") +
         fmt::format(
             "<p class=\"broken\">The plan they are reckoned from cannot be read; trug found it so "
             "when it was started on {}. Whoever keeps it can see what is wrong where trug runs; "
             "once it is mended they stand here again.</p>\n"
             "<p>The calendar goes on meanwhile as it was last.</p>\n",
             time_element(since, long_day(since))) +
         page_end(addresses);
}

}  // namespace trug::show
