// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <optional>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/brake/plan/plan.h>
#include <tinwright/part/model/part.h>
#include <tinwright/sequence/plan/planner.h>

/// Parts that no single brake makes, folded on two of them.
namespace tinwright {

/// An order of folds over two brakes.
struct SplitPlan {
    std::array<std::size_t, 2> brakes{};     ///< of the shop
    std::array<BrakeInSetup, 2> on;          ///< these, in their set-up
    Plan plan;                               ///< its time has that of carrying the part over
    std::vector<std::size_t> brake_of_fold;  ///< of the shop, by fold of the plan
    std::size_t times_carried = 0;           ///< from one brake to the other
    /// Each bend is made on this brake only, with its inside radius: the blank is one, so it is told when they differ.
    std::vector<std::size_t> brake_of_bend;
    [[nodiscard]] Verdict verdict() const { return verdictWith(plan.spoils + spoilt_anyway); }
    /// One of `brakes` in its set-up.
    [[nodiscard]] const BrakeInSetup& setupOf(std::size_t brake) const { return on[brake == brakes[0] ? 0 : 1]; }
    Spoils spoilt_anyway;      ///< as of BrakeResult, each bend on its brake
    bool proven_best = false;  ///< of the orders that make each bend on its brake
};

/// Plans on both brakes together. First an order is looked for in which any fold may be made on either, each brake
/// taking all bends to have its own radius; then the order is planned again with every bend given to the brake that
/// made it there, and with the radii that they have then. Nothing when none was found: that does not prove that there
/// is none. `on`: each in its set-up, with the tools that are pinned; of the pins those of the order hold.
/// Precondition: two different brakes.
[[nodiscard]] std::optional<SplitPlan> planOnTwo(const Part& part, const Shop& shop, std::array<std::size_t, 2> brakes,
                                                 const std::array<BrakeInSetup, 2>& on, const PlanOptions& options);

}  // namespace tinwright
