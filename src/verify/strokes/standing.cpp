// SPDX-License-Identifier: GPL-3.0-or-later
#include "strokes/standing.h"

#include <algorithm>
#include <utility>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/hemming.h>
#include <tinwright/brake/machines/shop.h>

#include "solids/shapes.h"

namespace tinwright::replay {

namespace {

bool among(const std::vector<BendId>& bends, std::size_t bend) {
    return std::find(bends.begin(), bends.end(), idAt<BendId>(bend)) != bends.end();
}

// A closed hem is like any other bend; only those that are still to come are left for the first folds.
std::unique_ptr<const PartOnBrake> partWith(const Part& part, const Shop& shop, const BrakeInSetup& brake,
                                            const std::vector<BendId>& formed) {
    Part closed = part;
    for (std::size_t i = 0; i < closed.bends.size(); ++i) {
        if (!among(formed, i)) continue;
        closed.bends[i] = finished(closed.bends[i]);
        closed.bends[i].hem.reset();
    }
    return std::make_unique<const PartOnBrake>(partOnBrake(closed, shop, brake));
}

std::vector<double> radiiWith(const Part& part, std::vector<double> radii_mm, const std::vector<BendId>& formed) {
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        if (part.bends[i].hem && among(formed, i)) radii_mm[i] = finished(part.bends[i]).inside_radius_mm;
    }
    return radii_mm;
}

}  // namespace

Standing::Standing(const Part& part, const Shop& shop, const BrakeInSetup& brake, std::vector<double> radii_mm,
                   const std::vector<BendId>& formed)
    : part_(partWith(part, shop, brake, formed)),
      sheet_(part_->part(), radiiWith(part, std::move(radii_mm), formed)),
      panels_(panelShapes(part_->part())) {
    for (const BendId bend : formed) form(bend);
}

std::vector<double> closedRadii(const Part& part, std::vector<double> radii_mm) {
    std::vector<BendId> all;
    for (std::size_t i = 0; i < part.bends.size(); ++i) all.push_back(idAt<BendId>(i));
    return radiiWith(part, std::move(radii_mm), all);
}

}  // namespace tinwright::replay
