// SPDX-License-Identifier: GPL-3.0-or-later
#include "motion.h"

#include <algorithm>
#include <cmath>

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

Motion Motion::heldFromLeaf(const Vec2& hinge, double set_rad) { return Motion(Kind::kHeldFromLeaf, hinge, set_rad).finished(); }

Motion Motion::movingFromLeaf(const Swing& swing, const Vec2& hinge) {
    Motion motion(Kind::kMovingFromLeaf, Vec2::Zero(), swing.set_rad());
    motion.swing_ = &swing;
    motion.spreads_ = true;
    motion.hinge_ = hinge;
    motion.rate_ = 3 * swing.rate_mm_per_rad() + 2 * (swing.centre() - hinge).norm();
    return motion.finished();
}

Motion Motion::standingFromLeaf(const Swing& swing, const Vec2& hinge) {
    Motion motion(Kind::kStandingFromLeaf, hinge, swing.set_rad());
    motion.swing_ = &swing;
    motion.hinge_ = hinge;
    // how fast the face gives way, and how far at most: its direction turns with the leaf
    const double arm = (swing.centre() - hinge).norm();
    motion.rate_ = 2 * arm + 2 * swing.rate_mm_per_rad() + swing.centre().y() + arm + 2 * swing.allowance_mm();
    return motion.finished();
}

Moment Motion::at(double a_rad) const {
    if (kind_ == Kind::kStill) return {a_rad, 1, 0, Vec2::Zero(), 0};
    const double cos_a = std::cos(a_rad);
    const double sin_a = std::sin(a_rad);
    switch (kind_) {
        case Kind::kHeldFromLeaf: return {a_rad, cos_a, -sin_a, Vec2::Zero(), 0};
        // The leaf's face drawn back along its normal is what stands still moved up by as much, seen from the leaf.
        case Kind::kStandingFromLeaf:
            return {a_rad, cos_a, -sin_a, turnedUp(Vec2(0, giveWay_mm(a_rad, cos_a, sin_a)), cos_a, sin_a), 0};
        // From H + R(-a)(C + R(a)(p - C + w) - H) = p + (H - C) + R(-a)(C - H) + w. The leaf's face, drawn back along its
        // normal, is the solid moved up by as much.
        case Kind::kMovingFromLeaf: {
            const Swing::Middle middle = swing_->middle(a_rad, cos_a, sin_a);
            const Vec2 arm = swing_->centre() - hinge_;
            const Vec2 back = turnedUp(arm, cos_a, -sin_a) - arm;
            return {a_rad, 1, 0, middle.shift + back + Vec2(0, giveWay_mm(a_rad, cos_a, sin_a)), middle.spread_mm};
        }
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
        const Swing::Box box = swing_->boxOver(from.angle_rad, from.cos_turn, from.sin_turn, to.angle_rad, to.cos_turn, to.sin_turn);
        const Vec2 half = 0.5 * (box.most - box.least);
        return {turn, 0.5 * (box.least + box.most), {half, half.norm()}};
    }
    const double radius_mm = mid.spread_mm + rate_ * (to.angle_rad - from.angle_rad);  // of shift and of spread, half the span each way
    return {turn, mid.shift, {Vec2::Constant(radius_mm), radius_mm}};
}

// Rolling keeps the sheet's underside as far from C as C stands over the bed; uniform curvature lets it sink by
// D(1 - cos a). The leaf bears on the sheet whichever it is: its face, at its own distance from C, gives way to the lowest that
// the sheet may be.
double Motion::giveWay_mm(double a_rad, double cos_a, double sin_a) const {
    const Vec2 arm = swing_->centre() - hinge_;
    const double sink_mm = -swing_->uniformShift(a_rad, cos_a, sin_a).y();
    const double underside_mm = swing_->centre().y() + 0.5 * sink_mm + swing_->middle(a_rad, cos_a, sin_a).spread_mm;
    const double face_mm = arm.x() * sin_a + arm.y() * cos_a + hinge_.y();
    return std::max(0.0, underside_mm - face_mm);
}

}  // namespace tinwright
