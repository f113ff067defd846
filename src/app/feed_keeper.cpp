// SPDX-License-Identifier: MIT
#include "app/feed_keeper.h"

#include <fmt/format.h>

#include <algorithm>
#include <exception>
#include <filesystem>
#include <utility>

#include "app/events.h"
#include "app/measured_weather.h"
#include "app/output_file.h"
#include "calendar/memory.h"
#include "show/feed_page.h"
#include "show/pages.h"

namespace trug::app {
namespace {

constexpr std::chrono::minutes kBetweenTries{1};

FileWatch watch_of(const Options& options) {
  const std::string& plan = options.plans.front();
  std::vector<std::string> folders = options.crop_folders;
  folders.push_back((std::filesystem::path(plan).parent_path() / "crops").string());
  return {{plan}, std::move(folders), ".toml"};
}

// When the calendar last became different, by its own memory, so that a restart tells the same. Not
// in the future, after the clock went back (RFC 9110, 8.8.2.1).
std::chrono::sys_seconds last_change(const std::string& calendar, std::chrono::sys_seconds now) {
  return std::min(calendar::read_memory(calendar).memory.counters.stamp, now);
}

}  // namespace

FeedKeeper::FeedKeeper(const Options& options, const Environment& environment,
                       std::string feed_path, std::string base_url, feed::Site& site)
    : options_(options),
      environment_(environment),
      feed_path_(std::move(feed_path)),
      base_url_(std::move(base_url)),
      site_(site),
      watch_(watch_of(options)) {}

Environment FeedKeeper::now() const {
  Environment environment = environment_;
  const Moment moment = environment_.clock();
  environment.today = moment.today;
  environment.now = moment.now;
  return environment;
}

int FeedKeeper::start() {
  const int code = renew();
  return code == kBadInput && publish_last_good() ? kDone : code;
}

bool FeedKeeper::publish_last_good() {
  const auto bytes = OutputFile(feed_path_).previous();
  if (!bytes || !calendar::read_memory(*bytes).refused.empty()) return false;
  if (!site_.publish({*bytes, "", "", base_url_, last_change(*bytes, now().now)})) return false;
  environment_.err
      << fmt::format(
             "The calendar of {} is served as it was, without its page, until the plan "
             "is mended.\n",
             feed_path_)
      << std::flush;
  return true;
}

void FeedKeeper::watch_weather(const Plan& plan) {
  const std::string path = plan.place.weather ? weather_path(plan) : "";
  if (path == weather_path_) return;
  weather_path_ = path;
  weather_watch_.reset();
  if (!path.empty()) weather_watch_.emplace(FileWatch({path}, {}, ""));
}

int FeedKeeper::renew() {
  const Environment environment = now();
  reckoned_for_ = today(options_, environment);
  const auto reckoning = reckon(options_, environment, "");
  if (!reckoning) return kBadInput;
  watch_weather(reckoning->plan);
  if (!reckoning->plan.garden) {
    environment.err << ask_for_garden(reckoning->plan, environment);
    return kBadInput;
  }
  return publish(*reckoning, environment);
}

int FeedKeeper::publish(const Reckoning& r, const Environment& environment) {
  OutputFile file(feed_path_);
  const auto previous = file.previous();
  CalendarContent content{.profile = calendar::Profile::Feed,
                          .lost = published_ && !previous.has_value()};
  for (const work::Job& job : r.jobs) content.jobs.push_back(&job);
  const calendar::Regenerated version = next_version(options_, environment, r, content, previous);
  if (!version.refused.empty()) {
    environment.err << fmt::format(
        "error: {} stays as it is: {}\n  hint: name another with --file\n", feed_path_,
        version.refused);
    return kRefused;
  }
  // First the file: what a client has seen is never forgotten.
  if (!version.unchanged) file.replace(version.bytes);
  const show::FeedAddresses addresses{std::string(feed::kAddressMark),
                                      std::string(feed::kWebcalMark)};
  site_.publish({version.bytes,
                 show::feed_page(r.plan, r.choice, r.jobs, *r.climate, reckoned_for_, addresses),
                 show::feed_style(), base_url_, last_change(version.bytes, environment.now)});
  if (!version.unchanged || !published_) {
    environment.err << show::changes_page(
                           changes_of(feed_path_, previous.has_value(), r, content, version))
                    << show::findings_line(r.findings, r.plan.file);
  }
  published_ = true;
  return kDone;
}

void FeedKeeper::look() {
  const bool measured = weather_watch_ && weather_watch_->changed();
  const bool edited = watch_.changed() || measured;
  const bool new_day = today(options_, now()) != reckoned_for_;
  const bool again = again_at_ && std::chrono::steady_clock::now() >= *again_at_;
  if (!edited && !new_day && !again) return;
  again_at_.reset();
  try {
    if (renew() == kDone) return;
  } catch (const IoError& error) {
    environment_.err << "error: " << error.what() << "\n";
    again_at_ = std::chrono::steady_clock::now() + kBetweenTries;
  } catch (const std::exception& error) {
    environment_.err << "error: this is a defect of trug, please report it with your plan: "
                     << error.what() << "\n";
  }
  environment_.err << "The feed stays as it was.\n" << std::flush;
}

}  // namespace trug::app
