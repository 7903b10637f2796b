// SPDX-License-Identifier: GPL-3.0-or-later
#include "machine/replayed_machine.h"

#include <algorithm>
#include <variant>

#include <tinwright/base/contract.h>

#include "machine/replayed_kinds.h"
#include "machine/tools.h"

namespace tinwright::replay {

std::vector<const Body*> MachineBodies::tools() const {
    std::vector<const Body*> tools;
    for (const auto* list : {&bars, &standing}) {
        for (const Body& body : *list) tools.push_back(&body);
    }
    return tools;
}

const char* ReplayedMachine::pieceName(ToolRow row) const {
    const auto found = std::find_if(rows().begin(), rows().end(), [&](const CoveringRow& of) { return of.row == row; });
    TINWRIGHT_REQUIRE(found != rows().end(), "the machine has tools in that row");
    return found->piece;
}

std::vector<Body> ReplayedMachine::pieceBodies(const FoldStep& step, double upper_mm) const {
    std::vector<Body> bodies;
    for (std::size_t i = 0; i < step.tools.size(); ++i) {
        bodies.push_back(pieceBody(*brake_, step.tools[i], pieceName(brake_->rowOf(step.tools[i].tool)), upper_mm));
        bodies.back().piece = static_cast<int>(i);
    }
    return bodies;
}

MachineBodies ReplayedMachine::bodies() const {
    MachineBodies bodies = ownBodies();
    for (Body& frame : frameBodies(brake_, step_)) bodies.standing.push_back(std::move(frame));
    return bodies;
}

std::shared_ptr<const ReplayedMachine> replayedMachine(const BrakeInSetup& brake, const FoldStep& step,
                                                       double thickness_mm, double allowance_mm) {
    Bending stroke;
    stroke.inside_radius_mm = brake.inside_radius_mm();
    stroke.thickness_mm = thickness_mm;
    stroke.allowance_mm = allowance_mm;
    stroke.set_rad = step.set_angle.rad();
    return std::visit([&](const auto& kind) { return replayedKind(kind, brake, step, stroke); }, brake->kind);
}

}  // namespace tinwright::replay
