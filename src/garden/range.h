// SPDX-License-Identifier: MIT
#pragma once

namespace trug {

// A figure the trade gives as a span; low == high where it gives one number.
struct Range {
  double low = 0;
  double high = 0;
  double middle() const { return (low + high) / 2; }
  bool operator==(const Range&) const = default;
};

}  // namespace trug
