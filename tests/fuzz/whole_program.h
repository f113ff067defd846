// SPDX-License-Identifier: MIT
// The whole program on files in memory, for input of any kind: what must hold whatever it is fed.
#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace trug::fuzz {

using Files = std::map<std::string, std::string>;

// Runs one command at a fixed moment; calendars and pictures go to a folder of this process. Aborts
// where the program calls something a defect of its own, ends with a code it does not know, or says
// what could act on a terminal.
struct Answer {
  int exit = 0;
  std::string out;
};
Answer run(const Files& files, const std::vector<std::string>& words);

// The path of a file in that folder.
std::string output(const std::string& name);
void write_output(const std::string& name, std::string_view bytes);
std::string read_output(const std::string& name);
void remove_output(const std::string& name);

// Every output of a plan: findings, jobs in all forms, the reckoning of a planting, the picture,
// the feed's page, both kinds of calendar, each written twice: the second time nothing may change.
// Without `try_all` one of them, which one the files decide. Plans that take long are left out.
void every_output(const Files& files, const std::string& plan);

// Aborts with a message unless `held`.
void require(bool held, std::string_view what);

// Whether every output is made, as it is of inputs that are kept; a fuzzer makes one of each.
extern bool try_all;

}  // namespace trug::fuzz
