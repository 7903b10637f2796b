// SPDX-License-Identifier: GPL-3.0-or-later
#include "developing/corner_cut.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include <tinwright/geometry/cross.h>

#include "developing/cut_out.h"

namespace tinwright {

namespace {

constexpr double kNone_mm = 1e-6;  // no length at all

bool isTooShort(double length_mm) { return length_mm > kNone_mm && length_mm < kShortestCut_mm + kNone_mm; }

/// One flange of a corner as a relief meets it: p from the corner in along the flange's edge, q out over its strip.
struct Side {
    double strip_mm = 0;  ///< p at which the strip ends
    double panel_mm = 0;  ///< and the panel, negative past the corner
    double allowance_mm = 0;
};

// Half a square relief, in along the edge: level with the end of the strip, or clear of it.
double inAlong_mm(double half_mm, const Side& side) {
    const double past_mm = half_mm - side.strip_mm;
    if (side.strip_mm <= kNone_mm || !isTooShort(std::abs(past_mm))) return half_mm;
    return past_mm < 0 ? side.strip_mm : side.strip_mm + kCutStep_mm;
}

// Out over the strip: level with where the flange begins, or clear of it.
double outOver_mm(double half_mm, const Side& side) {
    return isTooShort(std::abs(half_mm - side.allowance_mm)) ? side.allowance_mm : half_mm;
}

// The circle is made of chords, a little inside of it: where it crosses a line at a flat angle is known to a tenth or
// so.
bool isNearNothing(double length_mm) { return length_mm > -0.15 && length_mm < kCutStep_mm; }

// Whether a round relief leaves a straight piece beside it on this side that is too short.
bool leavesShort(double radius_mm, const Side& side) {
    if (radius_mm <= side.strip_mm) return isNearNothing(side.strip_mm - radius_mm);
    if (side.strip_mm > kNone_mm && isNearNothing(radius_mm - side.strip_mm)) return true;
    const double down_mm = std::sqrt(radius_mm * radius_mm - side.strip_mm * side.strip_mm);
    if (isNearNothing(side.allowance_mm - down_mm)) return true;
    if (radius_mm <= side.allowance_mm) return false;
    // It goes into the flange too: what of the flange's near edge is left inside of it and outside.
    const double across_mm = std::sqrt(radius_mm * radius_mm - side.allowance_mm * side.allowance_mm);
    return (across_mm > side.panel_mm && isNearNothing(side.strip_mm - across_mm)) ||
           isNearNothing(-across_mm - side.panel_mm);
}

double roundRadius_mm(double radius_mm, const std::array<Side, 2>& sides) {
    constexpr double kStep_mm = 0.02;
    constexpr int kSteps = 50;
    for (int i = 0; i < kSteps; ++i) {
        const double larger_mm = radius_mm + kStep_mm * i;
        if (!leavesShort(larger_mm, sides[0]) && !leavesShort(larger_mm, sides[1])) return larger_mm;
    }
    return radius_mm;
}

}  // namespace

CornerPlace cornerPlace(const Recipe& recipe, const Layout& layout, const Corner& corner) {
    CornerPlace place;
    place.first = *findPanel(recipe, corner.flange[0]) - 1;
    place.second = *findPanel(recipe, corner.flange[1]) - 1;
    place.parent = layout.tree.on[place.first].panel;
    const auto& edges = layout.panels[place.parent].edges;
    if ((layout.tree.on[place.first].edge + 1) % edges.size() != layout.tree.on[place.second].edge)
        std::swap(place.first, place.second);
    const Segment& first = edges[layout.tree.on[place.first].edge];
    const Segment& second = edges[layout.tree.on[place.second].edge];
    place.at = first.to;
    place.along_first = -first.along();
    place.along_second = second.along();
    place.first_end = layout.leftEnd(place.first);
    place.second_end = layout.rightEnd(place.second);
    return place;
}

std::vector<Polygon> cornerTips(const Recipe& recipe, const Layout& layout, std::size_t panel) {
    std::vector<Polygon> tips;
    for (const Corner& corner : recipe.corners) {
        const CornerPlace place = cornerPlace(recipe, layout, corner);
        const double first_mm = place.first_end.strip_mm, second_mm = place.second_end.strip_mm;
        if (place.parent != panel || std::min(first_mm, second_mm) <= kNone_mm) continue;
        if (!isTooShort(first_mm) && !isTooShort(second_mm)) continue;
        // The ends of both strips, gone on into the panel until they meet.
        const Vec2 a = place.at + first_mm * place.along_first, b = place.at + second_mm * place.along_second;
        const Vec2 into_a(place.along_first.y(), -place.along_first.x()),
            into_b(-place.along_second.y(), place.along_second.x());
        const double sine = cross(into_a, into_b);
        if (std::abs(sine) < kNone_mm) continue;
        const double along_a_mm = cross(b - a, into_b) / sine, along_b_mm = cross(b - a, into_a) / sine;
        if (along_a_mm <= 0 || along_b_mm <= 0) continue;
        Polygon tip{place.at, b, a + along_a_mm * into_a, a};
        if (signedArea_mm2(tip) < 0) std::reverse(tip.begin(), tip.end());
        tips.push_back(std::move(tip));
    }
    return tips;
}

std::optional<Polygon> cornerRelief(const Recipe& recipe, const Layout& layout, const Corner& corner) {
    if (corner.relief == ReliefShape::kNone) return std::nullopt;
    const CornerPlace place = cornerPlace(recipe, layout, corner);
    const Side first{place.first_end.strip_mm, place.first_end.panel_mm, layout.bends[place.first].allowance_mm};
    const Side second{place.second_end.strip_mm, place.second_end.panel_mm, layout.bends[place.second].allowance_mm};
    const double half_mm = 0.5 * corner.relief_size.value_mm;
    Polygon relief;
    if (corner.relief == ReliefShape::kSquare && place.isSquare()) {
        const double in_mm[] = {inAlong_mm(half_mm, first), inAlong_mm(half_mm, second)};
        const double out_mm[] = {outOver_mm(half_mm, first), outOver_mm(half_mm, second)};
        for (const Vec2& p : {Vec2(-out_mm[1], -out_mm[0]), Vec2(in_mm[0], -out_mm[0]), Vec2(in_mm[0], in_mm[1]),
                              Vec2(-out_mm[1], in_mm[1])})
            relief.push_back(place.at + p.x() * place.along_first + p.y() * place.along_second);
    } else {
        CutOut shape;
        shape.shape = corner.relief == ReliefShape::kRound ? CutOutShape::kCircle : CutOutShape::kRectangle;
        shape.width = shape.height = shape.diameter = corner.relief_size;
        if (corner.relief == ReliefShape::kRound && place.isSquare())
            shape.diameter.value_mm = 2 * roundRadius_mm(half_mm, {first, second});
        const Vec2 out(-place.along_first.y(), place.along_first.x());
        for (const Vec2& p : cutOutShape(shape)) relief.push_back(place.at - p.x() * place.along_first - p.y() * out);
    }
    if (signedArea_mm2(relief) < 0) std::reverse(relief.begin(), relief.end());
    return relief;
}

}  // namespace tinwright
