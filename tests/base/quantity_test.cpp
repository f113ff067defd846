// SPDX-License-Identifier: MIT
#include "base/quantity.h"

#include <gtest/gtest.h>

#include <concepts>

namespace trug {
namespace {

using Stems = Quantity<struct StemsTag, int>;

template <class A, class B>
concept Addable = requires(A a, B b) {
  a + b;
};
template <class A, class B>
concept Comparable = requires(A a, B b) {
  a < b;
};
template <class A, class B>
concept Multipliable = requires(A a, B b) {
  a* b;
};

static_assert(Addable<Millimetres, Millimetres>);
static_assert(!Addable<Millimetres, Stems>);
static_assert(!Addable<Millimetres, int>);
static_assert(!Addable<int, Millimetres>);
static_assert(Comparable<Millimetres, Millimetres>);
static_assert(!Comparable<Millimetres, Stems>);
static_assert(!Comparable<Millimetres, int>);
static_assert(Multipliable<Millimetres, int>);
static_assert(!Multipliable<Millimetres, Millimetres>);
static_assert(!std::convertible_to<int, Millimetres>);
static_assert(!std::convertible_to<Millimetres, int>);
static_assert(sizeof(Millimetres) == sizeof(int));

TEST(Quantity, AddsScalesAndDivides) {
  Millimetres length = Millimetres{800} + Millimetres{1200};
  length += Millimetres{500};
  EXPECT_EQ(length, Millimetres{2500});
  EXPECT_EQ(length - Millimetres{2500}, Millimetres{});
  EXPECT_EQ(Millimetres{300} * 3, Millimetres{900});
  EXPECT_DOUBLE_EQ(Millimetres{5000} / Millimetres{2000}, 2.5);
}

}  // namespace
}  // namespace trug
