// SPDX-License-Identifier: MIT
// The plan: a place, a wish, the gardener's days and the beds, as the TOML file says them.
#pragma once

#include <array>
#include <chrono>
#include <compare>
#include <cstddef>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "base/date.h"
#include "base/diagnostics.h"
#include "base/quantity.h"
#include "base/uuid.h"
#include "base/words.h"
#include "garden/told.h"

namespace trug {

// What the gardener's two frost dates mean (growth models, 4 and 9).
// Garden: the average last and first frost that marks tender plants, about a screen minimum of
// +2 degC; the sheets' windows count from it. Air: the average screen minimum of 0 degC. Safe: nine
// years in ten are free of garden frost after (before) it.
enum class FrostMeaning { Garden, Air, Safe };
inline constexpr Word<FrostMeaning> kFrostMeanings[] = {
    {FrostMeaning::Garden, "garden"}, {FrostMeaning::Air, "air"}, {FrostMeaning::Safe, "safe"}};
static_assert(names_all(kFrostMeanings));

// Temperatures, degrees Celsius, from the best to none at all.
struct MonthlyMeans {
  std::array<double, 12> mean_c{};
  std::optional<std::array<double, 12>> max_c;  // known where the plan gives maxima and minima
};
struct TwoMeans {
  double year_mean_c = 0;
  double warmest_month_c = 0;
};
struct NoTemperatures {};
using Temperatures = std::variant<NoTemperatures, TwoMeans, MonthlyMeans>;

struct Place {
  double latitude = 0;  // degrees, south negative
  MonthDay last_frost{};
  MonthDay first_frost{};
  FrostMeaning frost_meaning = FrostMeaning::Garden;
  Temperatures temperatures;
  double heated_c = 16;                // where seedlings are raised in warmth: [shelter]
  std::optional<std::string> weather;  // a daily record, named from the plan's folder
  std::optional<double> coldest_c;     // usual coldest night; absent: winter losses are not judged
  std::optional<bool> snow;  // it lies in the cold of winter; absent: by the coldest month
  double risk = 0.2;         // of frost on tender plants, accepted: one year in five
  int days_late = 0;         // its flowers come so much later than reckoned; negative: sooner
  double stems_times = 1;    // its plants give so many stems for each that is reckoned
  Position at;
};

// What there is to raise plants in. A plan that says nothing has a windowsill and open ground: two
// seed trays in the warmth of a room, a square metre for a nursery bed, no frame (memory).
struct Shelter {
  bool given = false;
  double heated_trays = 2;
  double frame_m2 = 0;
  double nursery_m2 = 1;
  Position at;
};

struct Wish {
  double vases_per_week = 1;
  int stems_per_vase = 12;
  MonthDay from{};
  MonthDay to{};
  std::vector<std::string> colours;
  std::vector<std::string> like;     // crops, by their sheets' names: what `ground` reckons with
  std::vector<std::string> dislike;  // likewise: nothing proposes them
  bool safe = false;                 // only what nobody knows to harm people or pets is proposed
  bool mixed = true;                 // false: bunches of one kind
  Position at;
};

enum class Remind { Must, All, None };
inline constexpr Word<Remind> kReminds[] = {
    {Remind::Must, "must"}, {Remind::All, "all"}, {Remind::None, "none"}};
static_assert(names_all(kReminds));

struct Work {
  std::vector<std::chrono::weekday> days;  // empty: any day
  int remind_days_before = 1;
  int remind_at_minutes = 18 * 60;  // after midnight, on the day of the reminder
  Remind remind = Remind::Must;
  bool care = false;
  int days_between_crops = 7;  // to clear and feed the ground
};

// What the plan insists on for one crop. A pin beats windows and work days, never rules.
struct Pins {
  std::optional<std::string> way;
  std::optional<Date> start_on;  // sowing, or planting what is not sown
  std::optional<Date> plant_on;  // into its place in the bed
  std::optional<Date> lift_on;
  std::optional<Date> not_before;  // nothing of it earlier
  auto operator<=>(const Pins&) const = default;
};

// A crop asked for, as the plan says it.
struct CropEntry {
  std::string crop;  // the sheet's name, once resolved
  std::optional<std::string> variety;
  std::optional<std::string> group;
  std::optional<std::string> id;
  std::optional<int> plants;
  std::optional<double> spacing_cm;
  std::vector<std::string> colours;    // of the variety; empty: the sheet's
  std::optional<bool> pods;            // it stays until its pods are ripe; absent: by the sheet
  bool keep = false;                   // bulbs: left in the ground until the leaves have died
  std::optional<int> successions = 1;  // sowings; absent: as many as are useful, all season
  std::optional<int> gap_days;         // between first cuts; absent: the sheet's, else 14
  double leave = 0;                    // share of the stems that is not cut
  std::optional<bool> pinch;           // absent: as the sheet advises
  std::optional<int> since;            // stands there since that year; absent: it is to be planted
  std::optional<std::string> person;
  Pins pins;
  Position at;
  auto operator<=>(const CropEntry&) const = default;
};

// A piece of a bed's length, over its full width.
struct Stretch {
  Millimetres length;
  Millimetres offset;  // from the bed's start; stretches lie end to end
  Position at;
};

// What is laid or built over a bed.
enum class Cover { None, Fleece, Tunnel };
inline constexpr Word<Cover> kCovers[] = {
    {Cover::None, "none"}, {Cover::Fleece, "fleece"}, {Cover::Tunnel, "tunnel"}};
static_assert(names_all(kCovers));

struct Bed {
  std::string name;
  std::optional<std::string> id;
  Millimetres length;
  Millimetres width;
  std::optional<std::string> person;
  Cover cover = Cover::None;
  std::vector<Stretch> stretches;
  Position at;
};

// The ground a planting stands on: a stretch of a bed, or a share of one.
struct Patch {
  std::size_t bed = 0;  // in the plan's list
  int stretch = 0;      // of the bed, from 1
  Millimetres offset;   // from the bed's start
  Millimetres length;
  Millimetres width;
};

// What really took place with a planting: everything later is reckoned from it.
enum class Happening { Sown, Planted, PlantedOut, Pinched, FirstCut, Cut, Lifted, Failed, NotDone };
inline constexpr Word<Happening> kHappenings[] = {
    {Happening::Sown, "sown"},
    {Happening::Planted, "planted"},
    {Happening::PlantedOut, "planted-out"},
    {Happening::Pinched, "pinched"},
    {Happening::FirstCut, "first-cut"},
    {Happening::Cut, "cut"},
    {Happening::Lifted, "lifted"},
    {Happening::Failed, "failed"},
    {Happening::NotDone, "not-done"},
};
static_assert(names_all(kHappenings));

struct Happened {
  Happening what{};
  Date on;
  int succession = 0;              // of which sowing, from 1; 0: the planting's only one
  int repeat = 0;                  // of which start of it: one more after each failure
  std::optional<int> stems;        // cut that day, of Cut
  std::optional<std::string> job;  // of NotDone: the job's word; absent: what it begins with next
  std::optional<std::string> note;
  Position at;
  auto operator<=>(const Happened&) const = default;
};

// What is in hand: nothing of it is ordered.
enum class Held { Seed, Bulbs, Plants };
inline constexpr Word<Held> kHeld[] = {
    {Held::Seed, "seed"}, {Held::Bulbs, "bulbs"}, {Held::Plants, "plants"}};
static_assert(names_all(kHeld));

struct InHand {
  std::string crop;  // the sheet's name, once resolved
  Held what{};
  int number = 0;
  Position at;
};

// One crop on its ground for one flowering year: the ground of every identity and of every report.
struct Planting {
  CropEntry asked;
  std::string name;  // "west bed/zinnia", or "west bed/late zinnia" by its id
  int flowering_year = 0;
  std::optional<Patch> patch;  // absent: it grows outside the beds, on no ground of the plan
  std::optional<std::size_t> follows;  // the planting before it on the same ground
  std::vector<Happened> happened;      // by day, those of one day as the file has them
  std::vector<Told> told;              // what the plan's calendar holds of it
  // What grows on its ground, or the ground, is another since that calendar was written.
  bool touched = false;
};

struct Plan {
  std::string file;
  int flowering_year = 0;
  std::string title;           // absent in the file: the file's name
  std::optional<Uuid> garden;  // identity of the calendar's events
  // The day the plan begins: nothing that should have been begun earlier is assumed.
  std::optional<Date> began;
  std::optional<std::string> calendar;  // its file, named from the plan's folder
  bool remembers = false;               // an earlier calendar was read: Planting::told
  bool per_day = false;                 // and it has an event a day, not one a job
  bool unchanged = false;               // nothing that it was chosen for is another since
  Place place;
  Shelter shelter;
  std::optional<Wish> wish;
  Work work;
  std::vector<Bed> beds;
  std::vector<InHand> have;
  std::vector<ToldOrder> orders;    // that the calendar holds, by day
  std::vector<Planting> plantings;  // bed by bed, stretch by stretch, in order of following;
                                    // then what grows elsewhere
};

// Adds what grows outside the beds to the end of the plan's list, named by its id or crop.
void add_elsewhere(Plan& plan, CropEntry asked);
// Adds a crop to the end of the plan's list: on that stretch of that bed (both by index), after
// what was added to the stretch before it.
void add_planting(Plan& plan, std::size_t bed, std::size_t stretch, CropEntry asked);
// The plantings (by index) that follow one another on one piece of ground, in order; all grounds,
// in the plan's order.
std::vector<std::vector<std::size_t>> chains(const Plan& plan);
// The plan with these plantings (by index, ascending) and no others; each follows the nearest kept
// one that stood before it.
Plan with_only(const Plan& plan, const std::vector<std::size_t>& kept);
// Null: it grows outside the beds.
const Bed* bed_of(const Plan& plan, const Planting& planting);
// The bed's name, or "elsewhere".
const std::string& bed_name(const Plan& plan, const Planting& planting);
// What names the bed for good: its id, else its name.
const std::string& bed_identity(const Bed& bed);
// The day that was told for a job, by its word, of one start of a planting; nullopt: none was.
std::optional<Date> told_day(const Planting& planting, int succession, int repeat,
                             const std::string& job);
// When a job is due that was said on a day not to have been done: on that day; where it was told
// for that day or before, on the next; told for a later one, as it may have been since, on that.
Date due_again(Date said, std::optional<Date> told);
bool is_southern(const Place& place);

}  // namespace trug
