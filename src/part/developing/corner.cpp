// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>

#include "developing/layout.h"

namespace tinwright {

namespace {

// Sharper or flatter corners than about 10° have no sensible meeting of two flanges.
constexpr double kLeastSine = 0.17;

// Where the flat of a flange stands out from the start of its bend, at the most.
struct Wall {
    double inside_mm = 0;
    double outside_mm = 0;
};

// Up to 90 degrees the apex: the wall then stands there or further out. A wall that leans in starts at the end of its
// arc, r sin A out, and goes back from there; a mitre is what keeps two of them apart.
double standsOut(Face face, Angle angle, double r, double t) {
    if (angle <= Angle::degrees(90)) return setback_mm(face, angle, r, t);
    return sinCos(angle).sin * (face == Face::kInside ? r : r + t);
}

Wall wallOf(const Recipe& recipe, std::size_t flange) {
    const Flange& f = recipe.flanges[flange];
    const double r = bendRadius_mm(recipe, f);
    const double t = recipe.sheet.thickness_mm;
    return {standsOut(Face::kInside, bendAngle(f), r, t), standsOut(Face::kOutside, bendAngle(f), r, t)};
}

// The turn of the outline from the first edge to the second.
struct Turn {
    double sine = 1;
    double cosine = 0;
};

// How far `self` may run past the corner before its wall comes to `distance_mm` out from the other's edge. Its own
// wall stands out from its edge too, which at corners that are not square brings it nearer.
double reachTo(double distance_mm, const Wall& self, const Turn& turn) {
    return (distance_mm - std::max(self.inside_mm * turn.cosine, self.outside_mm * turn.cosine)) / turn.sine;
}

// Drawing each back by this along its own edge parts two ends that met in a point by `gap_mm`.
double drawBack(double gap_mm, const Turn& turn) { return gap_mm / (2.0 * std::sqrt(0.5 * (1.0 + turn.cosine))); }

// `self` as the corner lets it reach beside `other`.
double reach(const Corner& corner, bool is_over, const Wall& self, const Wall& other, const Turn& turn) {
    if (corner.type != CornerType::kOverlap)
        return reachTo(other.inside_mm, self, turn) - drawBack(corner.gap.value_mm, turn);
    return is_over ? reachTo(other.outside_mm, self, turn) : reachTo(other.inside_mm - corner.gap.value_mm, self, turn);
}

}  // namespace

void addCornerReaches(const Recipe& recipe, const RecipeTree& tree, std::size_t panel,
                      const std::vector<Segment>& edges, std::vector<CornerReach>& reaches, Issues& issues) {
    for (const Corner& corner : recipe.corners) {
        std::size_t first = *findPanel(recipe, corner.flange[0]) - 1;
        std::size_t second = *findPanel(recipe, corner.flange[1]) - 1;
        if (tree.on[first].panel != panel) continue;
        if ((tree.on[first].edge + 1) % edges.size() != tree.on[second].edge) std::swap(first, second);
        const Vec2 a = edges[tree.on[first].edge].along(), b = edges[tree.on[second].edge].along();
        const Turn turn{a.x() * b.y() - a.y() * b.x(), a.dot(b)};
        if (turn.sine < kLeastSine) {
            issues.push_back(
                {"recipe.corner", recipe.file, corner.place, "two edges that do not turn outwards by 10 to 170 degrees",
                 "a corner that points out of the panel", "use from_left and from_right of the flanges instead"});
            continue;
        }
        const Wall walls[2] = {wallOf(recipe, first), wallOf(recipe, second)};
        reaches[first].has_left = true;
        reaches[first].left_mm = reach(corner, corner.over == recipe.flanges[first].name, walls[0], walls[1], turn);
        reaches[second].has_right = true;
        reaches[second].right_mm = reach(corner, corner.over == recipe.flanges[second].name, walls[1], walls[0], turn);
    }
}

}  // namespace tinwright
