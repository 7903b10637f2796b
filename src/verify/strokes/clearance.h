// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "strokes/stroke.h"

namespace tinwright::replay {

/// Checks that the clearance claimed for a stroke is a lower bound: one body of every pair that must not touch
/// is made larger by the claim (less 0.02 mm for its facets) and nothing may then meet. Pairs that touch by
/// intention are left out, see NOTES.md.
void checkClearance(const Scene& scene, std::vector<std::string>& wrong);

}  // namespace tinwright::replay
