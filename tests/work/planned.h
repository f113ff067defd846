// SPDX-License-Identifier: MIT
// A plan's text reckoned through to its jobs, for tests.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "ask/reckon.h"
#include "read/sheet_library.h"

namespace trug {

struct Planned {
  std::unique_ptr<read::SheetLibrary> all_sheets = std::make_unique<read::SheetLibrary>();
  Plan plan;
  ground::Sheets sheets;
  ground::Schedule schedule;
  std::vector<harvest::Week> weeks;
  std::vector<ground::Finding> findings;
  std::vector<work::Job> jobs;

  const ground::Finding* finding(ground::FindingCode code) const;
  std::vector<const work::Job*> of_kind(work::JobKind kind) const;
};

// `head` goes above [place] (its own keys) and `beds` below it: lowland England near the sea, last
// garden frost 15 May, first 15 October (memory).
Planned planned(const std::string& head, const std::string& beds);

}  // namespace trug
