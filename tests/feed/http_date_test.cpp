// SPDX-License-Identifier: MIT
#include "feed/http_date.h"

#include <gtest/gtest.h>

#include <utility>

namespace trug::feed {
namespace {

using std::chrono::seconds;
using std::chrono::sys_seconds;

// The first is the example of RFC 9110, 5.6.7; the others are Python's email.utils.formatdate.
TEST(HttpDate, IsWrittenAndReadBack) {
  const std::pair<long long, const char*> table[] = {
      {784111777, "Sun, 06 Nov 1994 08:49:37 GMT"},  {0, "Thu, 01 Jan 1970 00:00:00 GMT"},
      {951782399, "Mon, 28 Feb 2000 23:59:59 GMT"},  {951782400, "Tue, 29 Feb 2000 00:00:00 GMT"},
      {4102444799, "Thu, 31 Dec 2099 23:59:59 GMT"},
  };
  for (const auto& [count, text] : table) {
    const sys_seconds moment{seconds{count}};
    EXPECT_EQ(http_date(moment), text);
    EXPECT_EQ(parse_http_date(text), moment);
  }
}

TEST(HttpDate, EveryDayOfAHundredYearsComesBack) {
  for (int day = 0; day < 36525; ++day) {
    const sys_seconds moment = std::chrono::sys_days{std::chrono::days{day}} + seconds{day};
    ASSERT_EQ(parse_http_date(http_date(moment)), moment) << day;
  }
}

TEST(HttpDate, OtherTextsAreNoDate) {
  for (const char* text :
       {"", "Sunday, 06-Nov-94 08:49:37 GMT", "Sun Nov  6 08:49:37 1994",  // RFC 9110's old forms
        "Mon, 06 Nov 1994 08:49:37 GMT", "Sun, 06 Nov 1994 08:49:37 UTC",
        "Sun, 06 nov 1994 08:49:37 GMT", "Sun, 6 Nov 1994 08:49:37 GMT ",
        "Sun, 06 Nov 1994 24:49:37 GMT", "Sun, 06 Nov 1994 08:60:37 GMT",
        "Sun, 06 Nov 1994 08:49:61 GMT", "Tue, 30 Feb 1999 08:49:37 GMT",
        "Sun, -6 Nov 1994 08:49:37 GMT", "Sun, 06 Nov 1994 -8:49:37 GMT",
        "Sun, 06 Nov 1994 08:49:37 GMT, and more", "Sun, 00 Nov 1994 08:49:37 GMT",
        "xxxxxxxxxxxxxxxxxxxxxxxxxxxxx"}) {
    EXPECT_EQ(parse_http_date(text), std::nullopt) << text;
  }
}

}  // namespace
}  // namespace trug::feed
