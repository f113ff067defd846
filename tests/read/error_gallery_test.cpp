// SPDX-License-Identifier: MIT
// Every complaint about a plan, with the text that causes it.
#include <gtest/gtest.h>

#include <ostream>
#include <utility>

#include "small_plan.h"

namespace trug::read {
namespace {

struct Row {
  const char* name;
  const char* what;  // this part of the small plan ...
  const char* with;  // ... is replaced by this; with no part, this is the whole file
  const char* expected;
};

void PrintTo(const Row& row, std::ostream* out) { *out << row.name; }

// clang-format off
const Row kRows[] = {
    {"EmptyFile",
     nullptr,
     "",
     "plan.toml: error: the file is empty\n"},
    {"BlankFile",
     nullptr,
     "  \n"
     "\n",
     "plan.toml: error: the file is empty\n"},
    {"TextWithoutQuotes",
     "\"10 May\"",
     "10 May",
     "plan.toml:6:17: error: cannot read this line: expected a comment or whitespace, saw 'M'\n"
     "  | last_frost = 10 May\n"
     "  |                 ^\n"
     "  hint: text and days stand in quotes: last_frost = \"10 May\"\n"},
    {"UnitInTheValue",
     "length_m = 5",
     "length_m = 5m",
     "plan.toml:12:13: error: cannot read the number: expected digit, saw 'm'\n"
     "  | length_m = 5m\n"
     "  |             ^\n"
     "  hint: the unit is in the key, not in the value: length_m = 5\n"},
    {"DecimalComma",
     "length_m = 5",
     "length_m = 5,5",
     "plan.toml:12:13: error: cannot read this line: expected a comment or whitespace, saw ','\n"
     "  | length_m = 5,5\n"
     "  |             ^\n"
     "  hint: write a point, not a comma: length_m = 5.5\n"},
    {"YesForTrue",
     "[[bed]]",
     "[work]\n"
     "care = yes\n"
     "\n"
     "[[bed]]",
     "plan.toml:11:8: error: cannot read the value: it is no text in quotes, number, date, true or false\n"
     "  | care = yes\n"
     "  |        ^\n"
     "  hint: write care = true\n"},
    {"TimeWithoutSeconds",
     "[[bed]]",
     "[work]\n"
     "remind_at = 18:00\n"
     "\n"
     "[[bed]]",
     "plan.toml:11:18: error: cannot read the time: expected ':', saw '\\n'\n"
     "  | remind_at = 18:00\n"
     "  |                  ^\n"
     "  hint: write the seconds too: remind_at = 18:00:00\n"},
    {"CurlyQuotes",
     "\"10 May\"",
     "“10 May”",
     "plan.toml:6:14: error: cannot read the value: it is no text in quotes, number, date, true or false\n"
     "  | last_frost = “10 May”\n"
     "  |              ^\n"
     "  hint: use straight quotes: \"\n"},
    {"ClosingQuoteMissing",
     "\"10 May\"",
     "\"10 May",
     "plan.toml:6:21: error: cannot read the text: it must end on its line and hold no control character\n"
     "  | last_frost = \"10 May\n"
     "  |                     ^\n"
     "  hint: the closing quote is missing\n"},
    {"ThreeBrackets",
     nullptr,
     "[[[",
     "plan.toml:1:3: error: cannot read the key: expected a name, saw '['\n"
     "  | [[[\n"
     "  |   ^\n"},
    {"BracketAndMark",
     nullptr,
     "[?*",
     "plan.toml:1:2: error: cannot read the key: expected a name, saw '?'\n"
     "  | [?*\n"
     "  |  ^\n"},
    {"LetterOutsideQuotes",
     nullptr,
     "é = 1\n",
     "plan.toml:1:1: error: cannot read this line: expected a key, a heading or a comment, saw 'é'\n"
     "  | é = 1\n"
     "  | ^\n"},
    {"KeyGivenTwice",
     "title = \"Porch vases\"",
     "title = \"a\"\n"
     "title = \"b\"",
     "plan.toml:3:9: error: 'title' is given a second time\n"
     "  | title = \"b\"\n"
     "  |         ^\n"},
    {"HeadingGivenTwice",
     "[[bed]]",
     "[place]\n"
     "[[bed]]",
     "plan.toml:10:1: error: 'place' is given a second time\n"
     "  | [place]\n"
     "  | ^\n"},
    {"FileEndsInAHeading",
     nullptr,
     "[place",
     "plan.toml:1:7: error: cannot read the heading: the file ends in the middle of it\n"
     "  | [place\n"
     "  |       ^\n"},
    {"ImpossibleTomlDate",
     "\"10 May\"",
     "2027-02-30",
     "plan.toml:6:24: error: cannot read the date: expected day between 1 and 28, saw 30\n"
     "  | last_frost = 2027-02-30\n"
     "  |                        ^\n"},
    {"StringForNumber",
     "latitude = 52.5",
     "latitude = \"52.5\"",
     "plan.toml:5:12: error: 'latitude' must be a number, not a string\n"
     "  | latitude = \"52.5\"\n"
     "  |            ^\n"
     "  hint: leave the quotes away\n"},
    {"WordForNumber",
     "latitude = 52.5",
     "latitude = \"north\"",
     "plan.toml:5:12: error: 'latitude' must be a number, not a string\n"
     "  | latitude = \"north\"\n"
     "  |            ^\n"},
    {"NumberForString",
     "\"Porch vases\"",
     "2027",
     "plan.toml:2:9: error: 'title' must be a string, not a number\n"
     "  | title = 2027\n"
     "  |         ^\n"
     "  hint: put it in quotes\n"},
    {"FractionForWholeNumber",
     "flowering_year = 2027",
     "flowering_year = 2027.5",
     "plan.toml:1:18: error: 'flowering_year' must be a whole number, not 2027.5\n"
     "  | flowering_year = 2027.5\n"
     "  |                  ^\n"},
    {"StringForWholeNumber",
     "flowering_year = 2027",
     "flowering_year = \"2027\"",
     "plan.toml:1:18: error: 'flowering_year' must be a whole number, not a string\n"
     "  | flowering_year = \"2027\"\n"
     "  |                  ^\n"
     "  hint: leave the quotes away\n"},
    {"NotANumber",
     "latitude = 52.5",
     "latitude = nan",
     "plan.toml:5:12: error: 'latitude' must be a finite number\n"
     "  | latitude = nan\n"
     "  |            ^\n"},
    {"BooleanForNumber",
     "latitude = 52.5",
     "latitude = true",
     "plan.toml:5:12: error: 'latitude' must be a number, not true or false\n"
     "  | latitude = true\n"
     "  |            ^\n"},
    {"NumberForBoolean",
     "[[bed]]",
     "[work]\n"
     "care = 120\n"
     "\n"
     "[[bed]]",
     "plan.toml:11:8: error: 'care' must be true or false, not a number\n"
     "  | care = 120\n"
     "  |        ^\n"},
    {"DateTimeForDate",
     "flowering_year = 2027",
     "flowering_year = 2027\n"
     "began = 2026-05-01T10:00:00",
     "plan.toml:2:9: error: 'began' must be a date, not a date with a time of day\n"
     "  | began = 2026-05-01T10:00:00\n"
     "  |         ^\n"
     "  hint: write the date alone: began = 2027-05-14\n"},
    {"DateOfAnotherCentury",
     "flowering_year = 2027",
     "flowering_year = 2027\n"
     "began = 0026-05-01",
     "plan.toml:2:9: error: 'began' must lie in the years 1900 to 2100, not in 26\n"
     "  | began = 0026-05-01\n"
     "  |         ^\n"},
    {"DateTimeForDay",
     "\"10 May\"",
     "2027-05-10T10:00:00",
     "plan.toml:6:14: error: 'last_frost' must be a day such as \"14 May\", not a date with a time of day\n"
     "  | last_frost = 2027-05-10T10:00:00\n"
     "  |              ^\n"
     "  hint: write the month as a word: last_frost = \"14 May\"\n"},
    {"NumberForDay",
     "\"10 May\"",
     "10",
     "plan.toml:6:14: error: 'last_frost' must be a day such as \"14 May\", not a number\n"
     "  | last_frost = 10\n"
     "  |              ^\n"
     "  hint: write the month as a word: last_frost = \"14 May\"\n"},
    {"QuotedTime",
     "[[bed]]",
     "[work]\n"
     "remind_at = \"18:00\"\n"
     "\n"
     "[[bed]]",
     "plan.toml:11:13: error: 'remind_at' must be a time of day, not a string\n"
     "  | remind_at = \"18:00\"\n"
     "  |             ^\n"
     "  hint: write it without quotes: remind_at = 18:00:00\n"},
    {"TimeWithSeconds",
     "[[bed]]",
     "[work]\n"
     "remind_at = 18:00:30\n"
     "\n"
     "[[bed]]",
     "plan.toml:11:13: error: 'remind_at' must be a whole minute\n"
     "  | remind_at = 18:00:30\n"
     "  |             ^\n"},
    {"ThirtiethOfFebruary",
     "\"10 May\"",
     "\"30 February\"",
     "plan.toml:6:14: error: 'last_frost' is '30 February', a day that no calendar has\n"
     "  | last_frost = \"30 February\"\n"
     "  |              ^\n"},
    {"DayOrMonth",
     "\"10 May\"",
     "\"05-10\"",
     "plan.toml:6:14: error: 'last_frost' is '05-10': which is the day and which the month?\n"
     "  | last_frost = \"05-10\"\n"
     "  |              ^\n"
     "  hint: write the month as a word: last_frost = \"14 May\"\n"},
    {"NoDayAtAll",
     "\"10 May\"",
     "\"mid May\"",
     "plan.toml:6:14: error: 'last_frost' is 'mid May', not one day\n"
     "  | last_frost = \"mid May\"\n"
     "  |              ^\n"
     "  hint: give one day: last_frost = \"14 May\"\n"},
    {"SwappedFrosts",
     "last_frost = \"10 May\"\n"
     "first_frost = \"12 October\"",
     "last_frost = \"12 October\"\n"
     "first_frost = \"10 May\"",
     "plan.toml:6:14: error: the last frost, 12 October, and the first, 10 May, seem to be swapped\n"
     "  | last_frost = \"12 October\"\n"
     "  |              ^\n"
     "  hint: last_frost is the last of spring, first_frost the first of autumn; south of the equator the latitude is negative; in figures a date is year, month, day\n"},
    {"SouthernFrostsWithNorthernLatitude",
     "last_frost = \"10 May\"\n"
     "first_frost = \"12 October\"",
     "last_frost = \"20 September\"\n"
     "first_frost = \"5 May\"",
     "plan.toml:6:14: error: the last frost, 20 September, and the first, 5 May, seem to be swapped\n"
     "  | last_frost = \"20 September\"\n"
     "  |              ^\n"
     "  hint: last_frost is the last of spring, first_frost the first of autumn; south of the equator the latitude is negative; in figures a date is year, month, day\n"},
    {"NoWeekday",
     "[[bed]]",
     "[work]\n"
     "days = [\"Sat\", \"Funday\"]\n"
     "\n"
     "[[bed]]",
     "plan.toml:11:16: error: 'Funday' is no day of the week\n"
     "  | days = [\"Sat\", \"Funday\"]\n"
     "  |                ^\n"
     "  hint: for example: days = [\"Sat\", \"Sun\"]\n"},
    {"WeekdayAlone",
     "[[bed]]",
     "[work]\n"
     "days = \"Sat\"\n"
     "\n"
     "[[bed]]",
     "plan.toml:11:8: error: 'days' must be a list of strings, not a string\n"
     "  | days = \"Sat\"\n"
     "  |        ^\n"
     "  hint: write days = [\"Sat\"]\n"},
    {"NoDays",
     "[[bed]]",
     "[work]\n"
     "days = []\n"
     "\n"
     "[[bed]]",
     "plan.toml:11:8: error: 'days' names no day\n"
     "  | days = []\n"
     "  |        ^\n"
     "  hint: leave it out if any day will do\n"},
    {"LatitudeOfThePole",
     "52.5",
     "90",
     "plan.toml:5:12: error: 'latitude' must lie between -90 and 90, not at 90\n"
     "  | latitude = 90\n"
     "  |            ^\n"},
    {"YearOutOfReach",
     "flowering_year = 2027",
     "flowering_year = 1901",
     "plan.toml:1:18: error: 'flowering_year' must be from 1902 to 2098, not 1901\n"
     "  | flowering_year = 1901\n"
     "  |                  ^\n"},
    {"YearMissing",
     "flowering_year = 2027\n",
     "",
     "plan.toml:1:1: error: missing key 'flowering_year'\n"
     "  | title = \"Porch vases\"\n"
     "  | ^\n"
     "  hint: for example: flowering_year = 2027\n"},
    {"PlaceMissing",
     nullptr,
     "flowering_year = 2027\n"
     "[wish]\n"
     "from = \"10 May\"\n"
     "to = \"10 October\"\n",
     "plan.toml:1:1: error: missing heading [place]\n"
     "  | flowering_year = 2027\n"
     "  | ^\n"
     "  hint: under it stand latitude, last_frost, first_frost and frost_meaning: 'trug help place'\n"},
    {"FrostMeaningMissing",
     "frost_meaning = \"garden\"\n",
     "",
     "plan.toml:4:1: error: missing key 'frost_meaning' under [place]\n"
     "  | [place]\n"
     "  | ^\n"
     "  hint: for example: frost_meaning = \"garden\"  # the average frost that marks tender plants; or \"air\": the average 0 degC in a weather screen; or \"safe\": nine years in ten have none after it\n"},
    {"UnknownFrostMeaning",
     "\"garden\"",
     "\"gardn\"",
     "plan.toml:8:17: error: 'frost_meaning' must be 'garden', 'air' or 'safe', not 'gardn'\n"
     "  | frost_meaning = \"gardn\"\n"
     "  |                 ^\n"
     "  hint: did you mean 'garden'?\n"},
    {"RiskTooHigh",
     "frost_meaning",
     "risk = 2\n"
     "frost_meaning",
     "plan.toml:8:8: error: 'risk' must be from 0.01 to 0.5, not 2\n"
     "  | risk = 2\n"
     "  |        ^\n"},
    {"GardenIsNoUuid",
     "title =",
     "garden = \"mine\"\n"
     "title =",
     "plan.toml:2:10: error: 'garden' must be a UUID, not 'mine'\n"
     "  | garden = \"mine\"\n"
     "  |          ^\n"
     "  hint: leave it out, and the calendar will print a fresh one to paste\n"},
    {"ElevenMonths",
     "frost_meaning",
     "mean_c = [1,2,3,4,5,6,7,8,9,10,11]\n"
     "frost_meaning",
     "plan.toml:8:10: error: 'mean_c' must list 12 numbers, January to December, not 11\n"
     "  | mean_c = [1,2,3,4,5,6,7,8,9,10,11]\n"
     "  |          ^\n"},
    {"FahrenheitInCelsius",
     "frost_meaning",
     "mean_c = [36,38,45,52,60,69,74,72,65,55,45,38]\n"
     "frost_meaning",
     "plan.toml:8:20: error: 'mean_c' must be from -60 to 45, not 52\n"
     "  | mean_c = [36,38,45,52,60,69,74,72,65,55,45,38]\n"
     "  |                    ^\n"
     "  hint: in degrees Fahrenheit? then write mean_f\n"},
    {"MaximaWithoutMinima",
     "frost_meaning",
     "mean_max_c = [5,6,9,12,16,19,22,22,18,14,9,6]\n"
     "frost_meaning",
     "plan.toml:8:14: error: 'mean_max_c' needs 'mean_min_c' beside it\n"
     "  | mean_max_c = [5,6,9,12,16,19,22,22,18,14,9,6]\n"
     "  |              ^\n"},
    {"MinimumAboveMaximum",
     "frost_meaning",
     "mean_max_c = [5,6,9,12,16,19,22,22,18,14,9,6]\n"
     "mean_min_c = [1,1,2,4,17,10,12,12,10,7,4,2]\n"
     "frost_meaning",
     "plan.toml:9:14: error: in month 5 the mean minimum is above the mean maximum\n"
     "  | mean_min_c = [1,1,2,4,17,10,12,12,10,7,4,2]\n"
     "  |              ^\n"},
    {"TwoFormsOfTemperature",
     "frost_meaning",
     "mean_c = [3,4,5,8,11,14,16,15,13,10,6,4]\n"
     "year_mean_c = 9\n"
     "warmest_month_c = 16\n"
     "frost_meaning",
     "plan.toml:9:15: error: 'mean_c' and 'year_mean_c' both give the temperatures\n"
     "  | year_mean_c = 9\n"
     "  |               ^\n"
     "  hint: keep the monthly means, they are the best\n"},
    {"YearWarmerThanItsWarmestMonth",
     "frost_meaning",
     "year_mean_c = 16\n"
     "warmest_month_c = 9\n"
     "frost_meaning",
     "plan.toml:9:19: error: the warmest month is colder than the year's mean\n"
     "  | warmest_month_c = 9\n"
     "  |                   ^\n"},
    {"TwoUnits",
     "[[bed]]",
     "[shelter]\n"
     "heated_c = 16\n"
     "heated_f = 60\n"
     "[[bed]]",
     "plan.toml:12:12: error: 'heated_c' and 'heated_f' say the same thing twice\n"
     "  | heated_f = 60\n"
     "  |            ^\n"
     "  hint: keep one of them\n"},
    {"HeatedTooHot",
     "[[bed]]",
     "[shelter]\n"
     "heated_f = 160\n"
     "[[bed]]",
     "plan.toml:11:12: error: 'heated_f' must be from 32 to 104, not 160\n"
     "  | heated_f = 160\n"
     "  |            ^\n"},
    {"TemperatureWithoutUnit",
     "[[bed]]",
     "[shelter]\n"
     "heated = 16\n"
     "[[bed]]",
     "plan.toml:11:10: error: 'heated' has no unit\n"
     "  | heated = 16\n"
     "  |          ^\n"
     "  hint: write heated_c = 16 or heated_f = 60.8\n"},
    {"LengthWithoutUnit",
     "length_m = 5",
     "length = 5",
     "plan.toml:12:10: error: 'length' has no unit\n"
     "  | length = 5\n"
     "  |          ^\n"
     "  hint: write length_m = 5 or length_ft = 16.4\n"},
    {"LengthMissing",
     "length_m = 5\n",
     "",
     "plan.toml:10:1: error: missing key 'length_m', 'length_ft', 'length_cm' or 'length_in' under [[bed]]\n"
     "  | [[bed]]\n"
     "  | ^\n"
     "  hint: for example: length_m = 5 or length_ft = 16.4\n"},
    {"LengthMistyped",
     "length_m = 5",
     "lenght_m = 5",
     "plan.toml:12:1: error: unknown key 'lenght_m' under [[bed]]\n"
     "  | lenght_m = 5\n"
     "  | ^\n"
     "  hint: did you mean 'length_m'?\n"},
    {"LengthNegative",
     "length_m = 5",
     "length_m = -5",
     "plan.toml:12:12: error: 'length_m' must be more than 0, not -5\n"
     "  | length_m = -5\n"
     "  |            ^\n"},
    {"LengthZero",
     "width_m = 1.2",
     "width_m = 0",
     "plan.toml:13:11: error: 'width_m' must be more than 0, not 0\n"
     "  | width_m = 0\n"
     "  |           ^\n"},
    {"LengthInTheWrongUnit",
     "length_m = 5",
     "length_m = 5000",
     "plan.toml:12:12: error: 'length_m' must be at most 1000, not 5000\n"
     "  | length_m = 5000\n"
     "  |            ^\n"
     "  hint: in centimetres? then write length_cm\n"},
    {"LengthTwice",
     "length_m = 5",
     "length_m = 5\n"
     "length_ft = 16.4",
     "plan.toml:13:13: error: 'length_m' and 'length_ft' say the same thing twice\n"
     "  | length_ft = 16.4\n"
     "  |             ^\n"
     "  hint: keep one of them\n"},
    {"StretchLongerThanBed",
     "length_m = 2\n",
     "length_m = 6\n",
     "plan.toml:16:12: error: this stretch is 6 m long, its bed 'long bed' only 5 m\n"
     "  | length_m = 6\n"
     "  |            ^\n"},
    {"StretchesLongerThanBed",
     "length_m = 2\n",
     "length_m = 4.5\n",
     "plan.toml:20:12: error: the stretches of 'long bed' reach 6 m here, 1 m beyond its 5 m\n"
     "  | length_m = 1.5\n"
     "  |            ^\n"
     "  hint: stretches lie end to end from the bed's start\n"},
    {"UnknownCrop",
     "\"zinnia\"",
     "\"zinia\"",
     "plan.toml:17:24: error: there is no sheet for 'zinia'\n"
     "  | crops = [\"cornflower\", \"zinia\"]\n"
     "  |                        ^\n"
     "  hint: did you mean 'zinnia'?\n"},
    {"CropNobodyKnows",
     "\"zinnia\"",
     "\"gorse hedge\"",
     "plan.toml:17:24: error: there is no sheet for 'gorse hedge'\n"
     "  | crops = [\"cornflower\", \"gorse hedge\"]\n"
     "  |                        ^\n"
     "  hint: 'trug crop' lists the crops by their English names; botanical names do too, and a sheet of your own goes into a folder crops/ beside the plan\n"},
    {"UnknownGroup",
     "\"short-day\"",
     "\"early\"",
     "plan.toml:23:9: error: sunflower has no group 'early'\n"
     "  | group = \"early\"\n"
     "  |         ^\n"
     "  hint: its sheet has 'short-day'\n"},
    {"GroupOfACropWithout",
     "crop = \"sunflower\"",
     "crop = \"cornflower\"\n"
     "id = \"second\"",
     "plan.toml:24:9: error: cornflower has no group 'short-day'\n"
     "  | group = \"short-day\"\n"
     "  |         ^\n"
     "  hint: its sheet has no groups: leave the key out\n"},
    {"UnknownWay",
     "group = \"short-day\"",
     "way = \"sown in june\"",
     "plan.toml:23:7: error: sunflower has no way 'sown in june'\n"
     "  | way = \"sown in june\"\n"
     "  |       ^\n"
     "  hint: its sheet has 'sown in place' and 'bought plants'\n"},
    {"KeptAnnual",
     "group = \"short-day\"",
     "keep = true",
     "plan.toml:23:8: error: 'keep' is for bulbs, corms and tubers; sunflower is none\n"
     "  | keep = true\n"
     "  |        ^\n"},
    {"NoPlants",
     "group = \"short-day\"",
     "plants = 0",
     "plan.toml:23:10: error: 'plants' must be from 1 to 100000, not 0\n"
     "  | plants = 0\n"
     "  |          ^\n"},
    {"HalfASuccession",
     "group = \"short-day\"",
     "successions = 2.5",
     "plan.toml:23:15: error: 'successions' must be a whole number, not 2.5\n"
     "  | successions = 2.5\n"
     "  |               ^\n"},
    {"LiftedBeforePlanted",
     "group = \"short-day\"",
     "plant_on = 2027-05-20\n"
     "lift_on = 2027-05-10",
     "plan.toml:24:11: error: 'lift_on' is before 'plant_on'\n"
     "  | lift_on = 2027-05-10\n"
     "  |           ^\n"},
    {"PlantedWhatIsSown",
     "group = \"short-day\"",
     "way = \"sown in place\"\n"
     "plant_on = 2027-05-20",
     "plan.toml:24:12: error: sunflower, sown in place, is not planted: it stays where it is sown\n"
     "  | plant_on = 2027-05-20\n"
     "  |            ^\n"
     "  hint: write start_on for the day of sowing\n"},
    {"BothCropForms",
     "[[bed.stretch.crop]]",
     "crops = [\"nigella\"]\n"
     "[[bed.stretch.crop]]",
     "plan.toml:22:1: error: a stretch has either 'crops' or [[bed.stretch.crop]], not both\n"
     "  | [[bed.stretch.crop]]\n"
     "  | ^\n"
     "  hint: move the names of 'crops' into [[bed.stretch.crop]] entries of their own\n"},
    {"CropsIsAWord",
     "crops = [\"cornflower\", \"zinnia\"]",
     "crops = \"cornflower\"",
     "plan.toml:17:9: error: 'crops' must be a list of strings, not a string\n"
     "  | crops = \"cornflower\"\n"
     "  |         ^\n"
     "  hint: write crops = [\"cornflower\"]\n"},
    {"CropIsANumber",
     "\"zinnia\"",
     "7",
     "plan.toml:17:24: error: 'crops' must list strings, not a number\n"
     "  | crops = [\"cornflower\", 7]\n"
     "  |                        ^\n"},
    {"SingleBrackets",
     "[[bed]]\n"
     "name = \"long bed\"\n"
     "length_m = 5\n"
     "width_m = 1.2\n",
     "[bed]\n"
     "name = \"long bed\"\n"
     "length_m = 5\n"
     "width_m = 1.2\n",
     "plan.toml:10:1: error: there may be several [[bed]]: each is one of a list\n"
     "  | [bed]\n"
     "  | ^\n"
     "  hint: write [[bed]] with double brackets\n"},
    {"DoubleBrackets",
     "[place]",
     "[[place]]",
     "plan.toml:4:1: error: there is one [place], not a list of them\n"
     "  | [[place]]\n"
     "  | ^\n"
     "  hint: write [place] with single brackets\n"},
    {"DuplicateBed",
     "[[bed]]",
     "[[bed]]\n"
     "name = \"Long Bed\"\n"
     "length_m = 1\n"
     "width_m = 1\n"
     "\n"
     "[[bed]]",
     "plan.toml:16:8: error: there is another bed 'long bed'\n"
     "  | name = \"long bed\"\n"
     "  |        ^\n"
     "  hint: give each bed a name of its own\n"},
    {"BedIdIsAnotherBedsName",
     "[[bed]]",
     "[[bed]]\n"
     "name = \"short bed\"\n"
     "id = \"long bed\"\n"
     "length_m = 1\n"
     "width_m = 1\n"
     "\n"
     "[[bed]]",
     "plan.toml:17:8: error: there is another bed 'long bed'\n"
     "  | name = \"long bed\"\n"
     "  |        ^\n"
     "  hint: give each bed a name of its own\n"},
    {"TwoPlantingsNeedAnId",
     "crop = \"sunflower\"\n"
     "group = \"short-day\"",
     "crop = \"zinnia\"",
     "plan.toml:21:1: error: this bed has zinnia already: the two could be confused\n"
     "  | [[bed.stretch.crop]]\n"
     "  | ^\n"
     "  hint: give this one an id in [[bed.stretch.crop]]: id = \"late zinnia\"\n"},
    {"SameCropTwiceInAList",
     "\"zinnia\"",
     "\"cornflower\"",
     "plan.toml:17:24: error: this bed has cornflower already: the two could be confused\n"
     "  | crops = [\"cornflower\", \"cornflower\"]\n"
     "  |                        ^\n"
     "  hint: give this one an id in [[bed.stretch.crop]]: id = \"late cornflower\"\n"},
    {"SameIdTwice",
     "[[bed.stretch.crop]]",
     "[[bed.stretch.crop]]\n"
     "crop = \"nigella\"\n"
     "id = \"late\"\n"
     "[[bed.stretch.crop]]\n"
     "id = \"late\"",
     "plan.toml:24:1: error: this bed has another planting 'late'\n"
     "  | [[bed.stretch.crop]]\n"
     "  | ^\n"
     "  hint: give it an id of its own\n"},
    {"StandsBehindAnother",
     "[[bed.stretch.crop]]",
     "[[bed.stretch.crop]]\n"
     "crop = \"nigella\"\n"
     "[[bed.stretch.crop]]\n"
     "crop = \"peony\"\n"
     "since = 2020\n"
     "[[bed.stretch.crop]]",
     "plan.toml:23:1: error: peony stands here since 2020: nigella cannot be grown before it\n"
     "  | [[bed.stretch.crop]]\n"
     "  | ^\n"
     "  hint: write what stands first on its stretch: the crops follow one another\n"},
    {"IdIsAnotherPlantingsName",
     "crop = \"sunflower\"",
     "crop = \"sunflower\"\n"
     "id = \"zinnia\"",
     "plan.toml:21:1: error: this bed has another planting 'zinnia'\n"
     "  | [[bed.stretch.crop]]\n"
     "  | ^\n"
     "  hint: give it an id of its own\n"},
    {"SlashInId",
     "crop = \"sunflower\"",
     "crop = \"sunflower\"\n"
     "id = \"a/b\"",
     "plan.toml:23:6: error: an id may not hold '/'\n"
     "  | id = \"a/b\"\n"
     "  |      ^\n"
     "  hint: '/' stands between a bed and its planting\n"},
    {"LineBreakInAName",
     "\"long bed\"",
     "\"long\\nbed\"",
     "plan.toml:11:8: error: 'name' holds a line break or another character that cannot be seen\n"
     "  | name = \"long\\nbed\"\n"
     "  |        ^\n"
     "  hint: write it as one plain line\n"},
    {"LineBreakInMultiLineText",
     "\"long bed\"",
     "\"\"\"long\n"
     "bed\"\"\"",
     "plan.toml:11:8: error: 'name' holds a line break or another character that cannot be seen\n"
     "  | name = \"\"\"long\n"
     "  |        ^\n"
     "  hint: write it as one plain line\n"},
    {"ControlCharacterInAName",
     "\"Porch vases\"",
     "\"Porch\\u001b[2J\"",
     "plan.toml:2:9: error: 'title' holds a line break or another character that cannot be seen\n"
     "  | title = \"Porch\\u001b[2J\"\n"
     "  |         ^\n"
     "  hint: write it as one plain line\n"},
    {"EmptyName",
     "\"long bed\"",
     "\"  \"",
     "plan.toml:11:8: error: 'name' is empty\n"
     "  | name = \"  \"\n"
     "  |        ^\n"},
    {"UnknownKey",
     "title =",
     "titel =",
     "plan.toml:2:1: error: unknown key 'titel'\n"
     "  | titel = \"Porch vases\"\n"
     "  | ^\n"
     "  hint: did you mean 'title'?\n"},
    {"UnknownKeyOfTheLongForm",
     "group = \"short-day\"",
     "sucessions = 3",
     "plan.toml:23:1: error: unknown key 'sucessions' under [[bed.stretch.crop]]\n"
     "  | sucessions = 3\n"
     "  | ^\n"
     "  hint: did you mean 'successions'?\n"},
    {"UnknownKeyNearNothing",
     "title = \"Porch vases\"",
     "zzzzzzzz = 1",
     "plan.toml:2:1: error: unknown key 'zzzzzzzz'\n"
     "  | zzzzzzzz = 1\n"
     "  | ^\n"
     "  hint: there may stand flowering_year, title, garden, began, calendar, [place], [wish], [work], [shelter], [[bed]], [[elsewhere]], [[have]] and [[happened]]\n"},
    {"UnknownHeading",
     "[[bed]]",
     "[plaec]\n"
     "latitude = 1\n"
     "\n"
     "[[bed]]",
     "plan.toml:10:2: error: unknown heading [plaec]\n"
     "  | [plaec]\n"
     "  |  ^\n"
     "  hint: did you mean 'place'?\n"},
    {"ControlCharacterInAKey",
     "title = \"Porch vases\"",
     "\"\\u001b[2J\" = 1",
     "plan.toml:2:1: error: unknown key '\x1B[2J'\n"
     "  | \"\\u001b[2J\" = 1\n"
     "  | ^\n"
     "  hint: there may stand flowering_year, title, garden, began, calendar, [place], [wish], [work], [shelter], [[bed]], [[elsewhere]], [[have]] and [[happened]]\n"},
    {"KeyUnderTheWrongHeading",
     "name = \"long bed\"",
     "name = \"long bed\"\n"
     "latitude = 52.5",
     "plan.toml:12:1: error: unknown key 'latitude' under [[bed]]\n"
     "  | latitude = 52.5\n"
     "  | ^\n"
     "  hint: 'latitude' belongs under [place]: move it there\n"},
    {"TopKeyBelowAHeading",
     "frost_meaning",
     "garden = \"x\"\n"
     "frost_meaning",
     "plan.toml:8:1: error: unknown key 'garden' under [place]\n"
     "  | garden = \"x\"\n"
     "  | ^\n"
     "  hint: 'garden' belongs before the first heading: move it there\n"},
    {"StretchOnItsOwn",
     "[[bed.stretch]]",
     "[[stretch]]",
     "plan.toml:15:3: error: unknown heading [[stretch]]\n"
     "  | [[stretch]]\n"
     "  |   ^\n"
     "  hint: 'stretch' belongs under [[bed.stretch]]: move it there\n"},
    {"MistypedKeyOfAnotherHeading",
     "name = \"long bed\"",
     "name = \"long bed\"\n"
     "lattitude = 52.5",
     "plan.toml:12:1: error: unknown key 'lattitude' under [[bed]]\n"
     "  | lattitude = 52.5\n"
     "  | ^\n"
     "  hint: did you mean 'latitude' of [place]?\n"},
    {"Binary",
     nullptr,
     "ELF",
     "plan.toml:1:1: error: cannot read this line: expected a key, a heading or a comment, saw '\\u007F'\n"
     "  | \x7F" "ELF\x2\x1\n"
     "  | ^\n"},
    {"HappenedToNobody",
     "[[bed]]",
     "[[happened]]\n"
     "planting = \"long bed/aster\"\n"
     "what = \"sown\"\n"
     "on = 2027-04-18\n"
     "\n"
     "[[bed]]",
     "plan.toml:11:12: error: the plan has no planting 'long bed/aster'\n"
     "  | planting = \"long bed/aster\"\n"
     "  |            ^\n"
     "  hint: there are long bed/cornflower, long bed/zinnia and long bed/sunflower\n"},
    {"HappenedInAnotherOrder",
     "[[bed]]",
     "[[happened]]\n"
     "planting = \"long bed/zinnia\"\n"
     "what = \"first-cut\"\n"
     "on = 2027-04-18\n"
     "\n"
     "[[happened]]\n"
     "planting = \"long bed/zinnia\"\n"
     "what = \"sown\"\n"
     "on = 2027-04-25\n"
     "\n"
     "[[bed]]",
     "plan.toml:15:1: error: sown on 25 April 2027: line 10 has it first-cut on 18 April 2027\n"
     "  | [[happened]]\n"
     "  | ^\n"
     "  hint: a plant is sown, planted out, cut and lifted in this order\n"},
    {"HappenedTwice",
     "[[bed]]",
     "[[happened]]\n"
     "planting = \"long bed/cornflower\"\n"
     "what = \"sown\"\n"
     "on = 2027-04-18\n"
     "\n"
     "[[happened]]\n"
     "planting = \"long bed/cornflower\"\n"
     "what = \"sown\"\n"
     "on = 2027-04-25\n"
     "\n"
     "[[bed]]",
     "plan.toml:15:1: error: sown on 25 April 2027: line 10 has it sown on 18 April 2027\n"
     "  | [[happened]]\n"
     "  | ^\n"
     "  hint: take one of the two out\n"},
    {"HappenedToNoSuchPlant",
     "[[bed]]",
     "[[happened]]\n"
     "planting = \"long bed/cornflower\"\n"
     "what = \"sown\"\n"
     "on = 2027-03-18\n"
     "\n"
     "[[happened]]\n"
     "planting = \"long bed/cornflower\"\n"
     "what = \"planted\"\n"
     "on = 2027-04-25\n"
     "\n"
     "[[bed]]",
     "plan.toml:15:1: error: cornflower is never planted like that\n"
     "  | [[happened]]\n"
     "  | ^\n"
     "  hint: its sheet has 'sown in place in autumn', 'modules planted out in autumn', 'modules in a frame over winter', 'sown in place in spring', 'raised in warmth in spring', 'modules in early summer' and 'bought plants'\n"},
    {"HappenedOtherThanNotDone",
     "[[bed]]",
     "[[happened]]\n"
     "planting = \"long bed/cornflower\"\n"
     "what = \"sown\"\n"
     "on = 2027-03-18\n"
     "job = \"sow\"\n"
     "\n"
     "[[bed]]",
     "plan.toml:14:7: error: 'job' belongs to what = \"not-done\"\n"
     "  | job = \"sow\"\n"
     "  |       ^\n"},
    {"HappenedInAnEarlierYear",
     "[[bed]]",
     "[[happened]]\n"
     "planting = \"long bed/cornflower\"\n"
     "what = \"sown\"\n"
     "on = 2024-03-18\n"
     "\n"
     "[[bed]]",
     "plan.toml:13:6: error: 18 March 2024 is of an earlier year than this plan's\n"
     "  | on = 2024-03-18\n"
     "  |      ^\n"},
    {"ElsewhereHowMany",
     "[[bed]]",
     "[[elsewhere]]\n"
     "crop = \"rose\"\n"
     "\n"
     "[[bed]]",
     "plan.toml:10:1: error: missing key 'plants' under [[elsewhere]]\n"
     "  | [[elsewhere]]\n"
     "  | ^\n"
     "  hint: for example: plants = 2\n"},
    {"ShareNotYet",
     "group = \"short-day\"",
     "share = 0.5",
     "plan.toml:23:9: error: 'share' cannot be used yet\n"
     "  | share = 0.5\n"
     "  |         ^\n"
     "  hint: give the crop a stretch of its own\n"},
    {"YearsNotYet",
     "title =",
     "years = 2\n"
     "title =",
     "plan.toml:2:9: error: 'years' cannot be used yet\n"
     "  | years = 2\n"
     "  |         ^\n"
     "  hint: write one plan for each flowering year\n"},
    {"WishBackwards",
     "[[bed]]",
     "[wish]\n"
     "from = \"10 October\"\n"
     "to = \"10 May\"\n"
     "\n"
     "[[bed]]",
     "plan.toml:12:6: error: the wish ends on 10 May, before it begins on 10 October\n"
     "  | to = \"10 May\"\n"
     "  |      ^\n"
     "  hint: a flowering year runs from January to December\n"},
    {"WishWithoutVases",
     "[[bed]]",
     "[wish]\n"
     "vases_per_week = 0\n"
     "from = \"10 May\"\n"
     "to = \"10 October\"\n"
     "\n"
     "[[bed]]",
     "plan.toml:11:18: error: 'vases_per_week' must be from 0.1 to 1000, not 0\n"
     "  | vases_per_week = 0\n"
     "  |                  ^\n"},
    {"NeitherBedNorWish",
     nullptr,
     "flowering_year = 2027\n"
     "[place]\n"
     "latitude = 52.5\n"
     "last_frost = 2027-05-10\n"
     "first_frost = \"Oct 12\"\n"
     "frost_meaning = \"air\"\n",
     "plan.toml:1:1: error: the plan has neither a [[bed]] nor a [wish]\n"
     "  | flowering_year = 2027\n"
     "  | ^\n"},
    {"ReminderOnTheDay",
     "[[bed]]",
     "[work]\n"
     "remind_days_before = 0\n"
     "\n"
     "[[bed]]",
     "plan.toml:11:22: error: 'remind_days_before' must be from 1 to 30, not 0\n"
     "  | remind_days_before = 0\n"
     "  |                      ^\n"},
    {"UnitAfterABlank",
     "length_m = 5",
     "length_m = 5 m",
     "plan.toml:12:14: error: cannot read this line: expected a comment or whitespace, saw 'm'\n"
     "  | length_m = 5 m\n"
     "  |              ^\n"
     "  hint: the unit is in the key, not in the value: length_m = 5\n"},
    {"OtherUnitAfterTheNumber",
     "length_m = 5",
     "length_m = 520 cm",
     "plan.toml:12:16: error: cannot read this line: expected a comment or whitespace, saw 'c'\n"
     "  | length_m = 520 cm\n"
     "  |                ^\n"
     "  hint: the unit is in the key, not in the value: length_cm = 520\n"},
    {"InchesAsAMark",
     "length_m = 5",
     "length_in = 196\"",
     "plan.toml:12:16: error: cannot read the number: expected digit, saw '\"'\n"
     "  | length_in = 196\"\n"
     "  |                ^\n"
     "  hint: the unit is in the key, not in the value: length_in = 196\n"},
    {"UnitInQuotes",
     "length_m = 5",
     "length_m = \"5 m\"",
     "plan.toml:12:12: error: 'length_m' must be a number, not a string\n"
     "  | length_m = \"5 m\"\n"
     "  |            ^\n"
     "  hint: the unit is in the key, not in the value: length_m = 5\n"},
    {"UnitInQuotesWithoutOneInTheKey",
     "length_m = 5",
     "length = \"6m\"",
     "plan.toml:12:10: error: 'length' must be a number, not a string\n"
     "  | length = \"6m\"\n"
     "  |          ^\n"
     "  hint: the unit is in the key, not in the value: length_m = 6\n"},
    {"DecimalCommaInQuotes",
     "length_m = 5",
     "length_m = \"5,5\"",
     "plan.toml:12:12: error: 'length_m' must be a number, not a string\n"
     "  | length_m = \"5,5\"\n"
     "  |            ^\n"
     "  hint: write a point, not a comma: length_m = 5.5\n"},
    {"WordBehindAQuotedNumber",
     "group = \"short-day\"",
     "plants = \"12 plants\"",
     "plan.toml:23:10: error: 'plants' must be a whole number, not a string\n"
     "  | plants = \"12 plants\"\n"
     "  |          ^\n"
     "  hint: write the number alone: plants = 12\n"},
    {"ColonForEquals",
     "latitude = 52.5",
     "latitude: 52.5",
     "plan.toml:5:9: error: cannot read this line: expected '=', saw ':'\n"
     "  | latitude: 52.5\n"
     "  |         ^\n"
     "  hint: write an equals sign: latitude = 52.5\n"},
    {"CropsWithoutQuotes",
     "crops = [\"cornflower\", \"zinnia\"]",
     "crops = [cornflower, sweet pea]",
     "plan.toml:17:10: error: cannot read the value: it is no text in quotes, number, date, true or false\n"
     "  | crops = [cornflower, sweet pea]\n"
     "  |          ^\n"
     "  hint: text stands in quotes: crops = [\"cornflower\", \"sweet pea\"]\n"},
    {"SingleBracketsTwice",
     "[[bed]]",
     "[bed]\n"
     "name = \"short bed\"\n"
     "length_m = 1\n"
     "width_m = 1\n"
     "\n"
     "[bed]",
     "plan.toml:15:1: error: 'bed' is given a second time\n"
     "  | [bed]\n"
     "  | ^\n"
     "  hint: write [[bed]] with double brackets: there may be several\n"},
    {"SingleBracketsBeforeDouble",
     "[[bed]]",
     "[bed]\n"
     "name = \"short bed\"\n"
     "length_m = 1\n"
     "width_m = 1\n"
     "\n"
     "[[bed]]",
     "plan.toml:15:1: error: 'bed' is given a second time\n"
     "  | [[bed]]\n"
     "  | ^\n"
     "  hint: an earlier [bed] has single brackets: write [[bed]] there too\n"},
    {"MonthInAnotherLanguage",
     "\"10 May\"",
     "\"5. Mai\"",
     "plan.toml:6:14: error: 'last_frost' is '5. Mai', which names no month\n"
     "  | last_frost = \"5. Mai\"\n"
     "  |              ^\n"
     "  hint: write the month in English: last_frost = \"14 May\"\n"},
    {"WeekdayForADay",
     "\"10 May\"",
     "\"Saturday\"",
     "plan.toml:6:14: error: 'last_frost' is 'Saturday', which is another day tomorrow\n"
     "  | last_frost = \"Saturday\"\n"
     "  |              ^\n"
     "  hint: name the day: last_frost = \"14 May\"\n"},
    {"TodayInAPlan",
     "title =",
     "began = \"today\"\n"
     "title =",
     "plan.toml:2:9: error: 'began' is 'today', which is another day tomorrow\n"
     "  | began = \"today\"\n"
     "  |         ^\n"
     "  hint: name the day: began = 2027-05-14\n"},
    {"DateWithoutItsYear",
     "title =",
     "began = \"25th November\"\n"
     "title =",
     "plan.toml:2:9: error: 'began' is '25 November', without a year\n"
     "  | began = \"25th November\"\n"
     "  |         ^\n"
     "  hint: write the year too: began = \"25 November 2027\"\n"},
    {"DateThatNoCalendarHas",
     "title =",
     "began = \"31 November 2026\"\n"
     "title =",
     "plan.toml:2:9: error: 'began' is '31 November 2026', a day that no calendar has\n"
     "  | began = \"31 November 2026\"\n"
     "  |         ^\n"},
    {"DayBeforeMonthInFigures",
     "\"10 May\"",
     "28.11.2027",
     "plan.toml:6:19: error: cannot read the number: expected decimal digit or exponent, saw '.'\n"
     "  | last_frost = 28.11.2027\n"
     "  |                   ^\n"
     "  hint: a date is year, month, day: last_frost = 2027-11-28\n"},
    {"DayAndMonthSwapped",
     "title =",
     "began = 2026-28-11\n"
     "title =",
     "plan.toml:2:16: error: cannot read the date: expected month between 1 and 12, saw 28\n"
     "  | began = 2026-28-11\n"
     "  |                ^\n"
     "  hint: a date is year, month, day: began = 2026-11-28\n"},
    {"DayOrMonthInFigures",
     "\"10 May\"",
     "5.10.2027",
     "plan.toml:6:18: error: cannot read the number: expected decimal digit or exponent, saw '.'\n"
     "  | last_frost = 5.10.2027\n"
     "  |                  ^\n"
     "  hint: a date is year, month, day: last_frost = 2027-05-14\n"},
    {"UnknownKeyOfWork",
     "[[bed]]",
     "[work]\n"
     "notes = \"by hand\"\n"
     "\n"
     "[[bed]]",
     "plan.toml:11:1: error: unknown key 'notes' under [work]\n"
     "  | notes = \"by hand\"\n"
     "  | ^\n"
     "  hint: did you mean 'note' of [[happened]]?\n"},
    {"UnknownKeyOfABed",
     "name = \"long bed\"",
     "name = \"long bed\"\n"
     "soilkind = \"clay\"",
     "plan.toml:12:1: error: unknown key 'soilkind' under [[bed]]\n"
     "  | soilkind = \"clay\"\n"
     "  | ^\n"
     "  hint: under [[bed]] may stand name, id, length_m, width_m, person, cover and [[bed.stretch]]\n"},
    {"UnknownKeyOfAStretch",
     "length_m = 2\n",
     "length_m = 2\n"
     "mulch = true\n",
     "plan.toml:17:1: error: unknown key 'mulch' under [[bed.stretch]]\n"
     "  | mulch = true\n"
     "  | ^\n"
     "  hint: under [[bed.stretch]] may stand length_m, crops and [[bed.stretch.crop]]\n"},
    {"UnknownKeyOfACrop",
     "group = \"short-day\"",
     "supplier = \"market\"",
     "plan.toml:23:1: error: unknown key 'supplier' under [[bed.stretch.crop]]\n"
     "  | supplier = \"market\"\n"
     "  | ^\n"
     "  hint: under [[bed.stretch.crop]] may stand crop, variety, group, id, plants, spacing_cm, colours, keep, pods, pinch, successions, leave, gap_weeks, person, since, way, start_on, plant_on, lift_on and not_before\n"},
    {"NameUnderThePlace",
     "latitude = 52.5",
     "latitude = 52.5\n"
     "name = \"here\"",
     "plan.toml:6:1: error: unknown key 'name' under [place]\n"
     "  | name = \"here\"\n"
     "  | ^\n"
     "  hint: 'name' belongs under [[bed]] or [[elsewhere]]: move it there\n"},
    {"FahrenheitYear",
     "latitude = 52.5",
     "latitude = 52.5\n"
     "year_mean_c = 50.7\n"
     "warmest_month_c = 63",
     "plan.toml:6:15: error: 'year_mean_c' must be from -60 to 40, not 50.7\n"
     "  | year_mean_c = 50.7\n"
     "  |               ^\n"
     "  hint: in degrees Fahrenheit? then write year_mean_f\n"
     "plan.toml:7:19: error: 'warmest_month_c' must be from -60 to 45, not 63\n"
     "  | warmest_month_c = 63\n"
     "  |                   ^\n"
     "  hint: in degrees Fahrenheit? then write warmest_month_f\n"},
    {"FahrenheitMonths",
     "latitude = 52.5",
     "latitude = 52.5\n"
     "mean_c = [40, 41, 44, 49, 55, 61, 64, 64, 59, 52, 45, 41]",
     "plan.toml:6:23: error: 'mean_c' must be from -60 to 45, not 49\n"
     "  | mean_c = [40, 41, 44, 49, 55, 61, 64, 64, 59, 52, 45, 41]\n"
     "  |                       ^\n"
     "  hint: in degrees Fahrenheit? then write mean_f\n"},
    {"FahrenheitMaxima",
     "latitude = 52.5",
     "latitude = 52.5\n"
     "mean_max_c = [46, 47, 52, 57, 64, 69, 74, 73, 67, 59, 52, 47]\n"
     "mean_min_c = [36, 36, 38, 41, 47, 52, 56, 56, 52, 46, 41, 37]",
     "plan.toml:6:27: error: 'mean_max_c' must be from -60 to 55, not 57\n"
     "  | mean_max_c = [46, 47, 52, 57, 64, 69, 74, 73, 67, 59, 52, 47]\n"
     "  |                           ^\n"
     "  hint: in degrees Fahrenheit? then write mean_max_f\n"
     "plan.toml:7:31: error: 'mean_min_c' must be from -60 to 45, not 47\n"
     "  | mean_min_c = [36, 36, 38, 41, 47, 52, 56, 56, 52, 46, 41, 37]\n"
     "  |                               ^\n"
     "  hint: in degrees Fahrenheit? then write mean_min_f\n"},
    {"FahrenheitNight",
     "latitude = 52.5",
     "latitude = 52.5\n"
     "year_mean_c = 10\n"
     "warmest_month_c = 17\n"
     "coldest_c = 14",
     "plan.toml:8:13: error: the usual coldest night, 14 degC, is warmer than the coldest month, 3 degC\n"
     "  | coldest_c = 14\n"
     "  |             ^\n"
     "  hint: in degrees Fahrenheit? then write coldest_f\n"},
    {"CentimetresAsMetresOfAStretch",
     "length_m = 2\n",
     "length_m = 80\n",
     "plan.toml:16:12: error: this stretch is 80 m long, its bed 'long bed' only 5 m\n"
     "  | length_m = 80\n"
     "  |            ^\n"
     "  hint: in centimetres? then write length_cm = 80\n"},
    {"MetresAsCentimetres",
     "width_m = 1.2",
     "width_cm = 1.2",
     "plan.toml:13:12: error: no bed is 1.2 cm wide\n"
     "  | width_cm = 1.2\n"
     "  |            ^\n"
     "  hint: in metres? then write width_m = 1.2\n"},
    {"SpacingInMetres",
     "group = \"short-day\"",
     "spacing_cm = 0.3",
     "plan.toml:23:14: error: 'spacing_cm' is 0.3, less than a centimetre\n"
     "  | spacing_cm = 0.3\n"
     "  |              ^\n"
     "  hint: in metres? then write spacing_cm = 30\n"},
    {"CropByItsPlural",
     "\"zinnia\"",
     "\"verbenas\"",
     "plan.toml:17:24: error: there is no sheet for 'verbenas'\n"
     "  | crops = [\"cornflower\", \"verbenas\"]\n"
     "  |                        ^\n"
     "  hint: did you mean 'verbena bonariensis'?\n"},
     {"NameOfSeveralCrops",
     "\"zinnia\"",
     "\"scabious\"",
     "plan.toml:17:24: error: there is no sheet for 'scabious'\n"
     "  | crops = [\"cornflower\", \"scabious\"]\n"
     "  |                        ^\n"
     "  hint: annual scabious and perennial scabious are so called: write the one you mean\n"},
    {"CropInAnotherLanguage",
     "\"zinnia\"",
     "\"Schmuckkörbchen\"",
     "plan.toml:17:24: error: there is no sheet for 'Schmuckkörbchen'\n"
     "  | crops = [\"cornflower\", \"Schmuckkörbchen\"]\n"
     "  |                        ^\n"
     "  hint: 'trug crop' lists the crops by their English names; botanical names do too, and a sheet of your own goes into a folder crops/ beside the plan\n"},
    {"Several",
     nullptr,
     "flowering_year = \"2027\"\n"
     "titel = \"x\"\n"
     "[place]\n"
     "latitude = 95\n"
     "last_frost = \"05-14\"\n"
     "[[bed]]\n"
     "name = \"b\"\n"
     "length = 5\n"
     "width_m = 1\n",
     "plan.toml:1:18: error: 'flowering_year' must be a whole number, not a string\n"
     "  | flowering_year = \"2027\"\n"
     "  |                  ^\n"
     "  hint: leave the quotes away\n"
     "plan.toml:2:1: error: unknown key 'titel'\n"
     "  | titel = \"x\"\n"
     "  | ^\n"
     "  hint: did you mean 'title'?\n"
     "plan.toml:3:1: error: missing key 'first_frost' under [place]\n"
     "  | [place]\n"
     "  | ^\n"
     "  hint: for example: first_frost = \"9 October\"\n"
     "plan.toml:3:1: error: missing key 'frost_meaning' under [place]\n"
     "  | [place]\n"
     "  | ^\n"
     "  hint: for example: frost_meaning = \"garden\"  # the average frost that marks tender plants; or \"air\": the average 0 degC in a weather screen; or \"safe\": nine years in ten have none after it\n"
     "plan.toml:4:12: error: 'latitude' must lie between -90 and 90, not at 95\n"
     "  | latitude = 95\n"
     "  |            ^\n"
     "plan.toml:5:14: error: 'last_frost' is '05-14': which is the day and which the month?\n"
     "  | last_frost = \"05-14\"\n"
     "  |              ^\n"
     "  hint: write the month as a word: last_frost = \"14 May\"\n"
     "plan.toml:8:10: error: 'length' has no unit\n"
     "  | length = 5\n"
     "  |          ^\n"
     "  hint: write length_m = 5 or length_ft = 16.4\n"},
};
// clang-format on

class ErrorGallery : public testing::TestWithParam<Row> {};

TEST_P(ErrorGallery, SaysIt) {
  const Row& row = GetParam();
  const Reading reading = read_text(row.what ? spoilt(row.what, row.with) : row.with);
  EXPECT_FALSE(reading.plan);
  EXPECT_EQ(reading.diagnostics.render(), row.expected);
}

INSTANTIATE_TEST_SUITE_P(Plan, ErrorGallery, testing::ValuesIn(kRows),
                         [](const auto& entry) { return std::string(entry.param.name); });

// A plan that reads, with a word about what is most likely a slip of the unit.
const Row kWarnings[] = {
    {"CentimetresAsMetres", "length_m = 5", "length_m = 500",
     "plan.toml:12:12: warning: this bed is 500 m long\n"
     "  | length_m = 500\n"
     "  |            ^\n"
     "  hint: in centimetres? then write length_cm = 500; if that is so, length_cm = 50000 says it "
     "without this warning\n"},
    {"CentimetresAsMetresAcross", "width_m = 1.2", "width_m = 60",
     "plan.toml:13:11: warning: this bed is 60 m wide\n"
     "  | width_m = 60\n"
     "  |           ^\n"
     "  hint: in centimetres? then write width_cm = 60; if that is so, width_cm = 6000 says it "
     "without this warning\n"},
    {"DecimetresAsMetres", "width_m = 1.2", "width_m = 0.12",
     "plan.toml:13:11: warning: this bed is 0.12 m wide\n"
     "  | width_m = 0.12\n"
     "  |           ^\n"
     "  hint: if that is so, width_cm = 12 says it without this warning\n"},
};

class WarningGallery : public testing::TestWithParam<Row> {};

TEST_P(WarningGallery, SaysIt) {
  const Row& row = GetParam();
  const Reading reading = read_text(spoilt(row.what, row.with));
  EXPECT_TRUE(reading.plan);
  EXPECT_EQ(reading.diagnostics.render(), row.expected);
}

INSTANTIATE_TEST_SUITE_P(Plan, WarningGallery, testing::ValuesIn(kWarnings),
                         [](const auto& entry) { return std::string(entry.param.name); });

// Whoever means it says so in centimetres.
TEST(WarningGalleryItself, IsQuietWhereTheUnitIsMeant) {
  for (const auto& [what, with] : {std::pair("length_m = 5", "length_cm = 50000"),
                                   {"width_m = 1.2", "width_cm = 12"},
                                   {"length_m = 5", "length_m = 150"},
                                   {"length_m = 5", "length_ft = 600"}}) {
    const Reading reading = read_text(spoilt(what, with));
    EXPECT_TRUE(reading.plan) << with;
    EXPECT_EQ(reading.diagnostics.render(), "") << with;
  }
}

TEST(ErrorGalleryItself, StartsFromAPlanWithoutFault) {
  const Reading reading = read_text(std::string(kSmallPlan));
  EXPECT_TRUE(reading.plan);
  EXPECT_EQ(reading.diagnostics.render(), "");
}

// A list too deep for the library's limit, which must hold at the brackets' own depth.
TEST(ErrorGalleryItself, RefusesDeepNesting) {
  const std::string line = "x = " + std::string(40, '[') + std::string(40, ']');
  EXPECT_EQ(
      read_text(line).diagnostics.render(),
      "plan.toml:1:37: error: cannot read the value: more than 32 brackets lie in one another\n"
      "  | " +
          line + "\n  | " + std::string(36, ' ') + "^\n");
}

// 100,000 parts overflow the stack inside the library; and so do fewer, nested.
TEST(ErrorGalleryItself, RefusesDottedKeysOfManyParts) {
  std::string key = "a";
  for (int part = 0; part < 2000; ++part) key += ".a";
  EXPECT_EQ(read_text(key + " = 1\n").diagnostics.render(),
            "plan.toml:1:1: error: this line has 2000 dots; at most 200 are read\n"
            "  hint: a key has few parts\n");
}

TEST(ErrorGalleryItself, ReadsTheDeepestTablesThatPass) {
  std::string key = "a";
  for (int part = 0; part < 199; ++part) key += ".a";
  std::string text = "x = [\n", end = "]\n";
  for (int depth = 0; depth < 15; ++depth) {
    text += "{" + key + " = [\n";
    end = "]}\n" + end;
  }
  const Reading reading = read_text(text + end);
  EXPECT_NE(reading.diagnostics.render().find("unknown heading [[x]]"), std::string::npos);
}

TEST(ErrorGalleryItself, RefusesALongName) {
  const std::string eighty(80, 'b');
  EXPECT_TRUE(read_text(spoilt("long bed", eighty)).plan);
  EXPECT_EQ(read_text(spoilt("long bed", eighty + "b")).diagnostics.render(),
            "plan.toml:11:8: error: 'name' has 81 characters; at most 80 are allowed\n"
            "  | name = \"" +
                eighty + "b\"\n  |        ^\n");
}

TEST(ErrorGalleryItself, CountsAfterTwentyErrors) {
  std::string text;
  for (int number = 1; number <= 24; ++number)
    text += "zzzzzzzz" + std::to_string(number) + " = 1\n";
  text += "flowering_year = 2027\n" + spoilt("flowering_year = 2027\n", "");
  const std::string report = read_text(text).diagnostics.render();
  EXPECT_NE(report.find("plan.toml:20:1: error: unknown key 'zzzzzzzz20'\n"), std::string::npos);
  EXPECT_EQ(report.find("plan.toml:21:1"), std::string::npos);
  EXPECT_TRUE(report.ends_with("and 4 more errors\n")) << report;
}

TEST(ErrorGalleryItself, SaysWhatIsWrongWithTheFileItself) {
  const MemoryFiles files({{"folder/plan.toml", ""}, {"large.toml", std::string(2 << 20, 'x')}});
  const struct {
    const char* path;
    const char* expected;
  } rows[] = {
      {"none.toml",
       "none.toml: error: there is no such file\n  hint: check the name and the folder\n"},
      {"folder", "folder: error: this is a folder, not a file\n  hint: name the file inside it\n"},
      {"large.toml",
       "large.toml: error: the file is larger than 1 MiB\n"
       "  hint: a plan is a few hundred lines of text; is this the right file?\n"},
  };
  for (const auto& row : rows) {
    SCOPED_TRACE(row.path);
    SheetLibrary sheets;
    Diagnostics diagnostics;
    EXPECT_FALSE(read_plan(files, row.path, sheets, diagnostics));
    EXPECT_EQ(diagnostics.render(), row.expected);
  }
}

}  // namespace
}  // namespace trug::read
