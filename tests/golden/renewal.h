// SPDX-License-Identifier: MIT
// What a renewed golden file says other than before, in a line to read and to put into a commit.
#pragma once

#include <string>
#include <string_view>

namespace trug::golden {

struct Difference {
  int moved = 0;           // jobs on another day
  double median_days = 0;  // of theirs, without sign
  int texts = 0;  // other lines that are new or worded otherwise; where none is, lines gone
  int fresh = 0;  // jobs that were not there
  int gone = 0;   // jobs that are not there any more

  bool operator==(const Difference&) const = default;
};

// Jobs are known in lists (a heading "May 2027", then days) by kind and planting, and in rows that
// hold a UID by that.
Difference difference(std::string_view before, std::string_view after);

// "3 jobs moved by median 2 days, 4 texts, 1 new, 0 gone"
std::string in_words(const Difference& difference);

}  // namespace trug::golden
