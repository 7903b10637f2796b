// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <tinwright/brake/machines/brake.h>

#include "scene/fold_scene.h"
#include "scene/fold_view.h"

namespace tinwright::report {

/// Something of a press brake as it stands in the frame of a FoldScene (dies and bed stand still).
struct PressTool {
    BodyRef body;        ///< punch, die, ram, bed or side frame
    Polygon section;     ///< in (y, z), whole
    double from_mm = 0;  ///< along the machine, x of the fold
    double to_mm = 0;
    std::vector<Slab> slabs;

    [[nodiscard]] bool comesDown() const {
        return body.kind == BodyRef::Kind::kPunch || body.kind == BodyRef::Kind::kRam;
    }
};

/// Where the punch's tip is, over the die's top, when it has gone down by so much from where it touched the flat sheet.
[[nodiscard]] double tipHeight_mm(const FoldScene& scene, double down_mm);

/// The first piece of a row among these; none when there is none.
[[nodiscard]] const Tool* firstOf(const Brake& brake, const std::vector<PlacedTool>& pieces, ToolRow row);

/// All that stands on and round the machine with the punch so far down: what is fixed, then ram, then pieces as they
/// stand from left to right. Without the part's place along the machine, bed and ram go on and there are no side
/// frames.
[[nodiscard]] std::vector<PressTool> pressTools(const FoldView& view, double down_mm);

}  // namespace tinwright::report
