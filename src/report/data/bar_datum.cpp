// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/part/model/bend_frame.h>
#include <tinwright/report/data/bar_datum.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include <tinwright/base/contract.h>
#include <tinwright/geometry/polygons.h>
#include <tinwright/part/model/pose.h>

namespace tinwright {
namespace {

constexpr double kDatumParallel = 1e-6;  // sine of the angle under which an edge counts as square to the bend
constexpr double kSamePlace_mm = 1e-6;
constexpr double kFlat_mm = 1e-3;
constexpr double kLeastEdge_mm = 5.0;  // shorter than that, nobody lays a rule against it

/// The machine's x axis at a fold, in the frame of the base panel (see src/fold/NOTES.md, "Frames").
struct FoldAxis {
    Vec3 origin = Vec3::Zero();
    Vec3 x = Vec3::UnitX();
    double left_mm = 0;  ///< least x of the fold's strips, from `origin`

    [[nodiscard]] double at(const Vec3& point) const { return (point - origin).dot(x) - left_mm; }
};

bool isHeld(const FoldStep& step, PanelId panel) {
    return std::find(step.held.begin(), step.held.end(), panel) != step.held.end();
}

double leastStrip(const Part& part, const std::vector<Rigid>& poses, const FoldStep& step, const FoldAxis& axis) {
    double least = std::numeric_limits<double>::infinity();
    for (const BendId id : bendsIn(step.stroke.bends)) {
        const Bend& bend = part.bend(id);
        const PanelId side = isHeld(step, bend.parent) ? bend.parent : bend.child;
        for (const StripSpan& span : bend.spans) {
            for (const double along_mm : {span.from_mm, span.to_mm}) {
                const Vec3 point = poses[side.index()] * lifted(bend.origin + along_mm * bend.along);
                least = std::min(least, (point - axis.origin).dot(axis.x));
            }
        }
    }
    return std::isfinite(least) ? least : 0.0;
}

FoldAxis foldAxis(const Part& part, const std::vector<Rigid>& poses, const FoldStep& step) {
    const Bend& bend = part.bend(step.stroke.first());
    const Rigid& base_from_held = poses[heldPanel(bend, step.stroke.hold).index()];
    FoldAxis axis;
    axis.origin = base_from_held * lifted(bend.origin);
    axis.x = base_from_held.linear() * foldAxes(bend, step.stroke.hold).row(0).transpose();
    axis.left_mm = leastStrip(part, poses, step, axis);
    return axis;
}

struct Candidate {
    bool far = true;  ///< on a panel that the fold's bends do not join
    BarDatum datum;
};

/// Near panels first, then nearer to the left end of the bend, then further left, then by name, so that the choice
/// never wavers.
bool isBetter(const Candidate& a, const Candidate& b) {
    if (a.far != b.far) return b.far;
    const double gain_mm = std::abs(b.datum.x_mm) - std::abs(a.datum.x_mm);
    if (std::abs(gain_mm) > kSamePlace_mm) return gain_mm > 0;
    if (std::abs(a.datum.x_mm - b.datum.x_mm) > kSamePlace_mm) return a.datum.x_mm < b.datum.x_mm;
    return a.datum.edge < b.datum.edge;
}

bool isJoined(const Part& part, const FoldStep& step, PanelId panel) {
    const std::vector<BendId> bends = step.bends();
    return std::any_of(bends.begin(), bends.end(),
                       [&](BendId bend) { return part.bend(bend).parent == panel || part.bend(bend).child == panel; });
}

bool liesFlatWith(const Rigid& a, const Rigid& b) {
    const Rigid change = a.inverse() * b;
    return change.linear()(2, 2) > 1.0 - 1e-9 && std::abs(change.translation().z()) < kFlat_mm;
}

}  // namespace

std::optional<BarDatum> barDatum(const Part& part, BendMask formed_before, double inside_radius_mm,
                                 const FoldStep& step) {
    TINWRIGHT_REQUIRE(step.stroke.bends != 0, "a fold forms at least one bend");
    const std::vector<Rigid> poses = baseFromPanels(part, formed_before, inside_radius_mm);
    const FoldAxis axis = foldAxis(part, poses, step);
    const Rigid& held = poses[heldPanel(part.bend(step.stroke.first()), step.stroke.hold).index()];
    std::optional<Candidate> best;
    for (const NamedEdge& edge : part.edges) {
        const Rigid& pose = poses[edge.panel.index()];
        const Vec3 from = pose * lifted(edge.from);
        const Vec3 along = pose * lifted(edge.to) - from;
        if (along.norm() < kLeastEdge_mm || !liesFlatWith(held, pose)) continue;
        if (std::abs(along.dot(axis.x)) > kDatumParallel * along.norm()) continue;
        const Candidate candidate{!isJoined(part, step, edge.panel), {edge.name, axis.at(from)}};
        if (!best || isBetter(candidate, *best)) best = candidate;
    }
    return best ? std::optional(best->datum) : std::nullopt;
}

}  // namespace tinwright
