// SPDX-License-Identifier: MIT
// What a job says, in sentences.
#pragma once

#include <string>

#include "show/job_phrases.h"

namespace trug::show {

// What to do, and its sign.
std::string what_to_do(const Subject& of);
// That, until when it is right, and what was noted of it.
std::string job_text(const Subject& of);

}  // namespace trug::show
