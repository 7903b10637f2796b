// SPDX-License-Identifier: GPL-3.0-or-later
#include "kinds/vee_text.h"

#include <algorithm>

#include <fmt/format.h>

#include <tinwright/base/contract.h>
#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/tooling/bar_fit.h>
#include <tinwright/forming/metal/bending.h>

#include "words/words.h"

namespace tinwright::report {
namespace {

/// Of one row, the most pieces of each kind that stand at once.
ToolCounts mostAtOnce(const BrakeInSetup& brake, const Plan& plan, ToolRow row) {
    ToolCounts most(brake->toolCount(), 0);
    for (const FoldStep& step : plan.folds) {
        ToolCounts now(brake->toolCount(), 0);
        for (const PlacedTool& piece : step.tools) {
            if (brake->rowOf(piece.tool) == row) ++now[piece.tool.index()];
        }
        for (std::size_t i = 0; i < now.size(); ++i) most[i] = std::max(most[i], now[i]);
    }
    return most;
}

}  // namespace

std::string veeText(const BrakeInSetup& brake, double thickness_mm) {
    TINWRIGHT_REQUIRE(brake.vee() != nullptr, "a press brake is in one V");
    const Vee& vee = *brake.vee();
    const char* by =
        brake->press().mode == PressMode::kBottoming ? "bottoming: that of the punch" : "air bending: 0.16 of the V";
    return fmt::format("{} mm, {}; inside radius {:.2f} mm ({}); usual for {:.4g} mm sheet: {} mm",
                       millimetres(vee.opening_mm), degrees(vee.angle.deg()), brake.inside_radius_mm(), by,
                       thickness_mm, millimetres(usualDieOpening_mm(thickness_mm)));
}

std::string punchesAndDies(const BrakeInSetup& brake, const Plan& plan) {
    return fmt::format("punches {}; dies {}", toolNames(*brake, mostAtOnce(brake, plan, ToolRow::kUpper)),
                       toolNames(*brake, mostAtOnce(brake, plan, ToolRow::kLower)));
}

}  // namespace tinwright::report
