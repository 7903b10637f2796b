// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cmath>

#include "convex2.h"

namespace tinwright {

/// A closed range of angles with the sines and cosines of its ends. Length at most π.
struct AngleSpan {
    AngleSpan(double from_rad, double to_rad)
        : from(from_rad), to(to_rad), cos_from(std::cos(from_rad)), sin_from(std::sin(from_rad)),
          cos_to(std::cos(to_rad)), sin_to(std::sin(to_rad)) {}
    double from;
    double to;
    double cos_from, sin_from, cos_to, sin_to;

    [[nodiscard]] double mid() const { return 0.5 * (from + to); }
    [[nodiscard]] double half() const { return 0.5 * (to - from); }

    /// Least value of k·cos a + m·sin a for a in the span. A sinusoid has its least value inside exactly when it
    /// falls at the start and rises at the end (the span is no longer than half a turn).
    [[nodiscard]] double leastOf(double k, double m) const {
        const double at_from = k * cos_from + m * sin_from;
        const double at_to = k * cos_to + m * sin_to;
        const bool falls = m * cos_from - k * sin_from < 0;
        const bool rises = m * cos_to - k * sin_to > 0;
        if (falls && rises) return -std::sqrt(k * k + m * m);
        return at_from < at_to ? at_from : at_to;
    }
};

/// The axis that separated two polygons last: tried first next time.
struct AxisHint {
    std::size_t index = 0;
};

/// A lower bound, over all angles of the span, of the distance between `still` and `turning` moved by `shift` and
/// then turned up by the angle about the origin (see turnedUp). Both are given relative to the centre. Negative: it
/// may be that they overlap. Over a span of no length it is the exact separation along the best edge normal. Stops
/// early once the bound exceeds `enough`.
[[nodiscard]] double spanGap(const Convex2& turning, const Vec2& shift, const Convex2& still, const AngleSpan& span,
                             double enough, AxisHint& hint);

}  // namespace tinwright
