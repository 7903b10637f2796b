// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <tinwright/brake/shop/cutting.h>
#include <tinwright/part/model/part.h>

namespace tinwright::report {

/// An outside size to measure when a fold is made.
struct CheckSize {
    PanelId panel;
    double size_mm = 0;
    std::optional<double> tolerance_mm;  ///< plus or minus; none: no standard covers the size
    std::string words;                   ///< "side_back: 36 ±0.3 mm, from the outside of face to edge side_back.far"
};

/// Of the two legs of a bend those whose far end is a straight edge or a formed bend along it: from the outside of the
/// other leg to that edge, or to the outside of what was folded there. Outside as setback_mm() has it; the radius is
/// the nose's. `formed_after`: with this bend.
[[nodiscard]] std::vector<CheckSize> checkSizes(const Part& part, BendId bend, BendMask formed_after,
                                                double inside_radius_mm,
                                                std::optional<CutProcess> process = std::nullopt);

}  // namespace tinwright::report
