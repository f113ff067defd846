// SPDX-License-Identifier: MIT
// A plan's text reckoned through to its jobs, for tests.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "ask/reckon.h"
#include "read/sheet_library.h"

namespace trug {

struct Planned : ask::Outcome {
  std::unique_ptr<read::SheetLibrary> all_sheets = std::make_unique<read::SheetLibrary>();
  Plan plan;
  ground::Sheets sheets;
  std::optional<climate::Climate> climate;  // of averages
  std::optional<MeasuredWeather> weather;

  ask::Garden garden() const { return {plan, sheets, *climate, make_date(2026, 1, 1), weather}; }
  // The first of that code; null: there is none.
  const ask::Finding* finding(std::string_view code) const;
  std::vector<const work::Job*> of_kind(work::JobKind kind) const;
};

// `head` goes above [place] (its own keys) and `beds` below it: lowland England near the sea, last
// garden frost 15 May, first 15 October (memory). Today is 1 January 2026.
Planned planned(const std::string& head, const std::string& beds,
                std::optional<MeasuredWeather> weather = {});

}  // namespace trug
