// SPDX-License-Identifier: MIT
// The page beside the feed: what a note on the shed door would say this week, and how to get the
// calendar onto a telephone.
#pragma once

#include <string>
#include <vector>

#include "base/date.h"
#include "climate/climate.h"
#include "garden/plan.h"
#include "ground/schedule.h"
#include "show/job_words.h"

namespace trug::show {

// Where the calendar is found, put into the page as they are: addresses that need no escaping, or
// marks that another puts them in place of.
struct FeedAddresses {
  std::string calendar;  // https://...
  std::string webcal;    // the same, webcal://...
};

// HTML 5 that is well-formed XML too; no script. Refers to style.css, calendar.ics, qr.svg and
// qr-webcal.svg beside it. All of the plan's own words are escaped.
std::string feed_page(const Plan& plan, const ground::Schedule& schedule,
                      const std::vector<JobRow>& jobs, const climate::Climate& climate, Date today,
                      const FeedAddresses& addresses);
// The page while the plan cannot be reckoned: how to get the calendar, which is the last good one.
std::string feed_page_without_plan(const FeedAddresses& addresses);
// The style.css of both: for telephones and desks, light and dark as the reader has it.
std::string feed_style();

}  // namespace trug::show
