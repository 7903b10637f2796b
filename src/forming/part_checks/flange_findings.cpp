// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include <fmt/format.h>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>

#include "checks/checks.h"
#include "measures/planned_room.h"
#include "measures/steps.h"
#include "rules/wording.h"

namespace tinwright::forming {

namespace {

// Shop rules for leaf brakes, from memory: shortest flange 4 t + r and 5 mm, measured outside; step of a Z the depth of
// the leaf's face + t + 1.
constexpr double kFlangeThicknesses = 4;
constexpr double kLeastFlange_mm = 5;
constexpr double kStepRoom_mm = 1;

double shallowestFace_mm(const BrakeInSetup& brake) {
    double least = brake->leaf().leaf_faces.front().reach_mm;
    for (const LeafFace& face : brake->leaf().leaf_faces) least = std::min(least, face.reach_mm);
    return least;
}

/// The step over a Z, from one face of the sheet to the same face of it: flat between the bends, both radii and a
/// thickness. That is what the leaf has before it: from the outside of the bend being made to the inside of the other.
struct Step {
    double is_mm = 0;
    double planned_mm = 0;  ///< the least with which plans make one bend after the other, in the better order
};

std::optional<Step> stepBetween(const Part& part, const Shop& shop, const BrakeInSetup& brake, BendId from, BendId to) {
    const Bend& a = part.bend(from);
    const Bend& b = part.bend(to);
    const std::optional<double> flat_mm = a.up == b.up ? std::nullopt : flatBetween_mm(part, from, to);
    if (!flat_mm) return std::nullopt;
    const double besides_mm = a.inside_radius_mm + b.inside_radius_mm + part.thickness_mm;
    const double planned_mm =
        std::min(plannedStepFlat_mm(part, a, shop, brake), plannedStepFlat_mm(part, b, shop, brake));
    return Step{*flat_mm + besides_mm, planned_mm + besides_mm};
}

// The rule leaves more room than the fold needs: both are told.
Finding nearFinding(const Part& part, BendId a, BendId b, const Step& step, double rule_mm) {
    const bool meets = step.is_mm < step.planned_mm - 1e-6;
    Finding finding = startFinding("bend.near-bend", meets ? Severity::kWarning : Severity::kNote,
                                   part.bend(a).name + "/" + part.bend(b).name, {std::min(a, b), std::max(a, b)});
    finding.figures = {{"step_mm", step.is_mm, rule_mm}, {"planned_step_mm", step.is_mm, step.planned_mm}};
    const std::string rule =
        fmt::format("{} mm, the reach of its shallowest face, the sheet and 1 mm", roundedUp(rule_mm));
    finding.words =
        meets ? fmt::format(
                    "the step of {} mm between these two bends is under {} mm: the first flange meets the "
                    "leaf, even with its shallowest face (that is where plans say it just clears it; the "
                    "shop's rule is {})",
                    millimetres(step.is_mm), roundedUp(step.planned_mm), rule)
              : fmt::format(
                    "the step of {} mm between these two bends leaves the leaf little room: the shop's rule is "
                    "{}; plans take {} mm, where the first flange just clears it",
                    millimetres(step.is_mm), rule, roundedUp(step.planned_mm));
    const double wanted_mm = std::max(rule_mm, step.planned_mm);
    finding.remedies = {
        fmt::format("a step of {} mm or more from a face of the sheet to the same face ({} outside), or a shallower "
                    "leaf face",
                    roundedUp(wanted_mm), roundedUp(wanted_mm + part.thickness_mm))};
    return finding;
}

}  // namespace

void addShortFlanges(const Part& part, const BrakeInSetup& brake, std::vector<Finding>& findings) {
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        const Bend& bend = part.bends[i];
        const double wanted_mm =
            std::max(kLeastFlange_mm, kFlangeThicknesses * part.thickness_mm + brake.inside_radius_mm());
        const Leg child = legOf(part, idAt<BendId>(i), Side::kChild);
        const Leg parent = legOf(part, idAt<BendId>(i), Side::kParent);
        const Leg& shorter = outside_mm(part, bend, parent) < outside_mm(part, bend, child) ? parent : child;
        const double flange_mm = outside_mm(part, bend, shorter);
        if (flange_mm >= wanted_mm - 1e-6) continue;
        Finding finding =
            startFinding("flange.short", Severity::kWarning, part.panel(shorter.panel).name, {idAt<BendId>(i)});
        finding.figures = {{"flange_mm", flange_mm, wanted_mm}};
        finding.words =
            fmt::format("{} is {} mm outside at bend {}, under {} mm: the leaf slips off it, and it is little to clamp",
                        finding.feature, millimetres(flange_mm), bend.name, roundedUp(wanted_mm));
        finding.remedies = {
            fmt::format("{} mm outside or more, trimmed after folding if it must be short", roundedUp(wanted_mm))};
        findings.push_back(std::move(finding));
    }
}

void addNearBends(const Part& part, const Shop& shop, const BrakeInSetup& brake, std::vector<Finding>& findings) {
    const double rule_mm = shallowestFace_mm(brake) + part.thickness_mm + kStepRoom_mm;
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        for (std::size_t j = 0; j < part.bends.size(); ++j) {
            const auto step = i == j ? std::nullopt : stepBetween(part, shop, brake, idAt<BendId>(i), idAt<BendId>(j));
            if (step && step->is_mm < std::max(rule_mm, step->planned_mm) - 1e-6)
                findings.push_back(nearFinding(part, idAt<BendId>(i), idAt<BendId>(j), *step, rule_mm));
        }
    }
}

}  // namespace tinwright::forming
