// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/verify/replay/verify.h>

namespace tinwright::app {

/// What the module is asked; program and module are built together.
struct VerifyRequest {
    const Part* part = nullptr;
    const Shop* shop = nullptr;
    const std::vector<BrakeInSetup>* brakes = nullptr;  ///< by fold
    const Plan* plan = nullptr;
    BendMask formed = 0;
};

using VerifyPlanFunction = void (*)(const VerifyRequest&, std::vector<ReplayFinding>&);
inline constexpr const char* kVerifyPlanSymbol = "tinwright_verify_plan";
inline constexpr const char* kVerifierFile = "tinwright-verifier.so";

}  // namespace tinwright::app
