// SPDX-License-Identifier: MIT
// What is written after an option, as values. What is no such value throws the library's error,
// which names the option and what would be right.
#pragma once

#include <chrono>
#include <string>
#include <vector>

#include "feed/address.h"
#include "garden/sheet.h"
#include "read/daily_csv.h"
#include "work/job_kinds.h"

namespace trug::app {

// "192.168.1.20:8017", of --listen.
feed::Address parse_listen_option(const std::string& text);
// "https://example.org/garden", of --url.
std::string parse_url_option(const std::string& text);
// The kinds of job that a word of --only stands for, one at least.
std::vector<work::JobKind> parse_kinds_option(const std::string& text);
// "May", "5" or "sep", of --month.
std::chrono::month parse_month_option(const std::string& text);
// Of --life: empty, or what is wrong with it.
std::string parse_life(const std::string& text);
// Of --role, a word of a role.
Role role_of(const std::string& word);
// Of --unit: "c", "f" or "tenths".
read::DegreeUnit unit_of(const std::string& word);

}  // namespace trug::app
