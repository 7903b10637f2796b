// SPDX-License-Identifier: GPL-3.0-or-later
#include "kinds/brake_words.h"

#include <variant>

namespace tinwright::report {

const BrakeWords& wordsFor(const Brake& brake) {
    return std::visit([](const auto& kind) -> const BrakeWords& { return wordsOfKind(kind); }, brake.kind);
}

std::string standing(const Brake& brake, const FoldStep& step, ToolRow row) {
    std::string names;
    for (const PlacedTool& bar : step.tools) {
        if (brake.rowOf(bar.tool) == row) names += (names.empty() ? "" : " | ") + brake.tool(bar.tool).id;
    }
    return names;
}

}  // namespace tinwright::report
