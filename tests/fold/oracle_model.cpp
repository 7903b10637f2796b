// SPDX-License-Identifier: GPL-3.0-or-later
#include "oracle_model.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <tinwright/brake/machines/brake_in_setup.h>

#include "oracle_meeting.h"

namespace tinwright::oracle {

namespace {

using Eigen::Isometry3d;
using Eigen::Vector3d;
constexpr double kBeyond_mm = 2000;

}  // namespace

Region bedSectionOf(const BrakeInSetup& brake) {
    return movedBy(brake->leaf().bed, Vec2(-brake.setback_mm(), -brake.packing_mm()));
}

Region beamSectionOf(const BrakeInSetup& brake, double thickness_mm) {
    const double y = brake->leaf().beam->front_y_mm;
    const double z = brake->leaf().beam->height_mm + thickness_mm;
    return {{Vec2(y, z), Vec2(y + kBeyond_mm, z), Vec2(y + kBeyond_mm, z + kBeyond_mm), Vec2(y, z + kBeyond_mm)}, {}};
}

LeafModel::LeafModel(const Part& part, const Outlines& outlines, const BrakeInSetup& brake, double overbend_deg,
                     BendMask formed, BendId bend, Side hold)
    : at_rest_{&part, formed, bend, hold, brake.inside_radius_mm()},
      t_(part.thickness_mm),
      rn_(brake.inside_radius_mm()),
      s_(brake.setback_mm()),
      h_(brake.hinge_height_mm()),
      over_leaf_(brake.hingeOverLeaf_mm()),
      packed_(brake.packing_mm()),
      allowance_(part.bend(bend).allowance_mm),
      set_(part.bend(bend).angle.rad() + overbend_deg * std::numbers::pi / 180.0),
      centre_(rn_, t_ + rn_),
      frame_(at_rest_.frame(part.bend(bend).origin + 0.5 * allowance_ * at_rest_.back(), rn_)),
      pieces_(at_rest_.pieces(outlines, frame_)) {}

std::vector<ConvexPoints> LeafModel::ownStrip() const {
    return bentStrip(at_rest_.part->bend(at_rest_.bend), at_rest_.along(frame_), t_, rn_, set_, 0, centre_);
}

Isometry3d LeafModel::swing(double a, Forming forming) const {
    return swungAbout(centre_, a, formingShift(a, allowance_, set_, forming));
}

double LeafModel::drawnBack_mm(double a, Forming forming) const {
    const double d = a < 1e-6 ? 0 : allowance_ / a - allowance_ / set_;
    const double underside = t_ + rn_ + forming.uniform_share * d * (1 - std::cos(a));
    return std::max(0.0, underside - over_leaf_ - (rn_ + s_) * std::sin(a) - (t_ + rn_ - h_) * std::cos(a));
}

ConvexPoints LeafModel::leafBearing(double a, const LeafFace& face, Fit fit, double x0, double x1,
                                    Forming forming) const {
    return leafAt(a, face, fit, x0, x1, drawnBack_mm(a, forming));
}

// Its back stays where it is.
ConvexPoints LeafModel::leafAt(double a, const LeafFace& face, Fit fit, double x0, double x1, double drawn_back) const {
    const double out = fit == Fit::kShrunk ? -kDeep_mm : fit == Fit::kGrown ? kGrown_mm : 0;
    const double top = out - packed_ - drawn_back;
    const double under = -face.thickness_mm - out - packed_;
    if (top <= under) return {};
    const Polygon section{Vec2(-face.reach_mm - out, under), Vec2(out, under), Vec2(out, top),
                          Vec2(-face.reach_mm - out, top)};
    Isometry3d turn = Isometry3d::Identity();
    turn.linear() = frontTurnedUp(a);
    turn.translation() = Vector3d(0, -s_, h_) + turn.linear() * Vector3d(0, 0, -h_);
    return fclPrism(section, x0, x1, turn * fclAlongX());
}

double LeafModel::meetAlone(const ConvexPoints& moving, bool moves, const ConvexPoints& still, Forming forming,
                            double step_rad) const {
    if (!moves) return Slabs(moving).gapTo(Slabs(still)) <= 0 && fclHit(moving, still) ? 0 : -1;
    Hull turning(moving);
    Hull standing(still);
    const auto hit = [&](double angle, const ConvexPoints&, const ConvexPoints&) {
        return hullsMeet(turning, swing(angle, forming), standing, Isometry3d::Identity());
    };
    return firstMeeting([&](double angle) { return fclMoved(moving, swing(angle, forming)); }, speedOf(moving),
                        [&](double) -> const ConvexPoints& { return still; }, 0, set_, step_rad, hit);
}

double LeafModel::meetsStill(const SheetPiece& sheet, bool shrunk, const Section& tool, double x0, double x1,
                             Forming forming, double step_rad) const {
    double first = -1;
    for (const Polygon& section : tool) {
        const ConvexPoints prism = fclPrism(section, x0, x1, fclAlongX());
        for (const ConvexPoints& points : shrunk ? sheet.shrunk : sheet.whole) {
            first = earlier(first, meetAlone(points, sheet.moving, prism, forming, step_rad));
        }
    }
    return first;
}

double LeafModel::meetsLeaf(const SheetPiece& sheet, const LeafFace& face, Fit fit, double x0, double x1,
                            Forming forming, double step_rad) const {
    const auto leaf = [&](double a) {
        return sheet.moving ? leafBearing(a, face, fit, x0, x1, forming) : leafAt(a, face, fit, x0, x1, 0);
    };
    // The face is drawn back at most as fast as its parts change: rn + s, t + rn + h, and 3 A for D(1 - cos a).
    const double speed = std::hypot(face.reach_mm, face.thickness_mm + packed_) + std::abs(h_) +
                         2 * (t_ + 2 * rn_ + s_ + std::abs(h_)) + 3 * allowance_ + 3 * allowance_ / set_;
    double first = -1;
    for (const ConvexPoints& points : sheet.whole) {
        Hull hull(points);
        const auto hit = [&](double a, const ConvexPoints&, const ConvexPoints& block) {
            return meetsBlock(hull, sheet.moving ? swing(a, forming) : Isometry3d(Isometry3d::Identity()), block);
        };
        const auto moved = [&](double a) { return sheet.moving ? fclMoved(points, swing(a, forming)) : points; };
        first =
            earlier(first, firstMeeting(moved, sheet.moving ? speedOf(points) : 0, leaf, speed, set_, step_rad, hit));
    }
    return first;
}

double LeafModel::meetsHeld(const SheetPiece& moving, bool shrunk, const SheetPiece& held, Forming forming,
                            double step_rad) const {
    double first = -1;
    for (const ConvexPoints& still : held.whole) {
        for (const ConvexPoints& points : shrunk ? moving.shrunk : moving.whole) {
            first = earlier(first, meetAlone(points, true, still, forming, step_rad));
        }
    }
    return first;
}

bool LeafModel::meetsOwnStrip(const SheetPiece& held) const { return anyMeet(ownStrip(), held.whole); }

}  // namespace tinwright::oracle
