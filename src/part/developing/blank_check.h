// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/part/model/part.h>

#include "developing/layout.h"

namespace tinwright {

/// Panels and strips in one place of the flat sheet ("recipe.blank.overlap"), or edge to edge where no bend joins them
/// ("recipe.blank.touch").
void checkBlank(const Recipe& recipe, const Layout& layout, Issues& issues);

/// Panels in one place when every bend is folded ("recipe.finished.collide"), as finishedCollisions().
void checkFinished(const Recipe& recipe, const Part& part, Issues& issues);

}  // namespace tinwright
