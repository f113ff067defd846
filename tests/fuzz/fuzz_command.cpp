// SPDX-License-Identifier: MIT
// A command line, one word a line. Commands that only print are run; of the others the line is
// read.
#include <algorithm>
#include <cstdint>
#include <sstream>

#include "app/options.h"
#include "whole_program.h"

namespace {

constexpr const char* kPlan = R"(flowering_year = 2027
title = "Tannery yard"
[place]
latitude = 52
last_frost = "12 May"
first_frost = "18 October"
frost_meaning = "garden"
[[bed]]
name = "sunken bed"
length_m = 2.7
width_m = 1.1
[[bed.stretch]]
length_m = 1.2
crops = ["cornflower"]
)";

std::vector<std::string> words_of(const std::string& text) {
  std::vector<std::string> words;
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) words.push_back(line);
  return words;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto words = words_of(std::string(reinterpret_cast<const char*>(data), size));
  // No argument of a process can hold a NUL.
  if (std::ranges::any_of(
          words, [](const std::string& word) { return word.find('\0') != std::string::npos; })) {
    return 0;
  }
  std::ostringstream out, err;
  const trug::app::ParsedOptions parsed =
      trug::app::parse_options(words, trug::make_date(2026, 8, 3), out, err);
  const std::string command = parsed.options ? parsed.options->command : "";
  const bool writes = command == "calendar" || command == "chart" || command == "feed";
  if (writes) return 0;
  trug::fuzz::run({{"plan.toml", kPlan}, {"daily.csv", "date,tmin\n2026-01-01,-3\n"}}, words);
  return 0;
}
