// SPDX-License-Identifier: MIT
// The calendar anew: the previous file and the plan's events give the next file, in which what has
// not changed keeps its bytes. A pure function of its arguments. The rules:
//
// 1. A file of another garden, or one that does not parse, is not replaced; what is left of this
//    garden's is, where the run knows that it is lost.
// 2. All that changes in a run gets one stamp, later than any before, even after the clock went
//    back. Where nothing changes, the bytes are the old ones.
// 3. A new event starts at SEQUENCE = floor, 0 at first, and no lower than any event in the file:
// it
//    may have stood there before somebody took it out.
// 4. An event that says the same keeps its bytes.
// 5. A past event (DTEND <= today) keeps its bytes; only a recorded day moves it.
// 6. Any other gets SEQUENCE + 1 and the stamp; a cancelled one comes back to life this way.
// 7. An event that is not wanted: of a flowering year the run is not about, it keeps its bytes;
//    past, it stays 400 days; else a feed leaves it out, and a file for import cancels it and keeps
//    it until the latest DTEND ever published for it is over, since a calendar that missed the
//    files between may still hold it there.
// 8. Whenever an event is dropped, floor rises above its SEQUENCE: if it returns, it outranks what
//    a client remembers. SEQUENCE ends at the largest number it can hold, and then stays.
// 9. The facts of the head are no content: those of the plan are written as soon as they are
//    others, the events' bytes staying; what was measured by yesterday, and the plantings' lines,
//    only together with something else. Lines of a flowering year the run is not about stay.
// 10. Where the previous file is lost, all numbers begin above any it can have held, also those of
//    events in an older copy that lies in its place.
//
// Ranks of revisions: RFC 5546, 2.1.5; DTSTAMP without METHOD: RFC 5545, 3.8.7.2.
#pragma once

#include <cstddef>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "calendar/event.h"
#include "calendar/memory.h"
#include "calendar/render.h"

namespace trug::calendar {

// From here on a calendar is near the megabyte beyond which some clients take nothing.
inline constexpr std::size_t kLargeCalendarOctets = 900'000;

// The circumstances of a run.
struct Run {
  Profile profile = Profile::Import;
  Instant now;
  Date today;
  bool lost = false;              // the latest file is gone: see rules 1 and 10
  std::set<int> flowering_years;  // those the run's plans are about
};

enum class ChangeKind {
  New,
  Moved,      // another day; perhaps another text too
  Reworded,   // the same day, something else in it
  Revived,    // was cancelled, is wanted again
  Cancelled,  // no longer wanted: kept as cancelled, for calendars that forget nothing
  Removed,    // no longer wanted: left out of a feed
  Expired     // over for so long that it is dropped
};

struct Change {
  ChangeKind kind{};
  std::string uid;
  std::string summary;
  std::string category;
  std::string location;
  Date from;              // its first day in the previous file; of a new event: `to`
  Date to;                // its first day in the new file; of one that is gone: `from`
  int place_in_day = -1;  // as work::JobTrait has it; what is no job of ours stands first
};

// What was found in the place of the new file.
enum class PreviousFile {
  Ours,           // an earlier version, or nothing
  Remains,        // what is left of one
  OtherCalendar,  // another garden's, or another part's
  OtherShape,     // with an event a day where one a job is wanted, or the other way round
  Foreign         // anything else
};

struct Regenerated {
  std::string bytes;       // the whole file; empty where refused
  bool unchanged = false;  // `bytes` are the previous ones: nothing need be written
  // By day, then as the jobs are done in the ground (work::JobTrait::place_in_day), then by
  // summary.
  std::vector<Change> changes;
  // Past events that the plan now puts on a later day. They stand as they were; the gardener can
  // say what happened.
  std::vector<Change> overtaken;
  std::optional<Facts> facts_before;  // those the previous file keeps, where it does
  std::string product_before;         // CalendarHead::product of the version that wrote it
  std::size_t events = 0;             // in the file, cancelled ones included
  std::string refused;                // why the previous file must not be replaced; empty: it may
  PreviousFile previous = PreviousFile::Ours;

  int count(ChangeKind kind) const;
};

// `wanted` are the events of the plan, no UID twice. `previous`: the file that will be replaced, as
// it was read; null where there is none, or where the gardener insists on replacing a foreign one
// (then set `run.lost` as well, since its numbers are not known).
// Throws std::logic_error when what it made does not pass check_calendar(): a defect of trug.
Regenerated regenerate(const std::vector<Event>& wanted, CalendarHead head,
                       const ReadMemory* previous, const Run& run);
// The same; reads the file.
Regenerated regenerate(const std::vector<Event>& wanted, CalendarHead head,
                       std::optional<std::string_view> previous, const Run& run);

}  // namespace trug::calendar
