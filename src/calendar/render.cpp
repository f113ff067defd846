// SPDX-License-Identifier: MIT
#include "calendar/render.h"

#include <fmt/format.h>

#include <chrono>
#include <optional>
#include <stdexcept>
#include <utility>

#include "base/text.h"
#include "calendar/content_line.h"

namespace trug::calendar {
namespace {

// Content lines, one after the other.
class Lines {
 public:
  void add(std::string_view name, std::string_view value) {
    line_ = name;
    line_ += ':';
    line_ += value;
    append_folded(text, line_);
  }
  // Nothing where the text is empty.
  void add_text(std::string_view name, std::string_view text_value) {
    if (!text_value.empty()) add(name, escape(text_value));
  }

  std::string text;

 private:
  std::string line_;
};

// Octets of the control character or foreign line break that starts at `at`; 0 where none does.
std::size_t control_octets(std::string_view text, std::size_t at) {
  const auto octet = static_cast<unsigned char>(text[at]);
  if (octet < 0x20 || octet == 0x7f) return text.substr(at).starts_with("\r\n") ? 2 : 1;
  if (octet == 0xc2 && static_cast<unsigned char>(text[at + 1]) < 0xa0) return 2;  // U+0080-009F
  const std::string_view three = text.substr(at, 3);
  return three == "\u2028" || three == "\u2029" ? 3 : 0;
}

// Without control characters (RFC 5545, 3.3.11 forbids them) and without blanks around it (readers
// strip them). Line breaks become `line_break`.
std::string clean(std::string_view text, char line_break) {
  if (!is_valid_utf8(text)) throw std::invalid_argument("a calendar text is not UTF-8");
  std::string result;
  result.reserve(text.size());
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t octets = control_octets(text, at);
    if (octets == 0) {
      result += text[at++];
      continue;
    }
    if (text[at] == '\n' || text[at] == '\r' || octets == 3) result += line_break;
    if (text[at] == '\t') result += ' ';
    at += octets;
  }
  return std::string(trimmed(result, " \n"));
}

std::string one_line(std::string_view text) { return clean(text, ' '); }
std::string several_lines(std::string_view text) { return clean(text, '\n'); }

// For values in which readers take commas, semicolons and backslashes for something else.
std::string plain(std::string_view text) {
  std::string result = one_line(text);
  std::erase_if(result, [](char c) { return c == ',' || c == ';' || c == '\\'; });
  return std::string(trimmed(result));
}

// " 202701 0 <start>=<plants> ..." of a joint order.
std::string order_words(const std::optional<Order>& order) {
  if (!order) return "";
  std::string words = fmt::format(" {} {}", order->month, order->repeat);
  for (const auto& [start, plants] : order->plants) {
    words += fmt::format(" {}={}", to_string(start), plants);
  }
  return words;
}

// DURATION: whole weeks, else days and a time (RFC 5545, 3.3.6).
std::string duration_value(std::chrono::minutes length) {
  constexpr std::chrono::minutes kDay = Days{1}, kWeek = std::chrono::weeks{1};
  if (length % kWeek == length.zero()) return fmt::format("P{}W", length / kWeek);
  std::string value = "P";
  if (length >= kDay) value += fmt::format("{}D", length / kDay);
  const std::chrono::hh_mm_ss time(length % kDay);
  if (length % kDay > length.zero()) value += 'T';
  if (time.hours().count() > 0) value += fmt::format("{}H", time.hours().count());
  if (time.minutes().count() > 0) value += fmt::format("{}M", time.minutes().count());
  return value;
}

void add_alarm(Lines& lines, std::string_view summary, std::chrono::minutes before) {
  if (before <= before.zero()) throw std::invalid_argument("a reminder is not before its day");
  lines.add("BEGIN", "VALARM");
  lines.add("ACTION", "DISPLAY");
  lines.add("DESCRIPTION", escape(summary));
  lines.add("TRIGGER", "-" + duration_value(before));
  lines.add("END", "VALARM");
}

}  // namespace

std::string render_head(const CalendarHead& head, Profile profile, const Counters& counters) {
  Lines lines;
  lines.add("BEGIN", "VCALENDAR");
  lines.add("VERSION", "2.0");
  lines.add_text("PRODID", fmt::format("-//trug//NONSGML {}//EN", one_line(head.product)));
  lines.add_text("NAME", one_line(head.name));
  lines.add_text("COLOR", plain(head.colour));
  if (profile == Profile::Feed) {
    // In a file for import Outlook would make a new folder of it.
    lines.add_text("X-WR-CALNAME", plain(head.name));
    lines.add("REFRESH-INTERVAL;VALUE=DURATION", "PT12H");
    lines.add("X-PUBLISHED-TTL", "PT12H");
  }
  lines.add("X-TRUG-MEMORY",
            fmt::format("{} {} {} {}{}", kMemoryFormat, to_string(head.space), counters.floor,
                        instant_value(counters.stamp), head.per_day ? kPerDay : ""));
  if (!head.facts.empty()) {
    std::string value = "1";
    for (const auto& [name, fact] : head.facts) value += fmt::format(" {}={}", name, fact);
    lines.add("X-TRUG-FACTS", value);
  }
  for (const PlantingLine& line : head.plantings) {
    lines.add("X-TRUG-PLANTING", planting_value(line));
  }
  return std::move(lines.text);
}

std::string render_event(const Event& event, const Revision& revision) {
  Lines lines;
  const std::string summary = one_line(event.summary), stamp = instant_value(revision.stamp);
  lines.add("BEGIN", "VEVENT");
  lines.add_text("UID", event.uid);
  lines.add("DTSTAMP", stamp);
  lines.add("LAST-MODIFIED", stamp);
  lines.add("SEQUENCE", std::to_string(revision.sequence));
  lines.add("DTSTART;VALUE=DATE", date_value(event.start));
  lines.add("DTEND;VALUE=DATE", date_value(event.end));
  lines.add_text("SUMMARY", summary);
  lines.add_text("DESCRIPTION", several_lines(event.description));
  lines.add_text("LOCATION", one_line(event.location));
  lines.add_text("CATEGORIES", plain(category_text(event.category)));
  lines.add("STATUS", event.cancelled ? "CANCELLED" : "CONFIRMED");
  lines.add("TRANSP", "TRANSPARENT");
  lines.add("X-TRUG-JOB",
            fmt::format("{} {}{}", event.flowering_year, date_value(revision.latest_end),
                        event.order ? " " + plain(event.category) + order_words(event.order) : ""));
  for (const DayJob& job : event.jobs) {
    lines.add("X-TRUG-OF-DAY",
              fmt::format("{} {}{}", job.uid, plain(job.category), order_words(job.order)));
  }
  if (event.reminder && !event.cancelled) add_alarm(lines, summary, *event.reminder);
  lines.add("END", "VEVENT");
  return std::move(lines.text);
}

}  // namespace trug::calendar
