// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/brake/plan/plan.h>
#include <tinwright/part/model/part.h>
#include <tinwright/verify/strokes/verify_options.h>

namespace tinwright {

/// Something the independent replay of a plan found wrong.
struct ReplayFinding {
    int fold = 0;       ///< from 1; 0: the plan as a whole
    std::string words;  ///< what, where, at what angle
};

/// Replays a plan from the blank with a general-purpose collision library, sharing no code with the planner:
/// every swing under both motions, bars within limits and inventory, loading and unloading paths. Empty: sound.
[[nodiscard]] std::vector<ReplayFinding> verifyPlan(const Part& part, const Shop& shop, const BrakeInSetup& brake,
                                                    const Plan& plan, BendMask formed,
                                                    const VerifyOptions& options = {});

/// The same of a plan whose folds are made on more than one brake, told by fold; every bend has the radius of the brake
/// that makes it. Precondition: there is one at least.
[[nodiscard]] std::vector<ReplayFinding> verifyPlan(const Part& part, const Shop& shop,
                                                    const std::vector<BrakeInSetup>& brakes, const Plan& plan,
                                                    BendMask formed, const VerifyOptions& options = {});

}  // namespace tinwright
