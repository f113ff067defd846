// SPDX-License-Identifier: MIT
// The bytes of an earlier calendar: refused and left alone, or brought up to date, whole and once.
#include <cstdint>

#include "calendar/check.h"
#include "calendar/memory.h"
#include "calendar/regenerate.h"
#include "whole_program.h"

namespace {

using namespace trug;
using calendar::Event;
using calendar::Regenerated;

const Uuid kGarden = parse_uuid("5d1c9a70-3c0e-4f0e-8a39-0c6b1f6f2a11").value();

std::vector<Event> events(const Uuid& space) {
  std::vector<Event> result;
  for (int i = 0; i < 4; ++i) {
    Event event;
    event.uid = calendar::job_uid(
        space, {.flowering_year = 2027,
                .bed = "sunken bed",
                .crop = i < 2 ? "cornflower" : "zinnia",
                .planting = "1",
                .kind = i % 2 == 0 ? work::JobKind::Sow : work::JobKind::FirstCut});
    event.start = make_date(2027, 3, 1) + Days{40 * i};
    event.end = event.start + Days{1};
    event.summary = "Sow: cornflower, blue; and white";
    event.description = "Thinly,\nin rows 25 cm apart.";
    event.category = "sow";
    event.flowering_year = 2027;
    if (i == 0) event.reminder = std::chrono::hours{6};
    result.push_back(std::move(event));
  }
  return result;
}

void bring_up_to_date(std::string_view earlier, calendar::Profile profile, bool lost) {
  const Uuid space = calendar::namespace_of(kGarden, "");
  const calendar::CalendarHead head{space, "Tannery yard", "", "trug 0.1.0", {{"wish", "none"}}};
  calendar::Run run{.profile = profile,
                    .now = make_date(2027, 2, 3) + std::chrono::hours{9},
                    .today = make_date(2027, 2, 3),
                    .lost = lost,
                    .flowering_years = {2027}};
  const Regenerated first = calendar::regenerate(events(space), head, earlier, run);
  if (!first.refused.empty()) return;
  fuzz::require(calendar::check_calendar(first.bytes).empty(), "what is written is not sound");
  run.lost = false;
  const Regenerated second = calendar::regenerate(events(space), head, first.bytes, run);
  fuzz::require(second.refused.empty(), "a calendar of our own is refused");
  fuzz::require(second.unchanged && second.bytes == first.bytes, "a second run changes something");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  for (const auto profile : {calendar::Profile::Import, calendar::Profile::Feed}) {
    for (const bool lost : {false, true}) bring_up_to_date(bytes, profile, lost);
  }
  return 0;
}
