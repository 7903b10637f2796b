// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <tinwright/sequence/remedies/machine_needs.h>

namespace tinwright {

/// A figure that a brake has: what it is, how good it can be, and the brake with another.
struct FigureOf {
    MachineFigure figure;
    double has = 0;
    double best = 0;
};

/// The figures of this brake that can be better, those that are soonest had first at the end: what stays another is
/// what costs least.
[[nodiscard]] std::vector<FigureOf> figuresOf(const Part& part, const Brake& brake);

/// Sets one. Never of bars or punches of any width: addPieces does that.
void setFigure(Brake& brake, MachineFigure figure, double value);

/// Widths that bars or punches may have to come to: between walls, and along bends.
[[nodiscard]] std::vector<double> pieceWidths_mm(const Part& part, const Shop& shop, const Brake& brake);

/// One piece of each section in each of these widths besides.
void addPieces(Brake& brake, const std::vector<double>& widths_mm);

}  // namespace tinwright
