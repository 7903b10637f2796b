// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <vector>

#include <tinwright/brake/plan/plan.h>

#include "gltf/glb_part.h"
#include "gltf/glb_writer.h"
#include "scene/fold_scene.h"

namespace tinwright::report {

/// Moments of a stroke that are shown, after the first.
inline constexpr int kStrokeKeys = 24;

/// A machine in a glTF file, and what moves over a fold of a plan. Made for one plan; nodes are added once, machine
/// first.
class GlbMachine {
public:
    virtual ~GlbMachine() = default;
    /// What stands whatever the fold; `first`: the scene of the first.
    virtual void addMachine(GlbWriter& writer, std::size_t colour, const FoldScene& first) = 0;
    /// Tools of a fold; those of the first are seen.
    virtual void addPieces(GlbWriter& writer, std::size_t colour, const FoldScene& scene, std::size_t fold) = 0;
    /// What moves over a fold, all of the part included.
    [[nodiscard]] virtual std::vector<GlbTrack> tracks(const GlbPart& part, const FoldScene& scene,
                                                       std::size_t fold) const = 0;
};

/// Refers to plan and tools. By the kind of the brake.
[[nodiscard]] std::unique_ptr<GlbMachine> glbMachine(const Plan& plan, const ToolShapes& tools);
[[nodiscard]] std::unique_ptr<GlbMachine> glbOfKind(const LeafBrake& kind, const Plan& plan, const ToolShapes& tools);
[[nodiscard]] std::unique_ptr<GlbMachine> glbOfKind(const PressBrake& kind, const Plan& plan, const ToolShapes& tools);

}  // namespace tinwright::report
