// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "paper/paper_view.h"

namespace tinwright::report {

/// A dimension told from a common zero: "0", "12.5", "35.1 (3)".
struct Ordinate {
    double value_mm = 0;     ///< from the zero, as written
    Vec2 at = Vec2::Zero();  ///< on paper: where its line starts
    std::string note;        ///< written after the number
    int weight = 0;          ///< the lightest go first when there is no room for all
};

/// On which side of the drawing the figures of a row stand.
enum class RowSide { kLeft, kRight, kTop, kBottom };

/// Positions as near to `wanted` (ascending) as can be, `apart` or more from one another, within [least, most]; least
/// squares, by pooling neighbours. Too many for the room: from `least` on with what room there is.
[[nodiscard]] std::vector<double> spreadOut(const std::vector<double>& wanted, double apart, double least, double most);

/// Draws a row of ordinates along one side: lines run square to the row out to `line_end` and jog to their figures,
/// which never overlap. Values that would be written alike are written once. A row may be longer than the drawn thing
/// by `before_mm` at its top or left end and `after_mm` at the other. Returns how many had no room.
std::size_t drawOrdinates(Drawing& drawing, std::vector<Ordinate> row, RowSide side, const Box& around,
                          double before_mm, double after_mm);

/// Depth of paper that a row needs beside the drawn thing.
[[nodiscard]] double ordinateDepth_mm(const std::vector<Ordinate>& row);

}  // namespace tinwright::report
