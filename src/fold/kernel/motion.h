// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "kernel/planar_sweep.h"
#include "kernel/swing.h"

namespace tinwright {

/// A motion at one angle of the stroke: a point p, given relative to the centre, is at R(p + shift), give or take the
/// spread; R turns up by `cos_turn`, `sin_turn`.
struct Moment {
    double angle_rad = 0;
    double cos_turn = 1;
    double sin_turn = 0;
    Vec2 shift = Vec2::Zero();
    double spread_mm = 0;
};

class VeeBearing;

/// What a leaf turns about.
struct LeafHinge {
    Vec2 place = Vec2::Zero();
    double over_leaf_mm = 0;  ///< over what of the leaf bears on the sheet, at rest
};

/// How a solid moves against a body during a stroke, seen from the body. Some bodies do not turn against each other:
/// then R is left out. Everything is planar: x never changes.
class Motion {
public:
    /// Nothing moves (held side against bars, beam and bed).
    [[nodiscard]] static Motion still();
    /// The moving side against what stands still. The swing must outlive the motion, here and below.
    [[nodiscard]] static Motion swing(const Swing& swing);
    /// The held side seen from the leaf: it turns down about the hinge.
    [[nodiscard]] static Motion heldFromLeaf(const Vec2& hinge, double set_rad);
    /// The moving side seen from the leaf: it slides a little, and the leaf's face gives way where the sheet lies on it
    /// (NOTES.md).
    [[nodiscard]] static Motion movingFromLeaf(const Swing& swing, const LeafHinge& leaf);
    /// What stands still (bars, beam) seen from the leaf that bears on the sheet.
    [[nodiscard]] static Motion standingFromLeaf(const Swing& swing, const LeafHinge& leaf);

    /// How far the leaf's face gives way at most in that motion: no less than it does.
    [[nodiscard]] double mostGiveWay_mm() const;
    /// Of a press brake, at half the angle of the bend. The front against what stands still (punch, ram, frames), and
    /// the back, which goes as its mirror image.
    [[nodiscard]] static Motion front(const Swing& half) { return swing(half); }
    [[nodiscard]] static Motion back(const Swing& half);
    /// The same seen from the dies, which rise with the sheet that bears on them.
    [[nodiscard]] static Motion frontFromDie(const Swing& half, const VeeBearing& bearing);
    [[nodiscard]] static Motion backFromDie(const Swing& half, const VeeBearing& bearing);

    [[nodiscard]] bool turns() const { return kind_ != Kind::kStill && kind_ != Kind::kMovingFromLeaf; }
    /// Seen from the leaf what stands still turns the other way, and so does the back of a press brake.
    [[nodiscard]] bool turnsDown() const {
        return kind_ == Kind::kHeldFromLeaf || kind_ == Kind::kStandingFromLeaf || mirrored_;
    }
    [[nodiscard]] const Vec2& centre() const { return centre_; }
    [[nodiscard]] double end_rad() const { return end_rad_; }
    [[nodiscard]] double rate_mm_per_rad() const { return rate_; }
    [[nodiscard]] Moment at(double a_rad) const;
    /// Holds every motion within the spread, at every angle between two moments; `mid` is the moment halfway.
    [[nodiscard]] Placing placing(const Moment& from, const Moment& mid, const Moment& to) const;
    /// A bound of |shift| over the whole stroke, spread included.
    [[nodiscard]] double shiftBound_mm() const;

    /// The same from halfway on.
    [[nodiscard]] Motion late() const;

    /// Start, middle and end of the stroke: where every look at a motion begins.
    [[nodiscard]] const Moment& start() const { return start_; }
    [[nodiscard]] const Moment& middle() const { return middle_; }
    [[nodiscard]] const Moment& end() const { return end_; }

private:
    enum class Kind { kStill, kSwing, kHeldFromLeaf, kMovingFromLeaf, kStandingFromLeaf, kFromDie };
    Motion(Kind kind, const Vec2& centre, double end_rad) : kind_(kind), centre_(centre), end_rad_(end_rad) {}
    [[nodiscard]] Motion finished() const;
    [[nodiscard]] Motion mirrored() const;
    [[nodiscard]] Moment unmirrored(double a_rad) const;
    /// Of the leaf's face, for a strip between rolling (0) and uniform curvature (1).
    [[nodiscard]] double giveWay_mm(double a_rad, double cos_a, double sin_a, double uniform_share) const;
    [[nodiscard]] Moment fromDie(double a_rad, double cos_a, double sin_a) const;

    Kind kind_;
    Vec2 centre_;
    double end_rad_;
    double rate_ = 0;
    Vec2 hinge_ = Vec2::Zero();
    double over_leaf_mm_ = 0;              // the hinge over what of the leaf bears on the sheet
    const Swing* swing_ = nullptr;         // of the moving side, or of the sheet that the leaf bears on
    bool spreads_ = false;                 // the swing's spread is that of this motion
    const VeeBearing* bearing_ = nullptr;  // seen from the die
    bool mirrored_ = false;                // in y
    Moment start_, middle_, end_;
};

/// A range of angles of a motion with what the kernel needs to know of it.
class MotionSpan {
public:
    /// The whole stroke.
    explicit MotionSpan(const Motion& motion) : MotionSpan(motion, motion.start(), motion.middle(), motion.end()) {}
    [[nodiscard]] MotionSpan firstHalf() const {
        return {*motion_, from_, motion_->at(0.5 * (from_.angle_rad + mid_.angle_rad)), mid_};
    }
    [[nodiscard]] MotionSpan secondHalf() const {
        return {*motion_, mid_, motion_->at(0.5 * (mid_.angle_rad + to_.angle_rad)), to_};
    }
    /// Its middle as a span without length.
    [[nodiscard]] MotionSpan atMiddle() const { return {*motion_, mid_, mid_, mid_}; }
    [[nodiscard]] static MotionSpan at(const Motion& motion, double a_rad) {
        const Moment moment = motion.at(a_rad);
        return {motion, moment, moment, moment};
    }
    [[nodiscard]] static MotionSpan between(const Motion& motion, double from_rad, double to_rad) {
        return {motion, motion.at(from_rad), motion.at(0.5 * (from_rad + to_rad)), motion.at(to_rad)};
    }

    [[nodiscard]] const Moment& mid() const { return mid_; }
    [[nodiscard]] double half_rad() const { return 0.5 * (to_.angle_rad - from_.angle_rad); }
    /// How far shift and spread may each stray, within the span, from what they are in its middle.
    [[nodiscard]] double drift_mm() const { return motion_->rate_mm_per_rad() * half_rad(); }

    /// Every motion within the spread, at every angle of the span.
    [[nodiscard]] const Placing& all() const { return all_; }
    /// The middle one of the motions, at every angle of the span.
    [[nodiscard]] Placing middleOne() const {
        return {all_.turn, mid_.shift, {Vec2::Constant(drift_mm()), drift_mm()}};
    }

private:
    MotionSpan(const Motion& motion, const Moment& from, const Moment& mid, const Moment& to)
        : motion_(&motion), from_(from), mid_(mid), to_(to), all_(motion.placing(from, mid, to)) {}
    const Motion* motion_;
    Moment from_, mid_, to_;
    Placing all_;
};

}  // namespace tinwright
