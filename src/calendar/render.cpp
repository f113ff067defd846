// SPDX-License-Identifier: MIT
#include "calendar/render.h"

#include <fmt/format.h>
#include <libical/ical.h>

#include <chrono>
#include <memory>
#include <new>
#include <optional>
#include <stdexcept>

#include "base/text.h"
#include "calendar/content_line.h"

namespace trug::calendar {
namespace {

constexpr int kRefreshSeconds = 12 * 60 * 60;

struct FreeComponent {
  void operator()(icalcomponent* component) const { icalcomponent_free(component); }
};
using Component = std::unique_ptr<icalcomponent, FreeComponent>;

// Where memory is refused, libical leaves out what it could not hold, and goes on.
void require_memory() {
  if (icalerrno == ICAL_NEWFAILED_ERROR || icalerrno == ICAL_ALLOCATION_ERROR) {
    throw std::bad_alloc();
  }
}

Component make_component(icalcomponent_kind kind) {
  icalerror_set_errors_are_fatal(0);  // builds of libical differ
  icalerror_clear_errno();
  Component component(icalcomponent_new(kind));
  if (!component) throw std::bad_alloc();
  return component;
}

int properties_of(const Component& component) {
  return icalcomponent_count_properties(component.get(), ICAL_ANY_PROPERTY);
}

// `component` owns the property from here on. Every value was made fit before: what libical does
// not take, or leaves out, it had no memory for.
void add(const Component& component, icalproperty* property) {
  if (property == nullptr || icalproperty_get_value(property) == nullptr) throw std::bad_alloc();
  const int before = properties_of(component);
  icalcomponent_add_property(component.get(), property);
  require_memory();
  if (properties_of(component) != before + 1) throw std::bad_alloc();
}

void add_x(const Component& component, const char* name, const std::string& value) {
  icalproperty* property = icalproperty_new_x(value.c_str());
  if (property != nullptr) icalproperty_set_x_name(property, name);
  add(component, property);
}

// What libical writes in place of a value whose text it had no memory for.
bool lacks_its_value(std::string_view line) {
  const std::size_t colon = line.find(':');
  return colon != std::string_view::npos && line.substr(colon + 1) == "ERROR: No Value";
}

// The component's text, our own way of folding.
std::string folded_text(const Component& component) {
  const std::unique_ptr<char, decltype(&icalmemory_free_buffer)> raw(
      icalcomponent_as_ical_string_r(component.get()), &icalmemory_free_buffer);
  require_memory();
  if (!raw) throw std::logic_error("libical wrote nothing");
  std::string text;
  for (const ContentLine& line : unfold(raw.get())) {
    if (lacks_its_value(line.text)) throw std::bad_alloc();
    text += fold(line.text);
  }
  return text;
}

// Octets of the control character or foreign line break that starts at `at`; 0 where none does.
std::size_t control_octets(std::string_view text, std::size_t at) {
  const auto octet = static_cast<unsigned char>(text[at]);
  if (octet < 0x20 || octet == 0x7f) return text.substr(at).starts_with("\r\n") ? 2 : 1;
  if (octet == 0xc2 && static_cast<unsigned char>(text[at + 1]) < 0xa0) return 2;  // U+0080-009F
  const std::string_view three = text.substr(at, 3);
  return three == "\u2028" || three == "\u2029" ? 3 : 0;
}

std::string trimmed(std::string_view text) {
  const std::size_t from = text.find_first_not_of(" \n");
  if (from == std::string_view::npos) return {};
  return std::string(text.substr(from, text.find_last_not_of(" \n") - from + 1));
}

// Without control characters (RFC 5545, 3.3.11 forbids them, libical lets them pass) and without
// blanks around it (readers strip them). Line breaks become `line_break`.
std::string clean(std::string_view text, char line_break) {
  if (!is_valid_utf8(text)) throw std::invalid_argument("a calendar text is not UTF-8");
  std::string result;
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
  return trimmed(result);
}

std::string one_line(std::string_view text) { return clean(text, ' '); }
std::string several_lines(std::string_view text) { return clean(text, '\n'); }

// For values whose commas, semicolons and backslashes libical does not escape.
std::string plain(std::string_view text) {
  std::string result = one_line(text);
  std::erase_if(result, [](char c) { return c == ',' || c == ';' || c == '\\'; });
  return trimmed(result);
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

void add_text(const Component& component, icalproperty* (*make)(const char*),
              const std::string& text) {
  if (!text.empty()) add(component, make(text.c_str()));
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

Component make_alarm(const std::string& text, std::chrono::minutes before) {
  if (before <= before.zero()) throw std::invalid_argument("a reminder is not before its day");
  Component alarm = make_component(ICAL_VALARM_COMPONENT);
  add(alarm, icalproperty_new_action(ICAL_ACTION_DISPLAY));
  add(alarm, icalproperty_new_description(text.c_str()));
  const int seconds = static_cast<int>(std::chrono::seconds(-before).count());
  add(alarm, icalproperty_new_trigger(icaltriggertype_from_int(seconds)));
  return alarm;
}

}  // namespace

std::string render_head(const CalendarHead& head, Profile profile, const Counters& counters) {
  const Component calendar = make_component(ICAL_VCALENDAR_COMPONENT);
  add(calendar, icalproperty_new_version("2.0"));
  add(calendar, icalproperty_new_prodid(
                    fmt::format("-//trug//NONSGML {}//EN", one_line(head.product)).c_str()));
  add_text(calendar, icalproperty_new_name, one_line(head.name));
  add_text(calendar, icalproperty_new_color, plain(head.colour));
  if (profile == Profile::Feed) {
    // In a file for import Outlook would make a new folder of it.
    const std::string name = plain(head.name);
    if (!name.empty()) add_x(calendar, "X-WR-CALNAME", name);
    add(calendar, icalproperty_new_refreshinterval(icaldurationtype_from_int(kRefreshSeconds)));
    add_x(calendar, "X-PUBLISHED-TTL", "PT12H");
  }
  add_x(calendar, "X-TRUG-MEMORY",
        fmt::format("{} {} {} {}{}", kMemoryFormat, to_string(head.space), counters.floor,
                    instant_value(counters.stamp), head.per_day ? kPerDay : ""));
  if (!head.facts.empty()) {
    std::string value = "1";
    for (const auto& [name, fact] : head.facts) value += fmt::format(" {}={}", name, fact);
    add_x(calendar, "X-TRUG-FACTS", value);
  }
  for (const PlantingLine& line : head.plantings) {
    add_x(calendar, "X-TRUG-PLANTING", planting_value(line));
  }
  std::string text = folded_text(calendar);
  text.resize(text.size() - kCalendarEnd.size());
  return text;
}

std::string render_event(const Event& event, const Revision& revision) {
  const Component vevent = make_component(ICAL_VEVENT_COMPONENT);
  const std::string summary = one_line(event.summary);
  add(vevent, icalproperty_new_uid(event.uid.c_str()));
  add(vevent, icalproperty_new_dtstamp(ical_instant(revision.stamp)));
  add(vevent, icalproperty_new_lastmodified(ical_instant(revision.stamp)));
  add(vevent, icalproperty_new_sequence(revision.sequence));
  add(vevent, icalproperty_new_dtstart(ical_date(event.start)));
  add(vevent, icalproperty_new_dtend(ical_date(event.end)));
  add_text(vevent, icalproperty_new_summary, summary);
  add_text(vevent, icalproperty_new_description, several_lines(event.description));
  add_text(vevent, icalproperty_new_location, one_line(event.location));
  add_text(vevent, icalproperty_new_categories, plain(category_text(event.category)));
  add(vevent,
      icalproperty_new_status(event.cancelled ? ICAL_STATUS_CANCELLED : ICAL_STATUS_CONFIRMED));
  add(vevent, icalproperty_new_transp(ICAL_TRANSP_TRANSPARENT));
  add_x(vevent, "X-TRUG-JOB",
        fmt::format("{} {}{}", event.flowering_year, date_value(revision.latest_end),
                    event.order ? " " + plain(event.category) + order_words(event.order) : ""));
  for (const DayJob& job : event.jobs) {
    add_x(vevent, "X-TRUG-OF-DAY",
          fmt::format("{} {}{}", job.uid, plain(job.category), order_words(job.order)));
  }
  if (event.reminder && !event.cancelled) {
    icalcomponent_add_component(vevent.get(), make_alarm(summary, *event.reminder).release());
    if (icalcomponent_count_components(vevent.get(), ICAL_ANY_COMPONENT) != 1) {
      throw std::bad_alloc();
    }
  }
  return folded_text(vevent);
}

}  // namespace trug::calendar
