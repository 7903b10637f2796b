// SPDX-License-Identifier: GPL-3.0-or-later
#include "kernel_compare.h"
#include <tinwright/brake/machines/brake_in_setup.h>

#include "oracle_model.h"
#include "state_check.h"

namespace tinwright::oracle {

namespace {

using random_states::Case;
using random_states::Dice;
using random_states::State;

std::vector<Tool> toolsOf(const Case& what, const Machine& machine) {
    const BrakeInSetup& brake = what.brake();
    const double t = what.part.thickness_mm;
    std::vector<Tool> tools{toolOf(machine.bed(), {bedSectionOf(brake)})};
    if (brake->leaf().beam)
        tools.push_back(toolOf(static_cast<std::size_t>(machine.beam()), {beamSectionOf(brake, t)}));
    for (std::size_t i = 0; i < brake->leaf().leaf_faces.size(); ++i)
        tools.push_back({machine.driven(i), brake->leaf().leaf_faces[i], false, {}});
    const Region bar = barSectionOf(brake->leaf().bars[0], t);
    const ToolFamily& family = machine.families()[0];
    const double far = 1000;
    const double at = family.low >= 0 ? t + brake->leaf().bars[0].end_relief_height_mm : -far;
    tools.push_back(toolOf(family.high, cut(bar, at, far)));
    // The kernel moves both parts in from where they are cut, too: the slot of a tenth between them is too narrow for
    // sheet.
    if (family.low >= 0) tools.push_back(toolOf(static_cast<std::size_t>(family.low), cut(bar, -far, at)));
    return tools;
}

class LeafStroke : public AskedStroke {
public:
    LeafStroke(const Case& what, const Outlines& outlines, const State& state)
        : stroke_(what.part, outlines, what.brake(), what.shop.overbendFor_deg(what.part.material, *what.brake()),
                  state.formed, state.bend, state.hold) {}

    [[nodiscard]] const std::vector<SheetPiece>& pieces() const override { return stroke_.pieces(); }
    [[nodiscard]] bool moves(const SheetPiece& sheet) const override { return sheet.moving; }
    [[nodiscard]] bool takes(const Tool& /*tool*/) const override { return true; }
    [[nodiscard]] double meets(const SheetPiece& sheet, const Tool& tool, Fit fit, double x0, double x1,
                               Forming forming, double step_rad) const override {
        if (tool.face) return stroke_.meetsLeaf(sheet, *tool.face, fit, x0, x1, forming, step_rad);
        return stroke_.meetsStill(sheet, false, tool.section(fit), x0, x1, forming, step_rad);
    }
    [[nodiscard]] double meetsHeld(const SheetPiece& moving, bool shrunk, const SheetPiece& held, Forming forming,
                                   double step_rad) const override {
        return stroke_.meetsHeld(moving, shrunk, held, forming, step_rad);
    }
    [[nodiscard]] bool meetsOwnStrip(const SheetPiece& sheet) const override {
        return !sheet.moving && stroke_.meetsOwnStrip(sheet);
    }

private:
    LeafModel stroke_;
};

}  // namespace

void compareCase(std::uint64_t seed, int states, Tally& tally) {
    const Case what = random_states::randomCase(seed);
    const PartOnBrake folded = partOnBrake(what.part, what.shop, what.brake());
    ContactCache table(folded, what.shop, what.brake());
    const Outlines outlines(what.part);
    const std::vector<Tool> tools = toolsOf(what, table.machine());
    Dice dice(seed ^ 0x5deece66dULL);
    for (int i = 0; i < states; ++i) {
        const State state = random_states::randomState(what.part, dice);
        checkState({"randomCase", seed, state, tools}, LeafStroke(what, outlines, state), table, dice, tally);
    }
}

}  // namespace tinwright::oracle
