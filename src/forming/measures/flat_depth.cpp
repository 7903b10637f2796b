// SPDX-License-Identifier: GPL-3.0-or-later
#include "measures/flat_depth.h"

#include <algorithm>

namespace tinwright::forming {

Side heldSide(const FoldAsked& asked, BendId bend) {
    const auto& held = asked.step.held;
    return std::find(held.begin(), held.end(), asked.part.bend(bend).parent) != held.end() ? Side::kParent
                                                                                           : Side::kChild;
}

double flatDepth_mm(const FoldAsked& asked, BendId bend, Side side) {
    const Leg leg = legFrame(asked.part, bend, side);
    std::vector<PanelId> flat{leg.panel};
    for (std::size_t i = 0; i < flat.size(); ++i) {
        for (std::size_t j = 0; j < asked.part.bends.size(); ++j) {
            const Bend& other = asked.part.bends[j];
            if (idAt<BendId>(j) == bend || contains(asked.formed, idAt<BendId>(j)) ||
                (other.parent != flat[i] && other.child != flat[i]))
                continue;
            const PanelId next = other.parent == flat[i] ? other.child : other.parent;
            if (std::find(flat.begin(), flat.end(), next) == flat.end()) flat.push_back(next);
        }
    }
    double depth = 0;
    for (const PanelId panel : flat) {
        for (const Vec2& point : asked.part.panel(panel).region.outline)
            depth = std::max(depth, leg.fromBlank(point).y() - leg.strip_mm);
    }
    return depth;
}

}  // namespace tinwright::forming
