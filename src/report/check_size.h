// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/part/part.h>

namespace tinwright::report {

/// An outside size to measure when a fold is made.
struct CheckSize {
    PanelId panel;
    double size_mm = 0;
    std::string words;  ///< "side_back: 36 mm outside, from the outside of face to edge side_back.far"
};

/// Of the two legs of a bend those whose far end is a straight edge or a formed bend along it: from the outside of the other leg
/// to that edge, or to the outside of what was folded there. Outside as setback_mm() has it; the radius is the nose's.
/// `formed_after`: with this bend.
[[nodiscard]] std::vector<CheckSize> checkSizes(const Part& part, BendId bend, BendMask formed_after, double nose_radius_mm);

}  // namespace tinwright::report
