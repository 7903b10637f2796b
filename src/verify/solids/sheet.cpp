// SPDX-License-Identifier: GPL-3.0-or-later
#include "solids/sheet.h"

#include <utility>

#include <tinwright/base/contract.h>

namespace tinwright::replay {

Sheet::Sheet(const Part& part, std::vector<double> radii_mm)
    : part_(&part), radii_(std::move(radii_mm)), poses_(part.panels.size(), Rigid::Identity()) {}

std::vector<PanelId> Sheet::beyond(BendId bend) const {
    std::vector<PanelId> found{part_->bend(bend).child};
    for (std::size_t next = 0; next < found.size(); ++next) {
        for (const Bend& other : part_->bends) {
            if (other.parent == found[next]) found.push_back(other.child);
        }
    }
    return found;
}

void Sheet::form(BendId id, Angle angle) {
    TINWRIGHT_REQUIRE(!formed(id), "a bend is formed once");
    const Bend& bend = part_->bend(id);
    const Rigid& parent = poses_[bend.parent.index()];
    const Vec2 tangent = bend.origin - 0.5 * bend.allowance_mm * bend.toward_child;
    const double centre_z = bend.up ? part_->thickness_mm + radius_mm(id) : -radius_mm(id);
    const Vec3 centre = parent * Vec3(tangent.x(), tangent.y(), centre_z);
    const Vec3 outward = parent.linear() * Vec3(bend.toward_child.x(), bend.toward_child.y(), 0);
    const Vec3 normal = parent.linear() * (bend.up ? Vec3(0, 0, 1) : Vec3(0, 0, -1));
    // A right-handed turn about outward × normal takes outward to normal.
    const Vec3 axis = outward.cross(normal).normalized();
    Rigid roll = Rigid::Identity();
    roll.translate(centre);
    roll.rotate(Eigen::AngleAxisd(angle.rad(), axis));
    roll.translate(Vec3(-centre - bend.allowance_mm * outward));
    for (const PanelId panel : beyond(id)) poses_[panel.index()] = roll * poses_[panel.index()];
    formed_ |= bit(id);
}

}  // namespace tinwright::replay
