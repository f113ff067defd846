// SPDX-License-Identifier: MIT
// Places to ask the real crop sheets about.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "climate/climate.h"
#include "garden/plan.h"
#include "garden/sheet.h"
#include "ground/candidates.h"
#include "growth/crop_clock.h"
#include "work/jobs.h"

namespace trug {

// "2027-05-14".
Date day(const std::string& text);

// Lowland England near the sea, the reference's profile "UKM": 52 N, garden frosts until 15 May and
// from 15 October (memory); monthly means as in lowland England today, about a degree above
// Nottingham 1920-39 (R data set nottem), from memory.
Place maritime();
// Eastern Kansas, 39 N: means, maxima and frosts from memory.
Place continental();
// A cool upland in Victoria, 38 S: means from memory, frosts those of check 73.
Place southern();

// The sheets compiled into the program, read once.
const std::vector<const Sheet*>& all_sheets();
const Sheet& sheet(const std::string& crop);
// The index of a way by its name; fails the test where there is none.
std::size_t way_index(const Sheet& sheet, const std::string& way);

// Room to raise anything.
Shelter with_everything();

// One planting to ask about. Dates as ISO text; `out` empty: where it was sown.
struct Started {
  std::string crop, way, start, out, group;
};

class TestGarden {
 public:
  explicit TestGarden(Place place = maritime(), int flowering_year = 2027);

  const climate::Climate& climate() const { return climate_; }
  growth::CropClock clock(const std::string& crop, const std::string& group = "") const;
  // The trade's window of a way, as days.
  DateRange window(const std::string& crop, const std::string& way) const;
  // nullopt: no flower that year.
  std::optional<growth::Timeline> timeline(const Started& planting) const;
  std::optional<Date> first_flower(const Started& planting) const;
  std::optional<Date> first_cut(const Started& planting) const;
  // Everything the rules allow; of one way where it is named.
  ground::Candidates ask(const std::string& crop, const std::string& way = "",
                         CropEntry entry = {}) const;
  // The jobs of a plan with that one crop in two square metres.
  std::vector<work::Job> jobs(CropEntry entry) const;
  // The day of the first such job; nullopt where there is none.
  std::optional<Date> job_day(const CropEntry& entry, work::JobKind kind) const;

 private:
  Place place_;
  int year_;
  climate::Climate climate_;
};

}  // namespace trug
