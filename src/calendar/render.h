// SPDX-License-Identifier: MIT
// Events to iCalendar text. libical makes every property and writes its value, one at a time; the
// lines are folded by us.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "base/uuid.h"
#include "calendar/event.h"
#include "calendar/planting_line.h"

namespace trug::calendar {

// Import: a file a person opens now and then; absent events stay in their calendar. Feed: a file
// that clients fetch again and again; each fetch replaces what they had.
enum class Profile { Import, Feed };

// What the events' days hang on, in short: a name and a value each, neither with a blank. Kept in
// the X-TRUG-FACTS line for the next version to be compared with, and no part of what a calendar
// says.
using Facts = std::map<std::string, std::string>;
// The one that is another every day.
inline constexpr const char* kDailyFact = "weather";

// What stands above the events.
struct CalendarHead {
  Uuid space;           // namespace_of(): whose calendar it is
  std::string name;     // the plan's title
  std::string colour;   // a CSS3 colour name (RFC 7986, 5.9); empty: none
  std::string product;  // "trug 1.2.0", for PRODID
  Facts facts = {};     // empty: none are kept
  std::vector<PlantingLine> plantings = {};
  bool per_day = false;  // its events tell of a day each, not of a job
};

// Of the X-TRUG lines; format 1 had no X-TRUG-PLANTING.
inline constexpr std::string_view kMemoryFormat = "2";
// Behind the X-TRUG-MEMORY line of a calendar with an event a day.
inline constexpr std::string_view kPerDay = " day";

// The calendar's own numbers, kept in its X-TRUG-MEMORY line.
struct Counters {
  int floor = 0;  // SEQUENCE of the next new event
  Instant stamp;  // the last moment given to a change
  bool operator==(const Counters&) const = default;
};

// The numbers of one event that are no part of what it says.
struct Revision {
  int sequence = 0;
  Instant stamp;    // DTSTAMP and LAST-MODIFIED: without METHOD they mean the same
  Date latest_end;  // the latest DTEND ever published
};

// "BEGIN:VCALENDAR" and the calendar's properties, folded, without the END.
std::string render_head(const CalendarHead& head, Profile profile, const Counters& counters);
// The whole VEVENT, folded. A cancelled event has no reminder. Texts lose their control characters
// and the blanks around them; throws std::invalid_argument where one is not UTF-8 or a reminder is
// not before its day: our own mistake, since the readers let neither pass.
std::string render_event(const Event& event, const Revision& revision);
inline constexpr std::string_view kCalendarEnd = "END:VCALENDAR\r\n";

}  // namespace trug::calendar
