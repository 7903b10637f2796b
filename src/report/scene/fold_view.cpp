// SPDX-License-Identifier: GPL-3.0-or-later
#include "scene/fold_view.h"

#include <algorithm>
#include <cmath>

#include "scene/machine_bodies.h"

namespace tinwright::report {
namespace {

constexpr double kMachineEnds_mm = 1e4;  // stands for a machine's length where the part's place on it is not known
constexpr double kBearsOut_mm = 1.0;     // what is drawn nearer than that under the plan's proven bound contradicts it
constexpr int kSwingSteps = 12;
constexpr double kContactReach_mm = 8.0;    // of what meets in a moment
constexpr double kEnd_mm = 1.0;             // of a bend: a cut is taken inside of it
constexpr double kMostOfIt = 0.7;           // of what the middle of the bend shows
constexpr double kInAWall = 3.0;            // times that is a cut along a wall
constexpr double kOffVertices_mm = 0.0137;  // a cut beside the corners of the sheet is not ambiguous

Eigen::AlignedBox3d boxOf(const Slab& slab) {
    Eigen::AlignedBox3d box;
    for (const Vec3& point : slab.lower) box.extend(point);
    for (const Vec3& point : slab.upper) box.extend(point);
    return box;
}

/// x where as many bends of the stroke as possible are cut: the middle of the longest strip.
double middleOfBend(const FoldScene& scene) {
    const std::vector<PartBody> bodies = scene.at(Angle());
    double middle = 0;
    double longest = -1;
    for (const PartBody& body : bodies) {
        if (!body.is_new) continue;
        for (const Slab& slab : body.slabs) {
            const double from = std::min(slab.lower.front().x(), slab.upper.front().x());
            const double to = std::max(slab.lower.front().x(), slab.upper.front().x());
            if (to - from > longest) {
                longest = to - from;
                middle = 0.5 * (from + to);
            }
        }
    }
    return middle + kOffVertices_mm;
}

/// How much of one side of the folded part a cut there shows.
double sheetCut_mm2(const FoldView& view, bool moving, double x_mm) {
    double area = 0;
    for (const Polygon& piece : cutAcross(view.scene.after(), moving, x_mm)) area += signedArea_mm2(piece);
    return area;
}

/// The section goes to a place of interest unless little of the moving side would be seen there, or it would run along
/// inside a wall and show nothing but that.
void cutThere(FoldView& view, double x_mm) {
    const double middle = view.cut_x_mm;
    const double moving = sheetCut_mm2(view, true, x_mm);
    const double moving_usual = sheetCut_mm2(view, true, middle);
    const bool shows_it = moving > kMostOfIt * moving_usual;
    const bool in_a_wall = moving > kInAWall * moving_usual ||
                           sheetCut_mm2(view, false, x_mm) > kInAWall * sheetCut_mm2(view, false, middle);
    if (shows_it && !in_a_wall) view.cut_x_mm = x_mm;
}

/// The plan's figure is a proven lower bound, and its angle one at which no more could be proven; what is marked is
/// where the two come nearest as they are drawn.
void findNearest(FoldView& view) {
    const double set_deg = view.scene.fold().set_angle.deg();
    for (int step = 0; step <= kSwingSteps; ++step) {
        const Angle angle = Angle::degrees(set_deg * step / kSwingSteps);
        const std::vector<PartBody> bodies = view.scene.at(angle);
        const std::optional<NearestPoints> near = nearestPoints(slabsOf(view, bodies, view.tight_between[0], angle),
                                                                slabsOf(view, bodies, view.tight_between[1], angle));
        if (!near || (view.tight && near->gap_mm >= view.tight->gap_mm)) continue;
        view.tight = near;
        view.tight_at = angle;
    }
    if (view.tight && view.tight->gap_mm < view.tight_mm - kBearsOut_mm) view.tight.reset();
}

/// A cut along the end of a body would show it or not by chance: it is taken just inside both.
void findTightest(FoldView& view) {
    view.cut_x_mm = middleOfBend(view.scene);
    if (!view.tight_between[0].known() || !std::isfinite(view.tight_mm)) return;
    findNearest(view);
    if (!view.tight) return;
    const double there = 0.5 * (view.tight->a.x() + view.tight->b.x());
    cutThere(view, std::clamp(there, kEnd_mm, std::max(kEnd_mm, view.scene.length_mm() - kEnd_mm)) + kOffVertices_mm);
}

/// Where two things that overlap do so: the middle of what the boxes round a pair of their pieces share.
std::optional<NearestPoints> sharedPlace(const std::vector<Slab>& a, const std::vector<Slab>& b) {
    for (const Slab& one : a) {
        for (const Slab& other : b) {
            if (nearestPoints({one}, {other})) continue;
            const Eigen::AlignedBox3d shared = boxOf(one).intersection(boxOf(other));
            if (!shared.isEmpty()) return NearestPoints{0, shared.center(), shared.center()};
        }
    }
    return std::nullopt;
}

/// A contact is told at an angle where the two are in touch or a little in one another; just before it they are apart.
void findContact(FoldView& view) {
    view.cut_x_mm = middleOfBend(view.scene);
    if (!view.tight_between[0].known() || !view.tight_between[1].known()) return;
    for (const double before_deg : {0.0, 0.5, 1.0, 2.0, 4.0}) {
        const Angle angle = Angle::degrees(std::max(0.0, view.tight_at.deg() - before_deg));
        const std::vector<PartBody> bodies = view.scene.at(angle);
        const std::vector<Slab> a = slabsOf(view, bodies, view.tight_between[0], angle);
        const std::vector<Slab> b = slabsOf(view, bodies, view.tight_between[1], angle);
        view.tight = nearestPoints(a, b);
        if (!view.tight && angle == Angle()) view.tight = sharedPlace(a, b);
        if (view.tight) break;
    }
    if (!view.tight || view.tight->gap_mm > kContactReach_mm) {
        view.tight.reset();
        return;
    }
    const double there = 0.5 * (view.tight->a.x() + view.tight->b.x()) + kOffVertices_mm;
    // A part that meets something beside the bend is cut there all the same: its contact is what the drawing is for.
    const bool in_a_wall =
        sheetCut_mm2(view, false, there) > kInAWall * std::max(1.0, sheetCut_mm2(view, false, view.cut_x_mm));
    if (!in_a_wall) view.cut_x_mm = there;
}

}  // namespace

std::vector<Slab> slabsOf(const FoldView& view, const std::vector<PartBody>& bodies, BodyRef body, Angle angle) {
    if (body.kind == BodyRef::Kind::kPanel || body.kind == BodyRef::Kind::kStrip) {
        const auto own =
            std::find_if(bodies.begin(), bodies.end(), [&](const PartBody& one) { return one.ref() == body; });
        return own == bodies.end() ? std::vector<Slab>() : own->slabs;
    }
    return bodiesFor(*view.scene.brake()).slabsOf(view, body, angle);
}

double FoldView::left_mm() const { return place_known ? -part_x_mm : -kMachineEnds_mm; }

double FoldView::right_mm() const { return place_known ? scene.brake()->length_mm - part_x_mm : kMachineEnds_mm; }

FoldView viewOf(const FoldScene& scene, const ToolShapes& tools, const FoldStep& step) {
    FoldView view{.scene = scene,
                  .tools = tools,
                  .bars = step.tools,
                  .part_x_mm = step.part_x_mm,
                  .place_known = true,
                  .leaf_face = step.leaf_face,
                  .packing = step.packing,
                  .tight_mm = step.clearance_mm,
                  .tight_at = Angle::degrees(step.clearance_at_deg),
                  .tight_between = step.clearance_between,
                  .tight = {},
                  .room_mm = {},
                  .gauge = step.gauge_stop};
    findTightest(view);
    return view;
}

FoldView viewOf(const FoldScene& scene, const ToolShapes& tools, const Reason& reason) {
    FoldView view{.scene = scene,
                  .tools = tools,
                  .bars = {},
                  .leaf_face = {},
                  .tight_at = Angle::degrees(reason.at_deg),
                  .tight_between = {reason.panel, reason.body},
                  .tight = {},
                  .room_mm = reason.room_mm,
                  .gauge = {}};
    if (!reason.room_mm) view.bars = bodiesFor(*scene.brake()).likelyPieces(scene, reason);
    findContact(view);
    return view;
}

}  // namespace tinwright::report
