// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <tinwright/part/model/part.h>

namespace tinwright {

/// Less is touching, which a closed corner does.
inline constexpr double kCollideDepth_mm = 0.05;

/// Two panels in one place when every bend is folded.
struct PanelCollision {
    PanelId a;
    PanelId b;
    double depth_mm = 0;
};

/// All pairs by more than kCollideDepth_mm, in ascending order. Exact for flat panels as convex prisms (separating
/// axes); bend strips are left out, and panels that a bend joins.
[[nodiscard]] std::vector<PanelCollision> finishedCollisions(const Part& part);

}  // namespace tinwright
