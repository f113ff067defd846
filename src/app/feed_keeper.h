// SPDX-License-Identifier: MIT
// Keeps a feed in step with its plan: reckons anew after an edit of any file the plan is reckoned
// from and on a new day, writes the feed's file, publishes it. What cannot be reckoned or written
// leaves the last good feed as it is.
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
  int publish(const Reckoning& reckoning, const Environment& environment);

  const Options& options_;
  const Environment& environment_;
  std::string feed_path_;
  std::string base_url_;
  feed::Site& site_;
  FileWatch watch_;
  Date reckoned_for_;
  bool serving_ = false;   // something is published,
  bool reckoned_ = false;  // and made from the plan
  std::optional<std::chrono::steady_clock::time_point> again_at_;
};

}  // namespace trug::app
