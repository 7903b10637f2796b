// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/sequence/plan/pins.h>

#include <algorithm>
#include <numeric>
#include <utility>

#include <tinwright/base/contract.h>

namespace tinwright {

namespace {

bool names(const std::vector<std::string>& ids, const Tool& tool) {
    return std::find(ids.begin(), ids.end(), tool.id) != ids.end();
}

void keepPinned(LeafBrake& leaf, const ToolPins& pins) {
    std::erase_if(leaf.bars, [&](const Bar& bar) {
        return (!pins.bars.empty() && !names(pins.bars, bar)) || names(pins.without_bars, bar);
    });
}

void keepPinned(PressBrake& press, const ToolPins& pins) {
    std::erase_if(press.punches,
                  [&](const Punch& punch) { return !pins.punches.empty() && !names(pins.punches, punch); });
    std::erase_if(press.dies, [&](const Die& die) { return pins.vee_mm && !isCalled(die.vee, *pins.vee_mm); });
}

bool hasToolsOfKind(const LeafBrake& leaf) { return !leaf.bars.empty(); }
bool hasToolsOfKind(const PressBrake& press) { return !press.punches.empty() && !press.dies.empty(); }

/// By panel, the same number for those that are joined by bends that are not cut.
std::vector<std::size_t> pieces(const Part& part, BendMask cut) {
    std::vector<std::size_t> piece(part.panels.size());
    std::iota(piece.begin(), piece.end(), std::size_t{0});
    for (std::size_t i = 0; i < part.bends.size(); ++i) {  // parents come first, so one pass is enough
        if (!contains(cut, idAt<BendId>(i))) piece[part.bends[i].child.index()] = piece[part.bends[i].parent.index()];
    }
    return piece;
}

}  // namespace

HoldPin holdOn(const Part& part, BendMask stroke, PanelId panel) {
    TINWRIGHT_REQUIRE(stroke != 0, "a stroke has bends");
    const std::vector<std::size_t> piece = pieces(part, stroke);
    for (const BendId bend : bendsIn(stroke)) {
        if (piece[part.bend(bend).parent.index()] == piece[panel.index()]) return {bend, Side::kParent, panel};
        if (piece[part.bend(bend).child.index()] == piece[panel.index()]) return {bend, Side::kChild, panel};
    }
    TINWRIGHT_REQUIRE(false, "the panels of a part are one tree");
    return {};
}

Brake withTools(const Brake& brake, const ToolPins& pins) {
    Brake left = brake;
    std::visit([&](auto& kind) { keepPinned(kind, pins); }, left.kind);
    return left;
}

bool hasTools(const Brake& brake) {
    return std::visit([](const auto& kind) { return hasToolsOfKind(kind); }, brake.kind);
}

}  // namespace tinwright
