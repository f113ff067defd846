// SPDX-License-Identifier: MIT
#include "calendar/regenerate.h"

#include <algorithm>
#include <chrono>
#include <deque>
#include <limits>
#include <map>
#include <span>
#include <stdexcept>
#include <tuple>
#include <utility>

#include "calendar/check.h"

namespace trug::calendar {
namespace {

// How long an event that is over and no longer wanted stays.
constexpr Days kHistory{400};
constexpr std::string_view kCancelledPrefix = "Cancelled: ";

// The one event of a calendar that has no other: RFC 5545, 3.6 wants at least one component.
std::string ended_uid(const Uuid& space) { return to_string(uuid_v5(space, "ended")); }

Event ended_event(const Uuid& space, Date day) {
  Event event;
  event.uid = ended_uid(space);
  event.start = day;
  event.end = day + Days{1};
  event.summary = "This calendar has ended";
  event.description = "There are no more jobs in it. It fills again when the plan does.";
  event.category = "ended";
  return event;
}

// A number above any SEQUENCE a lost file can hold: events change less than once a minute.
int floor_after_loss(Instant now) {
  const Date origin = make_date(2020, 1, 1);
  const auto minutes = std::chrono::floor<std::chrono::minutes>(now - origin).count();
  return static_cast<int>(std::max<long long>(0, minutes));
}

Change change_of(ChangeKind kind, const Event& event, Date from) {
  const auto job = work::parse_job_kind(event.category);
  return {kind,           event.uid, event.summary, event.category,
          event.location, from,      event.start,   job ? work::trait(*job).place_in_day : -1};
}

bool is_before(const Change& a, const Change& b) {
  return std::tie(a.to, a.place_in_day, a.summary, a.uid) <
         std::tie(b.to, b.place_in_day, b.summary, b.uid);
}

int above(int sequence) {
  return sequence < std::numeric_limits<int>::max() ? sequence + 1 : sequence;
}

// An event of the new file: written anew, or with the bytes it had.
struct Block {
  Date start;
  std::string_view uid;
  const Event* event;  // nullptr: as it was
  Revision revision;   // of `event`
  std::string_view was;

  std::string bytes() const {
    return event != nullptr ? render_event(*event, revision) : std::string(was);
  }
  // About so many octets, rather too many.
  std::size_t size() const {
    constexpr std::size_t kBesideTexts = 500;
    return event != nullptr ? event->description.size() + kBesideTexts : was.size();
  }
};

bool says_the_same(const Event& event, const StoredEvent& stored) {
  const std::string now = render_event(event, stored.revision);
  return now == stored.bytes || event_content(now) == event_content(stored.bytes);
}

// One pass over the wanted and the stored events, by the rules at the top of regenerate.h.
class Merge {
 public:
  Merge(const Memory& memory, const Uuid& space, const Run& run)
      : run_(run), counters_(memory.counters), ended_(ended_uid(space)) {
    // Later than anything before, even when the clock has gone back.
    stamp_ = std::max(run.now, memory.counters.stamp + std::chrono::seconds{1});
    if (run.lost) counters_.floor = std::max(counters_.floor, floor_after_loss(run.now));
    first_sequence_ = counters_.floor;
    for (const StoredEvent& stored : memory.events) {
      unwanted_[stored.event.uid] = &stored;
      first_sequence_ = std::max(first_sequence_, stored.revision.sequence);
    }
  }

  // `wanted` must outlive it.
  void merge(std::span<const Event> wanted) {
    for (const Event& event : wanted) {
      const auto found = unwanted_.find(event.uid);
      if (found == unwanted_.end()) {
        begin(event);
      } else {
        go_on(event, *found->second);
        unwanted_.erase(found);
      }
    }
    for (const auto& [uid, stored] : unwanted_) end(*stored);
    sort();
  }
  void merge_end(const Uuid& space, Date day) {
    merge({&own_.emplace_back(ended_event(space, day)), 1});
  }

  // Whether nothing but the event that says so is left.
  bool has_ended() const {
    return std::all_of(blocks_.begin(), blocks_.end(),
                       [&](const Block& block) { return block.uid == ended_; });
  }
  const std::vector<Block>& blocks() const { return blocks_; }
  const Counters& counters() const { return counters_; }
  Instant stamp() const { return stamp_; }
  std::vector<Change> changes;
  std::vector<Change> overtaken;

 private:
  bool is_past(const StoredEvent& stored) const { return stored.event.end <= run_.today; }

  void report(ChangeKind kind, const Event& event, Date from) {
    changes.push_back(change_of(kind, event, from));
  }

  void begin(const Event& event) {
    write(event, {first_sequence_, stamp_, event.end});
    report(ChangeKind::New, event, event.start);
  }

  // An event that stands in the previous file and is wanted.
  void go_on(const Event& event, const StoredEvent& stored) {
    const Event& old = stored.event;
    if (says_the_same(event, stored) && event.order == old.order) {
      return run_.lost && !is_past(stored) ? rewrite(event, stored) : keep(stored);
    }
    const bool moved = event.start != old.start || event.end != old.end;
    if (is_past(stored) && !old.cancelled && !(event.recorded && moved)) {
      if (event.start > old.start) {
        overtaken.push_back(change_of(ChangeKind::Moved, event, old.start));
      }
      return keep(stored);
    }
    rewrite(event, stored);
    if (old.cancelled && !event.cancelled) return report(ChangeKind::Revived, event, old.start);
    report(moved ? ChangeKind::Moved : ChangeKind::Reworded, event, old.start);
  }

  // An event that stands in the previous file and is not wanted.
  void end(const StoredEvent& stored) {
    const Event& old = stored.event;
    const bool is_ended = old.uid == ended_;
    if (!is_ended && run_.flowering_years.count(old.flowering_year) == 0) return keep(stored);
    if (is_past(stored) && !old.cancelled && !is_ended) {
      const bool expired = old.end + kHistory <= run_.today && is_over_everywhere(stored);
      return expired ? drop(stored, ChangeKind::Expired) : keep(stored);
    }
    if (run_.profile == Profile::Feed) return drop(stored, ChangeKind::Removed);
    if (is_over_everywhere(stored)) return drop(stored, ChangeKind::Expired);
    if (old.cancelled) return run_.lost ? rewrite(old, stored) : keep(stored);
    cancel(stored);
  }

  // No calendar that missed some of the files can still hold it on a day to come.
  bool is_over_everywhere(const StoredEvent& stored) const {
    return stored.revision.latest_end < run_.today;
  }

  void cancel(const StoredEvent& stored) {
    Event& event = own_.emplace_back(stored.event);
    event.cancelled = true;
    event.summary.insert(0, kCancelledPrefix);
    rewrite(event, stored);
    report(ChangeKind::Cancelled, stored.event, stored.event.start);
  }

  void drop(const StoredEvent& stored, ChangeKind kind) {
    // If it comes back, it outranks what a client may remember.
    counters_.floor = std::max(counters_.floor, above(stored.revision.sequence));
    report(kind, stored.event, stored.event.start);
  }

  void keep(const StoredEvent& stored) {
    blocks_.push_back({stored.event.start, stored.event.uid, nullptr, {}, stored.bytes});
  }

  void rewrite(const Event& event, const StoredEvent& stored) {
    const Date latest_end = std::max(stored.revision.latest_end, event.end);
    const int lowest = run_.lost ? first_sequence_ : 0;
    write(event, {std::max(above(stored.revision.sequence), lowest), stamp_, latest_end});
  }

  void write(const Event& event, const Revision& revision) {
    blocks_.push_back({event.start, event.uid, &event, revision, {}});
  }

  void sort() {
    std::sort(blocks_.begin(), blocks_.end(), [](const Block& a, const Block& b) {
      return std::tie(a.start, a.uid) < std::tie(b.start, b.uid);
    });
    std::sort(changes.begin(), changes.end(), is_before);
    std::sort(overtaken.begin(), overtaken.end(), is_before);
  }

  const Run& run_;
  Counters counters_;
  std::string ended_;
  Instant stamp_;
  int first_sequence_ = 0;
  std::map<std::string_view, const StoredEvent*>
      unwanted_;           // those of the file, as far as is known
  std::deque<Event> own_;  // that are not of the plan
  std::vector<Block> blocks_;
};

// The day on which the calendar ended: the one the previous file says, else today.
Date day_of_end(const Memory& memory, const Uuid& space, Date today) {
  for (const StoredEvent& stored : memory.events) {
    if (stored.event.uid == ended_uid(space) && !stored.event.cancelled) return stored.event.start;
  }
  return today;
}

Merge merged(const std::vector<Event>& wanted, const CalendarHead& head, const Memory& memory,
             const Run& run) {
  Merge merge(memory, head.space, run);
  merge.merge(wanted);
  if (!merge.has_ended()) return merge;
  Merge ended(memory, head.space, run);
  ended.merge_end(head.space, day_of_end(memory, head.space, run.today));
  return ended;
}

// Those of the plan, its sheets and the program.
Facts lasting(Facts facts) {
  facts.erase(kDailyFact);
  return facts;
}

Regenerated refusal(std::string why, PreviousFile previous) {
  Regenerated result;
  result.refused = std::move(why);
  result.previous = previous;
  return result;
}

// Why the previous file must not be replaced.
std::optional<Regenerated> refused_for(const ReadMemory& read, const CalendarHead& head,
                                       const Run& run) {
  if (!read.refused.empty()) {
    if (!are_remains(read.bytes, head.space)) return refusal(read.refused, PreviousFile::Foreign);
    return run.lost ? std::nullopt : std::optional(refusal(read.refused, PreviousFile::Remains));
  }
  if (read.memory.space != head.space) {
    return refusal("it is the calendar of another garden, or of another part of this one",
                   PreviousFile::OtherCalendar);
  }
  if (read.memory.per_day == head.per_day) return std::nullopt;
  return refusal(read.memory.per_day ? "it has an event a day" : "it has an event a job",
                 PreviousFile::OtherShape);
}

void require_sound(const std::string& bytes) {
  const std::vector<std::string> defects = check_calendar(bytes);
  if (!defects.empty()) throw std::logic_error("the calendar is not sound: " + defects.front());
}

// The lines of other years, and of what had begun and is in the plan no more: should it come back,
// it is known how it was begun.
void keep_lines(const std::vector<PlantingLine>& before, const Run& run,
                std::vector<PlantingLine>& now) {
  const std::size_t planned = now.size();
  for (const PlantingLine& line : before) {
    const bool other_year = run.flowering_years.count(line.flowering_year) == 0;
    const auto last = now.begin() + static_cast<std::ptrdiff_t>(planned);
    const bool is_gone =
        line.start.start < run.today &&
        std::find_if(now.begin(), last, [&](const auto& one) { return one.id == line.id; }) == last;
    if (other_year || is_gone) now.push_back(line);
  }
}

}  // namespace

int Regenerated::count(ChangeKind kind) const {
  return static_cast<int>(std::count_if(changes.begin(), changes.end(),
                                        [&](const Change& change) { return change.kind == kind; }));
}

Regenerated regenerate(const std::vector<Event>& wanted, CalendarHead head,
                       std::optional<std::string_view> previous, const Run& run) {
  const auto read = previous ? std::optional(read_memory(*previous)) : std::nullopt;
  return regenerate(wanted, std::move(head), read ? &*read : nullptr, run);
}

Regenerated regenerate(const std::vector<Event>& wanted, CalendarHead head,
                       const ReadMemory* previous, const Run& run) {
  if (previous != nullptr) {
    if (auto refused = refused_for(*previous, head, run)) return *refused;
  }
  const Memory none{};
  const Memory& memory = previous != nullptr && previous->refused.empty() ? previous->memory : none;
  Merge merge = merged(wanted, head, memory, run);
  Counters counters = merge.counters();
  keep_lines(memory.plantings, run, head.plantings);
  const std::string next_head = head_content(render_head(head, run.profile, counters));
  Regenerated result;
  const bool as_before = lasting(head.facts) == lasting(memory.facts.value_or(Facts()));
  result.changes = std::move(merge.changes);
  result.overtaken = std::move(merge.overtaken);
  result.facts_before = memory.facts;
  result.product_before = memory.product;
  result.events = merge.blocks().size();
  result.unchanged = previous != nullptr && result.changes.empty() && counters == memory.counters &&
                     next_head == memory.head && as_before && !memory.mended;
  if (result.unchanged) {
    result.bytes = previous->bytes;
    return result;
  }
  counters.stamp = merge.stamp();
  result.bytes = render_head(head, run.profile, counters);
  std::size_t size = result.bytes.size() + kCalendarEnd.size();
  for (const Block& block : merge.blocks()) size += block.size();
  result.bytes.reserve(size);
  for (const Block& block : merge.blocks()) result.bytes += block.bytes();
  result.bytes += kCalendarEnd;
  require_sound(result.bytes);
  return result;
}

}  // namespace trug::calendar
