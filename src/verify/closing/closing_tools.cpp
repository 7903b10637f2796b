// SPDX-License-Identifier: GPL-3.0-or-later
#include "closing/closing_tools.h"

#include <algorithm>
#include <variant>

#include "machine/tools.h"

namespace tinwright::replay {

void ClosingTools::addUpper(Body body, double rises_mm, bool taken_off) {
    upper.push_back({std::move(body), std::max(0.0, rises_mm), taken_off});
}

ClosingTools ClosingMachine::tools(double height_mm, std::vector<std::string>& wrong) const {
    ClosingTools tools = ownTools(height_mm, wrong);
    for (Body& frame : frameBodies(brake_, step_)) tools.lower.push_back(std::move(frame));
    return tools;
}

std::unique_ptr<const ClosingMachine> closingMachine(const BrakeInSetup& brake, const FoldStep& step,
                                                     const ReplayedMachine& machine) {
    return std::visit([&](const auto& kind) { return closingKind(kind, brake, step, machine); }, brake->kind);
}

}  // namespace tinwright::replay
