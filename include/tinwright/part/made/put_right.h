// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <vector>

#include <tinwright/part/made/finished_sizes.h>

namespace tinwright {

/// A bend that is still flat, its line moved so that a size comes out as drawn again.
struct LineMove {
    std::vector<std::size_t> puts_right;  ///< of the changes it was looked for
    BendId bend;
    double toward_child_mm = 0;
    Part part;                     ///< with the line there
    std::vector<SizeChange> left;  ///< what is otherwise than drawn in that part
};

/// Off by less no line is moved for: a scribed line is no finer.
inline constexpr double kLeastMove_mm = 0.05;
[[nodiscard]] inline bool isWorthMoving(const SizeChange& change) {
    return change.by_mm() >= kLeastMove_mm || change.by_mm() <= -kLeastMove_mm;
}

/// Every line that puts one of the changes that are worth it right by itself; one that puts several right the same way
/// once. A line whose strip finds no place there (withBendMoved) is none. `changes`: sizeChanges(drawn, now).
[[nodiscard]] std::vector<LineMove> linesToMove(const Part& drawn, const Part& now,
                                                const std::vector<SizeChange>& changes, BendMask formed,
                                                double inside_radius_mm = -1.0);

}  // namespace tinwright
