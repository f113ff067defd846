// SPDX-License-Identifier: MIT
// A table of daily minima and maxima, to its frosts in all forms and to a plan that has it as
// weather.
#include <cstdint>

#include "whole_program.h"

namespace {

constexpr const char* kPlan = R"(flowering_year = 2027
title = "Tannery yard"
garden = "5d1c9a70-3c0e-4f0e-8a39-0c6b1f6f2a11"
[place]
latitude = 52
last_frost = "12 May"
first_frost = "18 October"
frost_meaning = "garden"
mean_c = [3.2, 3.6, 6.1, 9.2, 12.9, 15.8, 17.7, 17.3, 14.4, 10.7, 6.8, 4.0]
weather = "daily.csv"
[[bed]]
name = "sunken bed"
length_m = 2.7
width_m = 1.1
[[bed.stretch]]
length_m = 1.2
crops = ["cornflower"]
)";

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(reinterpret_cast<const char*>(data), size);
  const trug::fuzz::Files files{{"plan.toml", kPlan}, {"daily.csv", text}};
  trug::fuzz::run(files, {"frost", "daily.csv"});
  trug::fuzz::run(files, {"frost", "daily.csv", "--json", "--south", "--unit", "f"});
  trug::fuzz::run(files, {"frost", "daily.csv", "--place", "--latitude", "52", "--years", "0"});
  trug::fuzz::every_output(files, "plan.toml");
  return 0;
}
