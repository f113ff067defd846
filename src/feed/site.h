// SPDX-License-Identifier: MIT
// What is answered to whom. No sockets, no files, no clock: a request in, a response out.
//
// Under a secret link stand five files, and nothing else anywhere:
//   /TOKEN/               the page that says how to subscribe
//   /TOKEN/style.css      its style
//   /TOKEN/calendar.ics   the calendar
//   /TOKEN/qr.svg         that calendar's address as a QR code
//   /TOKEN/qr-webcal.svg  the same as webcal://, which iPhones open as a subscription
// No path is ever looked up in the file system, and no token is kept or logged.
#pragma once

#include <chrono>
#include <memory>
#include <mutex>
#include <string>
#include <vector>

#include "feed/http.h"
#include "feed/token.h"

namespace trug::feed {

struct Published {
  std::string calendar;  // iCalendar, already checked
  std::string page;      // HTML; refers to the other files by bare name. Empty: there is none
  std::string style;     // CSS; empty: there is none
  // Where clients reach the site, "https://example.org/garden", for the QR codes: they hold the
  // token, so they are drawn for whoever asks with it. Empty: no QR codes.
  std::string base_url;
  std::chrono::sys_seconds changed;  // Last-Modified: when the calendar last became different
};

class Site {
 public:
  Site();
  ~Site();
  // From the next request on, the site is this. An answer under way ends with what it began with.
  // False, and nothing changes, where the calendar is empty: clients would empty theirs.
  bool publish(Published published);
  void set_links(std::vector<Link> links);
  // 200; 304 where the client has it already; 404 for unknown links and files; 405 for anything but
  // GET and HEAD; 410 for revoked links; 503 while nothing is published. Any thread.
  Response answer(const Request& request) const;

 private:
  struct Contents;

  mutable std::mutex mutex_;  // guards the two pointers, not what they point at
  std::shared_ptr<const Contents> contents_;
  std::shared_ptr<const std::vector<Link>> links_;
};

}  // namespace trug::feed
