// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <functional>
#include <vector>

#include <tinwright/brake/leaf_brake.h>
#include <tinwright/brake/plan.h>
#include <tinwright/part/part.h>

namespace tinwright {

struct PlanOptions {
    std::size_t plans = 3;             ///< how many orders to rank
    double time_limit_s = 60;          ///< outer guard, 0: none
    std::uint64_t max_states = 12'000; ///< states and partial orders looked at; past that the best found so far is told
    bool verdict_only = false;            ///< whether it goes is all that is asked: orders are those found quickly, and are not counted
    BendMask formed = 0;               ///< bends that are already folded
    std::function<void(std::uint64_t states)> progress;  ///< called now and then from the calling thread
};

/// Plans the part on one brake of the shop.
[[nodiscard]] BrakeResult planOnBrake(const Part& part, const Shop& shop, std::size_t brake, const PlanOptions& options);

/// One step of an order that a person asks about.
struct TriedStep {
    std::vector<BendId> bends;
    bool possible = false;
    bool undecided = false;            ///< neither proven clear nor proven to hit
    FoldStep step;                     ///< when possible
    std::vector<Reason> reasons;       ///< when not: for either side held
};

struct TryResult {
    Verdict verdict = Verdict::kInfeasible;
    std::vector<TriedStep> steps;      ///< up to and with the first that fails
    Plan plan;                         ///< of the steps that go
};

/// Simulates exactly this order; each entry is one stroke of one or several bends.
[[nodiscard]] TryResult tryOrder(const Part& part, const Shop& shop, std::size_t brake,
                                 const std::vector<std::vector<BendId>>& order, BendMask formed);

}  // namespace tinwright
