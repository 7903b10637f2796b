// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <functional>
#include <vector>

#include "remedies/machine_figures.h"

namespace tinwright {

/// The table of figures of each alternative of `Brake::kind`, in a file of its own; those that all machines have are
/// below.
[[nodiscard]] std::vector<FigureOf> figuresOfKind(const LeafBrake& leaf, const Part& part, const BrakeInSetup& brake);
[[nodiscard]] std::vector<FigureOf> figuresOfKind(const PressBrake& press, const Part& part, const BrakeInSetup& brake);

/// The brake's kind without what only some pieces of a section have at their ends.
void dropHorns(LeafBrake& leaf);
void dropHorns(PressBrake& press);

/// By which room on a machine grows at most.
inline constexpr double kMuchMore_mm = 300;

/// How long the part's blank can lie along a machine, at most.
[[nodiscard]] double longest_mm(const Part& part);

[[nodiscard]] FigureOf lengthOf(const Part& part, const BrakeInSetup& brake);
[[nodiscard]] FigureOf anyPieceWidth();
/// The brake's clamp, or the jaws of its dies, close hems in thicker sheet, to a tenth of a millimetre.
[[nodiscard]] FigureOf thickerHems(const Part& part, double has_mm, std::function<void(Brake&, double)> set);

/// The least over the pieces that hold the sheet.
template <class Value>
double least(const BrakeInSetup& brake, Value value) {
    double found = 1e9;
    for (const ToolId tool : brake.tools(ToolRow::kUpper)) found = std::min(found, value(tool));
    return found;
}
[[nodiscard]] double leastHeight_mm(const BrakeInSetup& brake);

}  // namespace tinwright
