// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>

#include "machine/setting.h"
#include "strokes/stroke.h"

namespace tinwright::replay {

/// A tool over the sheet where it is when the hem is closed, and how far it goes up from there to stand open.
struct UpperTool {
    Body body;
    double rises_mm = 0;
    bool taken_off = false;  ///< a loose bar: it is gone while the part comes and goes
};

/// What a hem is closed between, in the frame of the closing: z = 0 the lower flat.
struct ClosingTools {
    std::vector<UpperTool> upper;
    std::vector<Body> lower;
};

/// The pieces of a step, which is told in the frame of the closing, round a hem closed to `height_mm`; says in `wrong`
/// what keeps them from closing it.
[[nodiscard]] ClosingTools closingTools(const BrakeInSetup& brake, const FoldStep& step, const Setting& setting,
                                        double height_mm, std::vector<std::string>& wrong);

}  // namespace tinwright::replay
