// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/verify/replay/verify.h>

#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <variant>

#include <tinwright/base/contract.h>
#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/brake/plan/plan_time.h>

#include "closing/closing.h"
#include "solids/shapes.h"
#include "strokes/allowed.h"
#include "strokes/clearance.h"
#include "strokes/paths.h"
#include "strokes/standing.h"
#include "strokes/stroke.h"

namespace tinwright {

namespace {

using replay::Scene;
using replay::Sheet;
using replay::Standing;

// One fold, on the sheet as it stands. False when the replay cannot go on after it.
bool replayFold(const Shop& shop, const BrakeInSetup& brake, const FoldStep& step, const Standing& standing,
                Scene& scene, std::vector<std::string>& wrong) {
    if (!replay::setUp(standing.sheet(), shop, brake, step, scene.setting, wrong)) return false;
    if (!replay::checkBars(brake, step, *scene.setting.machine, wrong)) return false;
    scene.sheet = &standing.sheet();
    scene.on_brake = &standing.onBrake();
    scene.brake = brake;
    scene.step = &step;
    scene.part = replay::partBodies(standing.sheet(), standing.panels(), step, scene.setting);
    scene.machine = scene.setting.machine->bodies();
    replay::checkLimits(scene, shop.limits, wrong);
    replay::checkStroke(scene, wrong);
    replay::checkClearance(scene, wrong);
    replay::checkWays(scene, wrong);
    return true;
}

// Whether a way is as plain as it is told: raised tools rise all at once, loose ones and the part go straight up.
bool isLoose(const LeafBrake& leaf) { return leaf.clamp == ClampKind::kLooseBars; }
bool isLoose(const PressBrake&) { return false; }

bool goesPlainly(const BrakeInSetup& brake, const std::vector<ExitMove>& way) {
    const bool loose = std::visit([](const auto& kind) { return isLoose(kind); }, brake->kind);
    return std::all_of(way.begin(), way.end(), [&](const ExitMove& move) {
        return loose ? move.kind == ExitMove::Kind::kPieceUp || move.kind == ExitMove::Kind::kPartUp
                     : move.kind == ExitMove::Kind::kPartForward;
    });
}

// A plan of no time tells none.
void checkTime(const Shop& shop, const std::vector<BrakeInSetup>& brakes, const Plan& plan,
               std::vector<ReplayFinding>& findings) {
    if (plan.cost_ms == 0) return;
    const long long sum_ms = planTime_ms(shop.times, foldActions(brakes, plan.folds));
    if (sum_ms != plan.cost_ms)
        findings.push_back(
            {0, fmt::format("the plan is told to take {} ms, its folds come to {} ms", plan.cost_ms, sum_ms)});
    for (std::size_t i = 0; i < plan.folds.size(); ++i) {
        const FoldStep& fold = plan.folds[i];
        if (fold.plain_ways && !(goesPlainly(brakes[i], fold.way_in) && goesPlainly(brakes[i], fold.way_out)))
            findings.push_back({static_cast<int>(i) + 1, "a way is told to be plain that is not"});
    }
}

void checkWhole(const Part& part, const std::vector<BrakeInSetup>& brakes, const Plan& plan, const Limits& limits,
                const Sheet& sheet, std::vector<ReplayFinding>& findings) {
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        if (!sheet.formed(idAt<BendId>(i)))
            findings.push_back({0, fmt::format("bend {} is never folded", part.bends[i].name)});
    }
    double worst = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < plan.folds.size(); ++i) {
        worst = std::min(worst, plan.folds[i].clearance_mm);
        if (i > 0 && brakes[i].isSameAs(brakes[i - 1]) &&
            plan.folds[i].flip != (plan.folds[i].drawn_face_up != plan.folds[i - 1].drawn_face_up)) {
            findings.push_back({static_cast<int>(i) + 1, "the flip told is not the one that the faces up give"});
        }
    }
    if (plan.worst_clearance_mm > worst + 1e-3)
        findings.push_back({0, "the plan's worst clearance is more than that of a fold"});
    if (!plan.tight && worst + 1e-3 < limits.clearance_mm)
        findings.push_back({0, "a fold is tight, the plan does not say so"});
}

// Every bend takes the radius of the brake that makes it; what was folded before takes that of the first.
std::vector<double> radiiOf(const Part& part, const Plan& plan, const std::vector<BrakeInSetup>& brakes) {
    std::vector<double> radii(part.bends.size(), brakes.empty() ? 0.0 : brakes.front().inside_radius_mm());
    for (std::size_t i = 0; i < plan.folds.size(); ++i) {
        for (const BendId bend : bendsIn(plan.folds[i].stroke.bends)) {
            if (bend.index() < radii.size()) radii[bend.index()] = brakes[i].inside_radius_mm();
        }
    }
    return radii;
}

// A plan as it is replayed, fold after fold.
class Replay {
public:
    Replay(const Part& part, const Shop& shop, const std::vector<BrakeInSetup>& brakes, const Plan& plan,
           BendMask formed, const VerifyOptions& options)
        : part_(part),
          shop_(shop),
          brakes_(brakes),
          plan_(plan),
          radii_(radiiOf(part, plan, brakes)),
          formed_(bendsOf(part, formed)),
          finished_(part, replay::closedRadii(part, radii_), replay::panelShapes(part), shop.limits.clearance_mm),
          options_(options) {}

    std::vector<ReplayFinding> all() {
        Standing standing = standingFor(brakes_.front());
        for (std::size_t i = 0; i < plan_.folds.size(); ++i) {
            // Carried to another brake, hems that are still to come have other first folds.
            if (i > 0 && !brakes_[i].isSameAs(brakes_[i - 1]) && hasHems(part_)) standing = standingFor(brakes_[i]);
            std::vector<std::string> wrong;
            const bool goes_on = fold(brakes_[i], plan_.folds[i], standing, wrong);
            const int number = static_cast<int>(i) + 1;
            for (std::string& words : wrong) findings_.push_back({number, std::move(words)});
            if (!goes_on) {
                findings_.push_back({number, "the replay ends here"});
                return findings_;
            }
        }
        checkWhole(part_, brakes_, plan_, shop_.limits, standing.sheet(), findings_);
        checkTime(shop_, brakes_, plan_, findings_);
        return findings_;
    }

private:
    static std::vector<BendId> bendsOf(const Part& part, BendMask formed) {
        std::vector<BendId> bends;
        for (std::size_t i = 0; i < part.bends.size(); ++i) {
            if (contains(formed, idAt<BendId>(i))) bends.push_back(idAt<BendId>(i));
        }
        return bends;
    }

    [[nodiscard]] Standing standingFor(const BrakeInSetup& brake) const {
        return {part_, shop_, brake, radii_, formed_};
    }

    // The stroke, and what hems it folds are closed.
    bool fold(const BrakeInSetup& brake, const FoldStep& step, Standing& standing, std::vector<std::string>& wrong) {
        Scene scene;
        scene.finished = &finished_;
        scene.options = options_;
        if (!replayFold(shop_, brake, step, standing, scene, wrong)) return false;
        const Sheet before = standing.sheet();
        for (const BendId bend : bendsIn(step.stroke.bends)) {
            standing.form(bend);
            formed_.push_back(bend);
        }
        scene.sheet = &before;
        close(brake, scene, standing, wrong);
        return true;
    }

    void close(const BrakeInSetup& brake, const Scene& scene, Standing& standing,
               std::vector<std::string>& wrong) const {
        replay::HemStep hems{&part_, &standing, nullptr, {}};
        for (const BendId bend : bendsIn(scene.step->stroke.bends)) {
            if (part_.bend(bend).hem) hems.bends.push_back(bend);
        }
        if (hems.bends.empty()) return replay::checkClosing(hems, shop_, scene, wrong);
        Standing closed = standingFor(brake);
        hems.closed = &closed;
        replay::checkClosing(hems, shop_, scene, wrong);
        standing = std::move(closed);
    }

    const Part& part_;
    const Shop& shop_;
    const std::vector<BrakeInSetup>& brakes_;
    const Plan& plan_;
    std::vector<double> radii_;
    std::vector<BendId> formed_;  ///< in the order in which they were
    replay::Finished finished_;
    VerifyOptions options_;
    std::vector<ReplayFinding> findings_;
};

}  // namespace

std::vector<ReplayFinding> verifyPlan(const Part& part, const Shop& shop, const BrakeInSetup& brake, const Plan& plan,
                                      BendMask formed, const VerifyOptions& options) {
    return verifyPlan(part, shop, std::vector<BrakeInSetup>(std::max<std::size_t>(plan.folds.size(), 1), brake), plan,
                      formed, options);
}

std::vector<ReplayFinding> verifyPlan(const Part& part, const Shop& shop, const std::vector<BrakeInSetup>& brakes,
                                      const Plan& plan, BendMask formed, const VerifyOptions& options) {
    TINWRIGHT_REQUIRE(!brakes.empty() && brakes.size() >= plan.folds.size(), "a brake for each fold");
    return Replay(part, shop, brakes, plan, formed, options).all();
}

}  // namespace tinwright
