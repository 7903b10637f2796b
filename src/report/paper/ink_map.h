// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <vector>

#include <tinwright/geometry/planar.h>

#include "paper/drawing.h"

namespace tinwright::report {

/// Where lines run on a sheet of paper, in cells of half a millimetre, so that a box can be asked how much it would
/// cover.
class InkMap {
public:
    explicit InkMap(const Vec2& size_mm);
    void add(const Vec2& from, const Vec2& to);
    /// Call once after the last line and before the first question.
    void sum();
    /// Cells with a line in them that the box covers, in mm of line or so.
    [[nodiscard]] double under(const Box& box) const;

private:
    [[nodiscard]] std::size_t cell(std::size_t x, std::size_t y) const { return y * (columns_ + 1) + x; }
    std::size_t columns_;
    std::size_t rows_;
    std::vector<int> sums_;  ///< of the cells above and left; one more each way than there are cells
};

}  // namespace tinwright::report
