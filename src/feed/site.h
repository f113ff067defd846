// SPDX-License-Identifier: MIT
// What is answered to whom. No sockets, no files, no clock: a request in, a response out.
//
// Under a secret link stand six files, and nothing else anywhere:
//   /TOKEN/               the page: what is to be done, and how to subscribe
//   /TOKEN/style.css      its style
//   /TOKEN/NAME.ics       the calendar, by the plan's name, or by any other of calendar_name()'s
//   shape:
//                         a plan that is renamed breaks no subscription
//   /TOKEN/chart.svg      the picture of the beds
//   /TOKEN/qr.svg         that calendar's address as a QR code
//   /TOKEN/qr-webcal.svg  the same as webcal://, which iPhones open as a subscription
// No path is ever looked up in the file system, and no token is kept or logged.
#pragma once

#include <chrono>
#include <memory>
#include <mutex>
#include <string>
#include <string_view>
#include <vector>

#include "feed/http.h"
#include "feed/token.h"

namespace trug::feed {

// Where the page has one of these, its reader finds the calendar's address, under the link that was
// asked with. No escaped text can hold them.
inline constexpr std::string_view kAddressMark = "<!--address-->";
inline constexpr std::string_view kWebcalMark = "<!--webcal-->";

struct Published {
  std::string calendar;  // iCalendar, already checked
  std::string page;      // HTML; refers to the other files by bare name. Empty: there is none
  std::string style;     // CSS; empty: there is none
  // Where clients reach the site, "https://example.org/garden", for the marks in the page and the
  // QR codes: they hold the token, so they are made for whoever asks with it. Safe in HTML: see
  // is_base_url(). Empty: no QR codes, and the marks stay.
  std::string base_url;
  std::chrono::sys_seconds changed;  // Last-Modified: when the calendar last became different
  std::string chart = {};            // SVG; empty: there is none
};

// "beds/Harbour office.toml": "harbour-office.ics", for the end of an address: small letters of
// ASCII, digits and hyphens, 40 at most; "calendar.ics" where nothing of the name is left.
std::string calendar_name(std::string_view plan_path);

// "https://example.org/garden" and a token: ".../TOKEN/", the page; ".../TOKEN/NAME.ics", which
// with_webcal() turns into the address that opens a subscription on Apple's machines.
std::string page_url(std::string_view base_url, std::string_view token);
std::string calendar_url(std::string_view base_url, std::string_view token, std::string_view name);
std::string with_webcal(std::string_view url);

class Site {
 public:
  // `name`: the calendar's in the addresses, as calendar_name() makes it.
  explicit Site(std::string name = "calendar.ics");
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

  const std::string name_;
  mutable std::mutex mutex_;  // guards the two pointers, not what they point at
  std::shared_ptr<const Contents> contents_;
  std::shared_ptr<const std::vector<Link>> links_;
};

}  // namespace trug::feed
