// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "solid.h"

namespace tinwright::replay {

/// A convex section in the x-y plane of a frame, drawn from z = lo to z = hi. Every body is made of such.
struct Prism {
    Polygon section;
    double lo_mm = 0;
    double hi_mm = 0;
    Rigid frame = Rigid::Identity();
};

/// A body as it is, and less the contact tolerance all round. Prisms of one shape may overlap.
struct Shape {
    std::vector<Prism> whole;
    std::vector<Prism> shrunk;
};

[[nodiscard]] Shape moved(Shape shape, const Rigid& by);
[[nodiscard]] Solid toSolid(const Prism& prism);

/// Prisms inside what lies within `by_mm` of a prism (and nothing farther), covering nearly all of it: section and
/// ends moved out by the two sides of a right triangle with `by_mm` as its long side.
[[nodiscard]] std::vector<Prism> grownPrisms(const Prism& prism, double by_mm);

enum class BodyKind { kPanel, kStrip, kBar, kBeam, kBed, kLeaf, kFrame };

/// How a body of the part lies to the plane of the clamped sheet before the swing.
enum class Lie { kInPlane, kLeavesUpward, kLeavesDownward, kApart };

/// Something that may meet something else, in the fold's frame.
struct Body {
    std::string name;  ///< "panel lid", "bend left", "bar B60", "leaf", ...
    BodyKind kind = BodyKind::kPanel;
    Lie lie = Lie::kApart;
    Shape shape;
    std::vector<Solid> whole;
    std::vector<Solid> shrunk;
    int piece = -1;          ///< of a bar: into FoldStep::bars
    std::size_t member = 0;  ///< of the part: panels first, then strips, in the part's order
};

[[nodiscard]] Body makeBody(std::string name, BodyKind kind, Shape shape);

/// Box round a whole body.
[[nodiscard]] Box boxOf(const Body& body);

}  // namespace tinwright::replay
