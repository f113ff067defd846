// SPDX-License-Identifier: MIT
// What a daily record tells of its frosts, for programs.
#pragma once

#include <string>

#include "show/document_head.h"
#include "show/frost_report.h"

namespace trug::show {

// "trug.frost/1". Days of the year are "MM-DD".
std::string frost_json(const DocumentHead& head, const FrostReport& report);

}  // namespace trug::show
