// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "webs/web.h"

namespace tinwright::test {

inline Polygon box(double left, double low, double right, double high) {
    return {{left, low}, {right, low}, {right, high}, {left, high}};
}

/// A rectangular leg that begins at its bend line, with rectangular windows.
inline forming::Leg legWith(double width_mm, double depth_mm, const std::vector<Polygon>& windows) {
    forming::Leg leg;
    leg.from_mm = 0;
    leg.to_mm = leg.bend_mm = width_mm;
    leg.depth_mm = depth_mm;
    leg.solid = {box(0, 0, width_mm, depth_mm), {}};
    for (std::size_t i = 0; i < windows.size(); ++i) leg.cut_outs.push_back({i, windows[i]});
    return leg;
}

}  // namespace tinwright::test
