// SPDX-License-Identifier: MIT
// Weeks in words: "week of 3 May", and how many of them have their vases.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/date.h"
#include "harvest/vase.h"
#include "harvest/weeks.h"

namespace trug::show {

// Weeks by their Mondays, in rising order, runs of them drawn together: "3 May, 17 May to 7 June
// and 4 October".
std::string week_list(const std::vector<Date>& mondays);
// "week of 3 May", "weeks of 3 May to 24 May".
std::string weeks_of(const std::vector<Date>& mondays);

// "a main flower", "a second kind".
std::string_view words(harvest::Lack lack);
// "filler, kind": the words that files have; empty where nothing is lacking.
std::string lacks_words(const std::vector<harvest::Lack>& lacks);

// "weeks of 3 May to 24 May: half of the vases or more, wanting a filler": of weeks that are alike.
std::string week_words(const std::vector<Date>& mondays, const harvest::Vase& vase);
// "a main flower and stems"; empty where nothing is lacking.
std::string lacking_words(const std::vector<harvest::Lack>& lacks);

// "12 of the 23 weeks have their vases".
std::string full_weeks(const std::vector<harvest::Week>& weeks);
// How many weeks of the wish have their vases, half of them or less, and what is lacking in so
// many.
std::string weeks_paragraph(const std::vector<harvest::Week>& weeks);

}  // namespace trug::show
