// SPDX-License-Identifier: MIT
// The page beside the feed: what a note on the shed door would say today, and how to get the
// calendar onto a telephone.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/date.h"
#include "climate/climate.h"
#include "garden/plan.h"
#include "ground/schedule.h"
#include "harvest/weeks.h"
#include "show/job_words.h"

namespace trug::show {

// Where the calendar is found, put into the page as they are: addresses that need no escaping, or
// marks that another puts them in place of.
struct FeedAddresses {
  std::string calendar;    // https://...
  std::string webcal;      // the same, webcal://...
  bool only_here = false;  // no telephone can open them: there are no codes for its camera
};

// What the page tells of; it outlives the call.
struct FeedGarden {
  const Plan& plan;
  const ground::Schedule& schedule;
  const std::vector<harvest::Week>& weeks;  // those of ask::reckon
  const std::vector<JobRow>& jobs;
  const climate::Climate& climate;
};

// Today, what is next, this month's cuts, the weeks and their vases, the beds. HTML 5 that is
// well-formed XML too; no script. Refers to style.css, calendar.ics, chart.svg, qr.svg and
// qr-webcal.svg beside it. All of the plan's own words are escaped. `broken_since`: the day since
// which the plan cannot be taken up as it is; the garden is then of the last that could.
std::string feed_page(const FeedGarden& garden, Date today, const FeedAddresses& addresses,
                      std::optional<Date> broken_since = std::nullopt);
// The page where no plan could be reckoned yet, as was found on that day: how to get the calendar,
// which is the last good one.
std::string feed_page_without_plan(Date since, const FeedAddresses& addresses);
// The style.css of both: for telephones and desks, light and dark as the reader has it, and for
// paper.
std::string feed_style();

}  // namespace trug::show
