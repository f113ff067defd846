// SPDX-License-Identifier: MIT
// Machine-readable output. Additions keep a format's number, removals and new meanings raise it.
#pragma once

#include <string>
#include <vector>

#include "ask/findings.h"
#include "base/diagnostics.h"
#include "garden/plan.h"
#include "ground/schedule.h"
#include "show/document_head.h"
#include "show/job_words.h"

namespace trug::show {

// One plan with all that was reckoned for it.
struct Reckoned {
  const Plan& plan;
  const ground::Schedule& schedule;
  const std::vector<ask::Finding>& findings;
  const std::vector<JobRow>& rows;
};

std::string jobs_json(const DocumentHead& head, const Reckoned& reckoned,
                      const std::vector<std::size_t>& shown);
std::string check_json(const DocumentHead& head, const Reckoned& reckoned);
// Bad input: the same document with its errors and nothing else.
std::string errors_json(const DocumentHead& head, const std::vector<Diagnostic>& errors);

// The jobs' fields as comma-separated values (RFC 4180), a header line first.
std::string jobs_csv(const Reckoned& reckoned, const std::vector<std::size_t>& shown);

}  // namespace trug::show
