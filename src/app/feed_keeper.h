// SPDX-License-Identifier: MIT
// Keeps a feed in step with its plan: reckons anew after an edit and on a new day, writes the
// feed's file, publishes it. What cannot be reckoned or written leaves the last good feed as it is.
#pragma once

#include <chrono>
#include <optional>
#include <string>

#include "app/environment.h"
#include "app/file_watch.h"
#include "app/options.h"
#include "app/reckoning.h"
#include "feed/site.h"

namespace trug::app {

class FeedKeeper {
 public:
  // `feed_path`: the file, which is also the memory of what each event said before. `base_url`: as
  // feed::Published. All but the strings must outlive the keeper.
  FeedKeeper(const Options& options, const Environment& environment, std::string feed_path,
             std::string base_url, feed::Site& site);

  // The first time: as renew(), but where the plan cannot be reckoned and an earlier run left its
  // feed, that is published, without a page, and told: kDone then.
  int start();
  // Reckons, writes and publishes now. kDone, or the exit code where it cannot, which is told.
  // Throws IoError.
  int renew();
  // To be called about once a second. Renews where that is due; never throws.
  void look();

 private:
  // The environment as it is now.
  Environment now() const;
  int publish(const Reckoning& reckoning, const Environment& environment);
  bool publish_last_good();
  void watch_weather(const Plan& plan);

  const Options& options_;
  const Environment& environment_;
  std::string feed_path_;
  std::string base_url_;
  feed::Site& site_;
  FileWatch watch_;
  std::string weather_path_;  // of the last plan that could be reckoned; empty: none
  std::optional<FileWatch> weather_watch_;
  Date reckoned_for_;
  bool published_ = false;
  std::optional<std::chrono::steady_clock::time_point> again_at_;
};

}  // namespace trug::app
