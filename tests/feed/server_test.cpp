// SPDX-License-Identifier: MIT
// The server on a real socket, asked byte by byte.
#include "feed/server.h"

#include <gtest/gtest.h>

#include <cerrno>
#include <system_error>

#include "feed/wire.h"

namespace trug::feed {
namespace {

std::string request(const std::string& method, const std::string& path,
                    const std::string& more_headers = {}) {
  return method + " " + path + " HTTP/1.1\r\nHost: localhost\r\n" + more_headers + "\r\n";
}

TEST(Server, SendsTheCalendar) {
  RunningServer server;
  Wire wire(server.port());
  ASSERT_TRUE(wire.send(get(kCalendarPath)));
  const std::string answer = wire.answer();
  EXPECT_EQ(status_of(answer), 200);
  EXPECT_EQ(body_of(answer), kCalendarBytes);
  auto headers = headers_of(answer);
  EXPECT_EQ(headers["content-type"], "text/calendar; charset=utf-8");
  EXPECT_EQ(headers["content-length"], std::to_string(kCalendarBytes.size()));
  EXPECT_TRUE(headers.contains("date"));  // RFC 9110, 6.6.1: an origin server with a clock must
  EXPECT_FALSE(headers.contains("server"));
  EXPECT_FALSE(headers.contains("transfer-encoding"));
  EXPECT_FALSE(headers.contains("content-encoding"));
}

TEST(Server, AQueryIsNotPartOfThePath) {
  RunningServer server;
  Wire wire(server.port());
  ASSERT_TRUE(wire.send(get(kCalendarPath + "?v=2")));
  EXPECT_EQ(status_of(wire.answer()), 200);
}

TEST(Server, KeepsOneConnectionThroughAllKindsOfAnswers) {
  RunningServer server;
  Wire wire(server.port());
  const struct {
    const char* name;
    std::string bytes;
    int status;
    bool has_body;
  } table[] = {
      {"another version", get(kCalendarPath, "If-None-Match: \"x\"\r\n"), 200, true},
      {"the head alone", request("HEAD", kCalendarPath), 200, false},
      {"the page", get("/" + kOpenToken + "/"), 200, true},
      {"an unknown link", get("/" + std::string(kTokenLength, 'z') + "/calendar.ics"), 404, true},
      {"an unknown link's head", request("HEAD", "/nothing"), 404, false},
      {"a withdrawn link", get("/" + kWithdrawnToken + "/calendar.ics"), 410, true},
      {"OPTIONS", request("OPTIONS", kCalendarPath), 405, true},
      {"PROPFIND with a body",
       request("PROPFIND", kCalendarPath, "Content-Length: 11\r\n") + "<propfind/>", 405, true},
      {"PUT with a body in pieces",
       request("PUT", kCalendarPath, "Transfer-Encoding: chunked\r\n") + "3\r\nabc\r\n0\r\n\r\n",
       405, true},
      {"GET with a body", get(kCalendarPath, "Content-Length: 3\r\n") + "abc", 200, true},
      {"the calendar once more", get(kCalendarPath), 200, true},
  };
  for (const auto& row : table) {
    SCOPED_TRACE(row.name);
    ASSERT_TRUE(wire.send(row.bytes));
    const std::string answer = wire.answer(row.has_body);
    ASSERT_EQ(status_of(answer), row.status) << answer.substr(0, 300);
    auto headers = headers_of(answer);
    EXPECT_FALSE(headers.contains("server"));
    EXPECT_EQ(headers["x-robots-tag"], "noindex");
    EXPECT_EQ(headers["allow"], row.status == 405 ? "GET, HEAD" : "");
    EXPECT_NE(headers["connection"], "close");
  }
}

// RFC 9110, 8.6: a 304 may carry no length but that of the 200; no length at all is safest, since
// some clients wait for the bytes that a length promises.
TEST(Server, WhatTheClientHasIsNotSentAgain) {
  RunningServer server;
  Wire first(server.port());
  ASSERT_TRUE(first.send(get(kCalendarPath)));
  const std::string tag = headers_of(first.answer())["etag"];
  for (const std::string& bytes : std::vector<std::string>{
           get(kCalendarPath, "If-None-Match: " + tag + "\r\n"),
           get(kCalendarPath, "IF-NONE-MATCH: " + tag + "\r\n"),
           get(kCalendarPath, "If-Modified-Since: Thu, 01 Jan 1970 00:00:00 GMT\r\n"),
           request("HEAD", kCalendarPath, "If-None-Match: " + tag + "\r\n"),
           "GET " + kCalendarPath + " HTTP/1.0\r\nIf-None-Match: " + tag + "\r\n\r\n"}) {
    SCOPED_TRACE(bytes);
    Wire wire(server.port());
    ASSERT_TRUE(wire.send(bytes));
    const std::string all = wire.rest();
    EXPECT_EQ(status_of(all), 304);
    EXPECT_EQ(body_of(all), "");
    EXPECT_TRUE(wire.closed());
    auto headers = headers_of(all);
    EXPECT_EQ(headers["etag"], tag);
    EXPECT_EQ(headers["connection"], "close");
    EXPECT_FALSE(headers.contains("content-length"));
    EXPECT_FALSE(headers.contains("transfer-encoding"));
  }
}

TEST(Server, HeadTellsTheLengthOfTheWhole) {
  RunningServer server;
  Wire wire(server.port());
  ASSERT_TRUE(wire.send(request("HEAD", kCalendarPath, "Connection: close\r\n")));
  const std::string all = wire.rest();
  EXPECT_EQ(status_of(all), 200);
  EXPECT_EQ(headers_of(all)["content-length"], std::to_string(kCalendarBytes.size()));
  EXPECT_EQ(body_of(all), "");
}

TEST(Server, RequestsSentTogetherAreAnsweredInOrder) {
  RunningServer server;
  Wire wire(server.port());
  ASSERT_TRUE(wire.send(get(kCalendarPath) + get("/nothing") + get("/" + kOpenToken + "/")));
  EXPECT_EQ(body_of(wire.answer()), kCalendarBytes);
  EXPECT_EQ(status_of(wire.answer()), 404);
  EXPECT_EQ(body_of(wire.answer()), "<!DOCTYPE html>\n");
}

TEST(Server, OldClientsAreAnsweredToo) {
  RunningServer server;
  Wire wire(server.port());
  ASSERT_TRUE(wire.send("GET " + kCalendarPath + " HTTP/1.0\r\n\r\n"));
  const std::string all = wire.rest();
  EXPECT_EQ(status_of(all), 200);
  EXPECT_EQ(body_of(all), kCalendarBytes);
}

TEST(Server, AnEndlessBodyIsCutOff) {
  RunningServer server;
  Wire wire(server.port());
  ASSERT_TRUE(wire.send(request("PUT", kCalendarPath, "Content-Length: 100000000000\r\n")));
  const std::string piece(8192, 'x');
  int pieces = 0;
  while (pieces < 10000 && wire.send(piece)) ++pieces;
  // 80 MB were on offer; what got out of our hands is the limit and the sockets' buffers.
  EXPECT_LT(pieces, 2000);
}

TEST(Server, WhatTheHandlerThrowsBecomesA500) {
  std::vector<std::string> troubles;
  Server server(
      {"127.0.0.1", 0}, [](const Request&) -> Response { throw 1; }, {},
      [&](std::string_view trouble) { troubles.emplace_back(trouble); });
  {
    const std::jthread thread([&](const std::stop_token& stop) { server.run(stop); });
    Wire wire(server.port());
    ASSERT_TRUE(wire.send(get("/secret")));
    const std::string answer = wire.answer();
    EXPECT_EQ(status_of(answer), 500);
    EXPECT_EQ(body_of(answer), "");
  }
  EXPECT_EQ(troubles,
            std::vector<std::string>{"connection trouble 1: our own mistake in answering"});
}

// The server closes first, so its port lingers in TIME_WAIT: the next one must get it all the same.
TEST(Server, StartsAgainAtOnceOnTheSamePort) {
  int port = 0;
  for (int round = 0; round < 5; ++round) {
    RunningServer server({}, port);
    port = server.port();
    Wire wire(port);
    ASSERT_TRUE(wire.send(get(kCalendarPath)));
    ASSERT_EQ(status_of(wire.answer()), 200) << round;
  }
}

TEST(Server, StopsPromptlyWhileClientsAreConnected) {
  std::vector<Wire> wires;
  const auto start = std::chrono::steady_clock::now();
  {
    RunningServer server;
    for (int i = 0; i < 10; ++i) {
      wires.emplace_back(server.port());
      ASSERT_TRUE(wires.back().send("GET /"));
    }
  }
  EXPECT_LT(std::chrono::steady_clock::now() - start, std::chrono::seconds{3});
  for (Wire& wire : wires) EXPECT_EQ(wire.rest(std::chrono::seconds{1}), "");
}

TEST(Server, APortInUseIsSaidSo) {
  const RunningServer first;
  const std::string where = "127.0.0.1:" + std::to_string(first.port());
  try {
    const Server second({"127.0.0.1", first.port()}, [](const Request&) { return Response{}; });
    FAIL() << "two servers on one port";
  } catch (const std::system_error& error) {
    EXPECT_EQ(error.code().value(), EADDRINUSE);
    EXPECT_EQ(error.what(), "cannot listen on " + where + ": Address already in use");
  }
}

// 192.0.2.0/24 is kept for documentation (RFC 5737): no machine has such an address.
TEST(Server, AForeignAddressIsSaidSo) {
  try {
    const Server server({"192.0.2.1", 0}, [](const Request&) { return Response{}; });
    FAIL() << "listens on a foreign address";
  } catch (const std::system_error& error) {
    EXPECT_STREQ(error.what(), "cannot listen on 192.0.2.1:0: Cannot assign requested address");
  }
}

TEST(Address, IsReadAndWritten) {
  const struct {
    const char* text;
    const char* host;
    int port;
    const char* again;
    bool loopback;
  } table[] = {{"127.0.0.1:8080", "127.0.0.1", 8080, "127.0.0.1:8080", true},
               {"localhost:80", "127.0.0.1", 80, "127.0.0.1:80", true},
               {"[::1]:8080", "::1", 8080, "[::1]:8080", true},
               {"[::]:0", "::", 0, "[::]:0", false},
               {"0.0.0.0:65535", "0.0.0.0", 65535, "0.0.0.0:65535", false},
               {"192.168.1.20:8080", "192.168.1.20", 8080, "192.168.1.20:8080", false}};
  for (const auto& row : table) {
    SCOPED_TRACE(row.text);
    const auto address = parse_address(row.text);
    ASSERT_TRUE(address);
    EXPECT_EQ(*address, (Address{row.host, row.port}));
    EXPECT_EQ(to_string(*address), row.again);
    EXPECT_EQ(is_loopback(*address), row.loopback);
  }
}

// RFC 6761 (localhost), RFC 1122 (127/8), RFC 4291 (::1).
TEST(Address, WhatNoOtherMachineCanFollow) {
  for (const char* url : {"http://127.0.0.1:8017", "http://127.3.2.1", "https://localhost/garden",
                          "http://localhost:80/", "http://[::1]", "http://[::1]:8017/garden"}) {
    EXPECT_TRUE(is_only_here(url)) << url;
  }
  for (const char* url : {"http://192.168.1.20:8017", "https://example.org/garden",
                          "https://example.org:444", "http://localhost.example.org",
                          "http://[2001:db8::1]:8017", "https://example.org/127.0.0.1:80"}) {
    EXPECT_FALSE(is_only_here(url)) << url;
  }
}

TEST(Address, OtherTextsAreNone) {
  for (const char* text : {"",
                           ":",
                           ":8080",
                           "8080",
                           "127.0.0.1",
                           "127.0.0.1:",
                           "127.0.0.1:65536",
                           "127.0.0.1:-1",
                           "127.0.0.1:80x",
                           "127.0.0.1: 80",
                           "::1:8080",
                           "[::1]",
                           "[127.0.0.1]:80",
                           "[]:80",
                           "[:80",
                           "example.org:80",
                           "256.0.0.1:80",
                           "127.1:80",
                           "[::g]:80",
                           "[[::1]]:80"}) {
    EXPECT_FALSE(parse_address(text)) << text;
  }
}

}  // namespace
}  // namespace trug::feed
