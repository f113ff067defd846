// SPDX-License-Identifier: MIT
#include "feed/site.h"

#include <gtest/gtest.h>

#include <map>
#include <thread>

#include "base/uuid.h"
#include "feed/address.h"

namespace trug::feed {
namespace {

const std::string kOpen(kTokenLength, 'a');
const std::string kWithdrawn(kTokenLength, 'b');
const std::string kUnknown(kTokenLength, 'c');

// The tags below are sha256sum's of these three.
const std::string kCalendar = "BEGIN:VCALENDAR\r\nEND:VCALENDAR\r\n";
const std::string kPage = "<!DOCTYPE html><title>Cutting bed</title>\n";
const std::string kStyle = "body{}\n";
const std::string kCalendarTag =
    "\"215efae54e34ac5657da47b49c8d1bd8ea12649ee1efa838c9a47d7233f18afb\"";
const std::string kPageTag = "\"a48f862799979da84977cbf1a0e81bcdd286f2425f39c0eeeff0625147c43ae7\"";
const std::string kStyleTag =
    "\"2708d73bf31c36cdfa1aa466551ed101017280fa546caba4473cfef6e92a93b5\"";
// RFC 9110, 5.6.7: "Sun, 06 Nov 1994 08:49:37 GMT".
constexpr std::chrono::sys_seconds kChanged{std::chrono::seconds{784111777}};

Published published() { return {kCalendar, kPage, kStyle, "http://192.168.1.20:8080", kChanged}; }

std::vector<Link> links() {
  return {{token_hash(kWithdrawn), LinkState::Revoked}, {token_hash(kOpen), LinkState::Active}};
}

class SiteTest : public testing::Test {
 protected:
  SiteTest() {
    site_.set_links(links());
    EXPECT_TRUE(site_.publish(published()));
  }
  Response get(const std::string& path) const { return site_.answer({"GET", path, "", ""}); }

  Site site_;
};

std::map<std::string, std::string> headers_of(const Response& response) {
  std::map<std::string, std::string> headers;
  for (const Header& header : response.headers) headers[std::string(header.name)] = header.value;
  EXPECT_EQ(headers.size(), response.headers.size()) << "a header is given twice";
  return headers;
}

std::string body_of(const Response& response) { return response.body ? *response.body : ""; }

TEST_F(SiteTest, CalendarHasExactlyTheseHeaders) {
  const Response response = get("/" + kOpen + "/calendar.ics");
  EXPECT_EQ(response.status, 200);
  EXPECT_EQ(body_of(response), kCalendar);
  const std::map<std::string, std::string> expected{
      {"Cache-Control", "private, max-age=900"},
      {"Content-Security-Policy",
       "default-src 'none'; style-src 'self'; img-src 'self'; base-uri 'none'; form-action 'none'; "
       "frame-ancestors 'none'"},
      {"Content-Type", "text/calendar; charset=utf-8"},
      {"ETag", kCalendarTag},
      {"Last-Modified", "Sun, 06 Nov 1994 08:49:37 GMT"},
      {"Referrer-Policy", "no-referrer"},
      {"X-Content-Type-Options", "nosniff"},
      {"X-Robots-Tag", "noindex"}};
  EXPECT_EQ(headers_of(response), expected);
}

TEST_F(SiteTest, TheOtherFilesHaveTheirTypeAndTag) {
  const struct {
    std::string name, type, tag, body;
  } table[] = {{"", "text/html; charset=utf-8", kPageTag, kPage},
               {"style.css", "text/css; charset=utf-8", kStyleTag, kStyle}};
  for (const auto& row : table) {
    SCOPED_TRACE(row.name);
    const Response response = get("/" + kOpen + "/" + row.name);
    EXPECT_EQ(response.status, 200);
    EXPECT_EQ(body_of(response), row.body);
    auto headers = headers_of(response);
    EXPECT_EQ(headers["Content-Type"], row.type);
    EXPECT_EQ(headers["ETag"], row.tag);
    EXPECT_EQ(headers["Cache-Control"], "private, max-age=900");
  }
}

TEST_F(SiteTest, ThePageNamesTheAddressItWasAskedWith) {
  Published with_marks = published();
  with_marks.page = "<a href=\"<!--webcal-->\">x</a> <!--address--> <!--address-->";
  with_marks.base_url = "https://example.org/garden/";
  EXPECT_TRUE(site_.publish(with_marks));
  const std::string rest = "example.org/garden/" + kOpen + "/calendar.ics";
  const Response page = get("/" + kOpen + "/");
  EXPECT_EQ(body_of(page),
            "<a href=\"webcal://" + rest + "\">x</a> https://" + rest + " https://" + rest);
  auto headers = headers_of(page);
  EXPECT_EQ(headers["ETag"], "\"" + sha256_hex(body_of(page)) + "\"");
  EXPECT_EQ(headers.count("Last-Modified"), 0U) << "it changes with the day, not with the calendar";
  EXPECT_EQ(site_.answer({"GET", "/" + kOpen + "/", headers["ETag"], ""}).status, 304);
}

TEST_F(SiteTest, TheAddressEndsInThePlansNameAndAnEarlierOneStaysGood) {
  Published named = published();
  named.page = "<!--address-->";
  named.base_url = "https://example.org";
  Site site(calendar_name("beds/Harbour office.toml"));
  site.set_links(links());
  EXPECT_TRUE(site.publish(named));
  const auto get = [&](const std::string& path) { return site.answer({"GET", path, "", ""}); };
  EXPECT_EQ(body_of(get("/" + kOpen + "/")),
            "https://example.org/" + kOpen + "/harbour-office.ics");
  for (const std::string name :
       {"harbour-office.ics", "calendar.ics", "before-it-was-renamed.ics"}) {
    const Response response = get("/" + kOpen + "/" + name);
    EXPECT_EQ(response.status, 200) << name;
    EXPECT_EQ(body_of(response), kCalendar) << name;
  }
}

TEST(CalendarName, IsSafeAtTheEndOfAnAddress) {
  for (const auto& [plan, name] : std::vector<std::pair<std::string, std::string>>{
           {"harbour-office.toml", "harbour-office.ics"},
           {"/home/ann/beds.2027/Nan's  Border.toml", "nan-s-border.ics"},
           {"garden", "garden.ics"},
           {"../x/.toml", "calendar.ics"},
           {"", "calendar.ics"},
           {"\xc3\xa4\xc3\xb6.toml", "calendar.ics"},
           {"-a-.toml", "a.ics"},
           {std::string(39, 'x') + " y.toml", std::string(39, 'x') + ".ics"},
           {std::string(900, 'x') + ".toml", std::string(40, 'x') + ".ics"}}) {
    EXPECT_EQ(calendar_name(plan), name);
  }
}

TEST(BaseUrl, IsSafeInHtmlAndInLinks) {
  for (const std::string text : {"https://example.org", "http://192.168.1.20:8017",
                                 "http://[::1]:8017", "https://example.org/my%20garden/"}) {
    EXPECT_TRUE(is_base_url(text)) << text;
  }
  for (const std::string text : {"", "https://", "http:///x", "ftp://example.org", "example.org",
                                 "https://a\"b", "https://a<b", "https://a&b", "https://a'b",
                                 "https://a b", "https://a?b", "https://a#b", "https://a\nb"}) {
    EXPECT_FALSE(is_base_url(text)) << text;
  }
}

TEST_F(SiteTest, EveryPathButOursIsUnknown) {
  const std::string open = "/" + kOpen;
  for (const std::string& path :
       std::vector<std::string>{std::string(),
                                "/",
                                "//",
                                "*",
                                "/calendar.ics",
                                "/robots.txt",
                                open,
                                kOpen + "/calendar.ics",
                                "/" + open + "/calendar.ics",
                                open + "//calendar.ics",
                                open + "/calendar.ics/",
                                open + "/calendar.ics%00",
                                open + "/calendar.ics" + std::string("\0x", 2),
                                open + "/Calendar.ics",
                                open + "/calendar",
                                open + "/.ics",
                                open + "/a_b.ics",
                                open + "/" + std::string(41, 'a') + ".ics",
                                open + "/.",
                                open + "/../" + kOpen + "/calendar.ics",
                                open + "/./calendar.ics",
                                open + "/..%2f..%2fetc/passwd",
                                "/../../etc/passwd",
                                open + "/%63alendar.ics",
                                open + "\\calendar.ics",
                                "/%61" + kOpen.substr(1) + "/calendar.ics",
                                "http://192.168.1.20:8080" + open + "/calendar.ics",
                                "/" + kUnknown + "/calendar.ics",
                                "/" + kUnknown + "/",
                                "/A" + kOpen.substr(1) + "/calendar.ics",
                                open + "a/calendar.ics",
                                "/" + token_hash(kOpen) + "/calendar.ics",
                                std::string(100000, '/'),
                                "/\xff\xfe/calendar.ics"}) {
    SCOPED_TRACE(path.substr(0, 200));
    const Response response = get(path);
    EXPECT_EQ(response.status, 404);
    EXPECT_EQ(body_of(response), "There is nothing at this address.\n");
    auto headers = headers_of(response);
    EXPECT_EQ(headers["Cache-Control"], "no-store");
    EXPECT_EQ(headers["Content-Type"], "text/plain; charset=utf-8");
    EXPECT_EQ(headers["Referrer-Policy"], "no-referrer");
    EXPECT_FALSE(headers.contains("ETag"));
  }
}

TEST_F(SiteTest, AWithdrawnLinkIsGoneForEveryFile) {
  for (const char* name : {"", "calendar.ics", "qr.svg", "no-such-file"}) {
    SCOPED_TRACE(name);
    const Response response = get("/" + kWithdrawn + "/" + name);
    EXPECT_EQ(response.status, 410);
    EXPECT_EQ(headers_of(response)["Cache-Control"], "no-store");
    EXPECT_EQ(body_of(response),
              "This link has been withdrawn. Whoever gave it to you can make a new one.\n");
  }
}

TEST_F(SiteTest, ALinkCanBeWithdrawnAndForgottenWhileServing) {
  const std::string path = "/" + kOpen + "/calendar.ics";
  EXPECT_EQ(get(path).status, 200);
  site_.set_links({{token_hash(kOpen), LinkState::Revoked}});
  EXPECT_EQ(get(path).status, 410);
  site_.set_links({});
  EXPECT_EQ(get(path).status, 404);
}

TEST_F(SiteTest, OnlyGetAndHeadAreAllowed) {
  for (const char* method : {"POST", "PUT", "DELETE", "OPTIONS", "TRACE", "PROPFIND", "REPORT",
                             "MKCALENDAR", "get", "", "GET "}) {
    for (const std::string& path : std::vector<std::string>{
             "/" + kOpen + "/calendar.ics", "/", "/" + kUnknown + "/", "/" + kWithdrawn + "/"}) {
      SCOPED_TRACE(std::string(method) + " " + path);
      const Response response = site_.answer({method, path, "", ""});
      EXPECT_EQ(response.status, 405);
      EXPECT_EQ(headers_of(response)["Allow"], "GET, HEAD");
    }
  }
}

TEST_F(SiteTest, HeadIsAnsweredLikeGet) {
  for (const std::string& path :
       std::vector<std::string>{"/" + kOpen + "/calendar.ics", "/" + kOpen + "/",
                                "/" + kUnknown + "/", "/" + kWithdrawn + "/"}) {
    const Response head = site_.answer({"HEAD", path, "", ""});
    EXPECT_EQ(head.status, get(path).status);
    EXPECT_EQ(head.headers, get(path).headers);
  }
}

// RFC 9110, 13.1.2, 13.1.3 and 13.2.2.
TEST_F(SiteTest, ConditionsOfTheRequestAreKept) {
  const struct {
    const char* name;
    std::string none_match, since;
    int status;
  } table[] = {
      {"no condition", "", "", 200},
      {"its tag", kCalendarTag, "", 304},
      {"its tag, weak", "W/" + kCalendarTag, "", 304},
      {"any tag", "*", "", 304},
      {"its tag in a list", "\"x\", " + kCalendarTag + " ,\"y\"", "", 304},
      {"its tag last, with a tab", "\"x\",\t" + kCalendarTag, "", 304},
      {"another tag", "\"x\"", "", 200},
      {"its tag without quotes", kCalendarTag.substr(1, 64), "", 200},
      {"its tag cut short", kCalendarTag.substr(0, 65), "", 200},
      {"another file's tag", kPageTag, "", 200},
      {"commas only", ",,,", "", 200},
      {"its date", "", "Sun, 06 Nov 1994 08:49:37 GMT", 304},
      {"a second later", "", "Sun, 06 Nov 1994 08:49:38 GMT", 304},
      {"a second earlier", "", "Sun, 06 Nov 1994 08:49:36 GMT", 200},
      {"a date that is none", "", "yesterday", 200},
      {"another tag wins over its date", "\"x\"", "Sun, 06 Nov 1994 08:49:37 GMT", 200},
      {"its tag wins over an old date", kCalendarTag, "Sat, 05 Nov 1994 08:49:37 GMT", 304},
  };
  for (const auto& row : table) {
    SCOPED_TRACE(row.name);
    const Response response =
        site_.answer({"GET", "/" + kOpen + "/calendar.ics", row.none_match, row.since});
    EXPECT_EQ(response.status, row.status);
    EXPECT_EQ(response.body == nullptr, row.status == 304);
    auto headers = headers_of(response);
    // RFC 9110, 15.4.5: a 304 carries what the 200 would have.
    EXPECT_EQ(headers["ETag"], kCalendarTag);
    EXPECT_EQ(headers["Cache-Control"], "private, max-age=900");
    EXPECT_EQ(headers["Last-Modified"], "Sun, 06 Nov 1994 08:49:37 GMT");
  }
}

TEST_F(SiteTest, AConditionDoesNotOpenAForeignLink) {
  EXPECT_EQ(site_.answer({"GET", "/" + kUnknown + "/calendar.ics", "*", ""}).status, 404);
  EXPECT_EQ(site_.answer({"GET", "/" + kWithdrawn + "/calendar.ics", "*", ""}).status, 410);
}

TEST(Site, WithoutACalendarItIsNotReady) {
  Site site;
  site.set_links(links());
  for (const char* name : {"", "calendar.ics", "qr.svg"}) {
    const Response response = site.answer({"GET", "/" + kOpen + "/" + name, "", ""});
    EXPECT_EQ(response.status, 503);
    EXPECT_EQ(headers_of(response)["Retry-After"], "60");
    EXPECT_EQ(headers_of(response)["Cache-Control"], "no-store");
    EXPECT_FALSE(body_of(response).empty());
  }
  EXPECT_EQ(site.answer({"GET", "/" + kUnknown + "/calendar.ics", "", ""}).status, 404);
  EXPECT_EQ(site.answer({"GET", "/" + kWithdrawn + "/calendar.ics", "", ""}).status, 410);
}

TEST_F(SiteTest, AnEmptyCalendarIsNeverPublished) {
  Published empty = published();
  empty.calendar.clear();
  EXPECT_FALSE(site_.publish(empty));
  EXPECT_EQ(body_of(get("/" + kOpen + "/calendar.ics")), kCalendar);
}

TEST_F(SiteTest, TheChartLiesBesideThePage) {
  Published with_chart = published();
  with_chart.chart = "<svg xmlns=\"http://www.w3.org/2000/svg\"/>";
  EXPECT_TRUE(site_.publish(with_chart));
  EXPECT_EQ(body_of(get("/" + kOpen + "/chart.svg")), with_chart.chart);
}

TEST_F(SiteTest, WhatIsNotThereIsUnknown) {
  EXPECT_TRUE(site_.publish({kCalendar, "", "", "", kChanged}));
  for (const char* name : {"", "style.css", "chart.svg", "qr.svg", "qr-webcal.svg"}) {
    EXPECT_EQ(get("/" + kOpen + "/" + name).status, 404) << name;
  }
  EXPECT_EQ(get("/" + kOpen + "/calendar.ics").status, 200);
}

TEST_F(SiteTest, AnAnswerKeepsItsBytesWhenTheCalendarChanges) {
  const std::string path = "/" + kOpen + "/calendar.ics";
  const Response before = get(path);
  Published next = published();
  next.calendar = "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nEND:VCALENDAR\r\n";
  next.changed += std::chrono::seconds{1};
  EXPECT_TRUE(site_.publish(next));
  EXPECT_EQ(body_of(before), kCalendar);
  EXPECT_EQ(body_of(get(path)), next.calendar);
  EXPECT_EQ(site_.answer({"GET", path, kCalendarTag, ""}).status, 200);
  EXPECT_EQ(site_.answer({"GET", path, "", "Sun, 06 Nov 1994 08:49:37 GMT"}).status, 200);
}

TEST_F(SiteTest, BytesAreSharedNotCopied) {
  const std::string path = "/" + kOpen + "/calendar.ics";
  EXPECT_EQ(get(path).body.get(), get(path).body.get());
}

// Tag and bytes belong together in every answer, however fast the calendar changes.
TEST_F(SiteTest, PublishingWhileAnsweringNeverMixesTwoCalendars) {
  std::map<std::string, std::string> tag_of;
  std::vector<Published> versions;
  for (int i = 0; i < 2; ++i) {
    versions.push_back(published());
    versions.back().calendar += std::string(static_cast<std::size_t>(i) + 1, '\n');
    EXPECT_TRUE(site_.publish(versions.back()));
    tag_of[versions.back().calendar] = headers_of(get("/" + kOpen + "/calendar.ics"))["ETag"];
  }
  std::jthread writer([&](const std::stop_token& stop) {
    for (std::size_t i = 0; !stop.stop_requested(); ++i) site_.publish(versions[i % 2]);
  });
  std::map<std::string, int> seen;
  for (int i = 0; i < 2000 || seen.size() < 2; ++i) {
    std::this_thread::yield();
    const Response response = get("/" + kOpen + "/calendar.ics");
    ASSERT_EQ(headers_of(response)["ETag"], tag_of[body_of(response)]);
    ++seen[body_of(response)];
    ASSERT_LT(i, 10000000);
  }
}

}  // namespace
}  // namespace trug::feed
