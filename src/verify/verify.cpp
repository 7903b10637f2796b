// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/verify/verify.h>

#include <fmt/format.h>

#include <algorithm>
#include <limits>

#include <tinwright/base/contract.h>

#include "clearance.h"
#include "allowed.h"
#include "paths.h"
#include "shapes.h"
#include "stroke.h"

namespace tinwright {

namespace {

using replay::Scene;
using replay::Sheet;

// One fold, on the sheet as it stands. False when the replay cannot go on after it.
bool replayFold(const Shop& shop, const Brake& brake, const FoldStep& step, const Sheet& sheet,
                const std::vector<replay::Shape>& panels, Scene scene, std::vector<std::string>& wrong) {
    if (!replay::setUp(sheet, shop, brake, step, scene.setting, wrong)) return false;
    if (!replay::checkBars(brake, step, wrong)) return false;
    scene.sheet = &sheet;
    scene.brake = &brake;
    scene.step = &step;
    scene.part = replay::partBodies(sheet, panels, step, scene.setting);
    scene.machine = replay::machineBodies(brake, step, scene.setting);
    replay::checkLimits(scene, shop.limits, wrong);
    replay::checkStroke(scene, wrong);
    replay::checkClearance(scene, wrong);
    replay::checkWays(scene, wrong);
    return true;
}

void checkWhole(const Part& part, const std::vector<const Brake*>& brakes, const Plan& plan, const Limits& limits, const Sheet& sheet, std::vector<ReplayFinding>& findings) {
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        if (!sheet.formed(idAt<BendId>(i))) findings.push_back({0, fmt::format("bend {} is never folded", part.bends[i].name)});
    }
    double worst = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < plan.folds.size(); ++i) {
        worst = std::min(worst, plan.folds[i].clearance_mm);
        if (i > 0 && brakes[i] == brakes[i - 1] && plan.folds[i].flip != (plan.folds[i].drawn_face_up != plan.folds[i - 1].drawn_face_up)) {
            findings.push_back({static_cast<int>(i) + 1, "the flip told is not the one that the faces up give"});
        }
    }
    if (plan.worst_clearance_mm > worst + 1e-3) findings.push_back({0, "the plan's worst clearance is more than that of a fold"});
    if (!plan.tight && worst + 1e-3 < limits.clearance_mm) findings.push_back({0, "a fold is tight, the plan does not say so"});
}

// Every bend takes the radius of the brake that makes it; what was folded before takes that of the first.
std::vector<double> radiiOf(const Part& part, const Plan& plan, const std::vector<const Brake*>& brakes) {
    std::vector<double> radii(part.bends.size(), brakes.empty() ? 0.0 : brakes.front()->nose_radius_mm);
    for (std::size_t i = 0; i < plan.folds.size(); ++i) {
        for (const BendId bend : plan.folds[i].bends) {
            if (bend.index() < radii.size()) radii[bend.index()] = brakes[i]->nose_radius_mm;
        }
    }
    return radii;
}

}  // namespace

std::vector<ReplayFinding> verifyPlan(const Part& part, const Shop& shop, const Brake& brake, const Plan& plan, BendMask formed, const VerifyOptions& options) {
    return verifyPlan(part, shop, std::vector<const Brake*>(std::max<std::size_t>(plan.folds.size(), 1), &brake), plan, formed, options);
}

std::vector<ReplayFinding> verifyPlan(const Part& part, const Shop& shop, const std::vector<const Brake*>& brakes, const Plan& plan,
                                      BendMask formed, const VerifyOptions& options) {
    TINWRIGHT_REQUIRE(brakes.size() >= plan.folds.size(), "a brake for each fold");
    std::vector<ReplayFinding> findings;
    const std::vector<double> radii = radiiOf(part, plan, brakes);
    Sheet sheet(part, radii);
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        if (contains(formed, idAt<BendId>(i))) sheet.form(idAt<BendId>(i), part.bends[i].angle);
    }
    const std::vector<replay::Shape> panels = replay::panelShapes(part);
    const replay::Finished finished(part, radii, panels, shop.limits.clearance_mm);
    Scene scene;
    scene.finished = &finished;
    scene.options = options;
    int number = 0;
    for (const FoldStep& step : plan.folds) {
        ++number;
        std::vector<std::string> wrong;
        const bool goes_on = replayFold(shop, *brakes[static_cast<std::size_t>(number - 1)], step, sheet, panels, scene, wrong);
        for (std::string& words : wrong) findings.push_back({number, std::move(words)});
        if (!goes_on) {
            findings.push_back({number, "the replay ends here"});
            return findings;
        }
        for (const BendId bend : step.bends) sheet.form(bend, part.bend(bend).angle);
    }
    checkWhole(part, brakes, plan, shop.limits, sheet, findings);
    return findings;
}

}  // namespace tinwright
