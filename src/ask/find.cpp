// SPDX-License-Identifier: MIT
#include "ask/find.h"

#include <iterator>

namespace trug::ask {

std::vector<Finding> find(const View& view) {
  std::vector<Finding> all;
  const auto add = [&](std::vector<Finding> found) {
    all.insert(all.end(), std::make_move_iterator(found.begin()),
               std::make_move_iterator(found.end()));
  };
  for (std::size_t i = 0; i < view.plan().plantings.size(); ++i) {
    if (view.grown(i)) {
      add(of_grown(view, i));
    } else {
      all.push_back(about_planting(view.plan(), i, left_out(view, i)));
    }
    add(of_asked(view, i));
  }
  add(of_ground(view));
  add(of_place(view));
  add(of_wish(view));
  add(of_shelter(view));
  sort_by_rank(all);
  return all;
}

}  // namespace trug::ask
