// SPDX-License-Identifier: MIT
// Quantities that must not be mixed up: a length is not a count of plants.
#pragma once

#include <compare>

namespace trug {

// A number with a meaning. Sums and differences of equals, scaling by a bare number, and the ratio
// of two equals; everything else does not compile (pinned by static_asserts in tests/base).
template <class Tag, class Rep>
class Quantity {
 public:
  constexpr Quantity() = default;
  constexpr explicit Quantity(Rep value) : value_(value) {}
  constexpr Rep value() const { return value_; }
  constexpr auto operator<=>(const Quantity&) const = default;
  constexpr Quantity operator+(Quantity other) const { return Quantity{value_ + other.value_}; }
  constexpr Quantity operator-(Quantity other) const { return Quantity{value_ - other.value_}; }
  constexpr Quantity operator*(Rep factor) const { return Quantity{value_ * factor}; }
  constexpr Quantity& operator+=(Quantity other) { return *this = *this + other; }
  constexpr double operator/(Quantity other) const {
    return static_cast<double>(value_) / static_cast<double>(other.value_);
  }

 private:
  Rep value_{};
};

// Lengths on the ground, in whole millimetres.
using Millimetres = Quantity<struct MillimetresTag, int>;

// The nearest whole centimetre, for people.
constexpr int whole_cm(Millimetres length) { return (length.value() + 5) / 10; }

}  // namespace trug
