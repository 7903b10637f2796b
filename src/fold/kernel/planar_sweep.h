// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <cmath>
#include <vector>

#include "kernel/convex2.h"

namespace tinwright {

/// Cosines and sines of the ends of a range of turns, in the sense of turnedUp; the turn grows from the first to the
/// second, by at most half a turn.
struct TurnSpan {
    double cos_from = 1;
    double sin_from = 0;
    double cos_to = 1;
    double sin_to = 0;
    [[nodiscard]] bool isPoint() const { return cos_from == cos_to && sin_from == sin_to; }
    [[nodiscard]] TurnSpan reversed() const { return {cos_to, -sin_to, cos_from, -sin_from}; }
};

/// How far a shift may stray from the one that is given: within a box of these half widths and within a radius.
struct Stray {
    Vec2 half = Vec2::Zero();
    double radius_mm = 0;
    /// The most that it makes along a direction.
    [[nodiscard]] double along(const Vec2& m) const {
        return std::min(std::abs(m.x()) * half.x() + std::abs(m.y()) * half.y(), radius_mm * m.norm());
    }
};

/// Where a body may be that is first moved and then turned.
struct Placing {
    TurnSpan turn;
    Vec2 shift = Vec2::Zero();
    Stray stray;
};

/// Corners that turn about the origin of the (y, z) plane, x staying what it is: least values along directions.
class TurnedCorners {
public:
    /// Scratch that is filled again and again keeps its memory.
    void start(const TurnSpan& span) {
        corners_.clear();
        span_ = span;
        is_point_ = span.isPoint();
    }
    /// A corner at turn 0.
    void add(const Vec2& p, double x = 0);
    /// Least value over the span of nx·x + n·R(a)p over all corners; stops at the first corner that is at `give_up` or
    /// under.
    [[nodiscard]] double least(const Vec2& n, double give_up, double nx = 0) const;

private:
    struct Corner {
        Vec2 from;  // where it is at the span's ends
        Vec2 to;
        double radius;
        double x;
    };
    std::vector<Corner> corners_;
    TurnSpan span_;
    bool is_point_ = true;
};

/// The axis that separated two polygons last: tried first next time.
struct AxisHint {
    std::size_t index = 0;
};

/// A lower bound, over all turns and shifts of the placing, of the distance between `still` and `turning` moved and
/// then turned up about `centre`. Negative: it may be that they overlap. For a turn without length and without stray it
/// is the exact separation along the best normal. Stops early once the bound exceeds `enough`.
[[nodiscard]] double spanGap(const Convex2& turning, const Placing& placing, const Convex2& still, const Vec2& centre,
                             double enough, AxisHint& hint);

}  // namespace tinwright
