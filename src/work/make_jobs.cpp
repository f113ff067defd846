// SPDX-License-Identifier: MIT
#include "work/make_jobs.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <map>
#include <numeric>
#include <tuple>
#include <utility>

#include "ground/strip_cm.h"
#include "growth/cover.h"
#include "work/draw_together.h"
#include "work/records.h"
#include "work/rules.h"
#include "work/told.h"

namespace trug::work {
namespace {

using ground::Schedule;
using ground::Sowing;

constexpr int kInModules = 10;  // fewest days worth pricking out for and potting on after (memory)

// Whether the choice, the plan or what happened fixed the day.
bool stands(const JobDraft& draft) {
  return draft.pinned || draft.recorded || trait(draft.kind).chosen;
}

bool works_on(Date day, const Window& window, const std::vector<std::chrono::weekday>& days) {
  return window.first <= day && day <= window.last &&
         std::ranges::find(days, std::chrono::weekday{day}) != days.end();
}

Date nearest_work_day(const Window& window, const std::vector<std::chrono::weekday>& days) {
  for (int off = 0; off < 7; ++off) {
    for (const Date day : {window.day - Days{off}, window.day + Days{off}}) {
      if (works_on(day, window, days)) return day;
    }
  }
  return window.day;
}

// What a job says of its sowing, whatever its kind.
Job job_of(const Sowing& sowing, const Plan& plan) {
  const Planting& planting = plan.plantings[sowing.planting];
  const CropEntry& asked = planting.asked;
  const Bed* bed = bed_of(plan, planting);
  Job job;
  job.key = {.flowering_year = planting.flowering_year,
             .bed = bed ? bed_identity(*bed) : "",
             .crop = asked.crop,
             .planting = asked.id.value_or("1"),
             .succession = sowing.number,
             .repeat = sowing.begun.repeat};
  job.planting = sowing.planting;
  job.planting_name = planting.name;
  job.bed = bed_name(plan, planting);
  job.stretch = planting.patch ? planting.patch->stretch : 0;
  job.at_cm = whole_cm(sowing.offset);
  job.length_cm = ground::length_cm(sowing);
  job.crop = asked.crop;
  job.variety = asked.variety;
  job.way = sowing.raised_by().name;
  job.person = asked.person || !bed ? asked.person : bed->person;
  job.plants = sowing.plants;
  job.rows = sowing.rows;
  job.spacing_cm = sowing.spacing_cm;
  return job;
}

bool wants_reminder(JobKind kind, const Sowing& sowing, Remind remind) {
  if (remind != Remind::Must) return remind == Remind::All;
  return cannot_wait(kind, sowing.another_follows());
}

Job made(const JobDraft& draft, const Sowing& sowing, const RuleContext& context) {
  const Plan& plan = context.plan;
  Job job = job_of(sowing, plan);
  const Window window = placed(draft, context);
  job.key.kind = draft.kind;
  job.where = draft.where_it_stands ? standing(sowing, context, window.day).where : draft.where;
  job.day = window.day;
  job.first = window.first;
  job.last = window.last;
  job.state = draft.recorded                 ? Job::State::Recorded
              : job.day < context.when.today ? Job::State::Assumed
                                             : Job::State::Due;
  job.note = draft.note;
  const bool into_soil = draft.kind == JobKind::Sow || draft.kind == JobKind::Plant;
  if (const auto& depth = sowing.sheet->depth_mm; into_soil && depth) {
    job.depth_mm = static_cast<int>(std::lround(*depth));
  }
  job.frost_may_come = draft.frost_may_come;
  job.soil_c = draft.soil_c;
  job.sow_by = draft.sow_by;
  job.winter_takes_some = draft.winter_takes_some;
  job.alive_if_left = draft.alive_if_left;
  job.clearing = draft.clearing;
  job.reminder = wants_reminder(draft.kind, sowing, plan.work.remind);
  return job;
}

// A job that waits for another is not done before it. Days that stand are the other's to keep.
void wait_for(JobDraft& draft, Date day) {
  if (stands(draft)) return;
  Window& window = draft.window;
  for (Date* each : {&window.day, &window.first, &window.last}) *each = std::max(*each, day);
}

// However late one came, what is raised is pricked out, potted on and hardened off in this order;
// pricked out about when it was to be potted on, it goes straight into the larger pots. What was
// not done has the next not done either, whatever day was told for that.
void raise_in_order(std::vector<JobDraft>& drafts) {
  const auto of_kind = [&](JobKind kind) {
    return std::ranges::find(drafts, kind, &JobDraft::kind);
  };
  const auto pricked_out = of_kind(JobKind::PrickOut), potted_on = of_kind(JobKind::PotOn);
  const bool needless = pricked_out != drafts.end() && potted_on != drafts.end() &&
                        !stands(*potted_on) &&
                        potted_on->window.day < pricked_out->window.day + Days{kInModules};
  if (needless) drafts.erase(potted_on);
  const auto hardened = of_kind(JobKind::HardenOff);
  if (hardened == drafts.end()) return;
  for (const JobKind kind : {JobKind::PrickOut, JobKind::PotOn}) {
    const auto before = of_kind(kind);
    if (before == drafts.end()) continue;
    wait_for(*hardened, before->window.day);
    hardened->soonest |= before->soonest;
  }
}

bool comes_after_lift(JobKind kind, const Sowing& sowing) {
  constexpr JobKind kAfter[] = {JobKind::Lift, JobKind::LiftAndStore, JobKind::ClearAndFeed,
                                JobKind::LookAtStored, JobKind::Replant};
  const bool is_left = kind == JobKind::LetDieDown && !sowing.begun.lift;
  return is_left || std::ranges::find(kAfter, kind) != std::end(kAfter);
}

// What is done to a crop in the bed is over when it is lifted.
void end_with_lift(const Sowing& sowing, std::vector<JobDraft>& drafts) {
  std::erase_if(drafts, [&](const JobDraft& one) {
    return one.window.day > sowing.lift && !one.recorded && !comes_after_lift(one.kind, sowing);
  });
  for (JobDraft& one : drafts) {
    if (!comes_after_lift(one.kind, sowing)) one.no_later = sowing.lift;
  }
}

// What stands or was begun before the plan asks for nothing whose time is over by then, but for
// what is still to be done to its ground.
void leave_the_missed(const Sowing& sowing, const RuleContext& context,
                      std::vector<JobDraft>& drafts) {
  const auto& first = context.when.first_day;
  if (!first || (!sowing.stands && sowing.start >= *first)) return;
  std::erase_if(drafts, [&](const JobDraft& one) {
    const Date until = one.kind == JobKind::FirstCut ? sowing.last_cut() : one.window.last;
    const bool is_over = std::max(one.window.day, until) < *first;
    return is_over && !one.recorded && !one.soonest && !comes_after_lift(one.kind, sowing);
  });
}

// In the order in which they are done: under cover before out in the bed, there by their days from
// its start on, else as in a life.
std::vector<JobDraft> drafts_of(const Sowing& sowing, const RuleContext& context) {
  std::vector<JobDraft> drafts;
  for (const auto rules : {raising_rules(), tending_rules(), cutting_rules()}) {
    for (Rule* const rule : rules) {
      const auto draft = rule(sowing, context);
      const bool wanted = draft && (context.plan.work.care || !trait(draft->kind).for_care);
      if (wanted) drafts.push_back(*draft);
    }
  }
  take_records(sowing, context, drafts);
  raise_in_order(drafts);
  end_with_lift(sowing, drafts);
  leave_the_missed(sowing, context, drafts);
  const auto in_bed =
      std::stable_partition(drafts.begin(), drafts.end(),
                            [](const JobDraft& draft) { return draft.where != Raised::InPlace; });
  const auto started = std::find_if(drafts.begin(), in_bed, [](const JobDraft& draft) {
    return draft.kind == JobKind::Sow || draft.kind == JobKind::Plant;
  });
  std::stable_sort(started, in_bed, [](const JobDraft& a, const JobDraft& b) {
    return a.window.day < b.window.day;
  });
  return drafts;
}

bool is_order(JobKind kind) { return trait(kind).group == JobGroup::Buying; }

// Of what is in hand nothing is ordered; of an order, what is left of it.
bool is_in_hand(JobKind kind, const Sowing& sowing, int there) {
  return is_order(kind) && there >= sowing.plants;
}

void order_the_rest(Job& job, const Sowing& sowing, int there) {
  if (is_order(job.key.kind)) job.plants = sowing.plants - there;
}

// The order of those plants that are more than were ordered; nullopt: there are none, or they are
// begun. The order that lies behind keeps the rest.
std::optional<Job> order_of_more(Job& ordered, const Sowing& sowing, const Schedule& schedule,
                                 const RuleContext& context) {
  const Date today = context.when.today;
  if (!is_order(ordered.key.kind) || ordered.state == Job::State::Due || sowing.start <= today) {
    return std::nullopt;
  }
  const Planting& planting = context.plan.plantings[sowing.planting];
  const int before = plants_ordered(planting, sowing, today);
  if (before == 0 || *ordered.plants <= before) return std::nullopt;
  Job more = ordered;
  more.plants = *ordered.plants - before -
                plants_spare(planting, schedule.of(sowing.planting), sowing, today);
  if (*more.plants <= 0) return std::nullopt;
  more.day = more.first = today;
  more.last = std::max(more.last, today);
  more.state = Job::State::Due;
  ordered.plants = before;
  return more;
}

// A minor job that a major one of its sowing tells of.
bool is_minor(const JobDraft& draft) {
  return !draft.apart && !draft.recorded && !draft.soonest && !trait(draft.kind).told_with.empty();
}

// The job, of those since `first`, that tells of it; nullopt: none.
std::optional<std::size_t> carrier_of(const JobDraft& draft, const std::vector<Job>& jobs,
                                      std::size_t first) {
  for (const JobKind kind : trait(draft.kind).told_with) {
    for (std::size_t i = first; i < jobs.size(); ++i) {
      if (jobs[i].key.kind == kind) return i;
    }
  }
  return std::nullopt;
}

// Whether the job that was to tell of it lies so far behind that it is told no more.
bool is_untold(const JobDraft& draft, const std::vector<JobDraft>& drafts) {
  const auto& carriers = trait(draft.kind).told_with;
  return std::ranges::any_of(drafts, [&](const JobDraft& one) {
    return std::ranges::find(carriers, one.kind) != carriers.end();
  });
}

// On the day of the job that tells of it, from then on.
void tell_with(const std::vector<Job>& jobs, std::size_t carrier, Job& job) {
  const Job& with = jobs[carrier];
  job.day = job.first = with.day;
  job.last = std::max(job.last, job.day);
  job.state = with.state == Job::State::Due ? Job::State::Due : Job::State::Assumed;
  job.reminder = false;
  job.told_with = carrier;
}

bool leaves_the_ground(JobKind kind) {
  return kind == JobKind::ClearAndFeed || kind == JobKind::LetDieDown;
}

bool is_into_bed(const JobDraft& draft) {
  return trait(draft.kind).chosen && draft.where == Raised::InPlace;
}

// The draft as a job after those that are made, of which the sowing's begin at `begin`; nullopt: it
// is not told of.
std::optional<Job> told_job(const JobDraft& draft, const std::vector<JobDraft>& drafts,
                            const Sowing& sowing, const RuleContext& context,
                            const std::vector<Job>& jobs, std::size_t begin) {
  const auto carrier = is_minor(draft) ? carrier_of(draft, jobs, begin) : std::nullopt;
  if (!carrier && is_minor(draft) && is_untold(draft, drafts)) return std::nullopt;
  Job job = made(draft, sowing, context);
  if (carrier) {
    tell_with(jobs, *carrier, job);
  } else if (!agree_with_told(sowing, draft, context, job)) {
    return std::nullopt;
  }
  return job;
}

void wait_after(std::optional<std::size_t> other, Job& job) {
  if (other) job.after.push_back(*other);
}

// Adds the jobs of one sowing (by place), of which so many plants are `there`. `ground_ready`: the
// job that leaves the ground to it; the one that frees it again comes back.
std::optional<std::size_t> add_jobs(const Schedule& schedule, std::size_t index,
                                    const RuleContext& context, int there,
                                    std::optional<std::size_t> ground_ready,
                                    std::vector<Job>& jobs) {
  const Sowing& sowing = schedule.at(index);
  std::optional<std::size_t> before, frees;
  const std::size_t begin = jobs.size();
  auto drafts = drafts_of(sowing, context);
  std::erase_if(drafts, [&](const JobDraft& one) { return is_in_hand(one.kind, sowing, there); });
  for (JobDraft& draft : drafts) {
    if (before) wait_for(draft, jobs[*before].day);
    auto job = told_job(draft, drafts, sowing, context, jobs, begin);
    if (!job) continue;
    order_the_rest(*job, sowing, there);
    job->sowing = index;
    // What is told with another is done with that.
    wait_after(job->told_with ? job->told_with : before, *job);
    if (is_into_bed(draft)) wait_after(ground_ready, *job);
    if (trait(draft.kind).in_line) before = jobs.size();
    if (leaves_the_ground(draft.kind)) frees = jobs.size();
    auto more = order_of_more(*job, sowing, schedule, context);
    jobs.push_back(std::move(*job));
    if (more) jobs.push_back(std::move(*more));
  }
  return frees;
}

// What is begun again asks for nothing before the failure, nor before today.
When for_start(When when, const Sowing& sowing) {
  if (const auto& failed = sowing.begun.again_from) {
    const Date from = std::min(std::max(*failed, when.today), sowing.start);
    when.first_day = std::max(when.first_day.value_or(from), from);
  }
  return when;
}

// By day, then as the plan goes; the links between jobs follow.
std::vector<Job> sorted(std::vector<Job> jobs) {
  std::vector<std::size_t> order(jobs.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
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
    if (jobs[i].told_with) jobs[i].told_with = place[*jobs[i].told_with];
    result.push_back(std::move(jobs[i]));
  }
  return result;
}

}  // namespace

Window placed(const JobDraft& draft, const RuleContext& context) {
  Window window = draft.window;
  window.first = std::min(window.first, window.day);
  window.last = std::max(window.last, window.day);
  if (const auto& first = context.when.first_day; first && !draft.recorded) {
    for (Date* day : {&window.day, &window.first, &window.last}) {
      *day = std::max(*day, *first);
    }
  }
  const auto& days = context.plan.work.days;
  if (draft.soonest) window.first = window.day;
  Window done = window;
  if (draft.no_later) done.last = std::max(done.day, std::min(done.last, *draft.no_later));
  if (!stands(draft) && !days.empty()) window.day = nearest_work_day(done, days);
  // What a forecast spreads over is no window in which to do it.
  if (!trait(draft.kind).forecast && !stands(draft)) window.last = std::max(window.day, done.last);
  return window;
}

std::vector<Job> make_jobs(const Plan& plan, const Schedule& schedule,
                           const climate::Climate& climate, When when) {
  std::map<climate::Sheltered, climate::Season> seasons;
  std::vector<Job> jobs;
  // By planting: the job after which its ground is free.
  std::vector<std::optional<std::size_t>> freed(plan.plantings.size());
  const auto ready_for = [&](std::size_t planting) -> std::optional<std::size_t> {
    auto before = plan.plantings[planting].follows;
    while (before && schedule.of(*before).empty()) before = plan.plantings[*before].follows;
    return before ? freed[*before] : std::nullopt;
  };
  const std::vector<int> there = in_hand(plan, schedule);
  for (std::size_t i = 0; i < schedule.sowings.size() + schedule.failed.size(); ++i) {
    const Sowing& sowing = schedule.at(i);
    const growth::CoverGain cover = growth::cover_gain(sowing.cover, sowing.raised_by());
    const climate::Sheltered under = growth::sheltered(cover);
    const climate::Season& season =
        seasons.try_emplace(under, climate, plan.flowering_year, under).first->second;
    const bool stands = i < schedule.sowings.size();
    const auto frees = add_jobs(schedule, i, {plan, season, for_start(when, sowing)},
                                stands ? there[i] : 0, ready_for(sowing.planting), jobs);
    if (stands) freed[sowing.planting] = frees;
  }
  // Without a calendar nothing tells where what lies behind was drawn: it is drawn as it was then.
  draw_together(plan.remembers ? when.today : Date::min(), jobs);
  return sorted(std::move(jobs));
}

}  // namespace trug::work
