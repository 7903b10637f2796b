// SPDX-License-Identifier: GPL-3.0-or-later
// The verifier as a module that the program loads when --verify asks for it: the collision library and what it brings
// along take as long to load as a small part takes to plan.
#include "work/verifier_module.h"

extern "C" void tinwright_verify_plan(const tinwright::app::VerifyRequest& request,
                                      std::vector<tinwright::ReplayFinding>& findings) {
    findings = tinwright::verifyPlan(*request.part, *request.shop, *request.brakes, *request.plan, request.formed);
}
