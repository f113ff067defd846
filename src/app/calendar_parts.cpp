// SPDX-License-Identifier: MIT
#include "app/calendar_parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <map>
#include <optional>
#include <set>
#include <string_view>
#include <utility>

#include "app/output_file.h"
#include "base/text.h"
#include "calendar/memory.h"

namespace trug::app {
namespace {

constexpr std::string_view kEnding = ".ics";
constexpr std::string_view kNobody = "everyone";  // the part of the jobs that are no one person's
constexpr std::string_view kOrders = "orders";    // of what is bought for all beds together
// Most file systems take names of 255 octets; a file that is being written needs some for itself.
constexpr std::size_t kLongestName = 240;

std::string part_name(const Options& options, const work::Job& job) {
  const bool joint = !job.parts.empty() && options.split != "kind";
  if (joint && !options.split.empty()) return std::string(kOrders);
  if (options.split == "bed") return job.bed;
  if (options.split == "person") return job.person.value_or(std::string(kNobody));
  if (options.split == "kind") return std::string(to_string(job.key.kind));
  return "";
}

// What stands around a part's word in the paths of its files: "sheds/garden-" and ".ics".
struct Around {
  explicit Around(const std::string& output) {
    const std::size_t dot = std::min(output.rfind(kEnding), output.size());
    before = output.substr(0, dot) + "-";
    after = output.substr(dot);
  }
  std::string before, after;
};

// "garden.ics" and "west bed": "garden-west-bed.ics".
std::string part_path(const std::string& output, const std::string& name) {
  if (name.empty()) return output;
  std::string word = folded(name);
  for (char& c : word) {
    const bool letter = std::isalnum(static_cast<unsigned char>(c)) != 0 || (c & 0x80) != 0;
    if (!letter) c = '-';
  }
  const Around around(output);
  return around.before + word + around.after;
}

bool is_wanted(const std::vector<work::JobKind>& only, work::JobKind kind) {
  return only.empty() || std::ranges::find(only, kind) != only.end();
}

// Whether the job whose event tells of it has one in the same file.
bool is_told_there(const Options& options, const std::vector<show::JobRow>& jobs,
                   const show::JobRow& job) {
  return job.told_with && options.split != "kind" &&
         is_wanted(options.only, jobs[*job.told_with].key.kind);
}

// "plant-out and sow", whichever way the kinds were given.
std::string only_words(const std::vector<work::JobKind>& only) {
  std::set<std::string> words;
  for (const work::JobKind kind : only) words.emplace(to_string(kind));
  return listed(std::vector<std::string>(words.begin(), words.end()));
}

// Whether a plan's split of that sort could name a part so.
bool has_part(const std::string& split, const Plan& plan, const std::string& name) {
  const auto same = [&](std::string_view other) { return folded(other) == folded(name); };
  if (split == "kind") {
    return std::ranges::any_of(work::kTraits,
                               [&](const work::JobTrait& kind) { return same(kind.word); });
  }
  if (same(kOrders)) return true;
  if (split == "bed") {
    return std::ranges::any_of(plan.beds, [&](const Bed& bed) { return same(bed.name); });
  }
  if (same(kNobody)) return true;
  const auto is_of = [&](const auto& thing) { return thing.person && same(*thing.person); };
  return std::ranges::any_of(plan.beds, is_of) ||
         std::ranges::any_of(plan.plantings,
                             [&](const Planting& planting) { return is_of(planting.asked); });
}

// Whether a run with that split has to see to a file of that part: no other run does.
bool is_concern_of(const std::string& split, const Plan& plan, const std::string& name) {
  if (has_part(split, plan, name)) return true;
  return !has_part("bed", plan, name) && !has_part("person", plan, name) &&
         !has_part("kind", plan, name);
}

// Which part of the plan's garden a calendar is, by its title and proved by its space, which
// nothing but the garden and the part gives.
std::optional<std::string> part_in(const calendar::Memory& memory, const Plan& plan,
                                   const std::string& only) {
  std::string_view title = memory.name;
  const std::string ending = only.empty() ? "" : ", only " + only;
  if (!title.ends_with(ending)) return std::nullopt;
  title.remove_suffix(ending.size());
  constexpr std::string_view kBetween = ", ";
  for (std::size_t at = title.find(kBetween); at != std::string_view::npos;
       at = title.find(kBetween, at + 1)) {
    const std::string name(title.substr(at + kBetween.size()));
    if (space_of(plan, {name, only}) == memory.space) return name;
  }
  return std::nullopt;
}

// Empty where it is no file that we could have written.
std::string bytes_of(const std::string& path) {
  try {
    return OutputFile::look(path).value_or("");
  } catch (const IoError&) {
    return "";
  }
}

}  // namespace

std::vector<PartFile> part_files(const Options& options, const std::vector<show::JobRow>& jobs) {
  const std::string only = only_words(options.only);
  std::map<std::string, PartFile> files;
  if (options.split.empty()) files[""] = {{"", only}, options.output, {}};
  for (const show::JobRow& job : jobs) {
    if (!is_wanted(options.only, job.key.kind)) continue;
    if (is_told_there(options, jobs, job)) continue;
    const std::string name = part_name(options, job);
    PartFile& file =
        files.try_emplace(folded(name), PartFile{{name, only}, part_path(options.output, name), {}})
            .first->second;
    file.part.name = std::min(file.part.name, name);  // one spelling, whichever job comes first
    file.jobs.push_back(&job);
  }
  std::vector<PartFile> result;
  for (auto& [name, file] : files) result.push_back(std::move(file));
  return result;
}

std::vector<PartFile> files_left_behind(const Options& options, const Plan& plan,
                                        const FileReader& reader,
                                        const std::vector<PartFile>& files) {
  std::vector<PartFile> result;
  if (options.split.empty()) return result;
  const Around around(options.output);
  const std::size_t folder = around.before.rfind('/') + 1;
  const auto names = reader.list(folder == 0 ? "." : around.before.substr(0, folder), around.after);
  const std::string only = only_words(options.only);
  for (const std::string& name : names.value_or(std::vector<std::string>())) {
    const std::string path = around.before.substr(0, folder) + name;
    if (!path.starts_with(around.before) ||
        std::ranges::find(files, path, &PartFile::path) != files.end()) {
      continue;
    }
    const calendar::ReadMemory read = calendar::read_memory(bytes_of(path));
    if (!read.refused.empty()) continue;
    const auto part = part_in(read.memory, plan, only);
    if (part && is_concern_of(options.split, plan, *part)) {
      result.push_back({{*part, only}, path, {}});
    }
  }
  return result;
}

std::string trouble_of(const std::vector<PartFile>& files) {
  std::map<std::string, const PartFile*> by_path;
  for (const PartFile& file : files) {
    const auto [other, is_new] = by_path.try_emplace(file.path, &file);
    if (!is_new) {
      return fmt::format(
          "error: '{}' and '{}' would both be written to {}\n"
          "  hint: give one of them another name, or split another way\n",
          other->second->part.name, file.part.name, file.path);
    }
    const std::size_t octets = file.path.size() - (file.path.rfind('/') + 1);
    if (!file.part.name.empty() && octets > kLongestName) {
      return fmt::format(
          "error: the file for '{}' would have a name of {} octets, more than {}\n"
          "  hint: a shorter name in the plan makes a shorter one here\n",
          file.part.name, octets, kLongestName);
    }
  }
  return "";
}

}  // namespace trug::app
