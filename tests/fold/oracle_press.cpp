// SPDX-License-Identifier: GPL-3.0-or-later
#include "oracle_press.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <tinwright/brake/machines/brake_in_setup.h>

#include "oracle_meeting.h"

namespace tinwright::oracle {

namespace {

using Eigen::Isometry3d;
constexpr double kQuarter_rad = std::numbers::pi / 2;
constexpr double kFar_mm = 3000;
constexpr int kLooks = 400;          // along a stroke
constexpr int kFewLooks = 50;        // where what comes up goes one way
constexpr double kHardly_mm = 0.05;  // off a shoulder

Isometry3d raised(double by_mm) {
    Isometry3d pose = Isometry3d::Identity();
    pose.translation().z() = by_mm;
    return pose;
}

}  // namespace

Region ramSectionOf(const BrakeInSetup& brake, double thickness_mm, double punch_height_mm) {
    return movedBy(brake->press().ram, Vec2(0, thickness_mm + punch_height_mm));
}

Region pressBedSectionOf(const BrakeInSetup& brake, double die_height_mm) {
    return movedBy(brake->press().bed, Vec2(0, -die_height_mm));
}

Region frameSectionOf(const BrakeInSetup& brake) {
    const double y = brake->press().throat_mm;
    return {{Vec2(y, -kFar_mm), Vec2(y + kFar_mm, -kFar_mm), Vec2(y + kFar_mm, kFar_mm), Vec2(y, kFar_mm)}, {}};
}

PressModel::PressModel(const Part& part, const Outlines& outlines, const BrakeInSetup& brake, const Vee& vee,
                       double overbend_deg, BendMask formed, BendId bend, Side hold)
    : at_rest_{&part, formed, bend, hold, brake.inside_radius_mm()},
      t_(part.thickness_mm),
      r_(brake.inside_radius_mm()),
      allowance_(part.bend(bend).allowance_mm),
      end_(0.5 * (part.bend(bend).angle.rad() + overbend_deg * std::numbers::pi / 180.0)),
      shoulder_(vee.shoulder_radius_mm),
      shoulder_out_(0.5 * vee.opening_mm + shoulder_ * std::tan(0.5 * (kQuarter_rad - 0.5 * vee.angle.rad()))),
      steepest_(kQuarter_rad - 0.5 * vee.angle.rad()),
      centre_(0, t_ + r_),
      frame_(at_rest_.frame(part.bend(bend).origin, 0)),
      pieces_(at_rest_.pieces(outlines, frame_)) {}

Isometry3d PressModel::side(double h, bool front, Forming forming) const {
    const Isometry3d pose = swungAbout(centre_, h, formingShift(h, 0.5 * allowance_, end_, forming));
    if (front) return pose;
    const Eigen::Matrix3d mirror = Eigen::Vector3d(1, -1, 1).asDiagonal();
    Isometry3d back = Isometry3d::Identity();
    back.linear() = mirror * pose.linear() * mirror;
    back.translation() = mirror * pose.translation();
    return back;
}

// By how much the lower face is further from C than when rolling: D (1 - cos h), D = A' / h - 2 A' / S.
double PressModel::sink_mm(double h, Forming forming) const {
    if (h < 1e-6) return 0;
    const double half_strip = 0.5 * allowance_;
    return forming.uniform_share * (half_strip / h - half_strip / end_) * (1 - std::cos(h));
}

double PressModel::rise_mm(double h, Forming forming) const {
    const double u = t_ + r_ + sink_mm(h, forming);
    return shoulder_ + t_ + r_ - (u + shoulder_ - shoulder_out_ * std::sin(h)) / std::cos(h);
}

// |d'| <= (u' + c) / cos + (u + s + c) / cos², with |u'| <= A + A / S.
double PressModel::riseSpeed() const {
    const double cosine = std::max(1e-3, std::cos(end_));
    return (2 * shoulder_out_ + t_ + r_ + shoulder_ + 2 * allowance_ + allowance_ / end_) / (cosine * cosine);
}

bool PressModel::veeTakesIt() const {
    if (end_ > steepest_) return false;
    for (int i = 0; i <= kLooks; ++i) {
        const double h = end_ * i / kLooks;
        for (const double share : {0.0, 1.0}) {
            const double touch =
                shoulder_out_ * std::cos(h) + (rise_mm(h, {share}) - shoulder_ - centre_.y()) * std::sin(h);
            // The foot of the normal from C is where the arc of a strip that rolls ends; that of one that curves ends D
            // sin h from it.
            const double arc_end =
                h < 1e-6 ? share * 0.5 * allowance_ : share * 0.5 * allowance_ * (1 / h - 1 / end_) * std::sin(h);
            if (touch < arc_end - kHardly_mm) return false;
        }
    }
    return true;
}

double PressModel::meets(const SheetPiece& sheet, const Section& tool, bool rises, double x0, double x1,
                         Forming forming, double step_rad) const {
    double first = -1;
    const auto sheet_pose = [&](double h) { return side(h, sheet.moving, forming); };
    const auto tool_pose = [&](double h) { return raised(rises ? rise_mm(h, forming) : 0); };
    for (const Polygon& section : tool) {
        const ConvexPoints prism = fclPrism(section, x0, x1, fclAlongX());
        for (const ConvexPoints& points : sheet.whole) {
            first = earlier(first, firstMeetingOf(points, sheet_pose, speedOf(points), prism, tool_pose,
                                                  rises ? riseSpeed() : 0, end_, step_rad));
        }
    }
    return first;
}

double PressModel::meetsBack(const SheetPiece& front, bool shrunk, const SheetPiece& back, Forming forming,
                             double step_rad) const {
    double first = -1;
    const auto front_pose = [&](double h) { return side(h, true, forming); };
    const auto back_pose = [&](double h) { return side(h, false, forming); };
    for (const ConvexPoints& one : shrunk ? front.shrunk : front.whole) {
        for (const ConvexPoints& other : back.whole) {
            first = earlier(
                first, firstMeetingOf(one, front_pose, speedOf(one), other, back_pose, speedOf(other), end_, step_rad));
        }
    }
    return first;
}

bool PressModel::stripMeets(const SheetPiece& sheet) const {
    std::vector<ConvexPoints> there;
    for (const ConvexPoints& points : sheet.whole) there.push_back(fclMoved(points, side(end_, sheet.moving, {0})));
    return anyMeet(
        bentStrip(at_rest_.part->bend(at_rest_.bend), at_rest_.along(frame_), t_, r_, 2 * end_, -end_, centre_), there);
}

bool PressModel::stripMeets(const Section& tool, bool rises, double x0, double x1) const {
    std::vector<ConvexPoints> there;
    for (const Polygon& section : tool)
        there.push_back(fclMoved(fclPrism(section, x0, x1, fclAlongX()), raised(rises ? rise_mm(end_, {0}) : 0)));
    return anyMeet(
        bentStrip(at_rest_.part->bend(at_rest_.bend), at_rest_.along(frame_), t_, r_, 2 * end_, -end_, centre_), there);
}

bool PressModel::punchMeetsDie(const Section& punch, const Section& die) const {
    for (const Polygon& above : punch) {
        const ConvexPoints one = fclPrism(above, 0, 10, fclAlongX());
        for (const Polygon& below : die) {
            const ConvexPoints other = fclPrism(below, 0, 10, fclAlongX());
            for (int i = 0; i <= kFewLooks; ++i) {
                for (const double share : {0.0, 1.0}) {
                    const ConvexPoints there = fclMoved(other, raised(rise_mm(end_ * i / kFewLooks, {share})));
                    if (Slabs(one).gapTo(Slabs(there)) <= 0 && fclHit(one, there)) return true;
                }
            }
        }
    }
    return false;
}

}  // namespace tinwright::oracle
