// SPDX-License-Identifier: MIT
#include "feed/site.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <string_view>
#include <utility>

#include "base/text.h"
#include "base/uuid.h"
#include "feed/http_date.h"
#include "feed/qr.h"

namespace trug::feed {
namespace {

constexpr std::string_view kCalendarEnding = ".ics";
constexpr std::size_t kNameLength = 40;  // a QR code of the address stays coarse enough to scan
// Nothing but the page's own style and pictures: no script, no form, no frame, no other host.
constexpr std::string_view kContentPolicy =
    "default-src 'none'; style-src 'self'; img-src 'self'; base-uri 'none'; form-action 'none'; "
    "frame-ancestors 'none'";
// Clients look in every few hours; a quarter of an hour lets a correction through soon enough.
constexpr std::string_view kKeepPrivately = "private, max-age=900";
constexpr std::string_view kRetrySeconds = "60";

// One file of the site.
struct Content {
  std::shared_ptr<const std::string> bytes;
  std::string_view type;
  std::string etag;  // strong: SHA-256 of the bytes
  std::optional<std::chrono::sys_seconds> changed;
};

Content content(std::string bytes, std::string_view type) {
  std::string etag = fmt::format("\"{}\"", sha256_hex(bytes));
  return {std::make_shared<const std::string>(std::move(bytes)), type, std::move(etag), {}};
}

// What every answer carries: the address is a secret, and the bytes are what we say they are.
std::vector<Header> common_headers(std::string_view cache_control) {
  return {{"Cache-Control", std::string(cache_control)},
          {"Content-Security-Policy", std::string(kContentPolicy)},
          {"Referrer-Policy", "no-referrer"},
          {"X-Content-Type-Options", "nosniff"},
          {"X-Robots-Tag", "noindex"}};
}

Response refusal(int status, std::string_view sentence) {
  Response response{status, common_headers("no-store"),
                    std::make_shared<const std::string>(fmt::format("{}\n", sentence))};
  response.headers.push_back({"Content-Type", "text/plain; charset=utf-8"});
  return response;
}

Response not_found() { return refusal(404, "There is nothing at this address."); }

// The time it takes does not tell how much of two hashes is alike.
bool same_hash(std::string_view a, std::string_view b) {
  if (a.size() != b.size()) return false;
  int difference = 0;
  for (std::size_t i = 0; i < a.size(); ++i) difference |= a[i] ^ b[i];
  return difference == 0;
}

// Looks at all links, wherever the right one stands.
std::optional<LinkState> state_of(std::string_view token, const std::vector<Link>& links) {
  const std::string hash = token_hash(token);
  std::optional<LinkState> state;
  for (const Link& link : links) {
    if (same_hash(hash, link.hash)) state = link.state;
  }
  return state;
}

std::string_view without_blanks(std::string_view text) {
  const std::size_t first = text.find_first_not_of(" \t");
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

// If-None-Match (RFC 9110, 13.1.2): "*" or a list, compared without regard to W/. Our tags hold no
// comma, so a comma inside a foreign tag can only fail to match.
bool has_tag(std::string_view list, std::string_view etag) {
  while (!list.empty()) {
    const std::size_t comma = std::min(list.find(','), list.size());
    std::string_view tag = without_blanks(list.substr(0, comma));
    list.remove_prefix(std::min(comma + 1, list.size()));
    if (tag.starts_with("W/")) tag.remove_prefix(2);
    if (tag == etag || tag == "*") return true;
  }
  return false;
}

// RFC 9110, 13.2.2: If-Modified-Since counts only without If-None-Match.
bool client_has_it(const Request& request, const Content& file) {
  if (!request.if_none_match.empty()) return has_tag(request.if_none_match, file.etag);
  const auto since = parse_http_date(request.if_modified_since);
  return since && file.changed && *file.changed <= *since;
}

Response deliver(const Request& request, const Content& file) {
  if (file.bytes->empty()) return not_found();
  Response response{200, common_headers(kKeepPrivately), file.bytes};
  response.headers.push_back({"ETag", file.etag});
  if (file.changed) response.headers.push_back({"Last-Modified", http_date(*file.changed)});
  if (client_has_it(request, file)) {
    response.status = 304;
    response.body = nullptr;
  } else {
    response.headers.push_back({"Content-Type", std::string(file.type)});
  }
  return response;
}

std::string replaced(std::string text, std::string_view mark, std::string_view with) {
  for (std::size_t at = text.find(mark); at != std::string::npos; at = text.find(mark, at)) {
    text.replace(at, mark.size(), with);
    at += with.size();
  }
  return text;
}

bool is_name_character(char c) {
  return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
}

bool is_calendar_name(std::string_view name) {
  if (!name.ends_with(kCalendarEnding)) return false;
  name.remove_suffix(kCalendarEnding.size());
  return !name.empty() && name.size() <= kNameLength &&
         std::all_of(name.begin(), name.end(), is_name_character);
}

Content qr_picture(const std::string& url) {
  const auto code = make_qr(url);
  return content(code ? qr_svg(*code) : std::string(), "image/svg+xml");
}

}  // namespace

std::string page_url(std::string_view base_url, std::string_view token) {
  while (base_url.ends_with('/')) base_url.remove_suffix(1);
  return fmt::format("{}/{}/", base_url, token);
}

std::string calendar_url(std::string_view base_url, std::string_view token, std::string_view name) {
  return page_url(base_url, token) + std::string(name);
}

std::string calendar_name(std::string_view plan_path) {
  plan_path.remove_prefix(plan_path.rfind('/') + 1);  // 0 where there is none
  std::string name;
  for (const char c : lower_ascii(plan_path.substr(0, plan_path.rfind('.')))) {
    if (is_name_character(c) && c != '-') {
      name += c;
    } else if (!name.empty() && name.back() != '-') {
      name += '-';
    }
  }
  name.resize(std::min(name.size(), kNameLength));
  while (name.ends_with('-')) name.pop_back();
  return (name.empty() ? "calendar" : name) + std::string(kCalendarEnding);
}

std::string with_webcal(std::string_view url) {
  const std::size_t scheme_end = std::min(url.find("://"), url.size());
  return fmt::format("webcal{}", url.substr(scheme_end));
}

struct Site::Contents {
  Content calendar;
  Content page;
  Content style;
  Content chart;
  std::string base_url;

  // The file of that name under a link; nothing for a name that is none of ours.
  // `calendar_name`: the calendar's in the addresses that the page and the codes give.
  std::optional<Content> file(std::string_view token, std::string_view name,
                              std::string_view calendar_name) const {
    if (is_calendar_name(name)) return calendar;
    if (name == "style.css") return style;
    if (name == "chart.svg") return chart;
    if (base_url.empty()) return name.empty() ? std::optional(page) : std::nullopt;
    const std::string url = calendar_url(base_url, token, calendar_name);
    if (name.empty()) {
      return content(
          replaced(replaced(*page.bytes, kAddressMark, url), kWebcalMark, with_webcal(url)),
          page.type);
    }
    if (name == "qr.svg") return qr_picture(url);
    if (name == "qr-webcal.svg") return qr_picture(with_webcal(url));
    return std::nullopt;
  }
};

Site::Site(std::string name)
    : name_(std::move(name)), links_(std::make_shared<const std::vector<Link>>()) {}
Site::~Site() = default;

bool Site::publish(Published published) {
  if (published.calendar.empty()) return false;
  auto contents = std::make_shared<Contents>(Contents{
      content(std::move(published.calendar), "text/calendar; charset=utf-8"),
      content(std::move(published.page), "text/html; charset=utf-8"),
      content(std::move(published.style), "text/css; charset=utf-8"),
      content(std::move(published.chart), "image/svg+xml"), std::move(published.base_url)});
  // The page and its style have no such moment: the page changes with the day.
  contents->calendar.changed = published.changed;
  std::shared_ptr<const Contents> next = std::move(contents);
  const std::lock_guard lock(mutex_);
  contents_.swap(next);
  return true;
}

void Site::set_links(std::vector<Link> links) {
  auto list = std::make_shared<const std::vector<Link>>(std::move(links));
  const std::lock_guard lock(mutex_);
  links_.swap(list);
}

Response Site::answer(const Request& request) const {
  if (request.method != "GET" && request.method != "HEAD") {
    Response response = refusal(405, "This calendar can be read, not written to.");
    response.headers.push_back({"Allow", "GET, HEAD"});
    return response;
  }
  std::string_view path = request.path;
  if (!path.starts_with('/')) return not_found();
  path.remove_prefix(1);
  const std::size_t slash = path.find('/');
  const std::string_view token = path.substr(0, slash);
  if (slash == std::string_view::npos || !is_token(token)) return not_found();

  std::unique_lock lock(mutex_);
  const auto contents = contents_;
  const auto links = links_;
  lock.unlock();

  const auto state = state_of(token, *links);
  if (!state) return not_found();
  if (*state == LinkState::Revoked) {
    return refusal(410, "This link has been withdrawn. Whoever gave it to you can make a new one.");
  }
  if (!contents) {
    Response response = refusal(503, "The calendar is not ready yet.");
    response.headers.push_back({"Retry-After", std::string(kRetrySeconds)});
    return response;
  }
  const auto file = contents->file(token, path.substr(slash + 1), name_);
  return file ? deliver(request, *file) : not_found();
}

}  // namespace trug::feed
