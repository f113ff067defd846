// SPDX-License-Identifier: MIT
#include "app/feed_keeper.h"

#include <fmt/format.h>

#include <algorithm>
#include <exception>
#include <filesystem>
#include <new>
#include <ostream>
#include <string_view>
#include <utility>
#include <vector>

#include "app/feed_links.h"
#include "app/inputs.h"
#include "app/output_file.h"
#include "calendar/memory.h"
#include "feed/address.h"
#include "show/chart.h"
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

// Why the file stays as it is.
std::string refusal(const std::string& path, const calendar::Regenerated& version) {
  return fmt::format("error: {} stays as it is: {}\n  hint: {}\n", path, version.refused,
                     version.previous == calendar::PreviousFile::Remains
                         ? "--lost makes it anew, its jobs numbered above any a calendar may "
                           "remember"
                         : "name another with --file, or move this one away");
}

show::FeedAddresses addresses(const std::string& base_url) {
  return {std::string(feed::kAddressMark), std::string(feed::kWebcalMark),
          feed::is_only_here(base_url)};
}

std::string page_of(const Reckoning& r, Date today, const std::string& base_url,
                    std::optional<Date> broken_since = std::nullopt) {
  return show::feed_page({r.plan, r.schedule, r.weeks, r.rows, r.climate}, today,
                         addresses(base_url), broken_since);
}

}  // namespace

std::string Gardens::claim(const std::string& plan, const Uuid& garden, int flowering_year) {
  const std::pair key(garden, flowering_year);
  for (const auto& [other, has] : plans_) {
    if (has == key && other != plan) return other;
  }
  plans_[plan] = key;
  return "";
}

FeedKeeper::FeedKeeper(const Options& options, const Environment& environment,
                       std::string feed_path, std::string base_url, feed::Site& site,
                       Gardens& gardens)
    : options_(options),
      environment_(environment),
      feed_path_(std::move(feed_path)),
      base_url_(std::move(base_url)),
      site_(site),
      gardens_(gardens),
      watch_(watch_of(options)),
      lost_(options.lost) {}

Environment FeedKeeper::now(const FileReader& files) const {
  const Moment moment = environment_.clock();
  Environment environment = with(environment_, files, environment_.out, environment_.err);
  environment.today = moment.today;
  environment.now = moment.now;
  return environment;
}

int FeedKeeper::start() {
  const int code = renew();
  if ((code != kBadInput && code != kFindings) || twin_) return code;
  return publish_last() ? kDone : code;
}

bool FeedKeeper::publish_last() {
  const auto last = OutputFile::look(feed_path_);
  if (!last || !calendar::read_memory(*last).refused.empty()) return false;
  const auto changed = last_change(*last, environment_.clock().now);
  environment_.err << fmt::format(
      "The plan {} cannot be published. Served instead, until it is mended: the last good "
      "calendar, {}, of {}.\n",
      options_.plans.front(), feed_path_,
      plain_day(std::chrono::floor<std::chrono::days>(changed)));
  published_ = {*last, show::feed_page_without_plan(reckoned_for_, addresses(base_url_)),
                show::feed_style(), base_url_, changed};
  site_.publish(published_);
  serving_ = true;
  return true;
}

void FeedKeeper::publish_behind() {
  if (!behind_since_) behind_since_ = reckoned_for_;
  if (!reckoned_) return;
  published_.page = page_of(*reckoned_, reckoned_for_, base_url_, behind_since_);
  site_.publish(published_);
}

int FeedKeeper::renew() {
  const WatchedFiles files(environment_.files, watch_);
  const Environment environment = now(files);
  reckoned_for_ = today(options_, environment);
  auto reckoning = reckon(options_, environment, "", feed_path_);
  if (!reckoning) return kBadInput;
  const bool first = !reckoning->plan.began && !OutputFile(feed_path_).previous();
  if (!reckoning->plan.garden || first) {
    environment.err << ask_for_identity(reckoning->plan, reckoned_for_, environment);
    return kBadInput;
  }
  if (has_twin(reckoning->plan)) return kBadInput;
  if (const std::string trouble = refused_memory(*reckoning, feed_path_); !trouble.empty()) {
    environment.err << trouble;
    return kRefused;
  }
  if (const int code = exit_code(options_, *reckoning); code != kDone) {
    environment.err << show::findings_line(reckoning->findings, reckoning->plan.file)
                    << "With --strict, a plan that has findings is not published.\n";
    return code;
  }
  return publish(std::move(*reckoning), environment);
}

bool FeedKeeper::has_twin(const Plan& plan) {
  const std::string twin = gardens_.claim(plan.file, *plan.garden, plan.flowering_year);
  twin_ = !twin.empty();
  if (twin_) {
    environment_.err << fmt::format(
        "error: {} and {} have one garden and flowering year: calendars would take the jobs of one "
        "for those of the other\n"
        "  hint: if these are two gardens, give one of them its own: garden = \"{}\"\n",
        twin, plan.file, to_string(uuid_v4(environment_.random())));
  }
  return twin_;
}

calendar::Regenerated FeedKeeper::next(const Reckoning& r, const Environment& environment,
                                       CalendarContent& content,
                                       const std::optional<std::string>& previous) {
  // Where there are links, there was a calendar.
  const bool known = serving_ || has_links(links_path(feed_path_), environment);
  content.lost = lost_ || (known && !previous);
  calendar::Regenerated version = next_version(options_, environment, r, content, previous);
  if (known && version.previous == calendar::PreviousFile::Remains && !content.lost) {
    content.lost = true;
    version = next_version(options_, environment, r, content, previous);
  }
  return version;
}

int FeedKeeper::publish(Reckoning r, const Environment& environment) {
  require_writable(environment, feed_path_);
  OutputFile file(feed_path_, Access::OwnerAtFirst);
  const auto previous = file.previous();
  CalendarContent content{.profile = calendar::Profile::Feed, .per_day = options_.per_day};
  content.jobs = jobs_with_events(r.rows);
  const calendar::Regenerated version = next(r, environment, content, previous);
  if (!version.refused.empty()) {
    environment.err << refusal(feed_path_, version);
    return kRefused;
  }
  if (content.lost) {
    environment.err << fmt::format(
        "note: {} counts as lost: its jobs are numbered above any a calendar may remember\n",
        feed_path_);
  }
  // First the file: what a client has seen is never forgotten.
  if (!version.unchanged) file.replace(version.bytes);
  published_ = {version.bytes,
                page_of(r, reckoned_for_, base_url_),
                show::feed_style(),
                base_url_,
                last_change(version.bytes, environment.now),
                show::chart_svg(r.plan, r.schedule, r.weeks, r.climate)};
  site_.publish(published_);
  if (!version.unchanged || !reckoned_) {
    environment.err << show::changes_page(
                           changes_of(feed_path_, previous.has_value(), r, content, version),
                           options_.verbose)
                    << show::findings_line(r.findings, r.plan.file);
  }
  serving_ = true;
  reckoned_ = std::move(r);
  lost_ = false;
  return kDone;
}

void FeedKeeper::look() {
  const bool edited = watch_.changed();
  const bool new_day = today(options_, now(environment_.files)) != reckoned_for_;
  const bool again = again_at_ && std::chrono::steady_clock::now() >= *again_at_;
  if (!edited && !new_day && !again) return;
  again_at_.reset();
  try {
    if (renew() == kDone) {
      if (behind_since_) {
        environment_.err << "The feed is what its plan says again.\n" << std::flush;
      }
      behind_since_.reset();
      return;
    }
  } catch (const IoError& error) {
    environment_.err << "error: " << error.what() << "\n";
    again_at_ = std::chrono::steady_clock::now() + kBetweenTries;
  } catch (const std::bad_alloc&) {
    environment_.err << "error: there is not enough memory\n";
    again_at_ = std::chrono::steady_clock::now() + kBetweenTries;
  } catch (const std::exception& error) {
    environment_.err << "error: this is a defect of trug, please report it with your plan: "
                     << error.what() << "\n";
  }
  try {
    publish_behind();
  } catch (const std::exception&) {  // no memory: the page stays as it was too
  }
  environment_.err << "The feed stays as it was.\n" << std::flush;
}

}  // namespace trug::app
