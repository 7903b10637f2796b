// SPDX-License-Identifier: GPL-3.0-or-later
#include "machine/press_setting.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include <tinwright/brake/machines/brake_in_setup.h>

namespace tinwright::replay {

namespace {

constexpr double kSameHeight_mm = 1e-6;
constexpr double kSameAngle_deg = 1e-6;

// The height that all pieces of a row have.
double commonHeight_mm(const BrakeInSetup& brake, const std::vector<PlacedBar>& pieces, const char* row,
                       std::vector<std::string>& wrong) {
    const Tool& first = brake->tool(pieces.front().bar);
    for (const PlacedBar& placed : pieces) {
        const Tool& bar = brake->tool(placed.bar);
        if (std::abs(bar.height_mm - first.height_mm) > kSameHeight_mm) {
            wrong.push_back(fmt::format("{} {} is {:.3f} mm high, {} beside it {:.3f} mm", row, bar.id, bar.height_mm,
                                        first.id, first.height_mm));
        }
    }
    return first.height_mm;
}

void checkPunches(const BrakeInSetup& brake, const std::vector<PlacedBar>& punches, std::vector<std::string>& wrong) {
    for (const PlacedBar& placed : punches) {
        const Punch& punch = *brake->punch(placed.bar);
        if (punch.tip_radius_mm > brake.inside_radius_mm() + kSameHeight_mm) {
            wrong.push_back(fmt::format("the tip of punch {} has a radius of {:.3f} mm, the bend one of {:.3f} mm",
                                        punch.id, punch.tip_radius_mm, brake.inside_radius_mm()));
        }
    }
}

void checkVee(const BrakeInSetup& brake, const std::vector<PlacedBar>& dies, const Setting& setting,
              const FoldStep& step, std::vector<std::string>& wrong) {
    const Vee& vee = *setting.stroke.vee;
    for (const PlacedBar& placed : dies) {
        const Die& die = *brake->die(placed.bar);
        if (die.vee != vee)
            wrong.push_back(fmt::format("die {} has another V than {}", die.id, brake->tool(dies.front().bar).id));
    }
    // As steep as the sheet or steeper: the flanks then never meet it.
    if (step.set_angle.deg() > 180.0 - vee.angle.deg() + kSameAngle_deg) {
        wrong.push_back(
            fmt::format("a V of {:.3f}° does not take a bend by {:.3f}°", vee.angle.deg(), step.set_angle.deg()));
    }
}

// The ram is lowest at the end of the stroke.
void checkStrokeEnd(const PressBrake& press, const Setting& setting, std::vector<std::string>& wrong) {
    const Bending& stroke = setting.stroke;
    const double seats_mm = stroke.thickness_mm + setting.heights.punch_mm + setting.heights.die_mm -
                            dieRise_mm(stroke, kMotions[0], stroke.set_rad);
    const double least_mm = press.open_height_mm - press.stroke_mm;
    if (seats_mm < least_mm - kSameHeight_mm) {
        wrong.push_back(fmt::format("the seats are to come as near as {:.3f} mm, the ram brings them to {:.3f} mm",
                                    seats_mm, least_mm));
    }
}

}  // namespace

std::vector<PlacedBar> piecesOf(const BrakeInSetup& brake, const FoldStep& step, ToolRow row) {
    std::vector<PlacedBar> pieces;
    for (const PlacedBar& placed : step.bars) {
        if (placed.bar.index() < brake->toolCount() && brake->rowOf(placed.bar) == row) pieces.push_back(placed);
    }
    return pieces;
}

std::optional<Vee> veeOf(const BrakeInSetup& brake, const FoldStep& step) {
    const std::vector<PlacedBar> dies = piecesOf(brake, step, ToolRow::kLower);
    return dies.empty() ? std::nullopt : std::optional(brake->die(dies.front().bar)->vee);
}

bool setUpPress(const BrakeInSetup& brake, const FoldStep& step, Setting& setting, std::vector<std::string>& wrong) {
    const std::vector<PlacedBar> punches = piecesOf(brake, step, ToolRow::kUpper);
    const std::vector<PlacedBar> dies = piecesOf(brake, step, ToolRow::kLower);
    if (punches.empty()) wrong.push_back("no punch stands over the sheet");
    if (dies.empty()) wrong.push_back("no die lies under the sheet");
    if (punches.empty() || dies.empty()) return false;
    setting.heights = {commonHeight_mm(brake, punches, "punch", wrong), commonHeight_mm(brake, dies, "die", wrong)};
    checkPunches(brake, punches, wrong);
    checkVee(brake, dies, setting, step, wrong);
    checkStrokeEnd(brake->press(), setting, wrong);
    return true;
}

}  // namespace tinwright::replay
