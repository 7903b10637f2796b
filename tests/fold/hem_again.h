// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Closing a hem, gone through again for libfcl: "Hems" of src/fold/NOTES.md written down a second time
// (oracle_sheet.h).

#include <string>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/plan/plan.h>

#include "oracle_sheet.h"

namespace tinwright::oracle {

/// What goes deep into what while the hem of `step`, of one bend, is closed; empty when nothing does. `folded`:
/// of a PartOnBrake.
[[nodiscard]] std::string hitOnClosing(const Part& folded, const Outlines& outlines, const BrakeInSetup& brake,
                                       BendMask formed, const FoldStep& step);

}  // namespace tinwright::oracle
