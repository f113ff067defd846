// SPDX-License-Identifier: MIT
// The sheets in crops/ as files: read, and their growth numbers put back.
#pragma once

#include <map>
#include <string>

#include "garden/sheet.h"

namespace trug::calibrate {

struct SheetFile {
  std::string path;
  Sheet sheet;
  bool is_group = false;
};

// Every sheet of a folder with a growth table, by the crop's name, and every group with one of its
// own ("tulip early"), with that for the sheet's.
std::map<std::string, SheetFile> read_sheets(const std::string& folder);

// Puts both heats, the top and, where it is more than the usual, the spread into every growth table
// of the file (a group's too: groups differ in day length alone), and leaves each other character
// as it is.
void write_growth(const std::string& path, const Growth& growth);

}  // namespace trug::calibrate
