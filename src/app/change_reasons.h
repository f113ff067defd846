// SPDX-License-Identifier: MIT
// Why jobs moved from one version of a calendar to the next. The earlier file is the only memory:
// its head keeps what the days hang on, in short, as facts.
#pragma once

#include <string>
#include <vector>

#include "app/reckoning.h"
#include "calendar/render.h"
#include "show/change_words.h"

namespace trug::app {

// The difference between two versions' facts. All but the string must outlive it.
class ChangeReasons {
 public:
  // `product_before`: the version that reckoned the earlier one, "trug 0.1.0".
  ChangeReasons(const calendar::Facts& before, std::string product_before,
                const calendar::Facts& now, const Reckoning& reckoning);

  // All that is another than before.
  std::vector<show::Reason> of_plan() const;
  // That part of it on which this job's day hangs directly; where that does not explain a day that
  // moved by `days` (later: more than none), that it was chosen otherwise. Empty where nothing is
  // another.
  std::vector<show::Reason> of_job(const work::Job& job, int days) const;

 private:
  struct Hangs;  // what a job's day hangs on

  bool differs(const std::string& fact) const;
  Hangs hangs(const work::Job& job) const;
  // On what the days of one planting hang that shares the ground.
  void hang_on_planting(std::size_t planting, Hangs& hangs) const;
  void add_frosts(bool last, bool first, std::vector<show::Reason>& reasons) const;
  void add_weather(bool temperatures, bool weather, std::vector<show::Reason>& reasons) const;
  void add_lines(bool place, bool wish, std::vector<show::Reason>& reasons) const;
  void add_sheet(const std::string& crop, std::vector<show::Reason>& reasons) const;
  void add_records(std::size_t planting, std::vector<show::Reason>& reasons) const;
  void add_version(std::vector<show::Reason>& reasons) const;
  bool weather_came_or_went() const;
  int days_of(const std::string& frost) const;
  bool explains(const show::Reason& reason, int days) const;

  const calendar::Facts& before_;
  std::string product_before_;
  const calendar::Facts& now_;
  const Reckoning& r_;
};

}  // namespace trug::app
