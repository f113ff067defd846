// SPDX-License-Identifier: MIT
#include "read/daily_csv.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>

namespace trug::read {
namespace {

struct Read {
  std::optional<DailyRecord> record;
  std::string report;
};

Read read(std::string_view text, const DailyCsvOptions& options = {}) {
  Diagnostics diagnostics;
  Read result{read_daily_csv(text, "days.csv", options, diagnostics), {}};
  for (const Diagnostic& d : diagnostics.sorted()) {
    result.report += std::to_string(d.position.line) + ":" + std::to_string(d.position.column) +
                     (d.severity == Severity::Error ? ": error: " : ": warning: ") + d.message +
                     "\n";
    if (!d.hint.empty()) result.report += "  " + d.hint + "\n";
  }
  return result;
}

const DailyWeather kTwoDays[] = {{1.5, 9.0}, {-2.0, 4.5}};

void expect_two_days(const Read& found, std::string_view report = "") {
  EXPECT_EQ(found.report, report);
  ASSERT_TRUE(found.record);
  EXPECT_EQ(iso(found.record->first), "2021-03-04");
  ASSERT_EQ(found.record->days.size(), 2U);
  for (std::size_t i = 0; i < 2; ++i) {
    EXPECT_NEAR(found.record->days[i].min_c.value(), kTwoDays[i].min_c.value(), 1e-9);
    EXPECT_NEAR(found.record->days[i].max_c.value(), kTwoDays[i].max_c.value(), 1e-9);
  }
}

struct Layout {
  const char* name;
  const char* text;
};

// The same two days under the headings weather services use (as they are known to the author).
TEST(DailyCsv, KnowsTheUsualHeadings) {
  const Layout layouts[] = {
      {"plain, unit in the heading", "date,tmin_c,tmax_c\n2021-03-04,1.5,9\n2021-03-05,-2,4.5\n"},
      {"no line break at the end", "date,tmin_c,tmax_c\n2021-03-04,1.5,9\n2021-03-05,-2,4.5"},
      {"semicolons, Windows line ends, plus",
       "Date;Tmax (degC);Tmin (degC)\r\n20210304;+9.0;1.5\r\n20210305;4.5;-2.0\r\n"},
      {"tabs", "date\tmin (c)\tmax (c)\n2021/3/4\t1.5\t9\n2021/3/5\t-2\t4.5\n"},
      {"byte-order mark, quotes, year, month and day too (Canada)",
       "\xef\xbb\xbf\"Station Name\",\"Date/Time\",\"Year\",\"Month\",\"Day\",\"Max Temp "
       "(\u00b0C)\","
       "\"Max Temp Flag\",\"Min Temp (\u00b0C)\",\"Min Temp Flag\"\n"
       "\"ST, JOHN\",\"2021-03-04\",\"2021\",\"03\",\"04\",\"9.0\",\"\",\"1.5\",\"E\"\n"
       "\"ST, JOHN\",\"2021-03-05\",\"2021\",\"03\",\"05\",\"4.5\",\"\",\"-2.0\",\"\"\n"},
      {"degree sign in Latin-1",
       "date,Max Temp (\xb0"
       "C),Min Temp (\xb0"
       "C)\n2021-03-04,9,1.5\n2021-03-05,4.5,-2\n"},
      {"year, month and day alone (Australia)",
       "Product code,Year,Month,Day,Minimum temperature (Degree C),Maximum temperature (Degree C)\n"
       "X,2021,03,04,1.5,9\nX,2021,03,05,-2,4.5\n"},
      {"lines about the station, month names (Ireland)",
       "Station Name: SOMEWHERE\nmaxtp: Maximum Air Temperature (C), mintp: Minimum\n\n"
       "date,ind,maxtp (C),ind,mintp (C)\n04-mar-2021,0,9.0,0,1.5\n05-mar-2021,0,4.5,0,-2.0\n"},
      {"time of day",
       "ob_end_time,max_air_temp_c,min_air_temp_c\n2021-03-04 09:00:00,9,1.5\n"
       "2021-03-05T09:00:00,4.5,-2\n"},
      {"Fahrenheit (United States)",
       "\"STATION\",\"DATE\",\"TMAX (Degrees Fahrenheit)\",\"TMIN (Degrees Fahrenheit)\"\n"
       "\"U1\",\"2021-03-04\",\"48.2\",\"34.7\"\n\"U1\",\"2021-03-05\",\"40.1\",\"28.4\"\n"},
      {"tenths", "date,tmin (0.1 degC),tmax (0.1 degC)\n20210304,15,90\n20210305,-20,45\n"},
      {"notes between", "date,tmin_c,tmax_c\n# moved\n2021-03-04,1.5,9\n\n2021-03-05,-2,4.5\n"},
  };
  for (const Layout& layout : layouts) {
    SCOPED_TRACE(layout.name);
    expect_two_days(read(layout.text));
  }
}

TEST(DailyCsv, SaysWhatItTakesAnUnnamedUnitFor) {
  expect_two_days(read("date,tmin,tmax\n2021-03-04,1.5,9\n2021-03-05,-2,4.5\n"),
                  "1:1: warning: no heading gives the unit: read as degrees Celsius\n");
}

TEST(DailyCsv, OptionsNameColumnsAndUnit) {
  DailyCsvOptions options{.date_column = "jour",
                          .min_column = "nuit",
                          .max_column = "apres-midi",
                          .unit = DegreeUnit::TenthsCelsius};
  const std::string_view text =
      "jour,date,nuit,tmin,apres-midi\n20210304,x,15,y,90\n20210305,x,-20,y,45\n";
  expect_two_days(read(text, options));
  options.max_column = "soir";
  EXPECT_EQ(read(text, options).report, "1:1: error: no column is headed 'soir'\n");
  options.min_column = "matin";
  EXPECT_EQ(read(text, options).report,
            "0:0: error: no line heads one column as 'jour' and one as 'matin'\n"
            "  usual headings are date, tmin and tmax; other columns can be named\n");
}

TEST(DailyCsv, TheUnitGivenBeatsTheHeading) {
  DailyCsvOptions options;
  options.unit = DegreeUnit::Fahrenheit;
  const Read found = read("date,tmin_c\n2021-03-04,32\n", options);
  EXPECT_EQ(found.report, "");
  EXPECT_EQ(found.record.value().days.at(0).min_c, 0.0);
}

TEST(DailyCsv, MaximaMayBeAbsent) {
  const Read found = read("date,tmin_c\n2021-03-04,1\n");
  EXPECT_EQ(found.report, "");
  EXPECT_EQ(found.record.value().days.at(0), (DailyWeather{1.0, std::nullopt}));
}

TEST(DailyCsv, MissingValues) {
  for (const char* missing : {"", "NA", "NaN", "M", "-", "--", "-99.9", "-99", "-999", "999.9",
                              "-9999", "9999", "null", "\"\"", " "}) {
    SCOPED_TRACE(missing);
    const Read found =
        read(std::string("date,tmin_c,tmax_c\n2021-03-04,") + missing + ",9\n2021-03-05,1,2\n");
    EXPECT_EQ(found.report, "");
    ASSERT_TRUE(found.record);
    EXPECT_EQ(found.record->days.at(0), (DailyWeather{std::nullopt, 9.0}));
  }
  const Read tenths = read("date,tmin (0.1 degC)\n2021-03-04,-99\n2021-03-05,-9999\n");
  EXPECT_EQ(tenths.record.value().days.at(0).min_c, -9.9);
  EXPECT_FALSE(tenths.record.value().days.at(1).min_c);
}

TEST(DailyCsv, DaysLeftOutAreMissing) {
  const Read found = read("date,tmin_c,tmax_c\n2024-02-27,1,9\n2024-03-02,2,8\n");
  EXPECT_EQ(found.report, "");
  ASSERT_EQ(found.record.value().days.size(), 5U);  // the 28th, the 29th and the 1st between
  for (const std::size_t i : {1U, 2U, 3U}) EXPECT_EQ(found.record->days[i], DailyWeather{});
  EXPECT_EQ(iso(found.record->until()), "2024-03-03");
}

TEST(DailyCsv, CrossedDaysAreLeftOut) {
  const Read one = read("date,tmin_c,tmax_c\n2021-03-04,5,4\n2021-03-05,1,2\n");
  EXPECT_EQ(one.report, "2:12: warning: this minimum is above its maximum: both are left out\n");
  EXPECT_EQ(one.record.value().days.at(0), DailyWeather{});
  const Read three =
      read("date,tmin_c,tmax_c\n2021-03-04,5,4\n2021-03-05,1,2\n2021-03-06,5,4\n2021-03-07,5,4\n");
  EXPECT_EQ(three.report,
            "2:12: warning: minimum above maximum here and on 2 other days: left out\n");
}

TEST(DailyCsv, Errors) {
  const std::string order =
      "  the days of one place, in order; a table of several places must be divided\n";
  const std::string wanted =
      "  wanted year, month, day: 2027-05-14, 2027/05/14 or 20270514; or 14-May-2027\n";
  const std::pair<const char*, std::string> rows[] = {
      {"",
       "0:0: error: no line heads one column as the date and one as the daily minimum "
       "temperature\n  usual headings are date, tmin and tmax; other columns can be named\n"},
      {"date,tmin_c\n2021-03-04,1\n2021-03-04,1\n",
       "3:1: error: 2021-03-04 is given twice\n" + order},
      {"date,tmin_c\n2021-03-04,1\n2021-03-02,1\n",
       "3:1: error: 2021-03-02 comes after 2021-03-04\n" + order},
      {"tmin_c,date\n1,03/04/2021\n", "2:3: error: '03/04/2021' is not a date\n" + wanted},
      {"date,tmin_c\n2021-02-29,1\n", "2:1: error: '2021-02-29' is not a date\n" + wanted},
      {"year,month,day,tmin_c\n2021,13,1,1\n", "2:1: error: '2021 13 1' is not a date\n" + wanted},
      {"date,tmin_c\n0021-02-03,1\n", "2:1: error: no weather was measured in the year 21\n"},
      {"date,tmin_c\n2021-03-04\n", "2:1: error: this line has 1 field; the headings need 2\n"},
      {"date,tmin_c\n2021-03-04,cold\n", "2:12: error: 'cold' is not a temperature\n"},
      {"station,date,tmin_c\n\u00c5s,2021-03-04,inf\n",
       "2:15: error: 'inf' is not a temperature\n"},
      {"date;tmin_c\n2021-03-04;1,5\n",
       "2:12: error: '1,5' is not a temperature\n  write a point, not a comma, before the "
       "tenths\n"},
      {"date,tmin_c\n2021-03-04,61\n",
       "2:12: error: 61 was never measured anywhere, read as degrees Celsius\n"
       "  is the column in another unit?\n"},
      {"date,tmin_f\n2021-03-04,-140\n",
       "2:12: error: -140 was never measured anywhere, read as degrees Fahrenheit\n"
       "  is the column in another unit?\n"},
      {"date,tmin_c\n2021-03-04,\n",
       "1:1: error: no day below has a minimum temperature\n  is this the column of minima?\n"},
      {"date,tmin_c\n2021-03-04,1x\n2021-03-05,2x\n",
       "2:12: error: '1x' is not a temperature\n3:12: error: '2x' is not a temperature\n"},
  };
  for (const auto& [text, report] : rows) {
    SCOPED_TRACE(text);
    const Read found = read(text);
    EXPECT_FALSE(found.record);
    EXPECT_EQ(found.report, report);
  }
}

TEST(DailyCsv, StopsAfterTwentyErrors) {
  std::string text = "date,tmin_c\n";
  for (int i = 0; i < 1000; ++i) text += "2021-03-04,x\n";
  EXPECT_EQ(std::ranges::count(read(text).report, '\n'), 20);
}

TEST(DailyCsv, ErrorsQuoteHostileFieldsSafely) {
  const std::string text = "date,tmin_c\n2021-03-04,\x1b[2J" + std::string(100, 'x') + "\n";
  EXPECT_EQ(read(text).report,
            "2:12: error: '?[2J" + std::string(36, 'x') + "...' is not a temperature\n");
}

TEST(DailyCsv, ReadsACenturyAndAHalf) {
  std::string text = "station,name,date,tmax_c,tmin_c\n";
  const Date from = make_date(1875, 1, 1);
  const Date until = make_date(2025, 1, 1);
  for (Date day = from; day < until; day += Days{1}) {
    text += "X0001234,\"SOMEWHERE, FAR\"," + iso(day) + ",12.5,3.5\n";
  }
  const Read found = read(text);
  EXPECT_EQ(found.record.value().days.size(), static_cast<std::size_t>(days_between(from, until)));
}

}  // namespace
}  // namespace trug::read
