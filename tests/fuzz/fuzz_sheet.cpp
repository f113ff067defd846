// SPDX-License-Identifier: MIT
// The text of a crop sheet, to every output of a plan that grows the crop.
#include <fmt/format.h>

#include <cstdint>

#include "read/sheet_reader.h"
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
[[bed]]
name = "sunken bed"
length_m = 2.7
width_m = 1.1
[[bed.stretch]]
length_m = 1.2
crops = ["{}"]
)";

// The crop's name, that the file and the plan are to have; that of some crop where there is none.
std::string name_in(const std::string& text) {
  trug::Diagnostics diagnostics;
  const auto sheet = trug::read::read_sheet(text, "", diagnostics);
  const bool plain = sheet && sheet->name.find_first_of("\"\\") == std::string::npos;
  return plain ? sheet->name : "cosmos";
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(reinterpret_cast<const char*>(data), size);
  const std::string name = name_in(text);
  const std::string file = name + ".toml";
  trug::fuzz::every_output({{"plan.toml", fmt::format(kPlan, name)}, {"crops/" + file, text}},
                           "plan.toml");
  trug::fuzz::run({{"sheets/" + file, text}}, {"crop", "--check", "sheets"});
  trug::fuzz::run({{"sheets/" + file, text}}, {"crop", name, "--crops", "sheets"});
  return 0;
}
