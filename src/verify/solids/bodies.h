// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "solids/solid.h"

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

/// Punches are bars, a ram is a beam. Frames close an end of the machine, side frames stand behind both ends of a press
/// brake.
enum class BodyKind { kPanel, kStrip, kBar, kDie, kBeam, kBed, kLeaf, kFrame, kSideFrame };

/// What a tool goes with.
enum class Carrier {
    kGround,  ///< stands still
    kUpper,   ///< bars and beam, punches and ram: lifted to get things in and out
    kLower,   ///< dies and bed of a press brake: they come up during the stroke
};

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
    int piece = -1;  ///< of a bar or die: into FoldStep::tools
    Carrier carrier = Carrier::kGround;
    std::size_t member = 0;  ///< of the part: panels first, then strips, in the part's order
};

[[nodiscard]] Body makeBody(std::string name, BodyKind kind, Shape shape);

/// Box round a whole body.
[[nodiscard]] Box boxOf(const Body& body);

/// Nothing of it is further under the clamped sheet's lower face before the swing than that.
[[nodiscard]] bool hangsNoLower(const Body& body, double under_mm);
/// Nothing of it is under that face at all: it stands on the sheet, so to speak.
[[nodiscard]] bool standsOnSheet(const Body& body);

}  // namespace tinwright::replay
