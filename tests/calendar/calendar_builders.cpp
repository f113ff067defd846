// SPDX-License-Identifier: MIT
#include "calendar/calendar_builders.h"

#include <libical/ical.h>

#include <memory>

#include "calendar/content_line.h"
#include "calendar/event.h"

namespace trug::calendar::test {
namespace {

struct FreeComponent {
  void operator()(icalcomponent* component) const { icalcomponent_free(component); }
};

std::string text_of(icalcomponent* component, icalproperty_kind kind) {
  icalproperty* property = icalcomponent_get_first_property(component, kind);
  if (property == nullptr) return {};
  const char* text = icalvalue_get_text(icalproperty_get_value(property));
  return text == nullptr ? "" : text;
}

std::string date_of(icaltimetype time) {
  return std::to_string(time.year * 10000 + time.month * 100 + time.day);
}

ReadEvent read_event(icalcomponent* vevent) {
  ReadEvent event;
  event.uid = text_of(vevent, ICAL_UID_PROPERTY);
  event.start = date_of(icalcomponent_get_dtstart(vevent));
  event.end = date_of(icalcomponent_get_dtend(vevent));
  event.sequence = icalcomponent_get_sequence(vevent);
  event.cancelled = icalcomponent_get_status(vevent) == ICAL_STATUS_CANCELLED;
  event.summary = text_of(vevent, ICAL_SUMMARY_PROPERTY);
  event.description = text_of(vevent, ICAL_DESCRIPTION_PROPERTY);
  event.location = text_of(vevent, ICAL_LOCATION_PROPERTY);
  event.category = category_word(text_of(vevent, ICAL_CATEGORIES_PROPERTY));
  // An iterator of its own: one cursor per component.
  icalcompiter alarms = icalcomponent_begin_component(vevent, ICAL_VALARM_COMPONENT);
  for (icalcomponent* alarm = icalcompiter_deref(&alarms); alarm != nullptr;
       alarm = icalcompiter_next(&alarms)) {
    icalproperty* trigger = icalcomponent_get_first_property(alarm, ICAL_TRIGGER_PROPERTY);
    event.alarms.push_back(
        trigger == nullptr ? 0
                           : icaldurationtype_as_int(icalproperty_get_trigger(trigger).duration));
  }
  return event;
}

}  // namespace

Date day(std::string_view iso) { return parse_iso(iso).value(); }
Instant instant(std::string_view text) { return parse_instant_value(text).value(); }
Uuid uuid(std::string_view text) { return parse_uuid(text).value(); }
Uuid space() { return namespace_of(uuid(kGarden), ""); }
CalendarHead head() { return {space(), "Vases, and more", "", "trug 0.1.0"}; }

std::string uid(std::string_view crop, work::JobKind kind) {
  const work::JobKey key{2027, "north bed", std::string(crop), "1", kind, 0, 0};
  return job_uid(space(), key);
}

Event event(std::string_view crop, work::JobKind kind, std::string_view on) {
  Event event;
  event.uid = uid(crop, kind);
  event.start = day(on);
  event.end = event.start + Days{1};
  event.category = std::string(work::to_string(kind));
  event.summary = event.category + ": " + std::string(crop);
  event.description = "Still right for a week.";
  event.location = "north bed";
  event.reminder = std::chrono::hours{6};
  event.flowering_year = 2027;
  return event;
}

Run run(Profile profile, std::string_view today) {
  Run result;
  result.profile = profile;
  result.today = day(today);
  result.now = result.today + std::chrono::hours{6};
  result.flowering_years = {2027};
  return result;
}

std::string lone_event(const Event& event) {
  return render_event(event, {0, instant("20270301T060000Z"), event.end});
}

std::string block(std::string_view bytes, std::string_view uid) {
  for (std::size_t from = bytes.find("BEGIN:VEVENT"); from != std::string_view::npos;
       from = bytes.find("BEGIN:VEVENT", from + 1)) {
    constexpr std::string_view kEnd = "END:VEVENT\r\n";
    const std::size_t until = bytes.find(kEnd, from) + kEnd.size();
    const std::string_view vevent = bytes.substr(from, until - from);
    if (value(vevent, "UID") == uid) return std::string(vevent);
  }
  return {};
}

std::string value(std::string_view vevent, std::string_view property) {
  for (ContentLines lines(vevent); lines.next();) {
    const auto read = parse_property(lines.line().text);
    if (read && read->name == property) return std::string(read->value);
  }
  return {};
}

int count(std::string_view text, std::string_view part) {
  int found = 0;
  for (std::size_t at = text.find(part); at != std::string_view::npos;
       at = text.find(part, at + part.size())) {
    ++found;
  }
  return found;
}

ReadCalendar read_with_libical(const std::string& bytes) {
  ReadCalendar read;
  const std::unique_ptr<icalcomponent, FreeComponent> root(icalparser_parse_string(bytes.c_str()));
  if (!root || icalcomponent_isa(root.get()) != ICAL_VCALENDAR_COMPONENT) return read;
  read.whole = icalcomponent_count_errors(root.get()) == 0;
  read.name = text_of(root.get(), ICAL_NAME_PROPERTY);
  icalcompiter events = icalcomponent_begin_component(root.get(), ICAL_VEVENT_COMPONENT);
  for (icalcomponent* vevent = icalcompiter_deref(&events); vevent != nullptr;
       vevent = icalcompiter_next(&events)) {
    read.events.push_back(read_event(vevent));
  }
  return read;
}

}  // namespace trug::calendar::test
