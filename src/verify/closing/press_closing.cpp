// SPDX-License-Identifier: GPL-3.0-or-later
// Hems closed in the jaws of a press brake's dies, under the ram.
#include <fmt/format.h>

#include <algorithm>
#include <limits>

#include <tinwright/brake/tooling/die_profile.h>
#include <tinwright/geometry/polygons.h>

#include "closing/closing_tools.h"
#include "machine/press_tools.h"
#include "machine/tools.h"

namespace tinwright::replay {

namespace {

constexpr double kSameSeat_mm = 1e-3;

Region raisedSection(const Polygon& section, double by_mm) { return {shifted(section, Vec2(0, by_mm)), {}}; }

Body dieBody(const Die& die, const PlacedTool& placed, const std::vector<Region>& sections, const char* half) {
    Shape shape;
    for (const Region& section : sections) {
        Shape piece = drawnAlong(section, placed.from_mm, placed.to_mm);
        shape.whole.insert(shape.whole.end(), piece.whole.begin(), piece.whole.end());
        shape.shrunk.insert(shape.shrunk.end(), piece.shrunk.begin(), piece.shrunk.end());
    }
    return makeBody(fmt::format("{} of die {}", half, die.id), BodyKind::kDie, std::move(shape));
}

// The lower half stands, with what is behind the slot; the upper one is lowered on the hem.
void addJaw(ClosingTools& tools, const Die& die, const PlacedTool& placed, const HemFlats& flats, double height_mm) {
    const double from_top_mm = die.height_mm - die.jaw->floor_mm;
    const double opening_mm = die.jaw->opening_mm;
    const Region section = raisedSection(die.profile, from_top_mm);
    std::vector<Region> lower = intersection(section, rectangle(-kFarOut_mm, kFarOut_mm, -kFarOut_mm, 0));
    const double back_mm = flats.front_mm + flats.depth_mm;
    for (Region& behind : intersection(section, rectangle(back_mm, kFarOut_mm, 0, opening_mm)))
        lower.push_back(std::move(behind));
    tools.lower.push_back(dieBody(die, placed, lower, "lower half"));
    const double sinks_mm = opening_mm - height_mm;
    const Region sunk = raisedSection(die.profile, from_top_mm - sinks_mm);
    tools.addUpper(dieBody(die, placed, intersection(sunk, rectangle(-kFarOut_mm, kFarOut_mm, height_mm, kFarOut_mm)),
                           "upper half"),
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

class PressClosing final : public ClosingMachine {
public:
    PressClosing(const PressBrake& press, const BrakeInSetup& brake, const FoldStep& step,
                 const ReplayedMachine& machine)
        : ClosingMachine(brake, step, machine), press_(press), dies_(piecesOf(brake, step, ToolRow::kLower)) {}

    // Every die of the step has the same jaw, rated for the sheet.
    void checkPieces(std::vector<std::string>& wrong) const override {
        const Die& first = die(dies_.front());
        for (const PlacedTool& placed : dies_) {
            const Die& one = die(placed);
            if (!one.jaw) {
                wrong.push_back(fmt::format("die {} has no jaw", one.id));
            } else if (one.jaw->hem_thickness_mm < machine().stroke().thickness_mm - 1e-9) {
                wrong.push_back(fmt::format("the jaw of {} closes hems in sheet up to {:.3f} mm", one.id,
                                            one.jaw->hem_thickness_mm));
            }
            if (one.jaw != first.jaw || one.height_mm != first.height_mm)
                wrong.push_back(fmt::format("the jaw of {} is not that of {}", one.id, first.id));
        }
    }

    [[nodiscard]] std::optional<HemFlats> flatsOf(ToolId piece) const override {
        const Die* die = brake()->die(piece);
        if (die == nullptr) return std::nullopt;
        return die->jaw ? jawFlats(*die) : HemFlats{};
    }

    [[nodiscard]] double opens_mm() const override {
        double opens_mm = std::numeric_limits<double>::infinity();
        for (const PlacedTool& placed : dies_) {
            if (die(placed).jaw) opens_mm = std::min(opens_mm, die(placed).jaw->opening_mm);
        }
        return opens_mm;
    }

    [[nodiscard]] bool liftsOut() const override { return false; }

protected:
    [[nodiscard]] ClosingTools ownTools(double height_mm, std::vector<std::string>& wrong) const override {
        const Die& first = die(dies_.front());
        if (!first.jaw) return {};
        const Jaw& jaw = *first.jaw;
        ClosingTools tools;
        if (jaw.opening_mm < height_mm)
            wrong.push_back(fmt::format("the jaw of {} opens to {:.3f} mm, the closed hem is {:.3f} mm high", first.id,
                                        jaw.opening_mm, height_mm));
        for (const PlacedTool& placed : dies_) {
            if (die(placed).jaw) addJaw(tools, die(placed), placed, jawFlats(die(placed)), height_mm);
        }
        const double sinks_mm = jaw.opening_mm - height_mm;
        const double tip_mm = first.height_mm - jaw.floor_mm - sinks_mm - veeDepth_mm(first.vee);
        addOthers(tools, tip_mm, jaw.floor_mm, wrong);
        return tools;
    }

private:
    [[nodiscard]] const Die& die(const PlacedTool& placed) const { return *brake()->die(placed.tool); }

    // Punches whose tips are at `tip_mm`, what they hang on, and what the dies stand on and between.
    void addOthers(ClosingTools& tools, double tip_mm, double floor_mm, std::vector<std::string>& wrong) const {
        const double punch_mm = heightsOf(brake(), step()).punch_mm;
        const double seats_mm = tip_mm + floor_mm + punch_mm;
        checkRam(press_, seats_mm, wrong);
        const double rises_mm = press_.open_height_mm - seats_mm;
        for (Body& piece : machine().pieceBodies(step(), tip_mm)) {
            if (piece.carrier == Carrier::kUpper) tools.addUpper(std::move(piece), rises_mm);
        }
        tools.addUpper(ramBody(brake(), step(), tip_mm + punch_mm), rises_mm);
        tools.lower.push_back(pressBedBody(brake(), step(), floor_mm));
        for (Body& frame : sideFrameBodies(brake(), step())) tools.lower.push_back(std::move(frame));
    }

    const PressBrake& press_;
    std::vector<PlacedTool> dies_;  // some: the stroke was replayed with them
};

}  // namespace

std::unique_ptr<const ClosingMachine> closingKind(const PressBrake& press, const BrakeInSetup& brake,
                                                  const FoldStep& step, const ReplayedMachine& machine) {
    return std::make_unique<const PressClosing>(press, brake, step, machine);
}

}  // namespace tinwright::replay
