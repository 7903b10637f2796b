// SPDX-License-Identifier: GPL-3.0-or-later
#include "machine/leaf_tools.h"

#include <algorithm>

#include <tinwright/geometry/polygons.h>

#include "machine/tools.h"

namespace tinwright::replay {

namespace {

constexpr double kBeamSize_mm = 2000.0;  // of the machine model

}  // namespace

const LeafFace* faceOf(const LeafBrake& leaf, const FoldStep& step) {
    for (const LeafFace& face : leaf.leaf_faces) {
        if (face.name == step.leaf_face) return &face;
    }
    return nullptr;
}

Body beamBody(const BrakeInSetup& brake, const FoldStep& step, double thickness_mm) {
    const double y = brake->leaf().beam->front_y_mm;
    const double z = brake->leaf().beam->height_mm + thickness_mm;
    return carried(makeBody("beam", BodyKind::kBeam,
                            machineLong(brake, step, rectangle(y, y + kBeamSize_mm, z, z + kBeamSize_mm))),
                   Carrier::kUpper);
}

double packedBy_mm(const FoldStep& step) { return step.packing ? step.packing->height_mm : 0; }

double leafPackedBy_mm(const FoldStep& step) {
    return step.packing && step.packing->on_leaf ? step.packing->height_mm : 0;
}

Hinge hingeOf(const LeafBrake& leaf, const FoldStep& step, double thickness_mm) {
    const double packed_mm = leafPackedBy_mm(step);
    const double set_mm = leaf.setback_mm >= 0 ? leaf.setback_mm
                                               : std::min(std::max(thickness_mm + packed_mm, leaf.setback_least_mm),
                                                          leaf.setback_most_mm);
    return {set_mm, leaf.hinge_height_mm - packedBy_mm(step), leaf.hinge_height_mm - packed_mm};
}

Body bedBody(const BrakeInSetup& brake, const FoldStep& step, const Hinge& hinge) {
    const Polygon section = shifted(brake->leaf().bed, Vec2(-hinge.setback_mm, -packedBy_mm(step)));
    return makeBody("bed", BodyKind::kBed, machineLong(brake, step, section));
}

Body leafBody(const BrakeInSetup& brake, const FoldStep& step, const LeafFace& face, const Hinge& hinge) {
    const double front = -hinge.setback_mm - face.reach_mm;
    const double top = -packedBy_mm(step);
    const Polygon section = rectangle(front, -hinge.setback_mm, top - face.thickness_mm, top);
    return makeBody("leaf", BodyKind::kLeaf, machineLong(brake, step, section));
}

}  // namespace tinwright::replay
