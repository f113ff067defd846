// SPDX-License-Identifier: MIT
// The command line as plain values. The commands never see the library that reads it.
#pragma once

#include <chrono>
#include <cstdint>
#include <optional>
#include <ostream>
#include <string>
#include <string_view>
#include <vector>

#include "app/start_questions.h"
#include "base/date.h"
#include "feed/address.h"
#include "garden/sheet.h"
#include "read/daily_csv.h"
#include "show/chart.h"
#include "show/format.h"
#include "work/jobs.h"

namespace trug::app {

// As a plan the standard input, as a file to write the standard output.
inline constexpr std::string_view kStandardStream = "-";

// What the list of crops is narrowed to.
struct WantedCrops {
  std::optional<std::string> life;  // a word of a life cycle, or several
  std::optional<Role> role;
  std::optional<std::string> petals;        // a colour
  bool safe = false;                        // nothing poisonous or irritant
  std::optional<std::chrono::month> month;  // cut then ...
  std::string plan;                         // ... at the place of this plan
};

struct Options {
  std::string command;
  std::vector<std::string> plans;
  std::optional<Date> today;
  std::vector<std::string> crop_folders;
  bool strict = false;         // findings make exit 1
  std::optional<bool> colour;  // as --color says; absent: as the terminal is
  bool plain = false;          // nothing but text
  show::Format format = show::Format::Page;
  bool is_json() const { return format == show::Format::Json; }
  bool verbose = false;  // which files were read
  // check
  bool bound = false;  // how far the choice can be from the best there is
  // weeks
  bool by_years = false;        // over the years of the record
  std::uint64_t draw_seed = 1;  // of what is drawn
  // jobs
  std::optional<Date> from, to;
  std::vector<work::JobKind> only;
  bool full = false;        // what each job says
  bool hours = false;       // how long each takes, and each week
  bool all = false;         // of days before today too
  bool week = false;        // of seven days
  std::optional<int> next;  // the first so many
  bool cautions = false;    // what each caution says
  // calendar, chart
  std::string output;
  std::string out_folder;  // a file in it for each plan
  bool feed = false;
  std::string split;  // "", "bed", "person", "kind"
  std::optional<bool>
      per_day;  // an event a day, or one a job; absent: as the file has it, else a job
  bool dry_run = false;
  bool lost = false;
  bool force = false;
  show::Paper paper = show::Paper::A4;  // chart
  // mend
  bool replant = false;
  // start
  StartAnswers answers;  // given by options
  std::optional<std::string> seed;
  // help
  std::vector<std::string> words;
  // crop, why, jobs
  std::string crop;
  WantedCrops crops;
  std::string check_folder;
  // why, jobs
  std::string bed;
  // frost
  std::string record;  // the table of daily minima and maxima
  read::DailyCsvOptions columns;
  std::vector<double> thresholds;  // besides the usual ones
  int years = 30;                  // the last so many; 0: all
  bool south = false;
  bool place = false;  // the plan's block
  std::optional<double> latitude;
  // feed
  std::string feed_file;  // empty: beside the plan
  feed::Address listen{"127.0.0.1", 8017};
  std::string base_url;  // empty: the address it listens on
  bool behind_proxy = false;
  bool new_link = false;
  std::optional<std::string> revoke;  // a link
  bool revoke_all = false;
  std::string qr_file;
};

struct ParsedOptions {
  std::optional<Options> options;  // empty: help, the version or an error was printed
  int exit = 0;
};

// Days may be written relative to `today` ("tomorrow", "14 May"). Without a command the options'
// own is empty.
ParsedOptions parse_options(const std::vector<std::string>& arguments, Date today,
                            std::ostream& out, std::ostream& err);

// The help of a command, or of the whole with an empty name; empty for a name that is none.
std::string help_text(const std::string& command);

}  // namespace trug::app
