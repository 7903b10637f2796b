// SPDX-License-Identifier: GPL-3.0-or-later
#include "scene/leaf_tools.h"

#include <algorithm>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/geometry/polygons.h>

#include "scene/machine_bodies.h"

namespace tinwright::report {
namespace {

constexpr double kBeamShown_mm = 2000;
constexpr double kPackingShown_mm = 40;  // strips may be as wide as they like where no figure says otherwise

/// Turns the front (-y) up by an angle, in (y, z).
Vec2 turnedUp(const Vec2& p, Angle angle) {
    const SinCos turn = sinCos(angle);
    return {p.x() * turn.cos + p.y() * turn.sin, -p.x() * turn.sin + p.y() * turn.cos};
}

std::vector<Slab> barSlabs(const FoldView& view, BodyRef body) {
    std::vector<Slab> slabs;
    for (const PlacedTool& bar : view.bars) {
        if (!isMeant(BodyRef(BodyRef::Kind::kBar, bar.tool), body)) continue;
        const auto pieces = extruded(view.tools.bar_pieces[bar.tool.index()], Vec2(0, view.scene.thickness_mm()),
                                     bar.from_mm, bar.to_mm);
        slabs.insert(slabs.end(), pieces.begin(), pieces.end());
    }
    return slabs;
}

class LeafBodies final : public MachineBodies {
public:
    [[nodiscard]] std::vector<BodySection> sections(const Brake& brake) const override {
        return {{BodyRef::Kind::kBed, brake.leaf().bed}};
    }

    [[nodiscard]] std::vector<Slab> slabsOf(const FoldView& view, BodyRef body, Angle angle) const override {
        const FoldScene& scene = view.scene;
        const LeafFace* face = leafFaceOf(view);
        if (body.kind == BodyRef::Kind::kLeaf && face != nullptr)
            return {extruded(leafSection(scene, *face, angle), view.left_mm(), view.right_mm())};
        if (body.kind == BodyRef::Kind::kBed)
            return extruded(view.tools.bodyPieces(body.kind),
                            Vec2(-scene.brake().setback_mm(), -scene.brake().packing_mm()), view.left_mm(),
                            view.right_mm());
        if (body.kind == BodyRef::Kind::kBeam && scene.brake()->leaf().beam.has_value())
            return {extruded(beamSection(scene, kBeamShown_mm), view.left_mm(), view.right_mm())};
        return barSlabs(view, body);
    }

    [[nodiscard]] std::vector<PlacedTool> likelyPieces(const FoldScene& scene, const Reason& reason) const override {
        if (scene.brake()->toolCount() == 0) return {};
        return {overTheMiddle(scene, reason.tool.value_or(ToolId{0}))};
    }
};

}  // namespace

const MachineBodies& bodiesOfKind(const LeafBrake& /*kind*/) {
    static const LeafBodies kBodies;
    return kBodies;
}

const LeafFace* leafFaceOf(const FoldView& view) {
    const std::vector<LeafFace>& faces = view.scene.brake()->leaf().leaf_faces;
    const auto face = std::find_if(faces.begin(), faces.end(),
                                   [&](const LeafFace& f) { return !view.leaf_face || f.name == *view.leaf_face; });
    return face == faces.end() ? nullptr : &*face;
}

namespace {

/// What goes with the leaf, its hinge line at y = 0 and the sheet's lower face at z = 0 at rest.
Polygon swungWithLeaf(const FoldScene& scene, const Polygon& at_rest, Angle angle) {
    const double setback = scene.brake().setback_mm();
    const double hinge = scene.brake().hinge_height_mm();
    const double radius = scene.brake().inside_radius_mm();
    const SinCos turn = sinCos(angle);
    // Past square the leaf would press into the sheet it bears on; it is drawn back along its normal (NOTES.md,
    // Motion).
    const double under = scene.thickness_mm() + radius;
    const double back = std::max(
        0.0, under - scene.brake().hingeOverLeaf_mm() - (radius + setback) * turn.sin - (under - hinge) * turn.cos);
    const Vec2 pivot(-setback, hinge);
    Polygon section;
    for (const Vec2& corner : at_rest) section.push_back(pivot + turnedUp(corner - Vec2(0, hinge + back), angle));
    return section;
}

}  // namespace

Polygon leafSection(const FoldScene& scene, const LeafFace& face, Angle angle) {
    const double top = -scene.brake().packing_mm();
    const double under = top - face.thickness_mm;
    return swungWithLeaf(scene, {{-face.reach_mm, under}, {0, under}, {0, top}, {-face.reach_mm, top}}, angle);
}

Polygon packingOnLeaf(const FoldView& view, Angle angle) {
    if (!view.packing || !view.packing->on_leaf) return {};
    const double front = -std::min(view.packing->on_leaf_mm.value_or(kPackingShown_mm), kPackingShown_mm);
    const double under = -view.packing->height_mm;
    return swungWithLeaf(view.scene, {{front, under}, {0, under}, {0, 0}, {front, 0}}, angle);
}

Polygon packingOnBed(const FoldView& view) {
    if (!view.packing) return {};
    const double wide = std::min(view.packing->on_bed_mm.value_or(kPackingShown_mm), kPackingShown_mm);
    const double front = (view.packing->on_leaf ? view.packing->height_mm : 0) - view.packing->setback_mm;
    const double under = -view.packing->height_mm;
    return {{front, under}, {front + wide, under}, {front + wide, 0}, {front, 0}};
}

Polygon bedSection(const FoldScene& scene) {
    return shifted(scene.brake()->leaf().bed, Vec2(-scene.brake().setback_mm(), -scene.brake().packing_mm()));
}

Polygon barSection(const FoldScene& scene, const Tool& bar) {
    return shifted(bar.profile, Vec2(0, scene.thickness_mm()));
}

Polygon beamSection(const FoldScene& scene, double reach_mm) {
    const double front = scene.brake()->leaf().beam->front_y_mm;
    const double under = scene.brake()->leaf().beam->height_mm + scene.thickness_mm();
    return {{front, under}, {front + reach_mm, under}, {front + reach_mm, under + reach_mm}, {front, under + reach_mm}};
}

}  // namespace tinwright::report
