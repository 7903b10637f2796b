// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include <tinwright/part/allowance.h>

#include "checks.h"
#include "leg.h"
#include "wording.h"

namespace tinwright::forming {

namespace {

// Shop rules for leaf brakes, from memory: shortest flange 4 t + r and 5 mm, measured outside; step of a Z the depth of the leaf's face + t + 1.
constexpr double kFlangeThicknesses = 4;
constexpr double kLeastFlange_mm = 5;
constexpr double kStepRoom_mm = 1;

double outside_mm(const Part& part, const Bend& bend, const Leg& leg) {
    return leg.depth_mm - leg.strip_mm + setback_mm(Face::kOutside, bend.angle, bend.inside_radius_mm, part.thickness_mm);
}

bool overlap(const Leg& a, const Bend& b) {
    const Vec2 from = b.origin + b.spans.front().from_mm * b.along;
    const Vec2 to = b.origin + b.spans.back().to_mm * b.along;
    const double first = a.fromBlank(from).x();
    const double second = a.fromBlank(to).x();
    return std::min(first, second) < a.to_mm && std::max(first, second) > a.from_mm;
}

double shallowestFace_mm(const Brake& brake) {
    double least = brake.leaf_faces.front().reach_mm;
    for (const LeafFace& face : brake.leaf_faces) least = std::min(least, face.reach_mm);
    return least;
}

/// The panel of a Z between two bends, seen from the first; each pair once.
std::optional<Side> stepSide(const Bend& a, const Bend& b, bool in_order) {
    if (a.child == b.parent) return Side::kChild;
    if (a.parent == b.parent && in_order) return Side::kParent;
    return std::nullopt;
}

/// The step over a Z, from one face of the sheet to the same face of it: flat between the bends, both radii and a thickness. That is what the
/// leaf has before it: from the outside of the bend being made to the inside of the other.
std::optional<double> step_mm(const Part& part, BendId from, BendId to) {
    const Bend& a = part.bend(from);
    const Bend& b = part.bend(to);
    const std::optional<Side> side = stepSide(a, b, from < to);
    if (!side || a.up == b.up || std::abs(a.along.x() * b.along.y() - a.along.y() * b.along.x()) > 1e-6) return std::nullopt;
    const Leg leg = legOf(part, from, *side);
    if (leg.fromBlank(b.origin).y() <= leg.strip_mm || !overlap(leg, b)) return std::nullopt;
    const double flat_mm = leg.fromBlank(b.origin).y() - leg.strip_mm - 0.5 * b.allowance_mm;
    return flat_mm + a.inside_radius_mm + b.inside_radius_mm + part.thickness_mm;
}

}  // namespace

void addShortFlanges(const Part& part, const Brake& brake, std::vector<Finding>& findings) {
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        const Bend& bend = part.bends[i];
        const double wanted_mm = std::max(kLeastFlange_mm, kFlangeThicknesses * part.thickness_mm + brake.nose_radius_mm);
        const Leg child = legOf(part, idAt<BendId>(i), Side::kChild);
        const Leg parent = legOf(part, idAt<BendId>(i), Side::kParent);
        const Leg& shorter = outside_mm(part, bend, parent) < outside_mm(part, bend, child) ? parent : child;
        const double flange_mm = outside_mm(part, bend, shorter);
        if (flange_mm >= wanted_mm - 1e-6) continue;
        Finding finding = startFinding("flange.short", Gravity::kWarning, part.panel(shorter.panel).name, {idAt<BendId>(i)});
    finding.figures = {{"flange_mm", flange_mm, wanted_mm}};
        finding.words = fmt::format("{} is {} mm outside at bend {}, under {} mm: the leaf slips off it, and it is little to clamp", finding.feature, millimetres(flange_mm), bend.name,
                                    roundedUp(wanted_mm));
        finding.remedies = {fmt::format("{} mm outside or more, trimmed after folding if it must be short", roundedUp(wanted_mm))};
        findings.push_back(std::move(finding));
    }
}

void addNearBends(const Part& part, const Brake& brake, std::vector<Finding>& findings) {
    const double wanted_mm = shallowestFace_mm(brake) + part.thickness_mm + kStepRoom_mm;
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        for (std::size_t j = 0; j < part.bends.size(); ++j) {
            const auto step = i == j ? std::nullopt : step_mm(part, idAt<BendId>(i), idAt<BendId>(j));
            if (!step || *step >= wanted_mm - 1e-6) continue;
            Finding finding = startFinding("bend.near-bend", Gravity::kWarning, part.bends[i].name + "/" + part.bends[j].name, {idAt<BendId>(std::min(i, j)), idAt<BendId>(std::max(i, j))});
    finding.figures = {{"step_mm", *step, wanted_mm}};
            finding.words = fmt::format("the step of {} mm between these two bends is under {} mm: the first flange meets the leaf, even with its shallowest face", millimetres(*step), roundedUp(wanted_mm));
            finding.remedies = {fmt::format("a step of {} mm or more from a face of the sheet to the same face ({} outside), or a shallower leaf face", roundedUp(wanted_mm), roundedUp(wanted_mm + part.thickness_mm))};
            findings.push_back(std::move(finding));
        }
    }
}

}  // namespace tinwright::forming
