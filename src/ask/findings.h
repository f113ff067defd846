// SPDX-License-Identifier: MIT
// What the plan cannot do, or what the gardener should know: facts with numbers, worded in show/.
// find() sees them by looking, advised() what would help by asking.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "ask/change.h"
#include "ask/finding_rank.h"
#include "ask/season_findings.h"
#include "base/date.h"
#include "base/diagnostics.h"
#include "garden/plan.h"
#include "garden/sheet.h"
#include "ground/candidates.h"
#include "work/jobs.h"

namespace trug::ask {

// One struct for each thing that can be found, with the stable word it has in files.

// No way keeps the rules here this year.
struct CannotGrow {
  static constexpr std::string_view kCode = "cannot-grow";
  static constexpr Rank kRank = Rank::Broken;
  std::string way;  // that came nearest; empty: there is none
  std::optional<ground::Refusal> refusal;
};

// It grows here, but not between its neighbours on this stretch.
struct GroundTaken {
  static constexpr std::string_view kCode = "ground-taken";
  static constexpr Rank kRank = Rank::Broken;
  struct Neighbour {
    std::size_t planting = 0;
    Date day;  // on which the one before frees the ground; by which the one after needs it
  };
  Date in_ground_from, in_ground_to, lift_from;
  std::optional<Neighbour> before, after;
  // Behind the one before it could still go in, but late, and for hardly any stems in the weeks of
  // the wish.
  struct Hardly {
    double stems = 0;
    double best_stems = 0;  // on free ground
  };
  std::optional<Hardly> hardly = {};
};

// Measured weather delays its first cut until after it is lifted.
struct NotInCut {
  static constexpr std::string_view kCode = "not-in-cut";
  static constexpr Rank kRank = Rank::Short;
  Date lift;
  std::optional<Date> first_cut;  // absent: it does not flower within the year
  bool measured = false;          // in the weather that was measured
};

// Weeks of the wish without their vases.
struct ShortWeeks {
  static constexpr std::string_view kCode = "short-weeks";
  static constexpr Rank kRank = Rank::Short;
  std::vector<Date> mondays;
  int weeks = 0;             // of the wish
  double missing_stems = 0;  // that would find a place in the vases
};

// Days after the usual time that are worth knowing and no more (memory): what starts later is short.
inline constexpr int kMildlyLate = 21;

// It goes into the ground outside the usual time.
struct LateStart {
  static constexpr std::string_view kCode = "late-start";
  static constexpr Rank kRank = Rank::Mild;
  std::string way;
  Date in_ground;
  DateRange window;
  int days_late = 0;
  int days_early = 0;  // only a pin can ask for that
  // Why it is late; neither: by a pin.
  std::optional<std::size_t> before = {};  // the planting that has its ground
  Date lift = {};                          // of it
  std::optional<Date> first_allowed = {};  // no day of the window keeps the rules: the first after
};

// All of it is of one group of varieties, and others are cut in weeks that go short without it.
struct OneGroup {
  static constexpr std::string_view kCode = "one-group";
  static constexpr Rank kRank = Rank::Mild;
  std::string group;
  std::vector<std::string> others;  // in the sheet's order
  std::vector<Date> mondays;        // of those weeks
};

// It waits for the crop before it and gives far fewer stems than it could on free ground.
struct HeldBack {
  static constexpr std::string_view kCode = "held-back";
  static constexpr Rank kRank = Rank::Mild;
  std::size_t before = 0;  // the planting that holds the ground
  Date lift;               // of it
  Date in_ground;
  int days_late = 0;  // after the trade's window
  double stems = 0;
  double free_stems = 0;
};

// Fewer sowings of a succession are useful here than were asked for.
struct FewerSowings {
  static constexpr std::string_view kCode = "fewer-sowings";
  static constexpr Rank kRank = Rank::Mild;
  int useful = 0;
  int asked = 0;
};

// What stands or is pinned, against a rule of the winter or the season.
struct AgainstRule {
  static constexpr std::string_view kCode = "against-rule";
  static constexpr Rank kRank = Rank::Mild;
  bool stands = false;  // false: it is pinned
  ground::Refusal refusal;
};

// It has begun, and the plan says otherwise since: the plan's word is taken.
struct AgainstTold {
  static constexpr std::string_view kCode = "against-begun";
  static constexpr Rank kRank = Rank::Mild;
  struct Changed {
    std::string key, then, now;  // "plants", "16", "9"
  };
  Date started;
  std::vector<Changed> changed = {};
};

// Too few plants to give one vase their share.
struct FewStems {
  static constexpr std::string_view kCode = "few-stems";
  static constexpr Rank kRank = Rank::Mild;
  double best_week_stems = 0;
  double least_stems = 0;  // that count
  int plants = 0;
  int first_year = 0;  // in which there are stems
};

// More plants than the ground holds at their spacing.
struct TooManyPlants {
  static constexpr std::string_view kCode = "too-many-plants";
  static constexpr Rank kRank = Rank::Mild;
  int plants = 0;
  int room = 0;
  double spacing_cm = 0;
};

// None of the wish's colours.
struct OffColour {
  static constexpr std::string_view kCode = "off-colour";
  static constexpr Rank kRank = Rank::Mild;
  std::vector<std::string> colours;
  std::vector<std::string> wished;
};

// The wish names colours, and those of these plantings are not known: sold as mixes.
struct UnknownColours {
  static constexpr std::string_view kCode = "unknown-colours";
  static constexpr Rank kRank = Rank::Mild;
  std::vector<std::size_t> plantings;
  double stems = 0;      // of them, in the weeks of the wish
  double all_stems = 0;  // of all plantings, likewise
};

// Keeping the crop costs its stretch more than a fifth of its stems.
struct CostsStems {
  static constexpr std::string_view kCode = "costs-stems";
  static constexpr Rank kRank = Rank::Mild;
  double stems = 0;          // that it costs
  double stretch_stems = 0;  // with it
};

// A place all but free of frost.
struct HardlyFrost {
  static constexpr std::string_view kCode = "hardly-frost";
  static constexpr Rank kRank = Rank::Mild;
  int frost_free_days = 0;
};

// A place with few weeks free of frost.
struct ShortSeason {
  static constexpr std::string_view kCode = "short-season";
  static constexpr Rank kRank = Rank::Mild;
  struct Need {
    std::size_t planting = 0;
    int weeks = 0;
  };
  double frost_free_weeks = 0;
  std::vector<Need> needs;  // of those that find it too short
};

// Heat ends or pauses crops by maxima that are guessed from the means.
struct MaximaGuessed {
  static constexpr std::string_view kCode = "maxima-guessed";
  static constexpr Rank kRank = Rank::Mild;
  std::vector<std::size_t> plantings;
};

// Nothing of it can still be begun, or the weeks of the wish are past.
struct SeasonOver {
  static constexpr std::string_view kCode = "season-over";
  static constexpr Rank kRank = Rank::Mild;
  bool wish_past = false;
  int next_year = 0;  // the flowering year after it
};

// The search was stopped before it settled.
struct NotSettled {
  static constexpr std::string_view kCode = "not-settled";
  static constexpr Rank kRank = Rank::Mild;
  int calls = 0;  // choices of a stretch
};

// Without the day it began on, each day's plan is another.
struct BeginsAnew {
  static constexpr std::string_view kCode = "begins-anew";
  static constexpr Rank kRank = Rank::Mild;
  Date today;
};

// The plan names a calendar that is not its own, or cannot be read.
struct MemoryUnreadable {
  static constexpr std::string_view kCode = "memory-unreadable";
  static constexpr Rank kRank = Rank::Broken;
  std::string file, why;
};

// Jobs lie before today, and the plan does not record what became of them.
struct TakenAsDone {
  static constexpr std::string_view kCode = "taken-as-done";
  static constexpr Rank kRank = Rank::Mild;
  struct Start {
    work::JobKind kind{};
    std::size_t planting = 0;
    Date day;
  };
  int jobs = 0;
  std::vector<Start> starts;  // the last few sowings and plantings among them
};

// The plan says nothing of what there is to raise plants in.
struct ShelterAssumed {
  static constexpr std::string_view kCode = "shelter-assumed";
  static constexpr Rank kRank = Rank::Mild;
  double heated_c = 0;
  std::optional<double> frame_stems = {};  // that a frame would add; absent: not asked
  int frame_weeks = 0;                     // with their vases, that it would add
};

// More is raised at once than there is room for.
struct Overfull {
  static constexpr std::string_view kCode = "overfull";
  static constexpr Rank kRank = Rank::Mild;
  Raised place = Raised::Heated;
  std::vector<Date> mondays;    // of the weeks in which it is
  double wanted = 0, room = 0;  // trays, or square metres; `wanted` in the fullest week
};

// Far more stems of one planting than the weeks want in which it is cut.
struct AboveWish {
  static constexpr std::string_view kCode = "above-wish";
  static constexpr Rank kRank = Rank::Mild;
  int plants = 0;
  int weeks = 0;  // of the wish in which it is cut
  double stems = 0;
  double wanted_stems = 0;
};

// Its ground has a side much shorter than its spacing.
struct TooNarrow {
  static constexpr std::string_view kCode = "too-narrow";
  static constexpr Rank kRank = Rank::Mild;
  int side_cm = 0;
  bool across = false;  // the side is the width
  double spacing_cm = 0;
};

// Length of a bed that is no stretch.
struct UnusedBed {
  static constexpr std::string_view kCode = "unused-bed";
  static constexpr Rank kRank = Rank::Mild;
  std::size_t bed = 0;
  int length_cm = 0;
};

// A stretch that lies bare for long in summer, from today on.
struct BareGround {
  static constexpr std::string_view kCode = "bare-ground";
  static constexpr Rank kRank = Rank::Mild;
  std::size_t bed = 0;
  int stretch = 0;                   // from 1
  std::optional<std::size_t> after;  // the planting that leaves it so; absent: the first is to come
  DateRange days;
  double weeks = 0;
};

// What was begun came to nothing; the crop stays in the plan.
struct StartFailed {
  static constexpr std::string_view kCode = "failed";
  static constexpr Rank kRank = Rank::Mild;
  Date on;
  std::optional<Date> again;  // begun anew; absent: another start has no room
};

// A pin says another day than what happened.
struct RecordedOtherwise {
  static constexpr std::string_view kCode = "recorded-otherwise";
  static constexpr Rank kRank = Rank::Mild;
  Happening what{};
  Date on, pinned;
};

// Recorded as not done, and too late now; or no job of this planting.
struct NotDone {
  static constexpr std::string_view kCode = "not-done";
  static constexpr Rank kRank = Rank::Mild;
  work::JobKind kind{};
  Date on;
  std::vector<work::JobKind> there = {};  // what jobs it has, in their order, where not that one
};

using Found =
    std::variant<CannotGrow, TooLate, GroundTaken, NotInCut, ShortWeeks, LateStart, FewerSowings,
                 HeldBack, OneGroup, OwnClockSeen, OutOfWish, HeatPause, TooEarly, SmallRosette,
                 AgainstRule, AgainstTold, ShortStems, WinterLosses, OneYear, NeedsCold, ColdSoil,
                 FewStems, AboveWish, TooManyPlants, TooNarrow, OffColour, UnknownColours,
                 UnusedBed, BareGround, CostsStems, HardlyFrost, ShortSeason, MaximaGuessed,
                 SeasonOver, NotSettled, BeginsAnew, MemoryUnreadable, TakenAsDone, ShelterAssumed,
                 Overfull, StartFailed, RecordedOtherwise, NotDone>;

// The code of every finding there is.
std::vector<std::string_view> all_finding_codes();

// A crop for free ground, and what it would give with all else as it is.
struct Filler {
  Change change;  // that plants it there
  std::string crop;
  Date in_ground;
  int weeks = 0;                  // that have their vases only with it
  double stems = 0;               // likely, of all that it gives
  std::vector<Caution> cautions;  // its sheet's
};

// A way by which a crop is still possible, and what the plan gives more by it.
struct StillPossible {
  Change change;  // that asks for it
  std::string way;
  double stems = 0;
  int weeks = 0;  // with their vases
};

// What would make a finding go.
struct Remedy {
  std::optional<Change> change = {};     // absent: nothing on this ground and in this year
  double costs_stems = 0;                // negative: it gives as many more
  int gives_weeks = 0;                   // with their vases; never fewer
  std::vector<StillPossible> ways = {};  // what gives most first; `change` is the first's
  std::vector<Filler> fillers = {};      // of the ground it speaks of, or that nothing else can use
};

struct Finding {
  Position at;
  std::string key;                      // the plan's key it speaks of: "crop", "place", "wish"
  std::optional<std::size_t> planting;  // in the plan's list
  Found found;
  std::optional<Remedy> remedy;
  int sowing = 0;  // the one of a succession that it is about, from 1; 0: all there are

  std::string_view code() const;
  Rank rank() const;
};

Finding about_planting(const Plan& plan, std::size_t planting, Found found);
// Worst first, else as they stand.
void sort_by_rank(std::vector<Finding>& findings);

}  // namespace trug::ask
