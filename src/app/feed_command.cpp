// SPDX-License-Identifier: MIT
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <csignal>
#include <filesystem>
#include <memory>
#include <mutex>
#include <optional>
#include <ostream>
#include <set>
#include <stop_token>
#include <string>
#include <string_view>
#include <system_error>
#include <thread>
#include <utility>
#include <vector>

#include "app/commands.h"
#include "app/feed_keeper.h"
#include "app/feed_links.h"
#include "app/inputs.h"
#include "app/output_file.h"
#include "app/stop_signals.h"
#include "base/text.h"
#include "feed/qr.h"
#include "feed/server.h"
#include "feed/site.h"

namespace trug::app {
namespace {

// "garden.toml": "garden.feed.ics", beside it.
std::string feed_path(const Options& options) {
  if (!options.feed_file.empty()) return options.feed_file;
  constexpr std::string_view kEnding = ".toml";
  const std::string& plan = options.plans.front();
  const bool usual = plan.ends_with(kEnding);
  return plan.substr(0, plan.size() - (usual ? kEnding.size() : 0)) + ".feed.ics";
}

std::string base_url(const Options& options, int port) {
  if (!options.base_url.empty()) return options.base_url;
  return "http://" + feed::to_string({options.listen.host, port});
}

// What no link can be made of; empty: nothing.
std::string url_trouble(const Options& options) {
  if (!options.base_url.empty()) return "";
  if (options.listen.host == "0.0.0.0" || options.listen.host == "::") {
    return fmt::format(
        "error: {} is every address of this machine, and none that a link could name\n"
        "  hint: listen on the machine's own address, such as 192.168.1.20:8017, or name it with "
        "--url\n",
        options.listen.host);
  }
  if (options.new_link && options.listen.port == 0) {
    return "error: port 0 is any that is free: a link needs one that stays\n"
           "  hint: name the port with --listen, or the address with --url\n";
  }
  return "";
}

// What is for one plan only, and plans that would keep the same file; empty: nothing.
std::string several_trouble(const std::vector<Options>& each) {
  if (each.size() == 1) return "";
  const Options& shared = each.front();
  if (!shared.feed_file.empty() || !shared.qr_file.empty()) {
    return fmt::format("error: {} is for one plan, and here are {}\n",
                       shared.qr_file.empty() ? "--file" : "--qr", each.size());
  }
  std::set<std::filesystem::path> files;
  for (const Options& options : each) {
    if (!files.insert(std::filesystem::weakly_canonical(feed_path(options))).second) {
      return fmt::format("error: {} is named twice\n", options.plans.front());
    }
  }
  return "";
}

std::string links_line(const std::vector<feed::Link>& links, const std::string& plan) {
  const auto open = std::ranges::count(links, feed::LinkState::Active, &feed::Link::state);
  if (open == 0) return fmt::format("No link to {} is open; --new-link makes one.\n", plan);
  return fmt::format("{} open to {}.\n",
                     open == 1 ? "1 link is" : fmt::format("{} links are", open), plan);
}

// The QR code of a link, drawn to the file the gardener named.
class QrFile {
 public:
  // Throws IoError and BadOutput. `refused` where there is a file that is no such drawing.
  QrFile(const Options& options, const Environment& environment) {
    if (options.qr_file.empty()) return;
    require_writable(environment, options.qr_file);
    file_.emplace(options.qr_file, Access::OwnerAlways);  // it holds the secret
    const auto previous = file_->previous();
    refused_ = previous && !feed::is_qr_svg(*previous) && !options.force;
  }
  bool refused() const { return refused_; }
  void draw(const std::string& url) {
    const auto code = feed::make_qr(url);
    if (file_ && code) file_->replace(feed::qr_svg(*code));
  }

 private:
  std::optional<OutputFile> file_;
  bool refused_ = false;
};

// Two codes where the terminal can show them, one in plain characters with --plain.
std::string codes(const Options& options, const Environment& environment, const std::string& page,
                  const std::string& webcal) {
  const auto page_code = feed::make_qr(page);
  const auto webcal_code = feed::make_qr(webcal);
  if (!page_code || !webcal_code) return "";
  if (options.plain) return "\n" + feed::qr_ascii(*page_code);
  if (!environment.colour) return "";
  return "\nThe page:\n" + feed::qr_blocks(*page_code) + "\nFor an iPhone or iPad:\n" +
         feed::qr_blocks(*webcal_code);
}

// Makes a link and shows it, this once. False where the file of links is wrong.
bool give_link(const Options& options, const Environment& environment, const std::string& base,
               QrFile& qr) {
  const std::string token = new_token(environment);
  if (!add_link(links_path(feed_path(options)), token, environment)) return false;
  const std::string page = feed::page_url(base, token);
  const std::string calendar =
      feed::calendar_url(base, token, feed::calendar_name(options.plans.front()));
  const std::string webcal = feed::with_webcal(calendar);
  environment.out << fmt::format(
      "A new link to {}. It is shown this once; whoever has it can read the calendar.\n\n"
      "  {}{}\n  {}{}\n  {}{}\n",
      options.plans.front(), padded("The week's jobs, and how to subscribe", 40), page,
      padded("The calendar", 40), calendar, padded("The calendar for iPhone, iPad and Mac", 40),
      webcal);
  const bool only_here = feed::is_only_here(base);
  if (!only_here) environment.out << codes(options, environment, page, webcal);
  environment.out << std::flush;
  if (!environment.out) throw IoError(EIO, "cannot show the new link on the standard output");
  qr.draw(page);
  if (only_here) {
    environment.err
        << "Only this machine can open it. For the telephones of the house: --listen with this "
           "machine's own address at home, such as 192.168.1.20:8017; or a proxy and --url.\n";
  }
  return true;
}

int make_link(const Options& options, const Environment& environment, const std::string& base) {
  QrFile qr(options, environment);
  if (!qr.refused()) return give_link(options, environment, base, qr) ? kDone : kBadInput;
  environment.err << fmt::format(
      "error: {} stays as it is: trug did not draw it\n"
      "  hint: name another file, or replace it with --force\n",
      options.qr_file);
  return kRefused;
}

int make_new_links(const std::vector<Options>& each, const Environment& environment) {
  for (const Options& options : each) {
    const std::string& plan = options.plans.front();
    if (environment.files.read(plan, 0).state == FileState::Missing) {
      environment.err << fmt::format("error: there is no plan {}\n", plan);
      return kBadInput;
    }
  }
  for (const Options& options : each) {
    const int code = make_link(options, environment, base_url(options, options.listen.port));
    if (code != kDone) return code;
  }
  return kDone;
}

// Withdraws the link from whichever plan's it is; all links from all plans.
int withdraw(const std::vector<Options>& each, const Environment& environment) {
  std::optional<std::string> token;
  if (!each.front().revoke_all) {
    token = token_in(*each.front().revoke);
    if (!token) {
      environment.err << "error: that is no link to a calendar\n"
                         "  hint: give the whole of it, or --revoke-all\n";
      return kBadInput;
    }
  }
  int found = 0;
  std::vector<std::string> paths;
  for (const Options& options : each) {
    paths.push_back(links_path(feed_path(options)));
    found += withdraw_links(paths.back(), token, environment);
  }
  if (found == 0) {
    environment.err << fmt::format("error: there is no such link in {}\n",
                                   fmt::join(paths, " or "));
    return kBadInput;
  }
  environment.out << (token ? "That link is withdrawn: it opens nothing any more.\n"
                            : "All links are withdrawn: they open nothing any more.\n");
  return kDone;
}

// Lines from the server's threads for the one that may write them.
class Notes {
 public:
  void add(std::string_view line) {
    const std::lock_guard lock(mutex_);
    text_ += fmt::format("{}\n", line);
  }
  std::string take() {
    const std::lock_guard lock(mutex_);
    return std::exchange(text_, {});
  }

 private:
  std::mutex mutex_;
  std::string text_;
};

// The links as the file has them: those made or withdrawn meanwhile too.
class LinkKeeper {
 public:
  LinkKeeper(const Options& options, const Environment& environment, feed::Site& site)
      : plan_(options.plans.front()),
        path_(links_path(feed_path(options))),
        environment_(environment),
        site_(site) {}

  // False where the file is wrong, which is told: then the links stay. Throws IoError.
  bool load() {
    watch_ = FileWatch({path_}, {}, "");
    auto links = read_links(path_, environment_);
    if (!links) return false;
    environment_.err << links_line(*links, plan_) << std::flush;
    site_.set_links(std::move(*links));
    return true;
  }
  void look() {
    if (!watch_.changed()) return;
    try {
      if (load()) return;
    } catch (const IoError& error) {
      environment_.err << "error: " << error.what() << "\n";
    }
    environment_.err << "The links stay as they were.\n" << std::flush;
  }

 private:
  std::string plan_;
  std::string path_;
  const Environment& environment_;
  feed::Site& site_;
  FileWatch watch_;
};

void tell_address(const Options& options, const Environment& environment, int port) {
  environment.err << fmt::format("Listening on {}; Ctrl-C ends it.\n",
                                 feed::to_string({options.listen.host, port}));
  if (!feed::is_loopback(options.listen)) {
    environment.err << "warning: links and calendar go through the network in plain text, and who "
                       "listens there can read them: keep to a network you trust, or put a proxy "
                       "with https in front\n";
  }
  environment.err << std::flush;
}

// Nothing where the file of links is wrong, or cannot be what the gardener wants of it: told.
std::optional<bool> wants_first_link(const Options& options, const Environment& environment) {
  const auto links = read_links(links_path(feed_path(options)), environment);
  if (!links) return std::nullopt;
  if (links->empty() || options.qr_file.empty()) return links->empty();
  environment.err << "error: there is no new link to draw, and trug keeps no copy of the old ones\n"
                     "  hint: --new-link and --qr together make one and draw it\n";
  return std::nullopt;
}

// One plan's feed: its site, its links, its file.
struct PlanFeed {
  PlanFeed(const Options& options, const Environment& environment, const std::string& base,
           Gardens& gardens)
      : site(feed::calendar_name(options.plans.front())),
        keeper(options, environment, feed_path(options), base, site, gardens),
        links(options, environment, site) {}

  feed::Site site;
  FeedKeeper keeper;
  LinkKeeper links;
};
using PlanFeeds = std::vector<std::unique_ptr<PlanFeed>>;

// A link opens one plan's site; to the others it is unknown.
feed::Response answer(const PlanFeeds& feeds, const feed::Request& request) {
  feed::Response response;
  for (const auto& feed : feeds) {
    response = feed->site.answer(request);
    if (response.status != 404) break;
  }
  return response;
}

// Opens a plan's links, the first one included. The exit code where it cannot.
int open(PlanFeed& feed, const Options& options, const Environment& environment,
         const std::string& base) {
  const auto first_link = wants_first_link(options, environment);
  if (!first_link) return kBadInput;
  if (*first_link) {
    if (const int code = make_link(options, environment, base); code != kDone) return code;
  }
  return feed.links.load() ? kDone : kBadInput;
}

// Reckons all plans, then opens their links: where one cannot be served no other's is made.
int open_all(const PlanFeeds& feeds, const std::vector<Options>& each,
             const Environment& environment, const std::string& base) {
  for (std::size_t i = 0; i < each.size(); ++i) {
    if (!wants_first_link(each[i], environment)) return kBadInput;
    if (const int code = feeds[i]->keeper.start(); code != kDone) return code;
  }
  for (std::size_t i = 0; i < each.size(); ++i) {
    if (const int code = open(*feeds[i], each[i], environment, base); code != kDone) return code;
  }
  return kDone;
}

// Answers until a signal comes.
int serve_until_stopped(feed::Server& server, const StopSignals& stop, const PlanFeeds& feeds,
                        Notes& notes, const Environment& environment) {
  std::string failure;
  {
    const std::jthread thread([&](const std::stop_token& token) {
      try {
        server.run(token);
      } catch (const std::system_error& error) {
        failure = error.what();
        ::kill(::getpid(), SIGTERM);  // to the process: the waiting thread takes it
      }
    });
    while (!stop.came()) {
      for (const auto& feed : feeds) {
        feed->links.look();
        feed->keeper.look();
      }
      environment.err << notes.take() << std::flush;
    }
  }
  if (failure.empty()) return kDone;
  environment.err << "error: " << failure << "\n";
  return kRefused;
}

int serve(const std::vector<Options>& each, const Environment& environment) {
  const StopSignals stop;
  const Options& shared = each.front();
  Gardens gardens;
  PlanFeeds feeds;
  Notes notes;
  feed::Limits limits;
  if (shared.behind_proxy) limits.per_address = 0;
  feed::Server server(
      shared.listen, [&feeds](const feed::Request& request) { return answer(feeds, request); },
      limits, [&notes](std::string_view line) { notes.add(line); });
  const std::string base = base_url(shared, server.port());
  for (const Options& options : each) {
    feeds.push_back(std::make_unique<PlanFeed>(options, environment, base, gardens));
  }
  if (const int code = open_all(feeds, each, environment, base); code != kDone) return code;
  tell_address(shared, environment, server.port());
  return serve_until_stopped(server, stop, feeds, notes, environment);
}

}  // namespace

int run_feed(const Options& options, const Environment& environment) {
  std::vector<Options> each(options.plans.size(), options);
  for (std::size_t i = 0; i < each.size(); ++i) each[i].plans = {options.plans[i]};
  const bool ends_links = options.revoke_all || options.revoke.has_value();
  std::string trouble = several_trouble(each);
  if (trouble.empty() && !ends_links) trouble = url_trouble(options);
  if (!trouble.empty()) {
    environment.err << trouble;
    return kBadInput;
  }
  if (ends_links) return withdraw(each, environment);
  return options.new_link ? make_new_links(each, environment) : serve(each, environment);
}

}  // namespace trug::app
