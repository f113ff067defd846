// SPDX-License-Identifier: MIT
// One crop's sheet: what the trade knows of it, each figure with its source (crops/NAME.toml).
//
// Temperatures in degrees Celsius (_c), heat in degree-days above the base (_kd), lengths in the
// unit of the name. A figure that is not known is absent; the comment says what follows.
#pragma once

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/date.h"
#include "base/words.h"
#include "garden/care.h"
#include "garden/range.h"

namespace trug {

enum class LifeCycle {
  HardyAnnual,
  HalfHardyAnnual,
  TenderAnnual,
  Biennial,
  Perennial,
  Bulb,
  Corm,
  Tuber,
  Shrub
};
enum class FrostClass { Hardy, HalfHardy, Tender };
// Single: one flush within a fortnight. Limited: three to four weeks with a peak.
enum class Habit { Single, Limited, CutAndComeAgain };
enum class Role { Focal, Secondary, Line, Filler, Foliage };
enum class Frost { Last, First };
// What is sown or planted.
enum class Method { Seed, BoughtPlants, Bulb, Established };
// Where the plant stands before it goes to its place in the bed.
enum class Raised { InPlace, Heated, Frame, NurseryBed };
// What a way asks of the gardener's shelter. Tunnel: the bed itself lies under cover.
enum class Needs { Nothing, Warmth, Frame, Nursery, Tunnel };
// What heat above its limit does to a crop's cutting.
enum class WhenHot { Ends, Pauses, Slows };
// What the trade begins from; Plants: young plants, roots, cuttings.
enum class Usual { Seed, Plants };
enum class FlowersIn { SameYear, NextYear, ThirdYear };
// How its plants stand: as far apart in all directions, in rows along the bed that are farther
// apart than its plants in them, or in two rows along a frame.
enum class Arrangement { Block, Rows, DoubleRow };

// As sheets write them and people read them.
inline constexpr Word<LifeCycle> kLifeCycles[] = {
    {LifeCycle::HardyAnnual, "hardy annual"},
    {LifeCycle::HalfHardyAnnual, "half-hardy annual"},
    {LifeCycle::TenderAnnual, "tender annual"},
    {LifeCycle::Biennial, "biennial"},
    {LifeCycle::Perennial, "perennial"},
    {LifeCycle::Bulb, "bulb"},
    {LifeCycle::Corm, "corm"},
    {LifeCycle::Tuber, "tuber"},
    {LifeCycle::Shrub, "shrub"},
};
inline constexpr Word<FrostClass> kFrostClasses[] = {
    {FrostClass::Hardy, "hardy"},
    {FrostClass::HalfHardy, "half-hardy"},
    {FrostClass::Tender, "tender"},
};
inline constexpr Word<Habit> kHabits[] = {
    {Habit::Single, "single"},
    {Habit::Limited, "limited"},
    {Habit::CutAndComeAgain, "cut-and-come-again"},
};
inline constexpr Word<Role> kRoles[] = {
    {Role::Focal, "focal"},   {Role::Secondary, "secondary"}, {Role::Line, "line"},
    {Role::Filler, "filler"}, {Role::Foliage, "foliage"},
};
inline constexpr Word<Frost> kFrosts[] = {
    {Frost::Last, "last frost"},
    {Frost::First, "first frost"},
};
inline constexpr Word<Raised> kRaised[] = {
    {Raised::InPlace, "in place"},
    {Raised::Heated, "heated"},
    {Raised::Frame, "frame"},
    {Raised::NurseryBed, "nursery bed"},
};
inline constexpr Word<Needs> kNeeds[] = {
    {Needs::Nothing, "nothing"}, {Needs::Warmth, "warmth"}, {Needs::Frame, "frame"},
    {Needs::Nursery, "nursery"}, {Needs::Tunnel, "tunnel"},
};
inline constexpr Word<WhenHot> kWhenHot[] = {
    {WhenHot::Ends, "ends"}, {WhenHot::Pauses, "pauses"}, {WhenHot::Slows, "slows"}};
inline constexpr Word<Arrangement> kArrangements[] = {{Arrangement::Block, "block"},
                                                      {Arrangement::Rows, "rows"},
                                                      {Arrangement::DoubleRow, "double row"}};
inline constexpr Word<Usual> kUsuals[] = {{Usual::Seed, "seed"}, {Usual::Plants, "plants"}};
static_assert(names_all(kLifeCycles) && names_all(kFrostClasses) && names_all(kHabits) &&
              names_all(kRoles) && names_all(kFrosts) && names_all(kRaised) && names_all(kNeeds) &&
              names_all(kWhenHot) && names_all(kUsuals) && names_all(kArrangements));

// Weeks after (negative: before) the average garden frost of the year the window belongs to.
struct FrostOffset {
  double weeks = 0;
  Frost from = Frost::Last;
};

struct FrostWindow {
  FrostOffset earliest;
  FrostOffset latest;
};

// How day length changes the pace from "able to respond" to first flower. Hours are civil twilight
// to civil twilight unless `sunrise_to_sunset`.
struct DayLengthResponse {
  enum class Kind { Neutral, Long, Short, CriticalShort };
  Kind kind = Kind::Neutral;
  double from_hours =
      10.5;  // Long: no progress beyond the floor up to here. Short: full pace up to here
  double to_hours = 14.5;         // Long: full pace from here
  double slower_per_hour = 0.02;  // Short: loss of pace an hour beyond from_hours
  double floor = 0;               // the least pace (CriticalShort: beyond from_hours)
  // Long: the least pace while days grow longer, from the shortest to the longest; absent: `floor`.
  // After a winter's cold, long days are needed less (sweet pea: Inoue 2002).
  std::optional<double> floor_rising;
  bool sunrise_to_sunset = false;
};

// For crops ruled by light: they set their buds when days shorten, whatever the spring was. Days
// are counted from the longest day, or from the first after it whose hours from sunrise to sunset
// are at most `below_h`; each is worth 0 to 1 by its warmth: nothing at cold_a_c, all at cold_b_c,
// and beyond hot_c_c less again, down to `low` at hot_d_c and warmer.
struct AfterLight {
  double below_h = 24;  // 24: from the longest day itself
  double days = 0;      // such days until first flower
  double cold_a_c = 4, cold_b_c = 14;
  double hot_c_c = 40, hot_d_c = 50;
  double low = 0.4;
};

// From which day heat counts. Season: from the turn of the year (south: of July), or from planting
// where that is later.
enum class CountsFrom { Sowing, Planting, Season };
inline constexpr Word<CountsFrom> kCountsFrom[] = {{CountsFrom::Sowing, "sowing"},
                                                   {CountsFrom::Planting, "planting"},
                                                   {CountsFrom::Season, "season"}};
static_assert(names_all(kCountsFrom));

// The heat model's constants. Absent: first cuts come from windows and say so.
struct Growth {
  double base_c = 0;
  double top_c = 0;
  double heat_to_respond_kd = 0;       // from the day on which heat begins to count
  double heat_to_first_flower_kd = 0;  // from "able to respond" to first flower
  DayLengthResponse day_length;
  std::optional<double> vernal_days;  // effective chilling days; absent: none needed
  // 80 in 100 first flowers fall within so many days of the forecast. Weather, variety and place
  // make 18: within 13 either side lay 32 of 41 outside facts. More where facts lie farther off.
  double spread_days = 18;
  CountsFrom counts_from = CountsFrom::Sowing;
  bool slows_under_ten_hours = true;  // as most do; some corms of mild winters grow on
  // Replaces spread_days where the coldest month is under 0 degC; absent: it is as good there.
  std::optional<double> spread_in_cold_winters_days;
  std::optional<AfterLight> after_light;  // instead of heat and day length
  std::optional<double> pre_chilled_kd;   // bulbs from cold storage: heat from planting to flower
};

// What chills a bulb or a perennial: cold days between 1 October and 15 April (south: 1 April and
// 15 October), each worth 0 to 1 by its mean: all at full_c and below, nothing at zero_c.
struct Chill {
  double days = 0;  // needed
  double full_c = 9, zero_c = 15;
};

// Shoots show when the soil's degree-days above `base_c` since planting reach `heat_kd`.
struct Emergence {
  double base_c = 5;
  double heat_kd = 0;
};

// How old a plant may grow in its pot, in degree-days above 4 degC since sowing.
struct PotLimits {
  double module_kd = 0;  // then it is potted on, or set out
  double pot_kd = 0;     // 9 cm: then it starves
};

struct Group {
  std::string name;                         // "early"
  std::optional<FrostWindow> first_flower;  // replaces the ways' first-flower windows
  std::optional<Growth> growth;             // replaces the sheet's
  std::optional<Range> cutting_weeks;
  std::optional<Range> stems_per_plant;
};

// One way to raise the crop.
struct Way {
  std::string name;  // "sown outdoors in autumn": unique in its sheet; the first is the trade's
                     // first choice
  Method method = Method::Seed;
  Raised raised = Raised::InPlace;
  // When it goes to its place in the bed: the sowing day where it is sown in place, else the day it
  // is planted (out). Absent for Established.
  std::optional<FrostWindow> window;
  // The season in which it flowers, counted from the season whose frosts the window names.
  FlowersIn flowers = FlowersIn::SameYear;
  // From sowing to planting out. Absent: sown in place, bulbs, bought plants.
  std::optional<Range> weeks_under_cover;
  // First flower where the heat model cannot be used; frosts of the flowering year.
  std::optional<FrostWindow> first_flower;
  std::optional<Range> stems_per_plant;  // of this way; absent: the sheet's
  std::optional<int>
      prick_out_weeks;              // weeks after sowing; absent: sown in modules, not pricked out
  std::optional<int> pot_on_weeks;  // weeks after sowing; absent: not potted on
  std::optional<std::string> note;  // advice for this way, one sentence
  Needs needs = Needs::Nothing;     // where the sheet does not say: by `raised`
  Usual usual = Usual::Seed;        // where the sheet's is Seed: Plants where this way's is
  bool pre_chilled = false;         // bulbs from cold storage, whatever the winter
};

// A job the plant needs every year at a time the frosts give ("prune", "divide", "lift and store").
struct YearlyJob {
  FrostWindow window;
  std::string text;
  std::optional<int> every_years;
};

// How what the trade begins it from is sold to gardeners.
struct Buying {
  // 1 to 12, in the north; later the best of it is gone. Absent: a month or two before its use.
  std::optional<unsigned> month;
  std::optional<int> packet_seeds;  // seeds in a usual packet; absent: no packets are counted
  std::optional<double> comes_up;   // of sown seeds, the share; absent: no loss is allowed for
};

struct Caution {
  enum class Kind { Poisonous, Irritant, Phototoxic, Invasive, Thorny };
  Kind kind = Kind::Poisonous;
  std::string text;      // what it does, to whom
  std::string handling;  // what to do about it
};

struct Source {
  enum class Kind { Published, CommonPractice, Memory };
  Kind kind = Kind::Memory;
  std::string name;  // who and what; empty for common practice and memory
  std::vector<std::string>
      covers;  // keys, "way.sown outdoors in autumn.window", or "*" for the rest
};

struct Sheet {
  std::string name;  // as the plan writes it: "sweet william"
  std::vector<std::string> aliases;
  std::string plural;  // as people say it of several, "sweet Williams"; empty: as its name
  std::string botanical_name;
  std::string family;
  LifeCycle life_cycle = LifeCycle::HardyAnnual;
  int format = 2;                         // of the file it was read from
  std::optional<FrostClass> frost_class;  // what frosts do to it; absent: by the coldest survived
  // The year's coldest night, in air, at which nine in ten live: in the ground, drained, uncovered.
  double survives_c = 0;
  double mulch_gain_c = 0;  // degrees that mulch or fleece add
  Range spacing_cm;
  std::optional<double> depth_mm;  // absent: on the surface
  Range height_cm;
  std::vector<std::string> colours;
  std::vector<Role> roles;  // the first is its main one
  Range vase_days;
  std::string cut_stage;
  Range stems_per_plant;
  Range cutting_weeks;
  Habit habit = Habit::CutAndComeAgain;
  // Cutting stops when the average daily maximum passes this; absent: heat does not stop it.
  std::optional<double> stop_above_max_c;
  WhenHot when_hot = WhenHot::Ends;
  // Perennials: the hottest month's mean daily maximum that they live through; absent: any.
  std::optional<double> lives_to_mean_max_c;
  std::optional<int> fewest_cutting_days;      // absent: 14, cut-and-come-again 21
  std::optional<int> fewest_days_from_sowing;  // to first flower, whatever windows or heat say;
                                               // bulbs: from planting
  std::optional<int> productive_years;
  // Years from planting in which it is first cut, and cut in full; between them a share.
  int first_cut_year = 1, full_cut_year = 2;
  std::optional<int> rotation_years;
  std::optional<double> succession_gap_days;  // absent: 14
  Pinch pinch;
  // Light: twigs or a string round it.
  enum class Support { No, Light, Net, Stakes, Frame, Ring } support = Support::No;
  enum class Light { Light, Dark, Cover } light = Light::Cover;
  std::optional<Range> germination_days;  // absent: nothing is said of when to look
  std::optional<Range> germination_c;
  std::optional<double> germination_max_soil_c;  // warmer soil keeps seed (and corms) from growing
  std::optional<Pretreatment> pretreat;
  std::optional<double> oldest_pot_weeks;  // sheets of format 1; absent: as long as raised
  std::optional<PotLimits> pot;
  std::optional<Growth> growth;
  std::optional<Chill> chill;
  std::optional<Emergence> emergence;
  Usual usual = Usual::Seed;
  std::optional<SecondFlush> second_flush;
  std::optional<YearlyJob> prune, divide, lift_and_store, cut_back;
  Arrangement arrangement = Arrangement::Block;
  std::optional<double> row_cm;         // from row to row, of Arrangement::Rows
  std::optional<std::string> planting;  // how it goes into the ground: "claws down"
  std::optional<Disbud> disbud;
  std::optional<Pods> pods;
  bool dead_head = false;    // what is taken off flowers again
  bool lean_soil = false;    // it wants ground that was not fed
  bool stays_under = false;  // a bulb that is left in the ground under what is planted after it
  std::map<std::string, std::string, std::less<>> signs;  // by kSignedJobs: what to look for
  Buying buy;
  std::vector<Group> groups;
  std::vector<Way> ways;
  std::vector<Caution> cautions;
  std::vector<Source> sources;
  // All of the above but what it is sold as, cautions and sources, as text: the same where two
  // sheets say the same.
  std::string figures;
};

// The class of a plant by the coldest it survives, not by life-cycle words, for sheets that do not
// name it: -1 and warmer tender, above -5 half-hardy, -5 and colder hardy (common practice).
FrostClass frost_class_of(double survives_c);
FrostClass frost_class(const Sheet& sheet);
// Bulbs, corms and tubers, planted rather than sown.
bool is_planted(LifeCycle life_cycle);
// Whether nothing is known of it that poisons, irritates or wounds; it may spread. No such list is
// complete.
bool is_harmless(const Sheet& sheet);
// Seed that goes straight to its place in the bed: it is never planted out.
bool is_sown_in_place(const Way& way);
// Whether the trade begins the crop that way: bought plants only where it starts from plants, roots
// or cuttings, or the sheet has nothing else.
bool is_usual(const Sheet& sheet, const Way& way);
// What was done to a start, and whether what is raised that way can have had it done. Planted: into
// its place as a bulb, a root or a bought plant; planted out: raised here, or bought.
struct Beginning {
  bool sown = false;
  bool planted = false;
  bool planted_out = false;
};
bool can_have(const Way& way, Beginning beginning);
// Perennials and shrubs stay in the ground from year to year.
bool stays_in_ground(LifeCycle life_cycle);

// Hardy annuals sown in warmth are grown cool: from when they are up (the end of the germination
// days, 14 where the sheet gives none) they stand in a frame. Absent: it stays warm until it is
// hardened off. Common practice.
std::optional<Date> grown_cool_from(const Sheet& sheet, Date sown);
// The source that covers a figure, by its key: "spacing_cm", "growth.base_c". The first that names
// it or a table that holds it; "*" covers the rest. Null only where the sheet was not checked.
const Source* source_of(const Sheet& sheet, std::string_view key);
// Whether a `covers` entry speaks of a key: the key itself or a table that holds it.
bool covers(std::string_view entry, std::string_view key);
// Of what a plant in its full years gives, the share it is cut for so many years (from 1) after it
// was planted: nothing before first_cut_year, all from full_cut_year.
double cut_share(const Sheet& sheet, int years);
// The first year in which what stands there since a year is cut; absent: planted for its first.
int first_year_in_cut(const Sheet& sheet, std::optional<int> since, int flowering_year);
const Group* find_group(const Sheet& sheet, std::string_view name);

std::string_view to_string(LifeCycle life_cycle);
std::string_view to_string(FrostClass frost_class);
std::string_view to_string(Habit habit);
std::string_view to_string(Role role);
std::string_view to_string(Raised raised);
std::string_view to_string(Frost frost);
std::string_view to_string(Needs needs);
// What a way asks for by where its plants are raised.
Needs needs_of(Raised raised);
// From which day heat counts by what is planted, for sheets that do not say.
CountsFrom counts_from(LifeCycle life_cycle);

}  // namespace trug
