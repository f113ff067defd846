// SPDX-License-Identifier: MIT
#include "read/units.h"

#include <gtest/gtest.h>

namespace trug::read {
namespace {

// 1 ft = 0.3048 m and 1 in = 25.4 mm exactly (international yard and pound agreement, 1959).
TEST(Units, LengthsBecomeMillimetres) {
  const struct {
    const char* text;
    int millimetres;
  } rows[] = {{"length_m = 5", 5000},     {"length_m = 0.8", 800},  {"length_cm = 120", 1200},
              {"length_ft = 16.4", 4999}, {"length_ft = 10", 3048}, {"length_in = 12", 305},
              {"length_cm = 0.1", 1}};
  for (const auto& row : rows) {
    SCOPED_TRACE(row.text);
    Diagnostics diagnostics;
    auto table = TomlTable::parse(row.text, "p", diagnostics);
    ASSERT_TRUE(table);
    EXPECT_EQ(read_length(*table, "length", Millimetres{10000}, required()),
              Millimetres{row.millimetres});
    EXPECT_TRUE(diagnostics.empty());
  }
}

// 0 degC = 32 degF and 100 degC = 212 degF by definition; -40 is the same in both.
TEST(Units, TemperaturesBecomeCelsius) {
  const struct {
    const char* text;
    double celsius;
  } rows[] = {
      {"warm_c = 16", 16}, {"warm_f = 32", 0}, {"warm_f = 212", 100}, {"warm_f = -40", -40}};
  for (const auto& row : rows) {
    SCOPED_TRACE(row.text);
    Diagnostics diagnostics;
    auto table = TomlTable::parse(row.text, "p", diagnostics);
    ASSERT_TRUE(table);
    const auto value = read_celsius(*table, "warm", {-60, 120});
    ASSERT_TRUE(value);
    EXPECT_NEAR(*value, row.celsius, 1e-9);
  }
}

TEST(Units, SpacingsBecomeCentimetres) {
  Diagnostics diagnostics;
  auto table = TomlTable::parse("spacing_in = 9", "p", diagnostics);
  ASSERT_TRUE(table);
  EXPECT_NEAR(read_spacing_cm(*table, "spacing", {1, 500}).value_or(0), 22.86, 1e-9);
}

TEST(Units, LengthsAreSaidInMetres) {
  EXPECT_EQ(in_metres(Millimetres{800}), "0.8 m");
  EXPECT_EQ(in_metres(Millimetres{5000}), "5 m");
  EXPECT_EQ(in_metres(Millimetres{4999}), "4.999 m");
}

}  // namespace
}  // namespace trug::read
