// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/part/part.h>

#include "layout.h"

namespace tinwright {

/// Panels and strips in one place of the flat sheet ("recipe.blank.overlap"), or edge to edge where no bend joins them
/// ("recipe.blank.touch").
void checkBlank(const Recipe& recipe, const Layout& layout, Issues& issues);

/// Panels in one place when every bend is folded ("recipe.finished.collide"), by more than kCollideDepth_mm. Exact for flat
/// panels as convex prisms (separating axes); bend strips are left out.
void checkFinished(const Recipe& recipe, const Part& part, Issues& issues);

/// Less is touching, which a closed corner does.
inline constexpr double kCollideDepth_mm = 0.05;

}  // namespace tinwright
