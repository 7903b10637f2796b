// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include <tinwright/base/issue.h>
#include <tinwright/part/developing/develop.h>

namespace tinwright::test {

/// A rectangle of sheet to hang flanges on.
inline Recipe plate(double width, double depth, double t, double r, Measured measured) {
    Recipe recipe;
    recipe.name = "test";
    recipe.sheet = {"mild-steel", t, "/sheet", {}, Film::kUnsaid};
    recipe.inside_radius_mm = r;
    recipe.measured = measured;
    recipe.base.name = "base";
    recipe.base.place = "/base";
    recipe.base.width = Dimension::of(width);
    recipe.base.depth = Dimension::of(depth);
    return recipe;
}

inline Flange& addFlange(Recipe& recipe, const std::string& name, const std::string& on, double length,
                         double angle_deg = 90, bool up = true) {
    Flange flange;
    flange.name = name;
    flange.on = on;
    flange.length = Dimension::of(length);
    flange.angle_deg = angle_deg;
    flange.up = up;
    flange.place = "/flanges/" + std::to_string(recipe.flanges.size());
    recipe.flanges.push_back(flange);
    return recipe.flanges.back();
}

inline std::string textOf(const Issues& issues) {
    std::string text;
    for (const Issue& issue : issues) text += toText(issue) + "\n";
    return text;
}

inline bool hasCode(const Issues& issues, const std::string& code) {
    for (const Issue& issue : issues) {
        if (issue.code == code) return true;
    }
    return false;
}

inline const Panel& panelOf(const Part& part, const std::string& name) {
    for (const Panel& panel : part.panels) {
        if (panel.name == name) return panel;
    }
    TINWRIGHT_REQUIRE(false, "the part has a panel of this name");
    return part.panels.front();
}

inline std::size_t indexOf(const Part& part, const std::string& name) {
    return static_cast<std::size_t>(&panelOf(part, name) - part.panels.data());
}

/// Length of the blank across all bends of a chain: the y extent.
inline double blankDepth(const Part& part) {
    double lo = 1e300, hi = -1e300;
    for (const Vec2& p : part.blank.outline) lo = std::min(lo, p.y()), hi = std::max(hi, p.y());
    return hi - lo;
}

/// A floor with two walls, 30 and 25 high outside, that meet in one corner.
inline Recipe corner(CornerType type, double gap, double angle_a = 90, double angle_b = 90) {
    Recipe recipe = plate(100, 60, 1.5, 2, Measured::kOutside);
    addFlange(recipe, "front", "base.front", 30, angle_a);
    addFlange(recipe, "right", "base.right", 25, angle_b);
    Corner corner;
    corner.flange[0] = "front";
    corner.flange[1] = "right";
    corner.type = type;
    corner.over = "front";
    if (gap > 0) corner.gap = Dimension::of(gap);
    corner.place = "/corners/0";
    recipe.corners.push_back(corner);
    return recipe;
}

}  // namespace tinwright::test
