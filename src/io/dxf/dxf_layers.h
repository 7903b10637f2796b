// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "dxf/bends_file.h"
#include "entities/dxf_curves.h"

namespace tinwright {

/// Curves by what they are for.
struct DxfSorted {
    std::vector<DxfCurve> cuts;
    std::vector<DxfCurve> bends;
    std::vector<std::string> notices;  ///< every guess, a sentence each
};

/// By the rules; what they do not name by guess: line types and layer names that mean bends, names of layers for notes,
/// and cut lines for the rest (nothing, when the rules name cut layers).
[[nodiscard]] DxfSorted sortByLayer(const std::vector<DxfCurve>& curves, const LayerRules& rules);

}  // namespace tinwright
