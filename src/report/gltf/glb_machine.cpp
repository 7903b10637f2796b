// SPDX-License-Identifier: GPL-3.0-or-later
#include "gltf/glb_machine.h"

#include <variant>

namespace tinwright::report {

std::unique_ptr<GlbMachine> glbMachine(const Plan& plan, const ToolShapes& tools) {
    return std::visit([&](const auto& kind) { return glbOfKind(kind, plan, tools); }, tools.brake->kind);
}

}  // namespace tinwright::report
