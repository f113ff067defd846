// SPDX-License-Identifier: MIT
#include "calendar/render.h"

#include <fmt/format.h>
#include <libical/ical.h>

#include <chrono>
#include <memory>
#include <new>
#include <optional>
#include <stdexcept>
#include <utility>
#include <vector>

#include "base/text.h"
#include "calendar/content_line.h"

namespace trug::calendar {
namespace {

constexpr int kMostKinds = 128;  // of properties; libical 3 knows 120, numbered without order
constexpr int kRefreshSeconds = 12 * 60 * 60;

struct FreeProperty {
  void operator()(icalproperty* property) const { icalproperty_free(property); }
};
struct FreeText {
  void operator()(char* text) const { icalmemory_free_buffer(text); }
};

// Where memory is refused, libical leaves out what it could not hold, and goes on.
void require_memory() {
  if (icalerrno == ICAL_NEWFAILED_ERROR || icalerrno == ICAL_ALLOCATION_ERROR) {
    throw std::bad_alloc();
  }
}

// What libical says of a kind of property. It searches its table for each answer: asked once.
struct KindOfProperty {
  const char* name;
  icalvalue_kind type;  // where nothing else is said
};
const std::vector<KindOfProperty>& known_kinds() {
  static const std::vector<KindOfProperty> kKinds = [] {
    std::vector<KindOfProperty> all;
    for (int i = 0; i < kMostKinds; ++i) {
      const auto kind = static_cast<icalproperty_kind>(i);
      all.push_back({icalproperty_kind_to_string(kind), icalproperty_kind_to_value_kind(kind)});
    }
    return all;
  }();
  return kKinds;
}

// Properties made by libical, which says their names, their types and their values, one line each.
// The lines are folded our own way: libical leaves blanks at the ends of those it folds, and where
// a character of several octets stands in one it may fold between the CR and the LF.
class Lines {
 public:
  Lines() {
    icalerror_set_errors_are_fatal(0);  // builds of libical differ
    icalerror_clear_errno();
  }

  void begin(icalcomponent_kind kind) { mark("BEGIN:", kind); }
  void end(icalcomponent_kind kind) { mark("END:", kind); }
  // Frees the property. Every value was made fit before: what libical does not take it had no
  // memory for.
  void add(icalproperty* property) {
    const std::unique_ptr<icalproperty, FreeProperty> owned(property);
    const icalvalue* value = property == nullptr ? nullptr : icalproperty_get_value(property);
    if (value == nullptr) throw std::bad_alloc();
    const std::unique_ptr<char, FreeText> words(icalvalue_as_ical_string_r(value));
    require_memory();
    if (!words) throw std::bad_alloc();
    line_ = name_and_type(property, value);
    line_ += ':';
    line_ += words.get();
    append_folded(text, line_);
  }
  void add_x(const char* name, const std::string& value) {
    icalproperty* property = icalproperty_new_x(value.c_str());
    if (property != nullptr) icalproperty_set_x_name(property, name);
    add(property);
  }
  // Nothing where the text is empty.
  void add_text(icalproperty* (*make)(const char*), const std::string& value) {
    if (!value.empty()) add(make(value.c_str()));
  }

  std::string text;

 private:
  // "SUMMARY", "DTSTART;VALUE=DATE": the type where the property has no such of its own;
  // REFRESH-INTERVAL has none (RFC 7986, 5.7).
  static std::string name_and_type(icalproperty* property, const icalvalue* value) {
    const icalproperty_kind kind = icalproperty_isa(property);
    const icalvalue_kind type = icalvalue_isa(value);
    const char* x_name = icalproperty_get_x_name(property);
    const KindOfProperty& known = known_kinds().at(static_cast<std::size_t>(kind));
    std::string words = x_name != nullptr ? x_name : known.name;
    if (type != known.type || kind == ICAL_REFRESHINTERVAL_PROPERTY) {
      words.append(";VALUE=").append(icalvalue_kind_to_string(type));
    }
    return words;
  }

  void mark(std::string_view word, icalcomponent_kind kind) {
    text.append(word).append(icalcomponent_kind_to_string(kind)).append("\r\n");
  }

  std::string line_;
};

// Octets of the control character or foreign line break that starts at `at`; 0 where none does.
std::size_t control_octets(std::string_view text, std::size_t at) {
  const auto octet = static_cast<unsigned char>(text[at]);
  if (octet >= 0x20 && octet < 0x7f) return 0;
  if (octet <= 0x7f) return text.substr(at).starts_with("\r\n") ? 2 : 1;
  if (octet == 0xc2 && static_cast<unsigned char>(text[at + 1]) < 0xa0) return 2;  // U+0080-009F
  const std::string_view three = text.substr(at, 3);
  return three == "\u2028" || three == "\u2029" ? 3 : 0;
}

// Without control characters (RFC 5545, 3.3.11 forbids them, libical lets them pass) and without
// blanks around it (readers strip them). Line breaks become `line_break`.
std::string clean(std::string_view text, char line_break) {
  bool is_clean = true;
  for (const char c : text) is_clean &= (c >= 0x20 && c < 0x7f) || c == line_break;
  if (is_clean) return std::string(trimmed(text, " \n"));
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

// For values whose commas, semicolons and backslashes libical does not escape.
std::string plain(std::string_view text) {
  std::string result = one_line(text);
  std::erase_if(result, [](char c) { return c == ',' || c == ';' || c == '\\'; });
  return std::string(trimmed(result));
}

icaltimetype ical_date(Date day) {
  const std::chrono::year_month_day civil(day);
  icaltimetype time = icaltime_null_date();
  time.year = static_cast<int>(civil.year());
  time.month = static_cast<int>(static_cast<unsigned>(civil.month()));
  time.day = static_cast<int>(static_cast<unsigned>(civil.day()));
  return time;
}

icaltimetype ical_instant(Instant instant) {
  const Date day = std::chrono::floor<Days>(instant);
  const std::chrono::hh_mm_ss clock(instant - day);
  icaltimetype time = ical_date(day);
  time.is_date = 0;
  time.hour = static_cast<int>(clock.hours().count());
  time.minute = static_cast<int>(clock.minutes().count());
  time.second = static_cast<int>(clock.seconds().count());
  time.zone = icaltimezone_get_utc_timezone();
  return time;
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

void add_alarm(Lines& lines, const std::string& text, std::chrono::minutes before) {
  if (before <= before.zero()) throw std::invalid_argument("a reminder is not before its day");
  lines.begin(ICAL_VALARM_COMPONENT);
  lines.add(icalproperty_new_action(ICAL_ACTION_DISPLAY));
  lines.add(icalproperty_new_description(text.c_str()));
  const int seconds = static_cast<int>(std::chrono::seconds(-before).count());
  lines.add(icalproperty_new_trigger(icaltriggertype_from_int(seconds)));
  lines.end(ICAL_VALARM_COMPONENT);
}

}  // namespace

std::string render_head(const CalendarHead& head, Profile profile, const Counters& counters) {
  Lines lines;
  lines.begin(ICAL_VCALENDAR_COMPONENT);
  lines.add(icalproperty_new_version("2.0"));
  lines.add(icalproperty_new_prodid(
      fmt::format("-//trug//NONSGML {}//EN", one_line(head.product)).c_str()));
  lines.add_text(icalproperty_new_name, one_line(head.name));
  lines.add_text(icalproperty_new_color, plain(head.colour));
  if (profile == Profile::Feed) {
    // In a file for import Outlook would make a new folder of it.
    const std::string name = plain(head.name);
    if (!name.empty()) lines.add_x("X-WR-CALNAME", name);
    lines.add(icalproperty_new_refreshinterval(icaldurationtype_from_int(kRefreshSeconds)));
    lines.add_x("X-PUBLISHED-TTL", "PT12H");
  }
  lines.add_x("X-TRUG-MEMORY",
              fmt::format("{} {} {} {}{}", kMemoryFormat, to_string(head.space), counters.floor,
                          instant_value(counters.stamp), head.per_day ? kPerDay : ""));
  if (!head.facts.empty()) {
    std::string value = "1";
    for (const auto& [name, fact] : head.facts) value += fmt::format(" {}={}", name, fact);
    lines.add_x("X-TRUG-FACTS", value);
  }
  for (const PlantingLine& line : head.plantings) {
    lines.add_x("X-TRUG-PLANTING", planting_value(line));
  }
  return std::move(lines.text);
}

std::string render_event(const Event& event, const Revision& revision) {
  Lines lines;
  lines.begin(ICAL_VEVENT_COMPONENT);
  const std::string summary = one_line(event.summary);
  lines.add(icalproperty_new_uid(event.uid.c_str()));
  lines.add(icalproperty_new_dtstamp(ical_instant(revision.stamp)));
  lines.add(icalproperty_new_lastmodified(ical_instant(revision.stamp)));
  lines.add(icalproperty_new_sequence(revision.sequence));
  lines.add(icalproperty_new_dtstart(ical_date(event.start)));
  lines.add(icalproperty_new_dtend(ical_date(event.end)));
  lines.add_text(icalproperty_new_summary, summary);
  lines.add_text(icalproperty_new_description, several_lines(event.description));
  lines.add_text(icalproperty_new_location, one_line(event.location));
  lines.add_text(icalproperty_new_categories, plain(category_text(event.category)));
  lines.add(
      icalproperty_new_status(event.cancelled ? ICAL_STATUS_CANCELLED : ICAL_STATUS_CONFIRMED));
  lines.add(icalproperty_new_transp(ICAL_TRANSP_TRANSPARENT));
  lines.add_x(
      "X-TRUG-JOB",
      fmt::format("{} {}{}", event.flowering_year, date_value(revision.latest_end),
                  event.order ? " " + plain(event.category) + order_words(event.order) : ""));
  for (const DayJob& job : event.jobs) {
    lines.add_x("X-TRUG-OF-DAY",
                fmt::format("{} {}{}", job.uid, plain(job.category), order_words(job.order)));
  }
  if (event.reminder && !event.cancelled) add_alarm(lines, summary, *event.reminder);
  lines.end(ICAL_VEVENT_COMPONENT);
  return std::move(lines.text);
}

}  // namespace trug::calendar
