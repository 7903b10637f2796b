// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <string>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/sequence/remedies/machine_needs.h>

namespace tinwright {

/// A figure that a brake has: what it is, how good it can be, and how a machine that is made from that brake gets
/// another. Pieces of any width are not set: withPieces makes them.
struct FigureOf {
    MachineFigure figure = MachineFigure::kLength;
    double has = 0;
    double best = 0;  ///< a whole number of steps
    std::function<void(Brake& changed, double value)> set;
    double step = 1;  ///< told figures are whole numbers of it
    std::string like = {};
};

/// The figures of this brake that can be better, those that are soonest had first at the end: what stays another is
/// what costs least.
[[nodiscard]] std::vector<FigureOf> figuresOf(const Part& part, const BrakeInSetup& brake);

/// Widths that bars or punches may have to come to: between walls, and along bends.
[[nodiscard]] std::vector<double> pieceWidths_mm(const Part& part, const Shop& shop, const BrakeInSetup& brake);

/// The machine with one piece of each section in each of these widths besides.
[[nodiscard]] Brake withPieces(const BrakeInSetup& brake, const std::vector<double>& widths_mm);

}  // namespace tinwright
