// SPDX-License-Identifier: MIT
// Many clients at once while calendar and links change under them: run under ThreadSanitizer by
// tests/threads.sh.
#include <gtest/gtest.h>

#include <atomic>

#include "feed/wire.h"

namespace trug::feed {
namespace {

// Asks on one connection until told to stop, or the server closes it.
struct Tally {
  std::atomic<int> whole = 0, gone = 0, broken = 0;
};

void ask_until(const std::atomic<bool>& stop, int port, const std::string& from, Tally& tally) {
  while (!stop) {
    Wire wire(port, from);
    for (int i = 0; i < 20 && !stop && wire.connected(); ++i) {
      if (!wire.send(get(i % 4 == 3 ? "/" + kOpenToken + "/" : kCalendarPath))) break;
      const std::string answer = wire.answer();
      const int status = status_of(answer);
      if (status == 410) {
        ++tally.gone;
      } else {
        const bool whole =
            status == 200 && !body_of(answer).empty() &&
            headers_of(answer)["content-length"] == std::to_string(body_of(answer).size());
        ++(whole ? tally.whole : tally.broken);
      }
    }
  }
}

TEST(Load, EveryAnswerIsWholeWhileCalendarAndLinksChange) {
  RunningServer server;
  std::atomic<bool> stop = false;
  Tally tally;
  {
    std::vector<std::jthread> clients;
    for (int i = 0; i < 6; ++i) {
      clients.emplace_back(
          [&, i] { ask_until(stop, server.port(), "127.0.0." + std::to_string(10 + i), tally); });
    }
    for (int change = 0; change < 300; ++change) {
      const std::string size(static_cast<std::size_t>(change % 7) * 1000, 'x');
      server.site.publish({"BEGIN:VCALENDAR\r\n" + size, "<!DOCTYPE html>\n" + size, "", "", {}});
      const LinkState state = change % 5 == 4 ? LinkState::Revoked : LinkState::Active;
      server.site.set_links({{token_hash(kOpenToken), state}});
      std::this_thread::sleep_for(std::chrono::milliseconds{5});
    }
    stop = true;
  }
  EXPECT_EQ(tally.broken, 0);
  EXPECT_GT(tally.whole, 100);
  EXPECT_GT(tally.gone, 0);
}

}  // namespace
}  // namespace trug::feed
