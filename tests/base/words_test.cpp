// SPDX-License-Identifier: MIT
#include "base/words.h"

#include <gtest/gtest.h>

namespace trug {
namespace {

enum class Mood { Calm, Merry, Cross };
constexpr Word<Mood> kMoods[] = {
    {Mood::Calm, "calm"}, {Mood::Merry, "merry"}, {Mood::Cross, "cross"}};
constexpr Word<Mood> kTooFew[] = {{Mood::Calm, "calm"}, {Mood::Merry, "merry"}};
constexpr Word<Mood> kTwice[] = {
    {Mood::Calm, "calm"}, {Mood::Merry, "merry"}, {Mood::Merry, "cross"}};
constexpr Word<Mood> kEmpty[] = {{Mood::Calm, "calm"}, {Mood::Merry, ""}, {Mood::Cross, "cross"}};

// What a table beside an enumeration asserts, and what it would notice.
static_assert(names_all(kMoods));
static_assert(!names_all(kTooFew));
static_assert(!names_all(kTwice));
static_assert(!names_all(kEmpty));

TEST(Words, GiveEachValueItsWord) {
  for (const auto& [mood, word] : kMoods) EXPECT_EQ(word_of(kMoods, mood), word);
}

}  // namespace
}  // namespace trug
