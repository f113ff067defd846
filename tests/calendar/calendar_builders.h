// SPDX-License-Identifier: MIT
// Small events and calendars for the tests, and libical as an independent reader of what we write.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "calendar/event.h"
#include "calendar/regenerate.h"
#include "calendar/render.h"

namespace trug::calendar::test {

Date day(std::string_view iso);
// "20270301T060000Z"
Instant instant(std::string_view text);
Uuid uuid(std::string_view text);
// A garden of the tests' own.
inline constexpr std::string_view kGarden = "3f0c7a52-9d1e-4b86-a7c4-51e2d86f0b19";
Uuid space();
CalendarHead head();

// A job's event: its key is the crop and the kind of job, its day is `on`.
Event event(std::string_view crop, work::JobKind kind, std::string_view on);
std::string uid(std::string_view crop, work::JobKind kind);

// A run at 06:00 UTC of that day.
Run run(Profile profile, std::string_view today);
// One event with these texts, as it stands in a file.
std::string lone_event(const Event& event);

// The VEVENT with this UID as it stands in the file; empty where there is none.
std::string block(std::string_view bytes, std::string_view uid);
// The unfolded value of a property of a VEVENT; empty where there is none.
std::string value(std::string_view vevent, std::string_view property);
// Number of occurrences.
int count(std::string_view text, std::string_view part);

// What libical reads.
struct ReadEvent {
  std::string uid;
  std::string start;  // "20270402"
  std::string end;
  int sequence = 0;
  bool cancelled = false;
  std::string summary;
  std::string description;
  std::string location;
  std::string category;
  std::vector<int> alarms;  // seconds after the start, negative: before
};
struct ReadCalendar {
  bool whole = false;  // libical took it, without an X-LIC-ERROR
  std::string name;
  std::vector<ReadEvent> events;
};
ReadCalendar read_with_libical(const std::string& bytes);

}  // namespace trug::calendar::test
