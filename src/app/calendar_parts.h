// SPDX-License-Identifier: MIT
// The files that one plan's calendar is split into: which jobs stand in which of them.
#pragma once

#include <string>
#include <vector>

#include "app/events.h"
#include "app/options.h"
#include "base/files.h"

namespace trug::app {

// One file of a calendar.
struct PartFile {
  Part part;
  std::string path;
  std::vector<const show::JobRow*> jobs;
};

// By part; one file that holds all where nothing is split. Names that differ in case only are one
// part, as they are one in UIDs.
std::vector<PartFile> part_files(const Options& options, const std::vector<show::JobRow>& jobs);

// The files beside those, of the same garden and split, whose part has no jobs any more: a bed that
// is gone or empty. They hold none of `jobs`. A file of another split of this plan is none of them,
// nor is one that cannot be read. The plan must have a garden.
std::vector<PartFile> files_left_behind(const Options& options, const Plan& plan,
                                        const FileReader& reader,
                                        const std::vector<PartFile>& files);

// Why these files cannot all be written, as an error for people; empty: they can.
std::string trouble_of(const std::vector<PartFile>& files);

}  // namespace trug::app
