// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/verify/verify.h>

#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <memory>

#include <tinwright/base/contract.h>
#include <tinwright/brake/hemming.h>

#include "clearance.h"
#include "allowed.h"
#include "closing.h"
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
    replay::checkClosing(scene, shop, panels, wrong);
    return true;
}

void checkWhole(const Part& part, const std::vector<const Brake*>& brakes, const Plan& plan, const Limits& limits, BendMask formed, std::vector<ReplayFinding>& findings) {
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        if (!contains(formed, idAt<BendId>(i))) findings.push_back({0, fmt::format("bend {} is never folded", part.bends[i].name)});
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

// The sheet as one brake folds it.
struct OnBrake {
    OnBrake(const Part& part, const Shop& shop, const Brake& on, const std::vector<double>& radii, BendMask formed)
        : brake(&on), folded(withFirstFolds(part, shop, on)), sheet(folded, radii), panels(replay::panelShapes(folded)), finished(folded, radii, panels, shop.limits.clearance_mm) {
        for (std::size_t i = 0; i < folded.bends.size(); ++i) {
            if (contains(formed, idAt<BendId>(i))) sheet.form(idAt<BendId>(i));
        }
    }
    const Brake* brake;
    const Part folded;
    Sheet sheet;
    std::vector<replay::Shape> panels;
    replay::Finished finished;
};

}  // namespace

std::vector<ReplayFinding> verifyPlan(const Part& part, const Shop& shop, const Brake& brake, const Plan& plan, BendMask formed, const VerifyOptions& options) {
    return verifyPlan(part, shop, std::vector<const Brake*>(std::max<std::size_t>(plan.folds.size(), 1), &brake), plan, formed, options);
}

std::vector<ReplayFinding> verifyPlan(const Part& part, const Shop& shop, const std::vector<const Brake*>& brakes, const Plan& plan,
                                      BendMask formed, const VerifyOptions& options) {
    TINWRIGHT_REQUIRE(brakes.size() >= plan.folds.size(), "a brake for each fold");
    std::vector<ReplayFinding> findings;
    const std::vector<double> radii = radiiOf(part, plan, brakes);
    std::unique_ptr<OnBrake> now;
    int number = 0;
    for (const FoldStep& step : plan.folds) {
        const Brake& brake = *brakes[static_cast<std::size_t>(number)];
        ++number;
        // How wide the strip of a hem is in its first fold hangs on the brake; what is folded stays as it is.
        if (!now || (hasHems(part) && now->brake != &brake)) now = std::make_unique<OnBrake>(part, shop, brake, radii, formed);
        std::vector<std::string> wrong;
        Scene scene;
        scene.finished = &now->finished;
        scene.options = options;
        const bool goes_on = replayFold(shop, brake, step, now->sheet, now->panels, scene, wrong);
        for (std::string& words : wrong) findings.push_back({number, std::move(words)});
        if (!goes_on) {
            findings.push_back({number, "the replay ends here"});
            return findings;
        }
        for (const BendId bend : step.bends) now->sheet.form(bend);
        formed |= maskOf(step.bends);
    }
    checkWhole(part, brakes, plan, shop.limits, formed, findings);
    return findings;
}

}  // namespace tinwright
