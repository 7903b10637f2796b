// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/verify/strokes/verify_options.h>

#include "machine/setting.h"
#include "solids/bodies.h"
#include "strokes/finished.h"

namespace tinwright::replay {

/// The part's bodies in the fold's frame, this fold's bends still flat.
struct PartBodies {
    std::vector<Body> held;
    std::vector<Body> moving;
    std::vector<Body> own;  ///< strips of this fold's bends, rolled to the set angle
};

[[nodiscard]] PartBodies partBodies(const Sheet& sheet, const std::vector<Shape>& panels, const FoldStep& step,
                                    const Setting& setting);

/// Strips of this fold's bends rolled to `angle`, in the fold's frame.
[[nodiscard]] std::vector<Body> ownStrips(const Sheet& sheet, const FoldStep& step, const Setting& setting,
                                          Angle angle);

/// Everything a stroke is checked with.
struct Scene {
    const Sheet* sheet = nullptr;
    const PartOnBrake* on_brake = nullptr;  ///< of which the sheet is
    const Finished* finished = nullptr;
    BrakeInSetup brake;
    const FoldStep* step = nullptr;
    Setting setting;
    PartBodies part;
    MachineBodies machine;
    VerifyOptions options;
};

/// Bends from 0 to the set angle and lets the part spring back, and says what meets what.
void checkStroke(const Scene& scene, std::vector<std::string>& wrong);

}  // namespace tinwright::replay
