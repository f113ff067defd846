// SPDX-License-Identifier: MIT
// What the commands print for people.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "ask/findings.h"
#include "climate/climate.h"
#include "garden/plan.h"
#include "garden/sheet.h"
#include "ground/schedule.h"
#include "harvest/weeks.h"
#include "show/style.h"

namespace trug::show {

// How far the dates can be trusted, said on every screen where it is not the usual: no
// temperatures. Empty: the usual.
std::string trust_note(const climate::Climate& climate);

// By crop: its cautions, a line each.
using CautionLines = std::map<std::string, std::vector<std::string>>;
// What stands below a list whose crops with cautions are marked; empty where there are none.
std::string caution_footer(const CautionLines& cautions, Style style);

// "plan.toml:12:9: broken: ...", worst first, then what holds.
std::string check_page(const Plan& plan, const ground::Schedule& schedule,
                       const std::vector<harvest::Week>& weeks,
                       const std::vector<ask::Finding>& findings, const climate::Climate& climate,
                       Style style);

// One line for a run whose product is something else: "2 broken, 1 short, 3 mild findings: ...".
std::string findings_line(const std::vector<ask::Finding>& findings, const std::string& file);

}  // namespace trug::show
