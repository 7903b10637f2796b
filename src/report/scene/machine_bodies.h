// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <tinwright/brake/machines/brake.h>
#include <tinwright/brake/plan/plan.h>
#include <tinwright/brake/plan/reason.h>

#include "scene/shapes.h"

namespace tinwright::report {

class FoldScene;
struct FoldView;

/// What a body of the machine is cut to: its section in (y, z) as the brake gives it.
struct BodySection {
    BodyRef::Kind body;
    const Polygon& section;
};

/// What a kind of brake has standing round the part.
class MachineBodies {
public:
    virtual ~MachineBodies() = default;
    /// Bodies that the shop file gives a section of.
    [[nodiscard]] virtual std::vector<BodySection> sections(const Brake& brake) const = 0;
    /// A body of the machine, or tools, where they are at that angle.
    [[nodiscard]] virtual std::vector<Slab> slabsOf(const FoldView& view, BodyRef body, Angle angle) const = 0;
    /// Tools for a contact of which no more is known than its reason tells, laid over the middle of the bend.
    [[nodiscard]] virtual std::vector<PlacedTool> likelyPieces(const FoldScene& scene, const Reason& reason) const = 0;
};

[[nodiscard]] const MachineBodies& bodiesFor(const Brake& brake);
[[nodiscard]] const MachineBodies& bodiesOfKind(const LeafBrake& kind);
[[nodiscard]] const MachineBodies& bodiesOfKind(const PressBrake& kind);

/// `one` is meant by `meant`: one piece, or any of its kind.
[[nodiscard]] bool isMeant(BodyRef one, BodyRef meant);

/// A piece over the middle of the bend, as wide as there is.
[[nodiscard]] PlacedTool overTheMiddle(const FoldScene& scene, ToolId tool);

}  // namespace tinwright::report
