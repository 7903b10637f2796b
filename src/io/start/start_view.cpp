// SPDX-License-Identifier: GPL-3.0-or-later
#include "start/start_view.h"

namespace tinwright {

BaseView baseView(ComponentSide open) {
    using enum ComponentSide;
    constexpr std::size_t kWidth = 0, kDepth = 1, kHeight = 2;
    // Looking in at the open side: edges front (towards the person), right, back, left of the base that lies behind.
    switch (open) {
        case kTop: return {kBottom, {kFront, kRight, kBack, kLeft}, kWidth, kDepth, kHeight, kLeftEdge, kFrontEdge};
        case kBottom: return {kTop, {kBack, kRight, kFront, kLeft}, kWidth, kDepth, kHeight, kLeftEdge, kBackEdge};
        case kFront: return {kBack, {kBottom, kRight, kTop, kLeft}, kWidth, kHeight, kDepth, kRightEdge, kFrontEdge};
        case kBack: return {kFront, {kBottom, kLeft, kTop, kRight}, kWidth, kHeight, kDepth, kRightEdge, kFrontEdge};
        case kLeft: return {kRight, {kBottom, kFront, kTop, kBack}, kDepth, kHeight, kWidth, kRightEdge, kFrontEdge};
        case kRight: break;
    }
    return {kLeft, {kBottom, kBack, kTop, kFront}, kDepth, kHeight, kWidth, kRightEdge, kFrontEdge};
}

ComponentSide openSide(const StartChoice& choice) {
    const bool covers = choice.shape == StartShape::kHousing || choice.shape == StartShape::kWindowFace ||
                        choice.shape == StartShape::kHat;
    return choice.open.value_or(covers ? ComponentSide::kBottom : ComponentSide::kTop);
}

std::string wallName(ComponentSide side) { return "wall_" + std::string(toText(side)); }

bool isBox(StartShape shape) {
    return shape == StartShape::kHousing || shape == StartShape::kTray || shape == StartShape::kWindowFace;
}

bool mayHaveTabs(StartShape shape) { return shape == StartShape::kHousing || shape == StartShape::kWindowFace; }

}  // namespace tinwright
