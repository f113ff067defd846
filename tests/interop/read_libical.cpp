// SPDX-License-Identifier: MIT
// Reads an iCalendar file with libical's own parser, the one inside GNOME and KDE, and prints its
// events as JSON: the same object as read_calendar.py, with the description. Ends with 1 where
// libical finds an error or a broken restriction.
// usage: read_libical FILE
#include <libical/ical.h>

#include <cstdio>
#include <fstream>
#include <iostream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <string>

namespace {

using nlohmann::ordered_json;

std::string day(const icaltimetype& time) {
  if (time.is_date == 0) return "no date";
  char text[16];
  std::snprintf(text, sizeof text, "%04d-%02d-%02d", time.year, time.month, time.day);
  return text;
}

ordered_json alarms_of(icalcomponent* event) {
  ordered_json alarms = ordered_json::array();
  for (icalcomponent* alarm = icalcomponent_get_first_component(event, ICAL_VALARM_COMPONENT);
       alarm != nullptr; alarm = icalcomponent_get_next_component(event, ICAL_VALARM_COMPONENT)) {
    icalproperty* trigger = icalcomponent_get_first_property(alarm, ICAL_TRIGGER_PROPERTY);
    if (trigger == nullptr) continue;
    alarms.push_back(icaldurationtype_as_int(icalproperty_get_trigger(trigger).duration));
  }
  return alarms;
}

ordered_json read(icalcomponent* event) {
  icalproperty* status = icalcomponent_get_first_property(event, ICAL_STATUS_PROPERTY);
  const auto text = [](const char* value) { return value == nullptr ? "" : std::string(value); };
  return {{"uid", text(icalcomponent_get_uid(event))},
          {"start", day(icalcomponent_get_dtstart(event))},
          {"end", day(icalcomponent_get_dtend(event))},
          {"sequence", icalcomponent_get_sequence(event)},
          {"status", status == nullptr ? "" : text(icalproperty_get_value_as_string(status))},
          {"summary", text(icalcomponent_get_summary(event))},
          {"description", text(icalcomponent_get_description(event))},
          {"location", text(icalcomponent_get_location(event))},
          {"alarms", alarms_of(event)}};
}

}  // namespace

int main(int count, char** arguments) {
  if (count != 2) return std::cerr << "usage: read_libical FILE\n", 2;
  std::ifstream file(arguments[1], std::ios::binary);
  const std::string text{std::istreambuf_iterator<char>(file), {}};
  icalcomponent* calendar = icalparser_parse_string(text.c_str());
  if (calendar == nullptr) return std::cerr << "libical reads no calendar\n", 1;
  const bool sound =
      icalrestriction_check(calendar) != 0 && icalcomponent_count_errors(calendar) == 0;
  if (!sound) std::cerr << icalcomponent_as_ical_string(calendar);
  ordered_json events = ordered_json::array();
  for (icalcomponent* event = icalcomponent_get_first_component(calendar, ICAL_VEVENT_COMPONENT);
       event != nullptr;
       event = icalcomponent_get_next_component(calendar, ICAL_VEVENT_COMPONENT)) {
    events.push_back(read(event));
  }
  std::cout << ordered_json{{"events", events}}.dump(2) << '\n';
  icalcomponent_free(calendar);
  return sound ? 0 : 1;
}
