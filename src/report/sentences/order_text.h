// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/plan/plan.h>
#include <tinwright/part/model/part.h>

namespace tinwright::report {

/// An order in one line: its rank, time, worst clearance and in what it differs from one that is listed before it, or
/// from the one that is told in full (`shown`).
[[nodiscard]] std::string nextBestLine(const Part& part, const BrakeInSetup& brake, const std::vector<Plan>& plans,
                                       std::size_t index, std::size_t shown = 0);

/// "a, b+c, d": the folds of an order from `first` on, as `tinwright try --order` takes them.
[[nodiscard]] std::string orderList(const Part& part, const Plan& plan, std::size_t first = 0);

}  // namespace tinwright::report
