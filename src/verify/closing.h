// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "stroke.h"

namespace tinwright::replay {

/// Closes the hems of a fold after it: what the step tells of it, and what meets what on the way. The sheet as it was before the fold.
void checkClosing(const Scene& scene, const Shop& shop, const std::vector<Shape>& panels, std::vector<std::string>& wrong);

}  // namespace tinwright::replay
