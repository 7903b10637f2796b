// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/geometry/planar.h>

namespace tinwright {

/// Contact that goes no deeper than this is touching, not a collision.
inline constexpr double kContactTolerance_mm = 0.05;
/// Margin for rounding of doubles at lengths of some metres.
inline constexpr double kRounding_mm = 1e-6;

/// Where a strip that rolls round the nose begins to be bent.
enum class StripStart {
    kAtHeld,    ///< at the held side's end of it: a leaf brake
    kInMiddle,  ///< in its middle, towards both ends: a press brake
};

/// How the moving side swings: a point p (in y, z) goes at angle a to C + R(a)(p - C + w(a)), with R turning the
/// front up. How the strip forms on the way is not known exactly: w lies between that of rolling round the nose
/// and that of uniform curvature (NOTES.md).
class Swing {
public:
    /// About `centre`. `allowance_mm` is the strip's width, `set_rad` the angle at the end of the stroke.
    Swing(const Vec2& centre, double allowance_mm, double set_rad, StripStart start = StripStart::kAtHeld);

    [[nodiscard]] const Vec2& centre() const { return centre_; }
    [[nodiscard]] double set_rad() const { return set_rad_; }
    [[nodiscard]] double allowance_mm() const { return allowance_mm_; }
    /// The middle of the two, and half their distance.
    struct Middle {
        Vec2 shift;
        double spread_mm;
    };
    [[nodiscard]] Middle middle(double a_rad, double cos_a, double sin_a) const;
    struct Box {
        Vec2 least;
        Vec2 most;
    };
    /// Holds w for all angles between two and every motion between rolling and uniform curvature.
    [[nodiscard]] Box boxOver(double from_rad, double cos_from, double sin_from, double to_rad, double cos_to,
                              double sin_to) const;
    /// Shift and spread of middle(a) and middle(b) each differ by at most this times |a - b|. Rolling moves at
    /// A / S, from the middle at most at A / 2 + A / S; so does uniform curvature, from D·(R - 1)ẑ = A((R - 1)ẑ / a) -
    /// (A / S)((R - 1)ẑ).
    [[nodiscard]] double rate_mm_per_rad() const {
        return allowance_mm_ * ((start_ == StripStart::kAtHeld ? 0.25 : 0.5) + 1.0 / set_rad_);
    }

    [[nodiscard]] Vec2 rollingShift(double a_rad, double cos_a, double sin_a) const;
    [[nodiscard]] Vec2 uniformShift(double a_rad, double cos_a, double sin_a) const;

private:
    Vec2 centre_;
    double allowance_mm_;
    double set_rad_;
    StripStart start_;
};

/// R(a) of the swing, in (y, z): turns the front (-y) up (+z).
[[nodiscard]] inline Vec2 turnedUp(const Vec2& p, double cos_a, double sin_a) {
    return Vec2(p.x() * cos_a + p.y() * sin_a, -p.x() * sin_a + p.y() * cos_a);
}

}  // namespace tinwright
