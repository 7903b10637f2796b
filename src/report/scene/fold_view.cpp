// SPDX-License-Identifier: GPL-3.0-or-later
#include "scene/fold_view.h"

#include <algorithm>
#include <cmath>

#include <tinwright/brake/machines/brake_in_setup.h>

#include "scene/press_tools.h"

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

/// One piece, or any of its kind.
bool isMeant(BodyRef one, BodyRef meant) {
    return one == meant || (meant.id == BodyRef::kAny && one.kind == meant.kind);
}

std::vector<Slab> pressSlabsOf(const FoldView& view, BodyRef body, Angle angle) {
    std::vector<Slab> slabs;
    for (const PressTool& tool : pressTools(view, view.scene.punchDown_mm(angle))) {
        if (isMeant(tool.body, body)) slabs.insert(slabs.end(), tool.slabs.begin(), tool.slabs.end());
    }
    return slabs;
}

std::vector<Slab> barSlabsOf(const FoldView& view, BodyRef body) {
    std::vector<Slab> slabs;
    for (const PlacedBar& bar : view.bars) {
        if (!isMeant(BodyRef(BodyRef::Kind::kBar, bar.bar), body)) continue;
        const auto pieces = extruded(view.tools.bar_pieces[bar.bar.index()], Vec2(0, view.scene.thickness_mm()),
                                     bar.from_mm, bar.to_mm);
        slabs.insert(slabs.end(), pieces.begin(), pieces.end());
    }
    return slabs;
}

const LeafFace* usualFace(const Brake& brake) {
    if (brake.isPress() || brake.leaf().leaf_faces.empty()) return nullptr;
    return &brake.leaf().leaf_faces.front();
}

const LeafFace* faceCalled(const Brake& brake, const std::string& name) {
    if (brake.isPress()) return nullptr;
    const std::vector<LeafFace>& faces = brake.leaf().leaf_faces;
    const auto face = std::find_if(faces.begin(), faces.end(), [&](const LeafFace& f) { return f.name == name; });
    return face == faces.end() ? nullptr : &*face;
}

}  // namespace

std::vector<Slab> slabsOf(const FoldView& view, const std::vector<PartBody>& bodies, BodyRef body, Angle angle) {
    if (body.kind == BodyRef::Kind::kPanel || body.kind == BodyRef::Kind::kStrip) {
        const auto own =
            std::find_if(bodies.begin(), bodies.end(), [&](const PartBody& one) { return one.ref() == body; });
        return own == bodies.end() ? std::vector<Slab>() : own->slabs;
    }
    const BrakeInSetup& brake = view.scene.brake();
    if (brake->isPress()) return pressSlabsOf(view, body, angle);
    const double left = view.place_known ? -view.part_x_mm : -kMachineEnds_mm;
    const double right = view.place_known ? brake->length_mm - view.part_x_mm : kMachineEnds_mm;
    const double setback = brake.setback_mm();
    if (body.kind == BodyRef::Kind::kLeaf && view.leaf_face != nullptr)
        return {extruded(view.scene.leafSection(*view.leaf_face, angle), left, right)};
    if (body.kind == BodyRef::Kind::kBed) return extruded(view.tools.bed_pieces, Vec2(-setback, 0), left, right);
    if (body.kind == BodyRef::Kind::kBeam && brake->leaf().beam.has_value())
        return {extruded(view.scene.beamSection(2000), left, right)};
    return barSlabsOf(view, body);
}

FoldView viewOf(const FoldScene& scene, const ToolShapes& tools, const FoldStep& step) {
    FoldView view{scene,
                  tools,
                  step.bars,
                  step.part_x_mm,
                  true,
                  faceCalled(*scene.brake(), step.leaf_face),
                  step.clearance_mm,
                  Angle::degrees(step.clearance_at_deg),
                  step.clearance_between,
                  {},
                  {},
                  step.gauge_stop,
                  0};
    findTightest(view);
    return view;
}

FoldView viewOf(const FoldScene& scene, const ToolShapes& tools, const Reason& reason) {
    const BrakeInSetup& brake = scene.brake();
    FoldView view{scene,
                  tools,
                  {},
                  0,
                  false,
                  usualFace(*brake),
                  0,
                  Angle::degrees(reason.at_deg),
                  {reason.panel, reason.body},
                  {},
                  reason.room_mm,
                  {},
                  0};
    if (brake->isPress()) {
        std::vector<ToolId> told = reason.heights_of;
        if (reason.bar) told.insert(told.begin(), *reason.bar);
        if (!reason.room_mm) view.bars = likelyPieces(scene, told);
    } else if (brake->toolCount() > 0 && !reason.room_mm) {
        const ToolId kind = reason.bar.value_or(ToolId{0});
        const double middle = 0.5 * scene.length_mm();
        const double half = 0.5 * std::min(brake->tool(kind).width_mm, std::max(1.0, scene.length_mm()));
        view.bars = {{kind, middle - half, middle + half}};
    }
    findContact(view);
    return view;
}

}  // namespace tinwright::report
