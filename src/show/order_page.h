// SPDX-License-Identifier: MIT
// What must be bought, and by when.
#pragma once

#include <string>
#include <vector>

#include "garden/plan.h"
#include "show/document_head.h"
#include "show/json.h"
#include "show/style.h"
#include "work/purchases.h"

namespace trug::show {

// A list a month and kind of goods, with totals and cautions, and what is taken as bought.
std::string order_page(const Plan& plan, const std::vector<work::Purchase>& purchases,
                       const std::vector<work::Purchase>& bought, Style style);
// "trug.order/1".
std::string order_json(const DocumentHead& head, const Reckoned& reckoned,
                       const std::vector<work::Purchase>& purchases,
                       const std::vector<work::Purchase>& bought);
// A row an item (RFC 4180), a header line first.
std::string order_csv(const Plan& plan, const std::vector<work::Purchase>& purchases);

}  // namespace trug::show
