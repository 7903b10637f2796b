// SPDX-License-Identifier: GPL-3.0-or-later
#include "machine/leaf_tools.h"

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

Body bedBody(const BrakeInSetup& brake, const FoldStep& step) {
    const Polygon section = shifted(brake->leaf().bed, Vec2(-brake.setback_mm(), 0));
    return makeBody("bed", BodyKind::kBed, machineLong(brake, step, section));
}

Body leafBody(const BrakeInSetup& brake, const FoldStep& step, const LeafFace& face) {
    const double front = -brake.setback_mm() - face.reach_mm;
    const Polygon section = rectangle(front, -brake.setback_mm(), -face.thickness_mm, 0);
    return makeBody("leaf", BodyKind::kLeaf, machineLong(brake, step, section));
}

}  // namespace tinwright::replay
