// SPDX-License-Identifier: MIT
#include "whole_program.h"

#include <stdlib.h>

#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <functional>
#include <iterator>
#include <sstream>

#include "app/environment.h"
#include "app/feed_keeper.h"
#include "base/diagnostics.h"
#include "base/files.h"
#include "read/plan_reader.h"
#include "read/sheet_library.h"

namespace trug::fuzz {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kMostPlantings = 6;  // of a plan that is reckoned with
constexpr int kMostSuccessions = 6;

// In memory, where the machine has a folder for that.
class Folder {
 public:
  Folder() {
    const bool in_memory = fs::is_directory("/dev/shm");
    std::string name = (in_memory ? "/dev/shm" : fs::temp_directory_path().string()) +
                       std::string("/trug-fuzz-XXXXXX");
    require(::mkdtemp(name.data()) != nullptr, "no folder for what is written");
    path_ = name;
  }
  ~Folder() {
    std::error_code ignored;
    fs::remove_all(path_, ignored);
  }
  const std::string& path() const { return path_; }

 private:
  std::string path_;
};

const std::string& folder() {
  static const Folder kFolder;
  return kFolder.path();
}

app::Environment environment_of(const FileReader& files, std::ostream& out, std::ostream& err) {
  const Date today = make_date(2026, 8, 3);
  const app::Moment moment{today, today + std::chrono::hours{9}};
  return {.files = files,
          .out = out,
          .err = err,
          .today = moment.today,
          .now = moment.now,
          .random = [] { return std::array<std::uint8_t, 16>{7}; },
          .clock = [moment] { return moment; }};
}

// Nothing but text, line breaks and tabs.
bool is_plain(std::string_view text) {
  return std::ranges::all_of(
      text, [](char c) { return static_cast<unsigned char>(c) >= 0x20 || c == '\n' || c == '\t'; });
}

bool takes_long(const Files& files, const std::string& plan) {
  const MemoryFiles memory(files);
  Diagnostics diagnostics;
  read::SheetLibrary sheets;
  sheets.add_folder(memory, "crops", diagnostics);
  const auto read = read::read_plan(memory, plan, sheets, diagnostics);
  if (!read) return false;
  const auto& plantings = read->plantings;
  return plantings.size() > kMostPlantings ||
         std::ranges::any_of(plantings, [](const Planting& planting) {
           return planting.asked.successions > kMostSuccessions;
         });
}

void calendar_twice(const Files& files, const std::string& plan, const std::string& profile) {
  remove_output("out.ics");
  const std::vector<std::string> words{"calendar", plan, "-o", output("out.ics"), "--for", profile};
  if (run(files, words).exit != app::kDone) return;
  const std::string first = read_output("out.ics");
  require(run(files, words).exit == app::kDone, "a calendar of our own is refused");
  require(read_output("out.ics") == first, "a second run changes what did not change");
}

void picture(const Files& files, const std::string& plan) {
  remove_output("out.svg");
  run(files, {"chart", plan, "-o", output("out.svg")});
}

void page(const Files& files, const std::string& plan) {
  remove_output("out.ics");
  remove_output("out.links");
  const MemoryFiles memory(files);
  std::ostringstream out, err;
  const app::Environment environment = environment_of(memory, out, err);
  app::Options options;
  options.plans = {plan};
  feed::Site site;
  app::Gardens gardens;
  app::FeedKeeper keeper(options, environment, output("out.ics"), "http://127.0.0.1:8017", site,
                         gardens);
  keeper.start();
}

}  // namespace

bool try_all = false;

void require(bool held, std::string_view what) {
  if (held) return;
  std::fprintf(stderr, "does not hold: %.*s\n", static_cast<int>(what.size()), what.data());
  std::abort();
}

std::string output(const std::string& name) { return folder() + "/" + name; }

void write_output(const std::string& name, std::string_view bytes) {
  std::ofstream(output(name), std::ios::binary) << bytes;
}

std::string read_output(const std::string& name) {
  std::ifstream file(output(name), std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

void remove_output(const std::string& name) { fs::remove(output(name)); }

Answer run(const Files& files, const std::vector<std::string>& words) {
  const MemoryFiles memory(files);
  std::ostringstream out, err;
  const int exit = app::run(words, environment_of(memory, out, err));
  require(exit >= app::kDone && exit <= app::kRefused, err.str());
  require(is_plain(err.str()), "a control character in what is said");
  const bool for_programs = std::ranges::find(words, "--csv") != words.end();
  require(for_programs || is_plain(out.str()), "a control character in what is printed");
  return {exit, out.str()};
}

void every_output(const Files& files, const std::string& plan) {
  if (takes_long(files, plan)) return;
  const std::vector<std::function<void()>> outputs{
      [&] {
        run(files, {"check", plan});
      },
      [&] {
        run(files, {"check", plan, "--json"});
      },
      [&] {
        run(files, {"jobs", plan, "--full"});
      },
      [&] {
        run(files, {"jobs", plan, "--json"});
      },
      [&] {
        run(files, {"jobs", plan, "--csv"});
      },
      [&] { picture(files, plan); },
      [&] { page(files, plan); },
      [&] { calendar_twice(files, plan, "import"); },
      [&] { calendar_twice(files, plan, "feed"); },
      [&] {
        run(files, {"calendar", plan, "-o", output("out.ics"), "--split", "bed", "--dry-run"});
      }};
  if (try_all) {
    for (const auto& make : outputs) make();
  } else {
    std::size_t chosen = 0;
    for (const auto& [name, text] : files) chosen += std::hash<std::string>()(text);
    outputs[chosen % outputs.size()]();
  }
}

}  // namespace trug::fuzz
