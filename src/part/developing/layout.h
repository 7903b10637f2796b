// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <Eigen/Geometry>

#include <tinwright/geometry/planar.h>

#include "recipe/recipe_tree.h"

namespace tinwright {

struct Segment {
    Vec2 from = Vec2::Zero();
    Vec2 to = Vec2::Zero();
    [[nodiscard]] double length() const { return (to - from).norm(); }
    [[nodiscard]] Vec2 along() const { return (to - from).normalized(); }
    /// Points out of a panel whose outline runs counter-clockwise.
    [[nodiscard]] Vec2 outward() const {
        const Vec2 d = along();
        return {d.y(), -d.x()};
    }
};

/// A panel in the flat, before cut-outs.
struct PanelLayout {
    Vec2 u = Vec2::UnitX();  ///< base: x; flange: along its bend, left to right
    Vec2 v = Vec2::UnitY();  ///< base: y; flange: away from its parent
    Polygon outline;
    std::vector<Segment> edges;  ///< as edgeNames()
};

/// A bend in the flat. u is measured from `origin` along the flange's u.
struct BendLayout {
    Vec2 origin = Vec2::Zero();  ///< left end of the parent's edge
    double edge_mm = 0;          ///< length of that edge
    double from_mm = 0;          ///< strip, within the edge
    double to_mm = 0;
    double allowance_mm = 0;
    AllowanceRule rule = AllowanceRule::kKFactor;
    double rule_value = 0;
    std::string rule_source;
};

/// What of an outline is shorter follows from sums of radii and gaps, not from what somebody wants cut: corners are
/// made without it.
inline constexpr double kShortestCut_mm = 0.2;
/// What is made instead: clear of that, whatever grid a drawing is rounded to.
inline constexpr double kCutStep_mm = 0.25;

/// Where everything lies in the flat. Panels and bends in the recipe's numbering (recipe_tree.h).
struct Layout {
    RecipeTree tree;
    std::vector<PanelLayout> panels;
    std::vector<BendLayout> bends;  ///< by flange
    std::vector<std::string> warnings;

    /// How far before the corner of its parent's edge a flange's strip ends, and how far its panel does (negative: past
    /// it). Left is where `origin` is.
    struct End {
        double strip_mm = 0;
        double panel_mm = 0;
    };
    [[nodiscard]] End leftEnd(std::size_t flange) const;
    [[nodiscard]] End rightEnd(std::size_t flange) const;

    /// The strip of a bend as a counter-clockwise rectangle.
    [[nodiscard]] Polygon strip(std::size_t flange) const;
};

[[nodiscard]] Angle bendAngle(const Flange& flange);
[[nodiscard]] double bendRadius_mm(const Recipe& recipe, const Flange& flange);
/// How a dimension of a panel is measured, the panel's and the recipe's word taken in.
[[nodiscard]] Measured measuredHow(const Recipe& recipe, const Dimension& dimension, Measured panel);

/// Distance from an edge (the start of its bends) out to the mould line that a dimension runs to; 0 when it carries no
/// bend. Reports "recipe.edge.mixed" when its flanges do not agree.
[[nodiscard]] double edgeSetback_mm(const Recipe& recipe, const RecipeTree& tree, EdgeRef edge, Measured measured,
                                    const std::string& place, Issues& issues);

/// How far the flanges of the recipe's corners reach past the corner of their parent's flat edge.
struct CornerReach {
    bool has_left = false;
    bool has_right = false;
    double left_mm = 0;
    double right_mm = 0;
};
/// Corners on one panel whose edges are known; fills in the flanges that it concerns.
void addCornerReaches(const Recipe& recipe, const RecipeTree& tree, std::size_t panel,
                      const std::vector<Segment>& edges, std::vector<CornerReach>& reaches, Issues& issues);

/// A recipe that passed checkRecipe. Issues as develop() says.
[[nodiscard]] Layout layOut(const Recipe& recipe, Issues& issues);

/// The base panel alone.
[[nodiscard]] PanelLayout layOutBase(const Recipe& recipe, const RecipeTree& tree, Issues& issues);

}  // namespace tinwright
