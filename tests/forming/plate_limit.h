// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

/// Limit analysis of a plate by a linear programme, for the tests: the discrete yield-line method. The plate is a grid
/// of rigid triangles that may turn about their common edges; each edge resists with its plastic moment; the load that
/// makes the cheapest mechanism go is an upper bound of the collapse load (Munro and Da Fonseca 1978, from memory). It
/// shares nothing with the program's search for straight lines.
namespace tinwright::test {

/// A rectangle of cells left out of the plate, in cells of the grid.
struct CellWindow {
    int left = 0;
    int right = 0;
    int low = 0;
    int high = 0;
};

struct PlateProblem {
    int columns = 0;  ///< cells along the bend
    int rows = 0;     ///< cells from the bend to where the leaf bears
    double cell_mm = 1;
    double bend_moment = 1;   ///< plastic moment of a mm of the bend line
    double plate_moment = 1;  ///< and of the plate
    std::vector<CellWindow> windows;
};

/// Collapse load over the load that makes the bend line alone go. 1: the bend line goes first.
[[nodiscard]] double collapseFactor(const PlateProblem& problem);

}  // namespace tinwright::test
