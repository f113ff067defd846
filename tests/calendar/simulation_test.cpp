// SPDX-License-Identifier: MIT
// Gardens that are planned again and again, on clocks that go wrong, read by calendars that miss
// half of the files. What must hold: no calendar is left with a job to come that nobody wants.
#include <gtest/gtest.h>

#include <map>
#include <random>

#include "calendar/calendar_builders.h"
#include "calendar/check.h"
#include "calendar/memory.h"
#include "calendar/regenerate.h"

namespace trug::calendar {
namespace {

constexpr unsigned kGardens = 200;
constexpr int kRuns = 25;
constexpr unsigned kJobs = 8;
constexpr int kFirstYear = 2027;

struct Seen {
  Date start;
  Date end;
  std::string summary;
  bool cancelled = false;
  int sequence = 0;
  Instant stamp;
};
using Holding = std::map<std::string, Seen>;

Holding holding_of(const Memory& memory) {
  Holding holding;
  for (const StoredEvent& stored : memory.events) {
    holding[stored.event.uid] = {stored.event.start,       stored.event.end,
                                 stored.event.summary,     stored.event.cancelled,
                                 stored.revision.sequence, stored.revision.stamp};
  }
  return holding;
}

// How a person's calendar takes in a file.
enum class Client {
  Replacing,         // throws away what it had: what subscriptions do
  NeverDeleting,     // takes a higher (SEQUENCE, DTSTAMP), forgets nothing: what imports do
  LastModifiedOnly,  // takes a later LAST-MODIFIED only, forgets nothing
  LastModifiedFeed   // takes a later LAST-MODIFIED only, and forgets what is absent
};

void take(Client client, const Holding& file, Holding& held) {
  if (client == Client::Replacing) {
    held = file;
    return;
  }
  for (const auto& [uid, seen] : file) {
    const auto found = held.find(uid);
    if (found == held.end()) {
      held[uid] = seen;
      continue;
    }
    const Seen& old = found->second;
    const bool newer = client == Client::NeverDeleting ? std::pair(seen.sequence, seen.stamp) >
                                                             std::pair(old.sequence, old.stamp)
                                                       : seen.stamp > old.stamp;
    if (newer) held[uid] = seen;
  }
  if (client != Client::LastModifiedFeed) return;
  std::erase_if(held, [&](const auto& entry) { return file.count(entry.first) == 0; });
}

class Simulation {
 public:
  Simulation(Profile profile, bool per_day, unsigned seed)
      : profile_(profile), per_day_(per_day), random_(seed) {
    for (unsigned job = 0; job < kJobs; ++job) want(job);
  }

  void play() {
    for (int round = 0; round < kRuns; ++round) {
      SCOPED_TRACE(testing::Message() << "run " << round);
      edit();
      true_now_ += std::chrono::seconds(below(20 * 86400));
      run();
      if (testing::Test::HasFailure()) return;
    }
  }

  int moved = 0;
  int cancelled = 0;
  int returned = 0;

 private:
  unsigned below(unsigned limit) { return static_cast<unsigned>(random_() % limit); }
  bool one_in(unsigned chance) { return below(chance) == 0; }
  Date true_today() const { return std::chrono::floor<Days>(true_now_); }

  // Jobs belong to one of two flowering years by turns.
  static int year_of_job(unsigned job) { return kFirstYear + static_cast<int>(job % 2); }

  void want(unsigned job) {
    Event event;
    event.uid = to_string(uuid_v5(test::space(), std::to_string(job)));
    event.start = true_today() + Days(static_cast<int>(below(150)) - 10);
    event.end = event.start + Days{1};
    event.summary = "job " + std::to_string(job);
    event.category = "sow";
    event.reminder = std::chrono::hours{6};
    event.flowering_year = year_of_job(job);
    plan_[job] = event;
  }

  CalendarHead head() const {
    CalendarHead head = test::head();
    head.per_day = per_day_;
    return head;
  }

  // An event for each day of a flowering year that has jobs, as a calendar of days has them.
  static std::vector<Event> by_day(const std::vector<Event>& jobs) {
    std::map<std::string, Event> days;
    for (const Event& job : jobs) {
      const std::string uid = day_uid(test::space(), job.start, job.flowering_year);
      Event& day = days.try_emplace(uid, job).first->second;
      day.summary = day.jobs.empty() ? job.summary : day.summary + ", " + job.summary;
      day.uid = uid;
      day.jobs.push_back({job.uid, job.category, {}});
    }
    std::vector<Event> events;
    for (auto& [uid, day] : days) events.push_back(std::move(day));
    return events;
  }

  void edit() {
    const unsigned edits = below(4);
    for (unsigned i = 0; i < edits; ++i) {
      const unsigned job = below(kJobs);
      const auto found = plan_.find(job);
      if (found == plan_.end()) {
        want(job);
        ++returned;
      } else if (one_in(3)) {
        plan_.erase(found);
        ++cancelled;
      } else if (one_in(4)) {
        found->second.summary += "!";
      } else {
        const std::string summary = found->second.summary;
        want(job);
        plan_[job].summary = summary;
        ++moved;
      }
    }
  }

  void run() {
    Run run;
    run.profile = profile_;
    run.now = true_now_ - std::chrono::hours(one_in(3) ? below(31) : 0);  // clocks set back
    run.today = std::chrono::floor<Days>(run.now);
    run.flowering_years = {kFirstYear, kFirstYear + 1};
    if (one_in(4)) run.flowering_years.erase(kFirstYear + static_cast<int>(below(2)));
    std::vector<Event> wanted;
    for (const auto& [job, event] : plan_) {
      if (run.flowering_years.count(event.flowering_year) > 0) wanted.push_back(event);
    }
    if (per_day_) wanted = by_day(wanted);
    const Regenerated result = regenerate(wanted, head(), file_, run);
    ASSERT_EQ(result.refused, "");
    const Memory memory = read_memory(result.bytes).memory;
    ASSERT_EQ(result.unchanged, file_ == result.bytes);
    if (!result.unchanged) check_file(result, wanted, run);
    for (const StoredEvent& stored : memory.events) check_rank(stored);
    file_ = result.bytes;
    publish(wanted, run);
    const Holding holding = holding_of(memory);
    for (auto& [client, held] : clients_) {
      if (one_in(2)) continue;  // it missed this one
      take(client, holding, held);
      check_taken(client, holding, held);
      check_client(client, held);
    }
  }

  void check_file(const Regenerated& result, const std::vector<Event>& wanted, const Run& run) {
    ASSERT_EQ(check_calendar(result.bytes), std::vector<std::string>{});
    const test::ReadCalendar read = test::read_with_libical(result.bytes);
    ASSERT_TRUE(read.whole);
    ASSERT_EQ(read.events.size(), result.events);
    const Regenerated again = regenerate(wanted, head(), result.bytes, run);
    ASSERT_TRUE(again.unchanged);
    ASSERT_EQ(again.bytes, result.bytes);
  }

  // Ranks never fall, and rise with every change of a byte; LAST-MODIFIED likewise.
  void check_rank(const StoredEvent& stored) {
    const auto found = last_.find(stored.event.uid);
    if (found != last_.end()) {
      const StoredEvent& old = found->second;
      if (stored.bytes == old.bytes) return;
      ASSERT_GT(stored.revision.sequence, old.revision.sequence) << stored.bytes;
      ASSERT_GT(stored.revision.stamp, old.revision.stamp) << stored.bytes;
    }
    last_[stored.event.uid] = stored;
  }

  // What the gardener was last told for each flowering year.
  void publish(const std::vector<Event>& wanted, const Run& run) {
    std::erase_if(published_, [&](const auto& entry) {
      return run.flowering_years.count(entry.second.flowering_year) > 0;
    });
    for (const Event& event : wanted) published_[event.uid] = event;
  }

  // Whatever a client remembers, the file it has just read prevails.
  void check_taken(Client client, const Holding& file, const Holding& held) {
    for (const auto& [uid, seen] : file) {
      const Seen& kept = held.at(uid);
      EXPECT_EQ(iso(kept.start), iso(seen.start)) << static_cast<int>(client);
      EXPECT_EQ(kept.summary, seen.summary) << static_cast<int>(client);
      EXPECT_EQ(kept.cancelled, seen.cancelled) << static_cast<int>(client);
    }
  }

  // A job to come in somebody's calendar is one that the plan wants, on its day, in its words.
  void check_client(Client client, const Holding& held) {
    for (const auto& [uid, seen] : held) {
      if (seen.cancelled || seen.end <= true_today() || seen.summary.starts_with("This calendar")) {
        continue;
      }
      const auto wanted = published_.find(uid);
      ASSERT_NE(wanted, published_.end())
          << "stale in client " << static_cast<int>(client) << ": " << seen.summary << " on "
          << iso(seen.start) << ", today " << iso(true_today());
      EXPECT_EQ(iso(seen.start), iso(wanted->second.start)) << static_cast<int>(client);
      EXPECT_EQ(seen.summary, wanted->second.summary) << static_cast<int>(client);
    }
  }

  Profile profile_;
  bool per_day_;
  std::mt19937 random_;
  Instant true_now_ = make_date(2027, 1, 10) + std::chrono::hours{9};
  std::map<unsigned, Event> plan_;
  std::map<std::string, Event> published_;
  std::optional<std::string> file_;
  std::map<std::string, StoredEvent> last_;
  std::map<Client, Holding> clients_ =
      profile_ == Profile::Import
          ? std::map<Client, Holding>{{Client::Replacing, {}},
                                      {Client::NeverDeleting, {}},
                                      {Client::LastModifiedOnly, {}}}
          : std::map<Client, Holding>{{Client::Replacing, {}}, {Client::LastModifiedFeed, {}}};
};

// A part of the gardens at a time, so that a slow machine gets through each in its time.
constexpr unsigned kGardensAtATime = kGardens / 4;

struct Part {
  Profile profile;
  bool per_day;
  unsigned first_seed;
};
std::string name_of(const Part& part) {
  return std::string(part.profile == Profile::Import ? "Import" : "Feed") +
         (part.per_day ? "OfDays" : "") + "From" + std::to_string(part.first_seed);
}
void PrintTo(const Part& part, std::ostream* out) { *out << name_of(part); }

class Simulated : public testing::TestWithParam<Part> {};

TEST_P(Simulated, NobodyKeepsAnUnwantedJob) {
  int moved = 0;
  int cancelled = 0;
  int returned = 0;
  for (unsigned i = 0; i < kGardensAtATime; ++i) {
    SCOPED_TRACE(testing::Message() << "seed " << GetParam().first_seed + i);
    Simulation simulation(GetParam().profile, GetParam().per_day, GetParam().first_seed + i);
    simulation.play();
    if (testing::Test::HasFailure()) return;
    moved += simulation.moved;
    cancelled += simulation.cancelled;
    returned += simulation.returned;
  }
  // The gardens were not asleep.
  EXPECT_GT(moved, 250);
  EXPECT_GT(cancelled, 125);
  EXPECT_GT(returned, 75);
}

std::vector<Part> parts() {
  std::vector<Part> all;
  for (const Profile profile : {Profile::Import, Profile::Feed}) {
    for (const bool per_day : {false, true}) {
      for (unsigned seed = 1; seed <= kGardens; seed += kGardensAtATime) {
        all.push_back({profile, per_day, seed});
      }
    }
  }
  return all;
}

INSTANTIATE_TEST_SUITE_P(Gardens, Simulated, testing::ValuesIn(parts()),
                         [](const auto& row) { return name_of(row.param); });

}  // namespace
}  // namespace trug::calendar
