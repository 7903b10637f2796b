// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/brake/plan/plan.h>
#include <tinwright/brake/shop/material.h>
#include <tinwright/part/model/part.h>
#include <tinwright/sequence/plan/pins.h>
#include <tinwright/sequence/proofs/constraint_problem.h>
#include <tinwright/sequence/search/search.h>

namespace tinwright {

struct PlanOptions {
    std::size_t plans = 3;              ///< how many orders to rank
    double time_limit_s = 60;           ///< outer guard, 0: none
    std::uint64_t max_states = 12'000;  ///< states and partial orders looked at; past that the best found so far is
                                        ///< told
    std::uint64_t max_bytes = std::uint64_t{1} << 30;  ///< of memory for them
    bool explain = true;        ///< work out causes when there is no order, and what must come first when there is one
    bool verdict_only = false;  ///< whether it goes is all that is asked: orders are those found quickly, and are not
                                ///< counted
    bool tell_reasons = true;   ///< what stands in the way where an order gets furthest, when none works
    BendMask formed = 0;        ///< bends that are already folded
    const Material* material = nullptr;  ///< of the sheet, for what a plan spoils; nullptr: not known
    bool robust = false;                 ///< only folds count that are shown to hold over the shop's tolerances
    Pins pins;                           ///< only orders count that keep them
    std::function<void(const SearchProgress&)> progress;  ///< called now and then from the calling thread
};

/// Plans the part on one brake in its set-up, with its tools as they are: of the pins those of the order hold. The
/// verdict is with trouble when the best order spoils something, or when something is spoilt whatever the order
/// (BrakeResult::spoilt_anyway). With `robust`, when no order is shown to hold, the part is planned as drawn too:
/// infeasible is only what does not go either way, what goes as drawn or may go is undecided.
[[nodiscard]] BrakeResult planOnBrake(const Part& part, const Shop& shop, const BrakeInSetup& brake,
                                      const PlanOptions& options);
/// The same on a brake of the shop with the tools pinned, in one set-up after the other (setupsFor) until an order
/// works that spoils nothing; else that in which least is spoilt. When none works as pinned it is planned without pins
/// as well, for the verdict alone. Precondition: the pins leave it tools (hasTools).
[[nodiscard]] BrakeResult planOnBrake(const Part& part, const Shop& shop, std::size_t brake,
                                      const PlanOptions& options);

/// The order problem of the part on one brake, for other solvers; what keeps to the pins of the order.
[[nodiscard]] ConstraintProblem constraintsOn(const Part& part, const Shop& shop, const BrakeInSetup& brake,
                                              BendMask formed, const Pins& pins = {},
                                              const Material* material = nullptr);

/// One step of an order that a person asks about.
struct TriedStep {
    std::vector<BendId> bends;
    bool possible = false;
    bool undecided = false;       ///< neither proven clear nor proven to hit
    FoldStep step;                ///< when possible
    std::vector<Reason> reasons;  ///< when not: for either side held, or for the one that is pinned
};

struct TryResult {
    BrakeInSetup brake;  ///< that all this is told for
    Verdict verdict = Verdict::kInfeasible;
    std::vector<TriedStep> steps;  ///< up to and with the first that fails
    Plan plan;                     ///< of the steps that go
    Spoils spoilt_anyway;          ///< as of BrakeResult
};

/// Simulates exactly this order; each entry is one stroke of one or several bends. Of the pins the holds are kept. Of
/// the sides that may be held that with which less is spoilt, then the quicker one. `material`: as PlanOptions.
[[nodiscard]] TryResult tryOrder(const Part& part, const Shop& shop, const BrakeInSetup& brake,
                                 const std::vector<std::vector<BendId>>& order, BendMask formed, const Pins& pins = {},
                                 const Material* material = nullptr);
/// The same on a brake of the shop with the tools pinned: of its set-ups the one in which it goes furthest.
/// Precondition: the pins leave it tools (hasTools).
[[nodiscard]] TryResult tryOrder(const Part& part, const Shop& shop, std::size_t brake,
                                 const std::vector<std::vector<BendId>>& order, BendMask formed, const Pins& pins = {},
                                 const Material* material = nullptr);

}  // namespace tinwright
