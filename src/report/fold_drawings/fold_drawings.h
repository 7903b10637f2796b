// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <tinwright/report/data/bar_datum.h>

#include "paper/drawing.h"
#include "scene/fold_view.h"

namespace tinwright::report {

/// A tool in section, in (y, z).
struct ToolSection {
    Polygon section;
    Fill fill;
    std::string name;  ///< empty: it is not told
};

/// The drawings of a fold as a kind of brake has them. All are to scale, and seen as its person at the machine sees it.
class FoldDrawings {
public:
    virtual ~FoldDrawings() = default;

    /// A cross-section square to the bend, seen from the right end of the machine with the operator on the left: tools
    /// and sheet with the stroke's ends, and where it is tightest; what is not cut in thin outline.
    [[nodiscard]] virtual Drawing section(const FoldView& view, const std::string& title) const = 0;
    /// The same stopped at a first contact, which is ringed.
    [[nodiscard]] virtual Drawing contact(const FoldView& view, const std::string& title, double depth_mm) const = 0;

    /// The machine seen from above before the stroke, operator at the foot: the part as it lies, tools where they stand
    /// with the figures of both ends from the datum edge (else from the bend's left end), the bend's line, ends of the
    /// machine that are near.
    [[nodiscard]] virtual Drawing fromAbove(const FoldView& view, const std::optional<BarDatum>& datum,
                                            const std::string& title) const = 0;
    /// What stands in the way of a fold, seen from above: the first contact, or the room that no string of tools fills.
    [[nodiscard]] virtual Drawing contactFromAbove(const FoldView& view, const std::string& title) const = 0;

    /// What hems are closed between, shut on them, in the frame of the closing. Precondition: the step has a closing.
    [[nodiscard]] virtual std::vector<ToolSection> closingTools(const BrakeInSetup& brake,
                                                                const FoldStep& step) const = 0;
};

/// The first piece of a step that is a tool of this kind, "firstTool(*brake, step, &Brake::die)"; nullptr: none is.
template <class Kind>
[[nodiscard]] const Kind* firstTool(const Brake& brake, const FoldStep& step, const Kind* (Brake::*as)(ToolId) const) {
    for (const PlacedTool& placed : step.tools) {
        if (const Kind* tool = (brake.*as)(placed.tool)) return tool;
    }
    return nullptr;
}

/// Those of a brake's kind.
[[nodiscard]] const FoldDrawings& drawingsFor(const Brake& brake);
[[nodiscard]] const FoldDrawings& drawingsOfKind(const LeafBrake& kind);
[[nodiscard]] const FoldDrawings& drawingsOfKind(const PressBrake& kind);

}  // namespace tinwright::report
