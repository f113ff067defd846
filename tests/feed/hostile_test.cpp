// SPDX-License-Identifier: MIT
// Many, slow, broken and prying clients. Each test ends within 15 seconds.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <random>

#include "feed/wire.h"

namespace trug::feed {
namespace {

using std::chrono::milliseconds;
using std::chrono::steady_clock;

// Freed memory is held back there, so that it may be looked at: its amount says nothing.
#ifdef __SANITIZE_ADDRESS__
#define SKIP_UNDER_SANITIZER() GTEST_SKIP() << "memory is not measured under the sanitizer"
#else
#define SKIP_UNDER_SANITIZER() static_cast<void>(0)
#endif

// Asks `count` times, each on a connection of its own; how often the calendar came whole.
int answered(int port, int count, milliseconds patience = milliseconds{2000}) {
  int good = 0;
  for (int i = 0; i < count; ++i) {
    Wire wire(port, "127.0.0.3");
    if (!wire.connected() || !wire.send(get(kCalendarPath))) continue;
    const std::string answer = wire.answer(true, patience);
    if (status_of(answer) == 200 && body_of(answer) == kCalendarBytes) ++good;
  }
  return good;
}

// Connections that send the head of a request, one byte a second each, and never end it.
class Drippers {
 public:
  Drippers(int port, int count, const std::string& from) {
    for (int i = 0; i < count; ++i) {
      wires_.emplace_back(port, from);
      if (wires_.back().connected()) wires_.back().send("GET /");
    }
    thread_ = std::jthread([this](const std::stop_token& stop) {
      for (std::size_t next = 0; !stop.stop_requested();) {
        const std::size_t batch = std::max<std::size_t>(1, wires_.size() / 20);
        for (std::size_t i = 0; i < batch; ++i, next = (next + 1) % wires_.size()) {
          if (wires_[next].connected()) wires_[next].send("x");
        }
        std::this_thread::sleep_for(milliseconds{50});
      }
    });
  }
  // How many the server still holds. Ends the dripping.
  int held() {
    thread_ = {};
    return static_cast<int>(std::ranges::count_if(
        wires_, [](Wire& wire) { return wire.connected() && !wire.closed(); }));
  }

 private:
  std::vector<Wire> wires_;
  std::jthread thread_;
};

TEST(Hostile, AHundredIdleClientsAreAllAnswered) {
  RunningServer server;
  const auto start = steady_clock::now();
  std::vector<Wire> wires;
  for (int i = 0; i < 100; ++i) {
    wires.emplace_back(server.port(), "127.0.0." + std::to_string(10 + i / 10));
  }
  for (Wire& wire : wires) ASSERT_TRUE(wire.send(get(kCalendarPath)));
  int good = 0;
  for (Wire& wire : wires) good += body_of(wire.answer()) == kCalendarBytes ? 1 : 0;
  EXPECT_EQ(good, 100);
  // All are still connected and idle; all may ask again.
  for (Wire& wire : wires) ASSERT_TRUE(wire.send(get(kCalendarPath)));
  for (Wire& wire : wires) good += body_of(wire.answer()) == kCalendarBytes ? 1 : 0;
  EXPECT_EQ(good, 200);
  EXPECT_LT(steady_clock::now() - start, std::chrono::seconds{10});
}

TEST(Hostile, FiveHundredDrippersFromOneAddressHinderNobody) {
  RunningServer server;
  Drippers drippers(server.port(), 500, "127.0.0.2");
  int good = 0;
  for (int i = 0; i < 100; ++i) {
    good += answered(server.port(), 1);
    std::this_thread::sleep_for(milliseconds{40});
  }
  EXPECT_EQ(good, 100);
  EXPECT_EQ(drippers.held(), 16);
}

// The counter-proof: it is the limit per address that holds them off, and they do bite without it.
TEST(Hostile, WithoutTheLimitPerAddressDrippersTakeAllPlaces) {
  RunningServer server({.connections = 32, .per_address = 0});
  Drippers drippers(server.port(), 100, "127.0.0.2");
  EXPECT_EQ(answered(server.port(), 3, milliseconds{500}), 0);
}

TEST(Hostile, SilentClientsAreSentAway) {
  RunningServer server({.silent_seconds = 1});
  const auto start = steady_clock::now();
  Wire silent(server.port());
  Wire half(server.port());
  Wire idle(server.port());
  ASSERT_TRUE(half.send("GET " + kCalendarPath + " HTTP/1.1\r\nHost: loc"));
  ASSERT_TRUE(idle.send(get(kCalendarPath)));
  EXPECT_EQ(status_of(idle.answer()), 200);
  for (Wire* wire : {&silent, &half, &idle}) {
    wire->rest(milliseconds{5000});
    EXPECT_TRUE(wire->closed());
  }
  EXPECT_LT(steady_clock::now() - start, std::chrono::seconds{5});
}

TEST(Hostile, ClientsThatNeverReadHinderNobody) {
  RunningServer server;
  std::vector<Wire> wires;
  for (int i = 0; i < 16; ++i) {
    wires.emplace_back(server.port(), "127.0.0.2");
    std::string requests;
    for (int j = 0; j < 50; ++j) requests += get(kCalendarPath);  // 5 MB in answers each
    wires.back().send(requests.substr(0, 8000));
  }
  EXPECT_EQ(answered(server.port(), 50), 50);
}

TEST(Hostile, RandomBytesHurtNobody) {
  RunningServer server;
  std::mt19937 random(20270514);
  int refused = 0;
  for (int i = 0; i < 500; ++i) {
    std::string bytes(1 + random() % 4096, '\0');
    for (char& byte : bytes) byte = static_cast<char>(random() & 0xff);
    if (i % 2 == 0) bytes = "GET " + bytes;
    if (i % 3 == 0) bytes += "\r\n\r\n";
    Wire wire(server.port(), "127.0.1." + std::to_string(1 + i % 200));
    ASSERT_TRUE(wire.connected());
    wire.send(bytes);
    const int status = status_of(wire.answer(true, milliseconds{15}));
    refused += status >= 400 ? 1 : 0;
    EXPECT_NE(status, 200);
  }
  EXPECT_GT(refused, 50);  // else the bytes never got as far as being read
  EXPECT_EQ(answered(server.port(), 10), 10);
}

// A good request with one to three bytes changed, added or taken away: an answer or a closed
// connection, and never a 5xx.
TEST(Hostile, SlightlyBrokenRequestsAreRefusedOrAnswered) {
  RunningServer server;
  std::mt19937 random(7);
  std::map<int, int> seen;
  for (int i = 0; i < 1000; ++i) {
    std::string bytes = get(kCalendarPath, "If-None-Match: \"x\"\r\nAccept: text/calendar\r\n");
    for (unsigned change = 0; change < 1 + random() % 3; ++change) {
      const std::size_t at = random() % bytes.size();
      const auto byte = static_cast<char>(random() & 0xff);
      if (random() % 3 == 0) {
        bytes.erase(at, 1);
      } else if (random() % 2 == 0) {
        bytes.insert(at, 1, byte);
      } else {
        bytes[at] = byte;
      }
    }
    Wire wire(server.port(), "127.0.1." + std::to_string(1 + i % 200));
    ASSERT_TRUE(wire.connected());
    wire.send(bytes);
    const int status = status_of(wire.answer(true, milliseconds{15}));
    EXPECT_TRUE(status < 500 || status == 505) << status << " for " << bytes;
    ++seen[status];
  }
  EXPECT_GT(seen[200], 100);  // both kinds were among them
  EXPECT_GT(seen[404], 100);
  EXPECT_EQ(answered(server.port(), 10), 10);
}

TEST(Hostile, HugeHeadsAreRefused) {
  RunningServer server;
  const struct {
    const char* name;
    std::string bytes;
  } table[] = {
      {"a path of 64 kB", get("/" + std::string(65536, 'a'))},
      {"a header of 64 kB", get(kCalendarPath, "X-Long: " + std::string(65536, 'a') + "\r\n")},
      {"a header name of 64 kB", get(kCalendarPath, std::string(65536, 'a') + ": x\r\n")},
      {"a method of 64 kB", std::string(65536, 'G') + " / HTTP/1.1\r\n\r\n"},
      {"a megabyte without a line break", std::string(1 << 20, 'a')},
      {"an If-None-Match of 64 kB",
       get(kCalendarPath, "If-None-Match: " + std::string(65536, ',') + "\r\n")},
  };
  for (const auto& row : table) {
    SCOPED_TRACE(row.name);
    Wire wire(server.port());
    wire.send(row.bytes);
    const int status = status_of(wire.answer(true, milliseconds{1000}));
    // 0: the connection was closed, or reset before its answer could be read.
    EXPECT_TRUE(status == 0 || (status >= 400 && status < 500)) << status;
  }
  std::string many;
  for (int i = 0; i < 3000; ++i) many += "X-" + std::to_string(i) + ": y\r\n";
  Wire wire(server.port());
  wire.send(get(kCalendarPath, many));
  EXPECT_NE(status_of(wire.rest(milliseconds{500})), 200);
  EXPECT_EQ(answered(server.port(), 10), 10);
}

TEST(Hostile, TricksWithPathsLeadNowhere) {
  RunningServer server;
  const std::string open = "/" + kOpenToken;
  for (const std::string& path : std::vector<std::string>{"/../../../../etc/passwd",
                                                          "/..%2f..%2f..%2fetc%2fpasswd",
                                                          open + "/../../etc/passwd",
                                                          open + "/%2e%2e/%2e%2e/etc/passwd",
                                                          open + "/calendar.ics%00",
                                                          open + "/calendar.ics%00.html",
                                                          open + "/%63alendar.ics",
                                                          open + "//calendar.ics",
                                                          open + "/./calendar.ics",
                                                          open + "%2fcalendar.ics",
                                                          open + "/..;/calendar.ics",
                                                          "//" + kOpenToken + "/calendar.ics",
                                                          "/%",
                                                          "/%z",
                                                          "/%c0%af",
                                                          "/proc/self/environ",
                                                          "http://localhost" + kCalendarPath,
                                                          "file://" + kCalendarPath,
                                                          "*",
                                                          "/\\..\\..\\windows",
                                                          open + "/CALENDAR.ICS",
                                                          open + "/calendar.ics/."}) {
    SCOPED_TRACE(path);
    Wire wire(server.port());
    ASSERT_TRUE(wire.send(get(path)));
    EXPECT_EQ(status_of(wire.answer()), 404);
  }
}

// RFC 9112, 3.2 and 5.1. A NUL in the path or in a value is out of our sight: the library ends it
// there, and what stands before it opens what it opens anyway.
TEST(Hostile, HeadsThatTheStandardForbidsAreRefused) {
  RunningServer server;
  const std::string line = "GET " + kCalendarPath + " HTTP/1.1\r\n";
  const struct {
    const char* name;
    std::string bytes;
    int status;
  } table[] = {
      {"no host", line + "\r\n", 400},
      {"two hosts", line + "Host: a\r\nHost: b\r\n\r\n", 400},
      {"a blank before the colon", line + "Host : a\r\n\r\n", 400},
      {"one elsewhere", line + "Host: a\r\nAccept : x\r\n\r\n", 400},
      {"a tab there", line + "Host: a\r\nAccept\t: x\r\n\r\n", 400},
      {"an empty host is one", line + "Host:\r\n\r\n", 200},
      {"an older client names none", "GET " + kCalendarPath + " HTTP/1.0\r\n\r\n", 200},
      {"one host", line + "Host: a\r\n\r\n", 200},
  };
  for (const auto& row : table) {
    SCOPED_TRACE(row.name);
    Wire wire(server.port());
    ASSERT_TRUE(wire.send(row.bytes));
    const std::string answer = wire.answer();
    EXPECT_EQ(status_of(answer), row.status);
    if (row.status != 400) continue;
    EXPECT_EQ(answer.find("BEGIN:VCALENDAR"), std::string::npos);
    wire.rest(milliseconds{1000});
    EXPECT_TRUE(wire.closed()) << "what follows is not to be trusted";
  }
}

// Smuggling needs two readings of one request; such requests must not leave a second one behind.
TEST(Hostile, TwoReadingsOfOneRequestAreNotOffered) {
  RunningServer server;
  const std::string hidden = get("/" + kOpenToken + "/");
  for (const std::string& headers : std::vector<std::string>{
           "Content-Length: " + std::to_string(hidden.size()) + "\r\nContent-Length: 0\r\n",
           "Content-Length: 0\r\nContent-Length: " + std::to_string(hidden.size()) + "\r\n",
           "Content-Length: 0\r\nTransfer-Encoding: chunked\r\n",
           "Transfer-Encoding: chunked\r\nContent-Length: 0\r\n", "Content-Length: 4, 5\r\n",
           "Content-Length: -1\r\n", "Content-Length: 99999999999999999999999\r\n",
           "Transfer-Encoding: chunked\r\nTransfer-Encoding: x\r\n"}) {
    SCOPED_TRACE(headers);
    Wire wire(server.port());
    ASSERT_TRUE(wire.send(get(kCalendarPath, headers) + hidden));
    const std::string all = wire.rest(milliseconds{300});
    // Whatever is answered, the bytes after the head are not answered as another request.
    EXPECT_EQ(all.find("<!DOCTYPE html>\n"), std::string::npos);
  }
}

TEST(Hostile, TenThousandWrongLinksLeaveMemoryFlat) {
  SKIP_UNDER_SANITIZER();
  RunningServer server;
  std::mt19937 random(1);
  const auto wrong_path = [&] {
    std::array<std::uint8_t, 32> bytes{};
    for (auto& byte : bytes) byte = static_cast<std::uint8_t>(random());
    return std::string("/").append(make_token(bytes)).append("/calendar.ics");
  };
  const auto ask = [&](int count) {
    int refused = 0;
    for (int asked = 0; asked < count;) {
      Wire wire(server.port());
      for (int i = 0; i < 100; ++i, ++asked) {
        if (!wire.send(get(wrong_path()))) break;
        refused += status_of(wire.answer()) == 404 ? 1 : 0;
      }
    }
    return refused;
  };
  EXPECT_EQ(ask(1000), 1000);
  const long long before = resident_bytes();
  EXPECT_EQ(ask(10000), 10000);
  EXPECT_LT(resident_bytes() - before, 2'000'000);
}

TEST(Hostile, ThreeThousandCalendarsLeaveMemoryFlat) {
  SKIP_UNDER_SANITIZER();
  RunningServer server;
  const auto ask = [&](int count) {
    int good = 0;
    for (int i = 0; i < count;) {
      Wire wire(server.port());
      for (int j = 0; j < 100; ++j, ++i) {
        if (!wire.send(get(kCalendarPath))) break;
        good += body_of(wire.answer()) == kCalendarBytes ? 1 : 0;
      }
    }
    return good;
  };
  EXPECT_EQ(ask(300), 300);
  const long long before = resident_bytes();
  EXPECT_EQ(ask(3000), 3000);
  EXPECT_LT(resident_bytes() - before, 2'000'000);
}

// Broken clients in their hundreds: few lines, and nothing of what they asked for in them.
TEST(Hostile, TroublesAreToldSparinglyAndWithoutSecrets) {
  RunningServer server;
  for (int i = 0; i < 300; ++i) {
    Wire wire(server.port());
    wire.send("GET " + kCalendarPath + " HTTP/1.1\r\n" + kOpenToken + ": " + kOpenToken +
              std::string(20000, 'a'));
    wire.rest();
  }
  const auto troubles = server.troubles();
  ASSERT_GE(troubles.size(), 1U);
  EXPECT_EQ(troubles[0],
            "connection trouble 1: a request could not be read as plain HTTP and was refused; for "
            "https put a proxy in front");
  EXPECT_LE(troubles.size(), 12U);  // 1, 2, 4 ... 2048
  for (const std::string& trouble : troubles) {
    EXPECT_EQ(trouble.find(kOpenToken), std::string::npos) << trouble;
    EXPECT_TRUE(trouble.starts_with("connection trouble ")) << trouble;
  }
}

}  // namespace
}  // namespace trug::feed
