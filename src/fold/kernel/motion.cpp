// SPDX-License-Identifier: GPL-3.0-or-later
#include "kernel/motion.h"

#include <algorithm>
#include <cmath>

#include <tinwright/brake/tooling/vee_bearing.h>

namespace tinwright {

Motion Motion::finished() const {
    Motion motion = *this;
    motion.start_ = motion.at(0);
    motion.middle_ = motion.at(0.5 * end_rad_);
    motion.end_ = motion.at(end_rad_);
    return motion;
}

Motion Motion::still() { return Motion(Kind::kStill, Vec2::Zero(), 0).finished(); }

Motion Motion::swing(const Swing& swing) {
    Motion motion(Kind::kSwing, swing.centre(), swing.set_rad());
    motion.swing_ = &swing;
    motion.spreads_ = true;
    motion.rate_ = swing.rate_mm_per_rad();
    return motion.finished();
}

Motion Motion::heldFromLeaf(const Vec2& hinge, double set_rad) {
    return Motion(Kind::kHeldFromLeaf, hinge, set_rad).finished();
}

Motion Motion::movingFromLeaf(const Swing& swing, const LeafHinge& leaf) {
    Motion motion(Kind::kMovingFromLeaf, Vec2::Zero(), swing.set_rad());
    motion.swing_ = &swing;
    motion.spreads_ = true;
    motion.hinge_ = leaf.place;
    motion.over_leaf_mm_ = leaf.over_leaf_mm;
    motion.rate_ = 3 * swing.rate_mm_per_rad() + 2 * (swing.centre() - leaf.place).norm();
    return motion.finished();
}

double Motion::mostGiveWay_mm() const {
    constexpr int kSteps = 256;
    const double step_rad = end_rad_ / kSteps;
    double most_mm = 0;
    for (int i = 0; i <= kSteps; ++i) {
        const double a_rad = i * step_rad;
        most_mm = std::max(most_mm, giveWay_mm(a_rad, std::cos(a_rad), std::sin(a_rad), 1));
    }
    return most_mm + 0.5 * step_rad * rate_;
}

Motion Motion::standingFromLeaf(const Swing& swing, const LeafHinge& leaf) {
    Motion motion(Kind::kStandingFromLeaf, leaf.place, swing.set_rad());
    motion.swing_ = &swing;
    motion.hinge_ = leaf.place;
    motion.over_leaf_mm_ = leaf.over_leaf_mm;
    // how fast the face gives way, and how far at most: its direction turns with the leaf
    const double arm = (swing.centre() - leaf.place).norm();
    motion.rate_ = 2 * arm + 2 * swing.rate_mm_per_rad() + swing.centre().y() + arm + 2 * swing.allowance_mm();
    return motion.finished();
}

Motion Motion::late() const {
    Motion motion = *this;
    motion.start_ = middle_;
    motion.middle_ = at(0.75 * end_rad_);
    return motion;
}

Motion Motion::mirrored() const {
    Motion motion = *this;
    motion.mirrored_ = true;
    return motion.finished();
}

Motion Motion::back(const Swing& half) { return front(half).mirrored(); }
Motion Motion::backFromDie(const Swing& half, const VeeBearing& bearing) {
    return frontFromDie(half, bearing).mirrored();
}

Motion Motion::frontFromDie(const Swing& half, const VeeBearing& bearing) {
    Motion motion(Kind::kFromDie, half.centre(), half.set_rad());
    motion.swing_ = &half;
    motion.bearing_ = &bearing;
    motion.spreads_ = true;
    // How far the sheet may sink when it curves, D (1 - cos h) = A ((1 - cos h) / h) (1 - h / S), and how fast that may
    // change.
    const double sink_mm = 0.7247 * half.allowance_mm();
    const double sink_rate_mm = half.allowance_mm() * (0.5 + 1.0 / half.set_rad());
    motion.rate_ = 2 * half.rate_mm_per_rad() + bearing.rate_mm_per_rad(half.set_rad(), sink_mm, sink_rate_mm);
    return motion.finished();
}

double Motion::shiftBound_mm() const {
    if (kind_ == Kind::kStill) return 0.0;
    if (kind_ == Kind::kFromDie) return 2 * rate_ * end_rad_;  // both shift and spread start from nothing
    return rate_ * end_rad_ + (spreads_ ? swing_->allowance_mm() : 0.0);
}

Moment Motion::at(double a_rad) const {
    Moment moment = unmirrored(a_rad);
    if (mirrored_) {
        moment.sin_turn = -moment.sin_turn;
        moment.shift.x() = -moment.shift.x();
    }
    return moment;
}

Moment Motion::unmirrored(double a_rad) const {
    if (kind_ == Kind::kStill) return {a_rad, 1, 0, Vec2::Zero(), 0};
    const double cos_a = std::cos(a_rad);
    const double sin_a = std::sin(a_rad);
    switch (kind_) {
        case Kind::kHeldFromLeaf: return {a_rad, cos_a, -sin_a, Vec2::Zero(), 0};
        // The leaf's face drawn back along its normal is what stands still moved up by as much, seen from the leaf.
        case Kind::kStandingFromLeaf: {
            const double least_mm = giveWay_mm(a_rad, cos_a, sin_a, 0);
            const double most_mm = giveWay_mm(a_rad, cos_a, sin_a, 1);
            return {a_rad, cos_a, -sin_a, turnedUp(Vec2(0, 0.5 * (least_mm + most_mm)), cos_a, sin_a),
                    0.5 * (most_mm - least_mm)};
        }
        // From H + R(-a)(C + R(a)(p - C + w) - H) = p + (H - C) + R(-a)(C - H) + w. The leaf's face, drawn back along
        // its normal, is the solid moved up by as much. With less of uniform curvature the sheet sinks less and the
        // face gives way by no more than that less: both together stay within the spread about what is told here, in
        // which the face gives way to the lowest sheet.
        case Kind::kMovingFromLeaf: {
            const Swing::Middle middle = swing_->middle(a_rad, cos_a, sin_a);
            const Vec2 arm = swing_->centre() - hinge_;
            const Vec2 back = turnedUp(arm, cos_a, -sin_a) - arm;
            return {a_rad, 1, 0, middle.shift + back + Vec2(0, giveWay_mm(a_rad, cos_a, sin_a, 1)), middle.spread_mm};
        }
        case Kind::kFromDie: return fromDie(a_rad, cos_a, sin_a);
        case Kind::kSwing:
        case Kind::kStill: break;
    }
    const Swing::Middle middle = swing_->middle(a_rad, cos_a, sin_a);
    return {a_rad, cos_a, sin_a, middle.shift, middle.spread_mm};
}

Placing Motion::placing(const Moment& from, const Moment& mid, const Moment& to) const {
    const TurnSpan turn = turnsDown() ? TurnSpan{to.cos_turn, to.sin_turn, from.cos_turn, from.sin_turn}
                                      : TurnSpan{from.cos_turn, from.sin_turn, to.cos_turn, to.sin_turn};
    if (kind_ == Kind::kStill || kind_ == Kind::kHeldFromLeaf) return {turn, Vec2::Zero(), {}};
    if (kind_ == Kind::kSwing) {
        const Swing::Box box = swing_->boxOver(from.angle_rad, from.cos_turn, std::abs(from.sin_turn), to.angle_rad,
                                               to.cos_turn, std::abs(to.sin_turn));
        const Vec2 half = 0.5 * (box.most - box.least);
        Vec2 middle = 0.5 * (box.least + box.most);
        if (mirrored_) middle.x() = -middle.x();
        return {turn, middle, {half, half.norm()}};
    }
    const double radius_mm = mid.spread_mm + rate_ * (to.angle_rad - from.angle_rad);  // of shift and of spread, half
                                                                                       // the span each way
    return {turn, mid.shift, {Vec2::Constant(radius_mm), radius_mm}};
}

// The die's top at d is what stands on it moved down by d. From C + R(p - C + w) - d·ẑ = C + R(p - C + w - R(-h) d·ẑ).
Moment Motion::fromDie(double a_rad, double cos_a, double sin_a) const {
    const Swing::Middle middle = swing_->middle(a_rad, cos_a, sin_a);
    const VeeBearing::Rise rise = bearing_->rise(cos_a, sin_a, -swing_->uniformShift(a_rad, cos_a, sin_a).y());
    return {a_rad, cos_a, sin_a, middle.shift - turnedUp(Vec2(0, rise.middle_mm), cos_a, -sin_a),
            middle.spread_mm + rise.spread_mm};
}

// Rolling keeps the sheet's underside as far from C as C stands over the bed; uniform curvature lets it sink by
// D(1 - cos a). The leaf bears on the sheet whichever it is: its face, at its own distance from C, gives way to it.
double Motion::giveWay_mm(double a_rad, double cos_a, double sin_a, double uniform_share) const {
    const Vec2 arm = swing_->centre() - hinge_;
    const double sink_mm = -swing_->uniformShift(a_rad, cos_a, sin_a).y();
    const double underside_mm = swing_->centre().y() + uniform_share * sink_mm;
    const double face_mm = arm.x() * sin_a + arm.y() * cos_a + over_leaf_mm_;
    return std::max(0.0, underside_mm - face_mm);
}

}  // namespace tinwright
