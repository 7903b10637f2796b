// SPDX-License-Identifier: GPL-3.0-or-later
#include "solids/bodies.h"

#include <cmath>
#include <numbers>

#include "solids/inset.h"

namespace tinwright::replay {

Shape moved(Shape shape, const Rigid& by) {
    for (Prism& prism : shape.whole) prism.frame = by * prism.frame;
    for (Prism& prism : shape.shrunk) prism.frame = by * prism.frame;
    return shape;
}

Solid toSolid(const Prism& p) { return prism(p.section, p.lo_mm, p.hi_mm, p.frame); }

std::vector<Prism> grownPrisms(const Prism& p, double by_mm) {
    constexpr int kTurns = 5;  // a quarter circle from "section only" to "ends only"
    std::vector<Prism> prisms;
    for (int i = 0; i <= kTurns; ++i) {
        const double turn = 0.5 * std::numbers::pi * i / kTurns;
        const double ends = by_mm * std::sin(turn);
        const Polygon section = i == kTurns ? p.section : grown(p.section, by_mm * std::cos(turn));
        prisms.push_back({section, p.lo_mm - ends, p.hi_mm + ends, p.frame});
    }
    return prisms;
}

Body makeBody(std::string name, BodyKind kind, Shape shape) {
    Body body;
    body.name = std::move(name);
    body.kind = kind;
    for (const Prism& p : shape.whole) body.whole.push_back(toSolid(p));
    for (const Prism& p : shape.shrunk) body.shrunk.push_back(toSolid(p));
    body.shape = std::move(shape);
    return body;
}

Box boxOf(const Body& body) {
    Box box;
    for (const Solid& solid : body.whole) box.extend(solid.box);
    return box;
}

bool hangsNoLower(const Body& body, double under_mm) {
    constexpr double kTouching_mm = 0.05;
    return boxOf(body).min().z() > -under_mm - kTouching_mm;
}

bool standsOnSheet(const Body& body) { return hangsNoLower(body, 0); }

}  // namespace tinwright::replay
