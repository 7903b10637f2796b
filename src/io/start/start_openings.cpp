// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "start/start_sizes.h"

namespace tinwright {

namespace {

// From the component to what is measured from: the gap to a wall's inside face; an edge without a wall is flush.
double gapAt(const StartChoice& choice, const StartSizes& sizes, std::size_t edge, std::size_t axis) {
    return sizes.has_wall[edge] ? choice.gap_mm[axis] : 0.0;
}

StartOpening placed(const StartChoice& choice, const StartSizes& sizes, StartOpening opening,
                    const std::optional<FacePoint>& at) {
    const BaseView& view = sizes.view;
    const double across = choice.component_mm[view.width], along = choice.component_mm[view.depth];
    const double half_w = opening.round ? 0.5 * opening.width_mm : 0,
                 half_h = opening.round ? 0.5 * opening.height_mm : 0;
    const double left = at ? at->from_left_mm - half_w : 0.5 * (across - opening.width_mm);
    const double lower = at ? at->from_lower_mm - half_h : 0.5 * (along - opening.height_mm);
    opening.left_mm = left + gapAt(choice, sizes, view.left, view.width);
    opening.lower_mm = lower + gapAt(choice, sizes, view.lower, view.depth);
    return opening;
}

}  // namespace

std::vector<StartOpening> startOpenings(const StartChoice& choice, const StartSizes& sizes) {
    std::vector<StartOpening> openings;
    if (choice.window) {
        openings.push_back(placed(choice, sizes,
                                  {"window", false, choice.window->width_mm, choice.window->height_mm, 0, 0},
                                  choice.window->at));
    }
    if (choice.boss) {
        // The component may lie anywhere in its gaps.
        const double hole =
            choice.boss->diameter_mm + 2 * std::max(choice.gap_mm[sizes.view.width], choice.gap_mm[sizes.view.depth]);
        openings.push_back(placed(choice, sizes, {"boss", true, hole, hole, 0, 0}, choice.boss->at));
    }
    return openings;
}

}  // namespace tinwright
