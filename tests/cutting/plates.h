// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cmath>
#include <numbers>
#include <string>
#include <utility>
#include <vector>

#include <tinwright/part/model/part.h>

namespace tinwright::test {

inline Polygon rectangle(double x, double y, double w, double h) {
    return {{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}};
}

inline Polygon circle(double x, double y, double diameter) {
    Polygon polygon;
    for (int i = 0; i < 72; ++i) {
        const double angle = 2 * std::numbers::pi * i / 72;
        polygon.push_back(Vec2(x, y) + 0.5 * diameter * Vec2(std::cos(angle), std::sin(angle)));
    }
    return polygon;
}

/// A slot with round ends along x: length over all.
inline Polygon slot(double x, double y, double length, double width) {
    Polygon polygon;
    for (const double side : {1.0, -1.0}) {
        const Vec2 middle(x + side * 0.5 * (length - width), y);
        for (int i = 0; i <= 18; ++i) {
            const double angle = std::numbers::pi * (i / 18.0 - 0.5);
            polygon.push_back(middle + side * 0.5 * width * Vec2(std::cos(angle), std::sin(angle)));
        }
    }
    return polygon;
}

/// A flat plate 120 by 80 mm of 1.5 mm steel, no bends, with the cut-outs that are added.
inline Part plate() {
    Part part;
    part.name = "plate";
    part.material = "dc01";
    part.thickness_mm = 1.5;
    part.blank.outline = rectangle(0, 0, 120, 80);
    part.panels.push_back({"base", part.blank});
    part.edges = {{"base.front", PanelId{0}, {0, 0}, {120, 0}},
                  {"base.right", PanelId{0}, {120, 0}, {120, 80}},
                  {"base.back", PanelId{0}, {120, 80}, {0, 80}},
                  {"base.left", PanelId{0}, {0, 80}, {0, 0}}};
    return part;
}

inline void addHole(Part& part, const std::string& name, double x, double y, double diameter) {
    part.cut_outs.push_back({name, PanelId{0}, circle(x, y, diameter), RoundHole{{x, y}, diameter}, false});
    part.blank.holes.push_back(part.cut_outs.back().outline);
}

inline void addCutOut(Part& part, const std::string& name, Polygon outline) {
    part.cut_outs.push_back({name, PanelId{0}, std::move(outline), std::nullopt, false});
    part.blank.holes.push_back(part.cut_outs.back().outline);
}

}  // namespace tinwright::test
