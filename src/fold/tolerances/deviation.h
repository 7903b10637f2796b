// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <tinwright/brake/shop/tolerances.h>

#include "bodies/part_bodies.h"

namespace tinwright {

/// What a thicker or thinner sheet is seen from: from bed and leaf its lower face stays where it is, from bars and
/// beam, which rise with it, its upper face.
enum class SeenFrom { kBed, kBars };

/// Which bend is folded from which state, and whether the group is looked at before the stroke or after it.
struct DeviationState {
    BendId bend;
    Side hold = Side::kParent;
    BendMask formed = 0;  ///< with `bend` itself: after the stroke
};

/// How far a group of the part may lie from its nominal place in the frame of a fold, over the tolerance box. Nominal
/// points are given in that frame. Linear terms are exact, the rest is bounded (NOTES.md, "Over the tolerance box").
class Deviation {
public:
    Deviation(const PartBodies& bodies, const ToleranceBox& box, const DeviationState& state, std::size_t group);

    /// Formed bends between the held panel and the group, its own strip included.
    [[nodiscard]] int formedBends() const { return formed_bends_; }
    /// Bound of the displacement of a nominal point along a unit vector but for the sheet's thickness.
    [[nodiscard]] double along_mm(const Vec3& direction, const Vec3& point) const;
    /// The same as an affine function over some points, which is what a plane face needs: value at the frame's origin,
    /// and slope.
    struct Affine {
        double at_origin_mm = 0;
        Vec3 slope = Vec3::Zero();
        [[nodiscard]] double at(const Vec3& point) const { return at_origin_mm + slope.dot(point); }
    };
    [[nodiscard]] Affine affineAlong(const Vec3& direction, const std::vector<Vec3>& points) const;
    /// Bound of what the thickness does along a unit vector to the face z = 0 (`upper` false) or z = t of the group's
    /// panel.
    [[nodiscard]] double ofThickness_mm(const Vec3& direction, bool upper, SeenFrom from) const;
    /// Bound of the whole displacement in any direction.
    [[nodiscard]] double most_mm(const Vec3& point) const;
    /// Bound of how fast the above change from point to point.
    [[nodiscard]] double slope() const { return slope_; }
    /// The place of a cut edge; what a strip may reach past its nominal ends round its arc and into its panels.
    [[nodiscard]] double cutting_mm() const { return cutting_mm_; }
    [[nodiscard]] double strip_mm() const { return strip_mm_; }
    /// For flat sheet: an axis of its plane, along its bends where these are square to one another, and how far its
    /// outline may be off along this axis and along the other.
    [[nodiscard]] const Vec2& axis() const { return axis_; }
    [[nodiscard]] double outline_mm() const { return outline_mm_; }
    [[nodiscard]] double thickness_mm() const { return thickness_mm_; }

private:
    struct Source {  // a displacement constant + turn × (point - about), of either sign
        Vec3 constant = Vec3::Zero();
        Vec3 turn = Vec3::Zero();
        Vec3 about = Vec3::Zero();
        [[nodiscard]] Vec3 at(const Vec3& point) const { return constant + turn.cross(point - about); }
    };
    void addOutline(const Part& part, const ToleranceBox& box, const Group& what);
    void addBend(const PartBodies& bodies, const ToleranceBox& box, BendId id, const Rigid& fold_from_parent,
                 bool from_parent);
    [[nodiscard]] double remainder_mm(const Vec3& point) const;

    std::vector<Source> sources_;
    struct Turned {  // one formed bend of the path, from the held panel outwards
        Vec3 axis;
        Vec3 about;
        double fixed_mm;  // second-order part that does not grow with the distance
        double moved_mm;  // what it displaces besides turning
    };
    std::vector<Turned> turned_;
    double angle_rad_ = 0;
    double thickness_mm_ = 0;
    double cutting_mm_ = 0;
    double strip_mm_ = 0;
    double outline_mm_ = 0;
    Vec2 axis_ = Vec2::UnitX();
    double slope_ = 0;
    int formed_bends_ = 0;
    Vec3 lower_ = Vec3::Zero();  // per mm of thickness: displacement of the group's face z = 0
    Vec3 upper_ = Vec3::Zero();
};

/// By how much the strip of a bend may be wider or narrower: the neutral line at its share of the thickness, over the
/// angle.
[[nodiscard]] double stripDeviation_mm(const Bend& bend, double part_thickness_mm, const ToleranceBox& box);

}  // namespace tinwright
