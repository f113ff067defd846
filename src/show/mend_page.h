// SPDX-License-Identifier: MIT
// What to add to a plan for the weeks that go short.
#pragma once

#include <string>
#include <vector>

#include "ask/mend.h"
#include "show/document_head.h"
#include "show/json.h"
#include "show/style.h"

namespace trug::show {

// A plan as it was, what came of it, and what is to be added.
struct MendFacts {
  const Plan& plan;
  const std::vector<harvest::Week>& weeks;
  const ask::Mended& mended;
};

std::string mend_page(const MendFacts& facts, Style style);
// "trug.mend/1".
std::string mend_json(const DocumentHead& head, const Reckoned& reckoned, const MendFacts& facts);

}  // namespace trug::show
