// SPDX-License-Identifier: MIT
// How far a forecast may be off, and what that makes of a season that ends.
//
// A spread is half the width of the window in which 80 of 100 dates fall.
#pragma once

#include "base/date.h"

namespace trug::growth {

// What one year's weather moves a first flower by: 14 days before 1 April, 10 in April and May, 7
// after that (south six months on). In one garden of Illinois, 2010 to 2014, the hundredth kind in
// flower came on days six weeks apart, the two hundredth on days one apart; the figures between are
// memory.
double weather_spread(Date flower, bool southern);

// The spread of a crop whose flowers of summer fall within `summer_days`: what is not the weather's
// (place, variety, model) stays, and the weather of the season joins it in quadrature.
double spread_at(double summer_days, Date flower, bool southern);

// The probability that a date forecast for `likely` comes on `day` or before it.
double chance_by(Date likely, double spread_days, Date day);

// Days to expect from a date forecast for `likely` to `last`, both counted, no more than `most`.
double expected_days(Date likely, double spread_days, Date last, double most);

}  // namespace trug::growth
