// SPDX-License-Identifier: MIT
// All crop sheets by name: those compiled into the program and those of the user's folders.
#pragma once

#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "base/diagnostics.h"
#include "base/files.h"
#include "garden/sheet.h"

namespace trug::read {

// A sheet is read when it is first asked for, one compiled into the program once for all libraries,
// on whichever thread. Names are compared without regard to case; '_' and '-' count as blanks.
class SheetLibrary {
 public:
  // With the sheets compiled into the program.
  SheetLibrary();
  // Adds the *.toml of a folder, each in the place of an earlier sheet of the same name. False when
  // there is no such folder. Before the first find(): the sheets it replaces are gone.
  bool add_folder(const FileReader& files, const std::string& folder, Diagnostics& diagnostics);
  // By name, else by another common or the botanical name. Null where there is none, where several
  // crops are so called, or where the sheet has errors (which are reported, once); `has` tells
  // which.
  const Sheet* find(std::string_view name, Diagnostics& diagnostics);
  bool has(std::string_view name) const;
  // Sorted, as one writes them in a plan.
  std::vector<std::string> names() const;
  // What to write in the place of a name that finds no sheet: which of the crops that are so
  // called, or the one whose name, or another of its names, is nearest. Empty where none is near.
  std::string what_to_write(std::string_view name, Diagnostics& diagnostics);

 private:
  struct Item;  // a sheet's text, and what was read of it
  using Items = std::map<std::string, std::shared_ptr<Item>>;  // by compared name

  static const Items& built_in();
  const Sheet* read(Item& item, Diagnostics& diagnostics);
  using OtherNames = std::map<std::string, std::vector<std::string>>;  // -> compared names
  const OtherNames& other_names(Diagnostics& diagnostics);

  Items items_;
  std::set<const Item*> told_;  // whose errors are reported
  std::optional<OtherNames> other_names_;
};

}  // namespace trug::read
