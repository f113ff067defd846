// SPDX-License-Identifier: MIT
// Keeps a feed in step with its plan: reckons anew after an edit of any file the plan is reckoned
// from and on a new day, writes the feed's file, publishes it. What cannot be reckoned or written
// leaves the last good feed as it is.
#pragma once

#include <chrono>
#include <map>
#include <optional>
#include <string>
#include <utility>

#include "app/environment.h"
#include "app/events.h"
#include "app/file_watch.h"
#include "app/options.h"
#include "app/reckoning.h"
#include "feed/site.h"

namespace trug::app {

// Which plan of a run has which garden and year: two with the same would take each other's events,
// wherever calendars go by UID.
class Gardens {
 public:
  // From now on they are that plan's; where another plan has them, nothing changes, and the answer
  // is that one. Empty: done.
  std::string claim(const std::string& plan, const Uuid& garden, int flowering_year);

 private:
  std::map<std::string, std::pair<Uuid, int>> plans_;
};

class FeedKeeper {
 public:
  // `feed_path`: the file, which is also the memory of what each event said before. `base_url`: as
  // feed::Published. All but the strings must outlive the keeper.
  FeedKeeper(const Options& options, const Environment& environment, std::string feed_path,
             std::string base_url, feed::Site& site, Gardens& gardens);

  // Reckons, writes and publishes now, or, where the plan cannot be reckoned, publishes the feed's
  // file as an earlier run left it. kDone, or the exit code where it can do neither, which is told.
  // Throws IoError.
  int start();
  // To be called about once a second. Renews where that is due; never throws.
  void look();

 private:
  // The environment as it is now, with `files` in place of its own.
  Environment now(const FileReader& files) const;
  int renew();
  bool publish_last();
  // The page as the last good plan makes it, saying since when it is not the plan's.
  void publish_behind();
  int publish(Reckoning reckoning, const Environment& environment);
  bool has_twin(const Plan& plan);
  calendar::Regenerated next(const Reckoning& reckoning, const Environment& environment,
                             CalendarContent& content, const std::optional<std::string>& previous);

  const Options& options_;
  const Environment& environment_;
  std::string feed_path_;
  std::string base_url_;
  feed::Site& site_;
  Gardens& gardens_;
  FileWatch watch_;
  Date reckoned_for_;
  bool lost_;             // the gardener says so, and nothing has been published since
  bool twin_ = false;     // another plan has this one's garden and year
  bool serving_ = false;  // something is published,
  feed::Published published_;
  std::optional<Reckoning> reckoned_;  // and what it was made from; absent: an earlier run's
  std::optional<Date> behind_since_;   // the last look could not bring it up to date
  std::optional<std::chrono::steady_clock::time_point> again_at_;
};

}  // namespace trug::app
