// SPDX-License-Identifier: MIT
// What someone who begins on the first of a month, with a windowsill, two trays and open ground,
// can still have in the flowering year, kind by kind.
#include <gtest/gtest.h>

#include <string>

#include "crops/test_garden.h"

namespace trug {
namespace {

// For each first of a month from September before the flowering year to its August: y, it can still
// be begun; n, it is too late; ?, gardeners differ. All common practice in lowland England:
// biennials are sown by midsummer of the year before; spring bulbs go in until the frost, tulips
// until Christmas; hardy annuals are sown in autumn or until May; tender ones are raised or sown
// until June, and what is begun in August flowers no more; tubers and corms of summer go in until
// June.
struct Row {
  std::string crop, months;
};
const Row kRows[] = {
    // Sep to Dec, Jan to Aug
    {"foxglove", "?nnn nnnnnnnn"},
    {"sweet william", "?nnn nnnnnnnn"},
    {"honesty", "?nnn nnnnnnnn"},
    {"wallflower", "?nnn nnnnnnnn"},
    {"canterbury bells", "?nnn nnnnnnnn"},
    {"daffodil", "yy?? ?nnnnnnn"},
    {"tulip", "yyyy ?nnnnnnn"},
    {"allium", "yyy? ?nnnnnnn"},
    {"cornflower", "yyyy yyyyy???"},
    {"calendula", "yyyy yyyyy???"},
    {"larkspur", "yyyy yyyy????"},
    {"nigella", "yyyy yyyyy???"},
    {"sweet pea", "yyyy yyyy????"},
    {"statice", "yyyy yyyy???n"},
    {"china aster", "yyyy yyyy???n"},
    {"zinnia", "yyyy yyyyyy?n"},
    {"cosmos", "yyyy yyyyyy??"},
    {"dahlia", "yyyy yyyyyy?n"},
    {"gladiolus", "yyyy yyyyyy?n"},
    {"astrantia", "yyyy yyyy????"},
    {"chrysanthemum", "yyyy yyyyy???"},
};

bool can_begin(const climate::Climate& climate, const Place& place, const Sheet& sheet, Date day) {
  const ground::Candidates found = ground::candidates({.climate = climate,
                                                       .place = place,
                                                       .work = {},
                                                       .flowering_year = 2027,
                                                       .first_day = day,
                                                       .today = day},
                                                      sheet, CropEntry{.crop = sheet.name});
  return !found.list.empty();
}

TEST(Beginner, HasWhatAGrowerWouldStillBegin) {
  const Place place = maritime();
  const auto climate = climate::Climate::from(place);
  for (const Row& row : kRows) {
    unsigned month = 9;
    int year = 2026;
    for (const char expected : row.months) {
      if (expected == ' ') continue;
      const Date first = make_date(year, month, 1);
      SCOPED_TRACE(row.crop + " from " + iso(first));
      const bool can = can_begin(climate, place, sheet(row.crop), first);
      if (expected != '?') {
        EXPECT_EQ(can, expected == 'y');
      }
      if (++month > 12) {
        month = 1;
        ++year;
      }
    }
  }
}

}  // namespace
}  // namespace trug
