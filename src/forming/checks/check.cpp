// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/forming/checks/check.h>

#include <algorithm>
#include <tuple>
#include <variant>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/hemming.h>
#include <tinwright/brake/machines/shop.h>

#include "checks/checks.h"

namespace tinwright {

namespace {

using namespace forming;

/// What the checks of `add` find, sorted.
template <class Add>
std::vector<Finding> collected(Add add) {
    std::vector<Finding> findings;
    add(findings);
    sortFindings(findings);
    return findings;
}

/// What is asked of a brake: all, all without cures of webs, or no more than what folds do not tell again.
enum class Asked { kAll, kWithoutCures, kButForFolds };
Cures curesOf(Asked asked) { return asked == Asked::kAll ? Cures::kFind : Cures::kLeave; }

void addOnKind(const LeafBrake&, const Part& part, const Material* material, const Shop& shop,
               const BrakeInSetup& brake, Asked asked, std::vector<Finding>& all) {
    addRating(part, material, brake, all);
    addLeafAngles(part, material, shop, brake, all);
    addShortFlanges(part, brake, all);
    addNearBends(part, shop, brake, all);
    addNoseRadius(part, material, brake, all);
    addNoseDrawnRadius(part, brake, all);
    addGapUnderBars(part, material, brake, all);
    if (asked != Asked::kButForFolds) addWebs(part, material, leafOf(shop, brake), curesOf(asked), all);
}

void addOnKind(const PressBrake&, const Part& part, const Material* material, const Shop& shop,
               const BrakeInSetup& brake, Asked asked, std::vector<Finding>& all) {
    addPressForce(part, material, brake, all);
    addVeeAngles(part, material, shop, brake, all);
    addVeeRadius(part, material, brake, all);
    addVeeDrawnRadius(part, brake, all);
    addVeeOpening(part, brake, all);
    addSharpPunch(part, brake, all);
    addVeeFlanges(part, shop, brake, all);
    addVeeNearBends(part, shop, brake, all);
    addVeeHoles(part, brake, all);
    addVeeWebs(part, material, brake, curesOf(asked), all);
}

void addOfFold(const LeafBrake&, const FoldAsked& asked, std::vector<Finding>& all) {
    addHolding(asked, all);
    addSwungWebs(asked, all);
}

void addOfFold(const PressBrake&, const FoldAsked& asked, std::vector<Finding>& all) {
    addStrokeForce(asked, all);
    addInHands(asked, all);
}

std::vector<Finding> findingsOnBrake(const PartOnBrake& part, const Material* material, const Shop& shop,
                                     const BrakeInSetup& brake, Asked asked) {
    const Part& folded = part.part();
    std::vector<Finding> findings = collected([&](std::vector<Finding>& all) {
        addHemsOnBrake(part, shop, brake, all);
        std::visit([&](const auto& kind) { addOnKind(kind, folded, material, shop, brake, asked, all); }, brake->kind);
    });
    for (Finding& finding : findings) finding.brake = brake->name;
    return findings;
}

}  // namespace

std::vector<Finding> partFindings(const Part& part, const Material* material) {
    return collected([&](std::vector<Finding>& findings) {
        addUnknownMaterial(part, material, findings);
        addHoleDistances(part, findings);
        addBendEnds(part, findings);
        addCornerReliefs(part, material, findings);
        addLeastRadii(part, material, findings);
        addSpringback(part, material, findings);
        addHemReturns(part, findings);
    });
}

std::vector<Finding> brakeFindings(const PartOnBrake& part, const Material* material, const Shop& shop,
                                   const BrakeInSetup& brake, Cures cures) {
    const Asked asked = cures == Cures::kFind ? Asked::kAll : Asked::kWithoutCures;
    return findingsOnBrake(part, material, shop, brake, asked);
}

bool isToldByFold(const Finding& finding, const BrakeInSetup& brake) {
    if (std::holds_alternative<LeafBrake>(brake->kind)) return finding.id.starts_with("web.");
    return finding.severity == Severity::kOverload && (finding.id == "force.press" || finding.id == "force.tool");
}

Spoils spoiltAnyway(const Part& drawn, const Material* material, const Shop& shop, const BrakeInSetup& brake,
                    BendMask formed) {
    std::vector<Finding> findings = partFindings(drawn, material);
    for (Finding& finding :
         findingsOnBrake(partOnBrake(drawn, shop, brake), material, shop, brake, Asked::kButForFolds)) {
        if (!isToldByFold(finding, brake)) findings.push_back(std::move(finding));
    }
    Spoils spoils;
    for (const Finding& finding : findings) {
        const bool is_done = !finding.bends.empty() && (maskOf(finding.bends) & ~formed) == 0;
        if (!is_done) spoils += spoilsOf(finding);
    }
    return spoils;
}

std::vector<Finding> foldFindings(const PartOnBrake& part, const Material* material, const Shop& shop,
                                  const BrakeInSetup& brake, const FoldStep& step) {
    return foldFindings(part, material, shop, brake, step, allFormed(part.part()) & ~step.stroke.bends);
}

std::vector<Finding> foldFindings(const PartOnBrake& part, const Material* material, const Shop& shop,
                                  const BrakeInSetup& brake, const FoldStep& step, BendMask formed, Cures cures) {
    std::vector<Finding> findings = collected([&](std::vector<Finding>& all) {
        const FoldAsked asked{part.part(), material, shop, brake, step, formed, cures};
        std::visit([&](const auto& kind) { addOfFold(kind, asked, all); }, brake->kind);
    });
    for (Finding& finding : findings) finding.brake = brake->name;
    return findings;
}

std::vector<Finding> webFindings(const Part& part, const Material* material, double leaf_reach_mm) {
    return collected([&](std::vector<Finding>& findings) {
        addWebs(part, material, {leaf_reach_mm + part.thickness_mm, Limits{}.clamped_land_mm}, Cures::kFind, findings);
    });
}

void sortFindings(std::vector<Finding>& findings) {
    std::stable_sort(findings.begin(), findings.end(), [](const Finding& a, const Finding& b) {
        return std::tie(b.severity, a.id, a.feature) < std::tie(a.severity, b.id, b.feature);
    });
}

}  // namespace tinwright
