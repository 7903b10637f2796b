// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include <fmt/format.h>

#include <tinwright/brake/machines/brake_in_setup.h>

#include "checks/checks.h"
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
std::optional<double> step_mm(const Part& part, BendId from, BendId to) {
    const Bend& a = part.bend(from);
    const Bend& b = part.bend(to);
    const std::optional<double> flat_mm = a.up == b.up ? std::nullopt : flatBetween_mm(part, from, to);
    if (!flat_mm) return std::nullopt;
    return *flat_mm + a.inside_radius_mm + b.inside_radius_mm + part.thickness_mm;
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

void addNearBends(const Part& part, const BrakeInSetup& brake, std::vector<Finding>& findings) {
    const double wanted_mm = shallowestFace_mm(brake) + part.thickness_mm + kStepRoom_mm;
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        for (std::size_t j = 0; j < part.bends.size(); ++j) {
            const auto step = i == j ? std::nullopt : step_mm(part, idAt<BendId>(i), idAt<BendId>(j));
            if (!step || *step >= wanted_mm - 1e-6) continue;
            Finding finding =
                startFinding("bend.near-bend", Severity::kWarning, part.bends[i].name + "/" + part.bends[j].name,
                             {idAt<BendId>(std::min(i, j)), idAt<BendId>(std::max(i, j))});
            finding.figures = {{"step_mm", *step, wanted_mm}};
            finding.words = fmt::format(
                "the step of {} mm between these two bends is under {} mm: the first flange meets the leaf, even with "
                "its shallowest face",
                millimetres(*step), roundedUp(wanted_mm));
            finding.remedies = {
                fmt::format("a step of {} mm or more from a face of the sheet to the same face ({} outside), or a "
                            "shallower leaf face",
                            roundedUp(wanted_mm), roundedUp(wanted_mm + part.thickness_mm))};
            findings.push_back(std::move(finding));
        }
    }
}

}  // namespace tinwright::forming
