// SPDX-License-Identifier: MIT
// What a job says, in sentences.
#pragma once

#include <string>
#include <string_view>

#include "show/job_phrases.h"

namespace trug::show {

// "Cut back {}": the job's title, with the crop's name in the place of the braces.
std::string_view title_pattern(const Subject& of);
// What to do, and its sign.
std::string what_to_do(const Subject& of);
// That, until when it is right, and what was noted of it.
std::string job_text(const Subject& of);

}  // namespace trug::show
