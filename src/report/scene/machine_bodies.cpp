// SPDX-License-Identifier: GPL-3.0-or-later
#include "scene/machine_bodies.h"

#include <algorithm>
#include <variant>

#include "scene/fold_scene.h"

namespace tinwright::report {

const MachineBodies& bodiesFor(const Brake& brake) {
    return std::visit([](const auto& kind) -> const MachineBodies& { return bodiesOfKind(kind); }, brake.kind);
}

bool isMeant(BodyRef one, BodyRef meant) {
    return one == meant || (meant.id == BodyRef::kAny && one.kind == meant.kind);
}

PlacedTool overTheMiddle(const FoldScene& scene, ToolId tool) {
    const double middle = 0.5 * scene.length_mm();
    const double half = 0.5 * std::min(scene.brake()->tool(tool).width_mm, std::max(1.0, scene.length_mm()));
    return {tool, middle - half, middle + half};
}

}  // namespace tinwright::report
