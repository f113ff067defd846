// SPDX-License-Identifier: MIT
#include "app/many_gardens.h"

#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <condition_variable>
#include <cstddef>
#include <filesystem>
#include <map>
#include <mutex>
#include <optional>
#include <ostream>
#include <sstream>
#include <string>
#include <string_view>
#include <system_error>
#include <thread>
#include <utility>
#include <vector>

#include "app/guarded.h"
#include "app/inputs.h"

namespace trug::app {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kLongestList = 256 * 1024 * 1024;  // octets: some millions of plans

// The plans of a list, a line each; blank lines are none.
std::optional<std::vector<std::string>> listed_plans(const Environment& environment) {
  const FileBytes list = environment.files.read(std::string(kStandardStream), kLongestList);
  if (list.state != FileState::Read) {
    environment.err << "error: the list of plans on the standard input cannot be read\n";
    return std::nullopt;
  }
  std::vector<std::string> plans;
  std::istringstream lines(list.bytes);
  for (std::string line; std::getline(lines, line);) {
    if (line.ends_with('\r')) line.pop_back();
    if (!line.empty()) plans.push_back(std::move(line));
  }
  return plans;
}

std::optional<std::vector<std::string>> plans_of(const Options& options,
                                                 const Environment& environment) {
  std::vector<std::string> plans;
  for (const std::string& plan : options.plans) {
    if (plan != kStandardStream) {
      plans.push_back(plan);
      continue;
    }
    auto listed = listed_plans(environment);
    if (!listed) return std::nullopt;
    plans.insert(plans.end(), listed->begin(), listed->end());
  }
  return plans;
}

// One plan and the file of its calendar.
struct Garden {
  std::string plan, calendar;
};

// Nothing is written where two would be written to one file, or there is no folder for them.
std::optional<std::vector<Garden>> gardens_of(const Options& options,
                                              const Environment& environment) {
  std::error_code error;
  if (!fs::is_directory(options.out_folder, error)) {
    environment.err << fmt::format("error: --out-dir: there is no folder {}\n  hint: mkdir {}\n",
                                   options.out_folder, options.out_folder);
    return std::nullopt;
  }
  const auto plans = plans_of(options, environment);
  if (!plans) return std::nullopt;
  std::vector<Garden> gardens;
  std::map<std::string, std::string_view> plan_of;  // by calendar
  for (const std::string& plan : *plans) {
    const fs::path name = fs::path(plan).stem().concat(".ics");
    gardens.push_back({plan, (fs::path(options.out_folder) / name).string()});
    const auto [other, is_new] = plan_of.emplace(gardens.back().calendar, plan);
    if (is_new) continue;
    environment.err << fmt::format(
        "error: {} and {} would both be written to {}\n  hint: give one of them another name, or "
        "each a folder of its own\n",
        other->second, plan, gardens.back().calendar);
    return std::nullopt;
  }
  return gardens;
}

// What one garden said, in the place of the standard streams.
struct Answer {
  int code = kDone;
  std::string out, err;
};

Answer answer_of(const Garden& garden, const Options& options, const Environment& environment,
                 const OneGarden& one) {
  const Inputs inputs(environment.files);
  std::ostringstream out, err;
  Environment own = with(environment, inputs, out, err);
  own.inputs = &inputs;
  Options alone = options;
  alone.plans = {garden.plan};
  alone.output = garden.calendar;
  alone.out_folder.clear();
  const int code = guarded(own, [&] { return one(alone, own); });
  return {code, out.str(), err.str()};
}

// GardenAnswers that come in any order, for one who takes them in theirs.
class GardenAnswers {
 public:
  explicit GardenAnswers(std::size_t count) : answers_(count) {}
  void put(std::size_t index, Answer answer) {
    const std::scoped_lock lock(mutex_);
    answers_[index] = std::move(answer);
    came_.notify_one();
  }
  Answer take(std::size_t index) {
    std::unique_lock lock(mutex_);
    came_.wait(lock, [&] { return answers_[index].has_value(); });
    Answer answer = std::move(*answers_[index]);
    answers_[index] = Answer{};
    return answer;
  }

 private:
  std::mutex mutex_;
  std::condition_variable came_;
  std::vector<std::optional<Answer>> answers_;
};

}  // namespace

int each_garden(const Options& options, const Environment& environment, const OneGarden& one) {
  const auto gardens = gardens_of(options, environment);
  if (!gardens) return kBadInput;
  GardenAnswers answers(gardens->size());
  std::atomic<std::size_t> next = 0;
  const auto work = [&] {
    for (std::size_t i = next++; i < gardens->size(); i = next++) {
      answers.put(i, answer_of((*gardens)[i], options, environment, one));
    }
  };
  const std::size_t cores = std::max(1U, std::thread::hardware_concurrency());
  std::vector<std::jthread> threads;
  for (std::size_t i = 0; i < std::min(cores, gardens->size()); ++i) threads.emplace_back(work);
  int highest = kDone;
  for (std::size_t i = 0; i < gardens->size(); ++i) {
    const Answer answer = answers.take(i);
    environment.out << answer.out << std::flush;
    environment.err << answer.err << std::flush;
    highest = std::max(highest, answer.code);
  }
  return highest;
}

}  // namespace trug::app
