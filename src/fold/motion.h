// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cmath>

#include "planar_sweep.h"
#include "swing.h"

namespace tinwright {

/// How a solid moves against a body during a stroke, seen from the body: at angle a in [0, end] a point p, given
/// relative to `centre`, is at R(a)(p + shift(a)), give or take spread(a). Some bodies do not turn against each other:
/// then R is left out. Everything is planar: x never changes.
class Motion {
public:
    /// Nothing moves (held side against bars, beam and bed).
    [[nodiscard]] static Motion still() { return Motion(Kind::kStill, Vec2::Zero(), 0); }
    /// The moving side against what stands still.
    [[nodiscard]] static Motion swing(const Swing& swing) {
        Motion motion(Kind::kSwing, swing.centre(), swing.set_rad());
        motion.swing_ = &swing;
        motion.rate_ = swing.rate_mm_per_rad();
        return motion;
    }
    /// The held side seen from the leaf, mirrored in y: there it turns up about the mirrored hinge.
    [[nodiscard]] static Motion heldFromLeaf(const Vec2& hinge, double set_rad) {
        return Motion(Kind::kHeldFromLeaf, Vec2(-hinge.x(), hinge.y()), set_rad);
    }
    /// The moving side seen from the leaf: it slides a little, and the leaf's face gives way where the sheet lies on it
    /// (NOTES.md).
    [[nodiscard]] static Motion movingFromLeaf(const Swing& swing, const Vec2& hinge) {
        Motion motion(Kind::kMovingFromLeaf, Vec2::Zero(), swing.set_rad());
        motion.swing_ = &swing;
        motion.hinge_ = hinge;
        motion.rate_ = 3 * swing.rate_mm_per_rad() + 2 * (swing.centre() - hinge).norm();
        return motion;
    }

    /// What stands still (bars, beam) seen from the leaf that bears on the sheet, mirrored in y like heldFromLeaf.
    [[nodiscard]] static Motion standingFromLeaf(const Swing& swing, const Vec2& hinge) {
        Motion motion = heldFromLeaf(hinge, swing.set_rad());
        motion.kind_ = Kind::kStandingFromLeaf;
        motion.gives_way_to_ = &swing;
        motion.hinge_ = hinge;
        // how fast the face gives way, and how far at most: its direction turns with the leaf
        const double arm = (swing.centre() - hinge).norm();
        motion.rate_ = 2 * arm + 2 * swing.rate_mm_per_rad() + swing.centre().y() + arm + 2 * swing.allowance_mm();
        return motion;
    }

    [[nodiscard]] bool turns() const { return kind_ != Kind::kStill && kind_ != Kind::kMovingFromLeaf; }
    [[nodiscard]] const Vec2& centre() const { return centre_; }
    [[nodiscard]] double end_rad() const { return end_rad_; }
    [[nodiscard]] double rate_mm_per_rad() const { return rate_; }
    [[nodiscard]] double spread_mm(double a_rad) const { return swing_ == nullptr ? 0.0 : swing_->spread_mm(a_rad); }
    [[nodiscard]] Vec2 shift(double a_rad) const {
        if (kind_ == Kind::kSwing) return swing_->shift(a_rad);
        if (kind_ == Kind::kStandingFromLeaf) return turnedUp(Vec2(0, giveWay_mm(*gives_way_to_, a_rad)), std::cos(a_rad), -std::sin(a_rad));
        return kind_ == Kind::kMovingFromLeaf ? slide(a_rad) : Vec2::Zero();
    }
    /// A bound of |shift| over the whole stroke, spread included.
    [[nodiscard]] double shiftBound_mm() const { return kind_ == Kind::kStill ? 0.0 : rate_ * end_rad_ + (swing_ == nullptr ? 0.0 : swing_->allowance_mm()); }

private:
    enum class Kind { kStill, kSwing, kHeldFromLeaf, kMovingFromLeaf, kStandingFromLeaf };
    Motion(Kind kind, const Vec2& centre, double end_rad) : kind_(kind), centre_(centre), end_rad_(end_rad) {}
    [[nodiscard]] double giveWay_mm(const Swing& swing, double a_rad) const;
    [[nodiscard]] Vec2 slide(double a_rad) const;

    Kind kind_;
    Vec2 centre_;
    double end_rad_;
    double rate_ = 0;
    Vec2 hinge_ = Vec2::Zero();
    const Swing* swing_ = nullptr;          // of the moving side
    const Swing* gives_way_to_ = nullptr;   // the sheet that the leaf bears on
};

/// A range of angles of a motion with what the kernel needs to know of it.
struct MotionSpan {
    MotionSpan(const Motion& motion, double from_rad, double to_rad)
        : angles(from_rad, to_rad), turn(motion.turns() ? angles : AngleSpan(0, 0)), shift(motion.shift(angles.mid())),
          spread_mm(motion.spread_mm(angles.mid())), drift_mm(2 * motion.rate_mm_per_rad() * angles.half()) {}
    AngleSpan angles;
    AngleSpan turn;      ///< the turning of the solid against the body
    Vec2 shift;          ///< at the middle of the span
    double spread_mm;    ///< at the middle of the span
    double drift_mm;     ///< how far shift and spread together may stray from that within the span
    /// What a gap found with `shift` must exceed to hold for every motion and angle of the span.
    [[nodiscard]] double slack_mm() const { return spread_mm + drift_mm; }
};

}  // namespace tinwright
