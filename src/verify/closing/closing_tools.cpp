// SPDX-License-Identifier: GPL-3.0-or-later
#include "closing/closing_tools.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/hemming.h>
#include <tinwright/brake/tooling/die_profile.h>
#include <tinwright/geometry/polygons.h>

#include "machine/press_setting.h"
#include "machine/tools.h"

namespace tinwright::replay {

namespace {

constexpr double kFarOff_mm = 3000.0;
constexpr double kSameSeat_mm = 1e-3;

void addUpper(ClosingTools& tools, Body body, double rises_mm, bool taken_off = false) {
    tools.upper.push_back({std::move(body), std::max(0.0, rises_mm), taken_off});
}

// The clamp comes down to the hem as it does to the sheet, and opens from the sheet.
ClosingTools underClamp(const BrakeInSetup& brake, const FoldStep& step, const Setting& setting, double height_mm,
                        std::vector<std::string>& wrong) {
    const bool loose = brake->leaf().clamp == ClampKind::kLooseBars;
    const double thickness_mm = setting.stroke.thickness_mm;
    const double opens_mm = thickness_mm + brake->leaf().opening_mm - height_mm;
    if (!loose && opens_mm < 0)
        wrong.push_back(fmt::format("the clamp opens to {:.3f} mm, the closed hem is {:.3f} mm high",
                                    thickness_mm + brake->leaf().opening_mm, height_mm));
    ClosingTools tools;
    for (Body& bar : barBodies(brake, step, height_mm))
        addUpper(tools, std::move(bar), loose ? kFarOff_mm : opens_mm, loose);
    if (brake->leaf().beam.has_value()) addUpper(tools, beamBody(brake, step, height_mm), loose ? 0 : opens_mm);
    tools.lower.push_back(bedBody(brake, step));
    tools.lower.push_back(leafBody(brake, step, setting));
    return tools;
}

Region raisedSection(const Polygon& section, double by_mm) { return {shifted(section, Vec2(0, by_mm)), {}}; }

constexpr double kOut_mm = 5000.0;

Body dieBody(const Die& die, const PlacedBar& placed, const std::vector<Region>& sections, const char* half) {
    Shape shape;
    for (const Region& section : sections) {
        Shape piece = drawnAlong(section, placed.from_mm, placed.to_mm);
        shape.whole.insert(shape.whole.end(), piece.whole.begin(), piece.whole.end());
        shape.shrunk.insert(shape.shrunk.end(), piece.shrunk.begin(), piece.shrunk.end());
    }
    return makeBody(fmt::format("{} of die {}", half, die.id), BodyKind::kDie, std::move(shape));
}

// The lower half stands, with what is behind the slot; the upper one is lowered on the hem.
void addJaw(ClosingTools& tools, const Die& die, const PlacedBar& placed, const HemFlats& flats, double height_mm) {
    const double from_top_mm = die.height_mm - die.jaw->floor_mm;
    const double opening_mm = die.jaw->opening_mm;
    const Region section = raisedSection(die.profile, from_top_mm);
    std::vector<Region> lower = intersection(section, rectangle(-kOut_mm, kOut_mm, -kOut_mm, 0));
    const double back_mm = flats.front_mm + flats.depth_mm;
    for (Region& behind : intersection(section, rectangle(back_mm, kOut_mm, 0, opening_mm)))
        lower.push_back(std::move(behind));
    tools.lower.push_back(dieBody(die, placed, lower, "lower half"));
    const double sinks_mm = opening_mm - height_mm;
    const Region sunk = raisedSection(die.profile, from_top_mm - sinks_mm);
    addUpper(tools,
             dieBody(die, placed, intersection(sunk, rectangle(-kOut_mm, kOut_mm, height_mm, kOut_mm)), "upper half"),
             sinks_mm);
}

// Seats as the ram has them when it presses the empty V down, and what it can do.
void checkRam(const PressBrake& press, double seats_mm, std::vector<std::string>& wrong) {
    const double least_mm = press.open_height_mm - press.stroke_mm;
    if (seats_mm < least_mm - kSameSeat_mm)
        wrong.push_back(fmt::format("the seats are to come as near as {:.3f} mm, the ram brings them to {:.3f} mm",
                                    seats_mm, least_mm));
    if (seats_mm > press.open_height_mm + kSameSeat_mm)
        wrong.push_back(fmt::format("the ram opens to {:.3f} mm and closes the hem with seats {:.3f} mm apart",
                                    press.open_height_mm, seats_mm));
}

ClosingTools inJaw(const BrakeInSetup& brake, const FoldStep& step, const Setting& setting, double height_mm,
                   std::vector<std::string>& wrong) {
    const std::vector<PlacedBar> dies = piecesOf(brake, step, ToolRow::kLower);
    const Die& first = *brake->die(dies.front().bar);
    if (!first.jaw) return {};
    const Jaw& jaw = *first.jaw;
    ClosingTools tools;
    if (jaw.opening_mm < height_mm)
        wrong.push_back(fmt::format("the jaw of {} opens to {:.3f} mm, the closed hem is {:.3f} mm high", first.id,
                                    jaw.opening_mm, height_mm));
    for (const PlacedBar& placed : dies) {
        const Die& die = *brake->die(placed.bar);
        if (die.jaw) addJaw(tools, die, placed, jawFlats(die), height_mm);
    }
    const double sinks_mm = jaw.opening_mm - height_mm;
    const double tip_mm = first.height_mm - jaw.floor_mm - sinks_mm - veeDepth_mm(first.vee);
    const double seats_mm = tip_mm + jaw.floor_mm + setting.heights.punch_mm;
    checkRam(brake->press(), seats_mm, wrong);
    Setting at_rest = setting;
    at_rest.stroke.thickness_mm = tip_mm;   // where punches and ram begin
    at_rest.heights.die_mm = jaw.floor_mm;  // and the bed ends
    const double rises_mm = brake->press().open_height_mm - seats_mm;
    for (Body& piece : barBodies(brake, step, tip_mm)) {
        if (piece.kind == BodyKind::kBar) addUpper(tools, std::move(piece), rises_mm);
    }
    addUpper(tools, ramBody(brake, step, at_rest), rises_mm);
    tools.lower.push_back(pressBedBody(brake, step, at_rest));
    for (Body& frame : sideFrameBodies(brake, step)) tools.lower.push_back(std::move(frame));
    return tools;
}

}  // namespace

ClosingTools closingTools(const BrakeInSetup& brake, const FoldStep& step, const Setting& setting, double height_mm,
                          std::vector<std::string>& wrong) {
    ClosingTools tools = brake->isPress() ? inJaw(brake, step, setting, height_mm, wrong)
                                          : underClamp(brake, step, setting, height_mm, wrong);
    for (Body& frame : frameBodies(brake, step)) tools.lower.push_back(std::move(frame));
    return tools;
}

}  // namespace tinwright::replay
