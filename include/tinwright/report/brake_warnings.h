// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/brake/leaf_brake.h>
#include <tinwright/part/part.h>

namespace tinwright {

/// What a person should know before folding this part on this brake; never changes a verdict: bends over the brake's
/// rating, a material it has no rating for, and figures of the brake that nobody has measured.
[[nodiscard]] std::vector<std::string> brakeWarnings(const Part& part, const LeafBrake& brake);

}  // namespace tinwright
