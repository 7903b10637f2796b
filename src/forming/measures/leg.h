// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <tinwright/base/stroke.h>
#include <tinwright/geometry/box.h>
#include <tinwright/part/model/part.h>

namespace tinwright::forming {

using Box = Eigen::AlignedBox2d;

/// A cut-out of a leg, in its frame.
struct LegCutOut {
    std::size_t index = 0;  ///< into Part::cut_outs
    Polygon outline;
};

/// The panel on one side of a bend, as the bend sees it. Frame: x along the bend line, y from the line out over the
/// panel.
struct Leg {
    PanelId panel;
    double strip_mm = 0;  ///< y at which the panel begins: half the strip of the bend
    double from_mm = 0;   ///< x between which the bend has sheet
    double to_mm = 0;
    double bend_mm = 0;  ///< length of sheet along the bend
    Region solid;        ///< the panel with its named cut-outs filled
    std::vector<LegCutOut> cut_outs;
    double depth_mm = 0;         ///< its largest y
    Vec2 origin = Vec2::Zero();  ///< of the frame on the blank
    Vec2 x_axis = Vec2::UnitX();
    Vec2 y_axis = Vec2::UnitY();

    [[nodiscard]] Vec2 fromBlank(const Vec2& point) const {
        return {x_axis.dot(point - origin), y_axis.dot(point - origin)};
    }
    [[nodiscard]] Vec2 toBlank(const Vec2& point) const { return origin + point.x() * x_axis + point.y() * y_axis; }
};

/// Counter-clockwise.
[[nodiscard]] Polygon inFrame(const Leg& leg, const Polygon& polygon);
[[nodiscard]] Leg legOf(const Part& part, BendId bend, Side side);
/// The frame alone: without sheet, cut-outs and depth, which cost overlays.
[[nodiscard]] Leg legFrame(const Part& part, BendId bend, Side side);

}  // namespace tinwright::forming
