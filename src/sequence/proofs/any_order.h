// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <tinwright/sequence/search/search.h>
#include <tinwright/sequence/states/oracle.h>

namespace tinwright {

/// Cuts an order into runs of steps, as long as can be, such that every order that makes the runs one after the other,
/// and the steps of a run in any order, is possible, takes the same time and is tight only if this one is. All of them
/// are looked at. Sizes of the runs; no run is longer than `longest`.
[[nodiscard]] std::vector<int> anyOrderRuns(FoldOracle& oracle, BendMask formed, const Order& order, int longest = 6);

}  // namespace tinwright
