// SPDX-License-Identifier: MIT
#include "app/feed_keeper.h"

#include <fmt/format.h>

#include <algorithm>
#include <exception>
#include <filesystem>
#include <ostream>
#include <string_view>
#include <utility>
#include <vector>

#include "app/events.h"
#include "app/output_file.h"
#include "calendar/memory.h"
#include "show/feed_page.h"
#include "show/pages.h"

namespace trug::app {
namespace {

constexpr std::chrono::minutes kBetweenTries{1};

// Has each file watched from before it is read.
class WatchedFiles : public FileReader {
 public:
  WatchedFiles(const FileReader& files, FileWatch& watch) : files_(files), watch_(watch) {}
  FileBytes read(const std::string& path, std::size_t limit) const override {
    watch_.add(path);
    return files_.read(path, limit);
  }
  std::optional<std::vector<std::string>> list(const std::string& folder,
                                               std::string_view ending) const override {
    return files_.list(folder, ending);
  }

 private:
  const FileReader& files_;
  FileWatch& watch_;
};

// Sheets may come; the other files become known as they are read.
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

Environment FeedKeeper::now(const FileReader& files) const {
  const Moment moment = environment_.clock();
  return {.files = files,
          .out = environment_.out,
          .err = environment_.err,
          .today = moment.today,
          .now = moment.now,
          .colour = environment_.colour,
          .width = environment_.width,
          .random = environment_.random,
          .clock = environment_.clock};
}

int FeedKeeper::start() {
  const int code = renew();
  if (code != kBadInput && code != kFindings) return code;
  return publish_last() ? kDone : code;
}

bool FeedKeeper::publish_last() {
  const auto last = OutputFile(feed_path_).previous();
  if (!last || !calendar::read_memory(*last).refused.empty()) return false;
  const auto changed = last_change(*last, environment_.clock().now);
  environment_.err << fmt::format(
      "The plan {} cannot be published. Served instead, until it is mended: the last good "
      "calendar, {}, of {}.\n",
      options_.plans.front(), feed_path_,
      plain_day(std::chrono::floor<std::chrono::days>(changed)));
  const show::FeedAddresses addresses{std::string(feed::kAddressMark),
                                      std::string(feed::kWebcalMark)};
  site_.publish(
      {*last, show::feed_page_without_plan(addresses), show::feed_style(), base_url_, changed});
  serving_ = true;
  return true;
}

int FeedKeeper::renew() {
  const WatchedFiles files(environment_.files, watch_);
  const Environment environment = now(files);
  reckoned_for_ = today(options_, environment);
  const auto reckoning = reckon(options_, environment, "");
  if (!reckoning) return kBadInput;
  const bool first = !reckoning->plan.began && !OutputFile(feed_path_).previous();
  if (!reckoning->plan.garden || first) {
    environment.err << ask_for_identity(reckoning->plan, reckoned_for_, environment);
    return kBadInput;
  }
  if (const int code = exit_code(options_, *reckoning); code != kDone) {
    environment.err << show::findings_line(reckoning->findings, reckoning->plan.file)
                    << "With --strict, a plan that has findings is not published.\n";
    return code;
  }
  return publish(*reckoning, environment);
}

int FeedKeeper::publish(const Reckoning& r, const Environment& environment) {
  OutputFile file(feed_path_);
  const auto previous = file.previous();
  CalendarContent content{.profile = calendar::Profile::Feed,
                          .lost = serving_ && !previous.has_value()};
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
                 show::feed_page(r.plan, r.schedule, r.jobs, r.climate, reckoned_for_, addresses),
                 show::feed_style(), base_url_, last_change(version.bytes, environment.now)});
  if (!version.unchanged || !reckoned_) {
    environment.err << show::changes_page(
                           changes_of(feed_path_, previous.has_value(), r, content, version))
                    << show::findings_line(r.findings, r.plan.file);
  }
  serving_ = true;
  reckoned_ = true;
  return kDone;
}

void FeedKeeper::look() {
  const bool edited = watch_.changed();
  const bool new_day = today(options_, now(environment_.files)) != reckoned_for_;
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
