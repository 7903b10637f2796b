// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include "kernel/convex2.h"

namespace tinwright {

/// A piece of the body that leaves and something that it must not meet, both convex.
struct EscapePair {
    Convex2 moving;
    Convex2 still;
    bool rises = false;  ///< what stands still is of the upper row, which may go up and down meanwhile
};

/// How far the upper row may go up (or down, negative) from where it is at the start.
struct UpperTravel {
    double down_mm = 0;  ///< not positive
    double up_mm = 0;
};

/// Between two obstacles, without the ends.
struct Span {
    double lo_mm = 0;
    double hi_mm = 0;
    [[nodiscard]] double length_mm() const { return hi_mm - lo_mm; }
};

/// Heights at which a body meets nothing, at some tilts and over some stretch of y: of the body over its start (`z`,
/// held against the lower row), and of the body over the upper row (`w`: z less the rise of that row). Every z and w in
/// the two spans that the row's travel allows is free, and so is the straight way between any two such.
struct FreeRoom {
    Span z;
    Span w;
};

[[nodiscard]] FreeRoom common(const FreeRoom& a, const FreeRoom& b);
/// True when the body can be in it, given how far the upper row goes.
[[nodiscard]] bool isOpen(const FreeRoom& room, const UpperTravel& travel);

/// What keeps a body from being at a place while it is tilted from one angle to another about a point of it: for each
/// pair the sums of both shapes (Minkowski), with what turning between the two angles adds. Further than the limit from
/// its start no height is looked at.
class EscapePlane {
public:
    static constexpr double kLimit_mm = 250;

    /// `pairs` in order; from_deg <= to_deg, equal for one tilt alone.
    EscapePlane(const std::vector<EscapePair>& pairs, const Vec2& pivot, double from_deg, double to_deg);

    /// Free over all of from_mm <= y <= to_mm and at all the tilts, in ascending order of z, then w. `from_mm` may be
    /// minus infinity: the straight way forward too.
    [[nodiscard]] std::vector<FreeRoom> rooms(double from_mm, double to_mm, const UpperTravel& travel) const;
    /// From where in that stretch the straight way up is free.
    [[nodiscard]] FreeRoom openAbove(double from_mm, double to_mm) const;

private:
    // The sum, of y and z of the body's place at which both meet, counter-clockwise from its lowest corner on. Its
    // underside goes from the least y to the greatest, its top back: between them every y has all its z.
    struct Obstacle {
        explicit Obstacle(Polygon corners);
        Polygon sum;
        std::size_t under_left = 0;
        std::size_t under_right = 0;
        std::size_t over_right = 0;
        std::size_t over_left = 0;
        std::size_t highest = 0;
    };
    [[nodiscard]] static std::optional<Span> blocked(const Obstacle& obstacle, double from_mm, double to_mm);
    [[nodiscard]] static std::vector<Span> gaps(const std::vector<Obstacle>& row, double from_mm, double to_mm,
                                                Span within);
    std::vector<Obstacle> lower_;
    std::vector<Obstacle> upper_;
};

}  // namespace tinwright
