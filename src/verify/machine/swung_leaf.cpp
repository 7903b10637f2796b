// SPDX-License-Identifier: GPL-3.0-or-later
#include "machine/swung_leaf.h"

#include <utility>

#include <tinwright/geometry/polygons.h>

#include "machine/leaf_tools.h"
#include "machine/tools.h"

namespace tinwright::replay {

SwungLeaf::SwungLeaf(const BrakeInSetup& brake, const FoldStep& step, const Bending& stroke, LeafFace face)
    : stroke_(stroke),
      hinge_(hingeOf(brake->leaf(), step, stroke.thickness_mm)),
      face_(std::move(face)),
      from_mm_(-step.part_x_mm),
      to_mm_(brake->length_mm - step.part_x_mm),
      packed_mm_(packedBy_mm(step)),
      body_(leafBody(brake, step, face_, hinge_)) {}

Track SwungLeaf::track(const Steps& steps) const {
    const Vec2 hinge = hinge_.place();
    Track track{{}, hinge.x(), hinge.y(), steps.step_rad, 0};
    for (std::size_t i = 0; i <= steps.last; ++i) track.poses.push_back(turnUp(hinge, steps.rad(i)));
    return track;
}

std::vector<Prism> SwungLeaf::pushedBack(const Motion& motion, double angle_rad, double off_mm) const {
    const double back_mm = leafBack_mm(stroke_, hinge_, motion, angle_rad);
    const double s = hinge_.setback_mm;
    if (face_.thickness_mm - back_mm <= 2 * off_mm || face_.reach_mm <= 2 * off_mm) return {};
    const Polygon section = rectangle(-s - face_.reach_mm + off_mm, -s - off_mm,
                                      off_mm - face_.thickness_mm - packed_mm_, -back_mm - off_mm - packed_mm_);
    return {{section, off_mm + from_mm_, to_mm_ - off_mm, alongMachine()}};
}

}  // namespace tinwright::replay
