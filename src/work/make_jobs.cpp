// SPDX-License-Identifier: MIT
#include "work/make_jobs.h"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "climate/frost.h"
#include "climate/soil.h"
#include "growth/crop_clock.h"
#include "work/job_text.h"

namespace trug::work {
namespace {

using ground::Schedule;
using ground::Sowing;

// When the jobs the choice does not fix are done, in days (common practice and memory).
constexpr int kOrderSeedBefore = 28, kOrderSeedFirst = 84, kOrderSeedLast = 14;
constexpr int kOrderBulbsBefore = 70, kOrderBulbsFirst = 120, kOrderBulbsLast = 21;
constexpr int kOrderPlantsBefore = 42, kOrderPlantsFirst = 120, kOrderPlantsLast = 14;
constexpr int kHardenBefore = 8, kHardenFirst = 10, kHardenLast = 7;
constexpr int kThinAfterEmergence = 21;
constexpr int kPinchInPots = 35, kPinchAfterPlanting = 14, kPinchAfterWinter = 28;
constexpr int kSupportBeforeFlower = 42, kSupportLast = 21;
constexpr int kFleeceAfterFrost = 28;
constexpr double kWatchRisk = 0.05;  // until one year in twenty
constexpr int kHalfHardyEarlier = 30;
constexpr int kClearLater = 35, kLiftLater = 28;
constexpr int kDefaultGermination = 14;

struct Window {
  Date day, first, last;
};

Window around(Date day, int before, int after) {
  return {day, day - Days{before}, day + Days{after}};
}

// Adds the jobs of one sowing to the list.
class Builder {
 public:
  Builder(const Plan& plan, const Sowing& sowing, const climate::Climate& climate, When when,
          std::vector<Job>& jobs)
      : plan_(plan),
        planting_(plan.plantings[sowing.planting]),
        sowing_(sowing),
        sheet_(*sowing.sheet),
        climate_(climate),
        when_(when),
        jobs_(jobs),
        clock_(climate, sheet_, sowing.group, plan.flowering_year) {}

  // `ground_ready`: the job that leaves the ground to this planting; the one that frees it again
  // comes back.
  std::optional<std::size_t> build(std::optional<std::size_t> ground_ready) {
    buy_and_raise();
    into_the_ground(ground_ready);
    tend();
    return end();
  }

 private:
  const Sowing& c() const { return sowing_; }
  const Way& way() const { return sowing_.raised_by(); }
  const CropEntry& asked() const { return planting_.asked; }
  bool established() const { return sowing_.stands; }

  void buy_and_raise() {
    if (established()) return;
    order();
    pre_treat();
    if (way().method == Method::BoughtPlants) return;
    const bool bulb = way().method == Method::Bulb;
    if (way().weeks_under_cover) {
      const Range& weeks = *way().weeks_under_cover;
      const DateRange out = clock_.window_days(*way().window, way().flowers);
      add(bulb ? JobKind::Plant : JobKind::Sow,
          {c().start, out.from - Days{static_cast<int>(weeks.high * 7)},
           out.until - Days{static_cast<int>(weeks.low * 7) + 1}},
          where_raised());
      if (way().prick_out_weeks) {
        add(JobKind::PrickOut, around(c().start + Days{7 * *way().prick_out_weeks}, 4, 7),
            where_raised());
      }
      if (way().pot_on_weeks) {
        add(JobKind::PotOn, around(c().start + Days{7 * *way().pot_on_weeks}, 7, 7),
            where_raised());
      }
      if (way().raised == Raised::Heated) {
        add(JobKind::HardenOff,
            {c().in_ground - Days{kHardenBefore}, c().in_ground - Days{kHardenFirst},
             c().in_ground - Days{kHardenLast}},
            "frame");
      }
    }
  }

  void order() {
    const auto place = [&](Date need, int before, int first, int last) {
      return Window{need - Days{before}, need - Days{first}, need - Days{last}};
    };
    switch (way().method) {
      case Method::Seed:
        add(JobKind::OrderSeed, place(c().start, kOrderSeedBefore, kOrderSeedFirst, kOrderSeedLast),
            {});
        break;
      case Method::Bulb:
        add(JobKind::OrderBulbs,
            place(bulbs_needed(), kOrderBulbsBefore, kOrderBulbsFirst, kOrderBulbsLast), {});
        break;
      case Method::BoughtPlants:
        add(JobKind::OrderPlants,
            place(c().in_ground, kOrderPlantsBefore, kOrderPlantsFirst, kOrderPlantsLast), {});
        break;
      case Method::Established:
        break;
    }
  }

  // The day the bulbs must be at hand: before their weeks in the cold, where they need them.
  Date bulbs_needed() const {
    if (!c().needs_cold_store) return c().start;
    return c().start - Days{std::lround(ground::cold_store_days(sheet_).middle())};
  }

  void pre_treat() {
    const auto& treat = sheet_.pretreat;
    const bool cold_only = !treat || treat->kind == Pretreatment::Kind::ColdStore;
    if (way().method == Method::BoughtPlants || (cold_only && !c().needs_cold_store)) return;
    const Range days = c().needs_cold_store ? ground::cold_store_days(sheet_) : treat->days;
    const auto back = [&](double d) {
      return c().start - Days{std::max(1, static_cast<int>(std::ceil(d)))};
    };
    add(JobKind::PreTreat, {back(days.middle()), back(days.high), back(days.low)}, {});
  }

  std::optional<std::string> where_raised() const {
    switch (way().raised) {
      case Raised::Heated:
        return "heated";
      case Raised::Frame:
        return "frame";
      case Raised::NurseryBed:
        return "nursery";
      case Raised::InPlace:
        return "bed";
    }
    return std::nullopt;
  }

  void into_the_ground(std::optional<std::size_t> ground_ready) {
    if (established()) return;
    const DateRange window = clock_.window_days(*way().window, way().flowers);
    const bool bare = way().raised == Raised::InPlace;
    const JobKind kind = bare && way().method == Method::Seed   ? JobKind::Sow
                         : bare && way().method == Method::Bulb ? JobKind::Plant
                                                                : JobKind::PlantOut;
    add(kind, {c().in_ground, warm_enough(window.from), window.until - Days{1}}, "bed");
    if (ground_ready) jobs_.back().after.push_back(*ground_ready);
    watch_for_frost();
    if (kind == JobKind::Sow) look_and_thin();
    if (kind == JobKind::PlantOut && plan_.work.care) {
      care(JobKind::WaterIn, {c().in_ground, c().in_ground, c().in_ground + Days{2}});
    }
    if (plan_.work.care && kind != JobKind::Plant) {
      care(JobKind::Slugs, around(c().in_ground + Days{5}, 2, 9));
    }
  }

  // The day from which a sowing outdoors is right: not before the soil is warm, its date taken as
  // early as it may be.
  Date warm_enough(Date day) const {
    const bool waits = way().raised == Raised::InPlace && way().method == Method::Seed &&
                       frost_class(sheet_) != FrostClass::Hardy;
    const auto soil = waits ? clock_.warm_soil() : std::nullopt;
    return soil && soil->from ? std::max(day, *soil->from - Days{climate::kSoilDays}) : day;
  }

  void watch_for_frost() {
    const FrostClass hardiness = frost_class(sheet_);
    if (hardiness == FrostClass::Hardy) return;
    const Date last = climate_.frosts(plan_.flowering_year).last;
    const auto safe = climate::frost_safe_day(last, climate::kSpringSpreadDays, kWatchRisk);
    if (!safe) return;
    const Date until = *safe - Days{hardiness == FrostClass::HalfHardy ? kHalfHardyEarlier : 0};
    if (c().in_ground >= until) return;
    aside(JobKind::WatchForFrost, {c().in_ground, c().in_ground, until}, "bed");
  }

  void look_and_thin() {
    const int usual = sheet_.germination_days
                          ? static_cast<int>(std::lround(sheet_.germination_days->high))
                          : kDefaultGermination;
    if (plan_.work.care) {
      care(JobKind::LookForSeedlings, around(c().in_ground + Days{2 * usual}, usual, 7));
    }
    Date day = c().in_ground + Days{usual + kThinAfterEmergence};
    if (const auto winter = climate_.short_days_before(plan_.flowering_year)) {
      // Seedlings of a late sowing are thinned when they grow again.
      if (winter->contains(day)) day = winter->until + Days{14};
    }
    add(JobKind::Thin, around(day, 7, 14), "bed");
  }

  void tend() {
    pinch();
    if (sheet_.support != Sheet::Support::No) {
      const Date flower = c().timeline.first_flower.likely;
      const Date day = std::max(c().in_ground + Days{7}, flower - Days{kSupportBeforeFlower});
      aside(JobKind::Support, {day, day - Days{7}, std::max(day, flower - Days{kSupportLast})},
            "bed");
    }
    if (c().under_fleece) {
      const Date frost = climate_.frosts(plan_.flowering_year - 1).first;
      aside(JobKind::Protect, around(frost + Days{kFleeceAfterFrost}, kFleeceAfterFrost, 28),
            "bed");
    }
    yearly(JobKind::Prune, sheet_.prune);
    if (stays_in_ground(sheet_.life_cycle) || asked().keep) yearly(JobKind::Divide, sheet_.divide);
    const auto& cut = c().timeline.first_cut;
    add(JobKind::FirstCut, {cut.likely, cut.early, cut.late}, "bed");
    if (plan_.work.care && sheet_.habit == Habit::CutAndComeAgain) {
      care(JobKind::Pick, around(cut.likely + Days{7}, 4, 7));
      care(JobKind::DeadHead, around(cut.likely + Days{21}, 7, 14));
    }
    if (sheet_.second_flush) {
      const auto first_flush = static_cast<int>(std::lround(sheet_.cutting_weeks.middle() * 7));
      add(JobKind::CutBack, around(cut.likely + Days{first_flush}, 7, 7), "bed");
    } else {
      yearly(JobKind::CutBack, sheet_.cut_back);
    }
  }

  void pinch() {
    const bool wanted = sheet_.pinch.advice == Pinch::Advice::Yes ||
                        (sheet_.pinch.advice == Pinch::Advice::Optional && plan_.work.care);
    if (!wanted || established()) return;
    const bool long_in_pots = way().weeks_under_cover &&
                              days_between(c().start, c().in_ground) > kPinchInPots + 7 &&
                              way().method == Method::Seed;
    Date day =
        long_in_pots ? c().start + Days{kPinchInPots} : c().in_ground + Days{kPinchAfterPlanting};
    if (!way().weeks_under_cover && way().method == Method::Seed) day += Days{28};
    if (const auto winter = climate_.short_days_before(plan_.flowering_year)) {
      if (c().in_ground < winter->until && !long_in_pots) {
        day = std::max(day, winter->until + Days{kPinchAfterWinter});
      }
    }
    day = std::min(day, c().timeline.first_flower.likely - Days{28});
    aside(JobKind::Pinch, around(day, 4, 10), day < c().in_ground ? where_raised() : "bed");
  }

  void yearly(JobKind kind, const std::optional<YearlyJob>& job) {
    if (!job) return;
    const DateRange window = clock_.window_days(job->window, FlowersIn::SameYear);
    const Date middle = window.from + Days{days_between(window.from, window.until) / 2};
    aside(kind, {middle, window.from, window.until - Days{1}}, "bed");
  }

  // Lifting and clearing; the job that frees the ground.
  std::optional<std::size_t> end() {
    if (stays_in_ground(sheet_.life_cycle)) return std::nullopt;
    const auto& next = sowing_.next_in_ground;
    const bool follows = next.has_value();
    const Date lift = sowing_.lift;
    if (sheet_.lift_and_store && !follows) {
      yearly(JobKind::LiftAndStore, sheet_.lift_and_store);
      return std::nullopt;
    }
    if (asked().keep && is_planted(sheet_.life_cycle) && !follows) return std::nullopt;
    const Date last =
        follows ? *next - Days{plan_.work.days_between_crops} : lift + Days{kLiftLater};
    add(JobKind::Lift, {lift, std::min(c().lift_from, lift), last}, "bed");
    const Date lifted = jobs_.back().day;
    const Date cleared = follows ? *next - Days{1} : lifted + Days{kClearLater};
    add(JobKind::ClearAndFeed, {lifted, lifted, std::max(lifted, cleared)}, "bed");
    return jobs_.size() - 1;
  }

  // A job that the next of the planting waits for.
  void add(JobKind kind, Window window, std::optional<std::string> where) {
    aside(kind, window, std::move(where));
    before_ = jobs_.size() - 1;
  }

  void care(JobKind kind, Window window) { aside(kind, window, "bed"); }

  // A job beside the line from order to clearing.
  void aside(JobKind kind, Window window, std::optional<std::string> where) {
    const Bed* bed = bed_of(plan_, planting_);
    Job job;
    job.key = {.flowering_year = planting_.flowering_year,
               .bed = bed ? bed_identity(*bed) : "",
               .crop = asked().crop,
               .planting = asked().id.value_or("1"),
               .kind = kind,
               .succession = sowing_.number};
    job.planting = sowing_.planting;
    job.planting_name = planting_.name;
    job.bed = bed_name(plan_, planting_);
    job.stretch = planting_.patch ? planting_.patch->stretch : 0;
    job.at_cm = whole_cm(sowing_.offset);
    job.length_cm = whole_cm(sowing_.length);
    job.crop = asked().crop;
    job.variety = asked().variety;
    job.way = way().name;
    job.where = std::move(where);
    job.person = asked().person || !bed ? asked().person : bed->person;
    set_days(job, window);
    set_plants(job);
    job.reminder = wants_reminder(kind);
    if (handles_plant(kind)) job.cautions = caution_lines(sheet_);
    if (before_) job.after.push_back(*before_);
    job.title = job_title(planting_, sheet_, job);
    job.text = job_text(plan_.place, sowing_, clock_, job);
    jobs_.push_back(std::move(job));
  }

  bool wants_reminder(JobKind kind) const {
    switch (plan_.work.remind) {
      case Remind::All:
        return true;
      case Remind::None:
        return false;
      case Remind::Must:
        return cannot_wait(kind, sowing_.another_follows());
    }
    return false;
  }

  // The chosen day inside its window; sowing and planting days stay, others move to the nearest of
  // the gardener's days inside the window. Nothing is asked for before the plan began.
  void set_days(Job& job, Window window) const {
    job.first = std::min(window.first, window.day);
    job.last = std::max(window.last, window.day);
    job.day = window.day;
    if (const auto& began = when_.first_day) {
      job.first = std::max(job.first, *began);
      job.last = std::max(job.last, *began);
      job.day = std::max(job.day, *began);
    }
    if (!chosen_by_plan(job.key.kind)) job.day = nearest_work_day(job);
    job.state = job.day < when_.today ? Job::State::Assumed : Job::State::Due;
  }

  static bool chosen_by_plan(JobKind kind) {
    return kind == JobKind::Sow || kind == JobKind::Plant || kind == JobKind::PlantOut;
  }

  Date nearest_work_day(const Job& job) const {
    const auto& days = plan_.work.days;
    if (days.empty()) return job.day;
    const auto works = [&](Date day) {
      return job.first <= day && day <= job.last &&
             std::ranges::find(days, std::chrono::weekday{day}) != days.end();
    };
    for (int off = 0; off < 7; ++off) {
      if (works(job.day - Days{off})) return job.day - Days{off};
      if (works(job.day + Days{off})) return job.day + Days{off};
    }
    return job.day;
  }

  void set_plants(Job& job) const {
    job.plants = sowing_.plants;
    job.rows = sowing_.rows;
    job.spacing_cm = sowing_.spacing_cm;
    const bool into_soil = job.key.kind == JobKind::Sow || job.key.kind == JobKind::Plant;
    if (into_soil && sheet_.depth_mm)
      job.depth_mm = static_cast<int>(std::lround(*sheet_.depth_mm));
  }

  const Plan& plan_;
  const Planting& planting_;
  const Sowing& sowing_;
  const Sheet& sheet_;
  const climate::Climate& climate_;
  When when_;
  std::vector<Job>& jobs_;
  growth::CropClock clock_;
  std::optional<std::size_t> before_;
};

// By day, then as the plan goes; the links between jobs follow.
std::vector<Job> sorted(std::vector<Job> jobs) {
  std::vector<std::size_t> order(jobs.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::ranges::stable_sort(order, [&](std::size_t a, std::size_t b) {
    return std::tie(jobs[a].day, jobs[a].planting, jobs[a].key.succession, jobs[a].key.kind) <
           std::tie(jobs[b].day, jobs[b].planting, jobs[b].key.succession, jobs[b].key.kind);
  });
  std::vector<std::size_t> place(jobs.size());
  for (std::size_t i = 0; i < order.size(); ++i) place[order[i]] = i;
  std::vector<Job> result;
  result.reserve(jobs.size());
  for (const std::size_t i : order) {
    for (std::size_t& link : jobs[i].after) link = place[link];
    result.push_back(std::move(jobs[i]));
  }
  return result;
}

}  // namespace

std::vector<Job> make_jobs(const Plan& plan, const Schedule& schedule,
                           const climate::Climate& climate, When when) {
  std::vector<Job> jobs;
  // By planting: the job after which its ground is free.
  std::vector<std::optional<std::size_t>> freed(plan.plantings.size());
  const auto ready_for = [&](std::size_t planting) -> std::optional<std::size_t> {
    auto before = plan.plantings[planting].follows;
    while (before && schedule.of(*before).empty()) before = plan.plantings[*before].follows;
    return before ? freed[*before] : std::nullopt;
  };
  for (const Sowing& sowing : schedule.sowings) {
    freed[sowing.planting] =
        Builder(plan, sowing, climate, when, jobs).build(ready_for(sowing.planting));
  }
  return sorted(std::move(jobs));
}

}  // namespace trug::work
