// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/part/flat/flat_blank.h>

#include "dxf/bends_file.h"
#include "entities/dxf_curves.h"

namespace tinwright {

/// What is known of how lines are bent.
struct BendSources {
    const BendsFile& file;
    const std::vector<DxfCurve>& lines;  ///< bend lines of the drawing
    const std::vector<DxfText>& texts;
    double mm_per_unit = 1;
    std::string drawing;  ///< its file name
};

/// Joints in the order the part's bends are to have (entries of the bends file first, as they stand there), each with
/// how it is bent: what its entry says, else a text near it, else the name of its layer (direction only), else the
/// default.
struct SaidBends {
    std::vector<FlatJoint> joints;
    std::vector<FlatBend> bends;
    std::vector<std::string> notices;
};

/// Issues: "bends.at" (an entry that lies at no bend, or at two), "bends.twice", "dxf.bend.unsaid", "allowance.…".
[[nodiscard]] Result<SaidBends> sayBends(const std::vector<FlatJoint>& joints, const BendSources& sources);

}  // namespace tinwright
