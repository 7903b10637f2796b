// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "entities/dxf_drawing.h"

namespace tinwright {

/// A curve where it lies on the sheet, in mm, as a chain of points.
struct DxfCurve {
    DxfTag tag;                ///< layer and line type that hold: what blocks and layers pass on is settled
    std::vector<Vec2> points;  ///< two or more, on the grid; a closed curve ends where it starts
    bool straight = true;      ///< a line: two points

    [[nodiscard]] bool closed() const { return points.size() > 2 && points.front() == points.back(); }
};

struct DxfCurves {
    std::vector<DxfCurve> curves;  ///< without length ones; in the order of their points, not of the file
    std::vector<DxfText> texts;
    std::size_t hidden = 0;  ///< entities on layers that are off or frozen
};

/// Inserts blocks, turns to mm, flattens. Issues: "dxf.block" (unknown, or in itself, or too deep), "dxf.too-many",
/// "dxf.far".
[[nodiscard]] Result<DxfCurves> placeCurves(const DxfDrawing& drawing, double mm_per_unit, const std::string& file);

}  // namespace tinwright
