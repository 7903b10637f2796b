// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <tinwright/part/model/part.h>

/// Strips under the sheet on a leaf brake, so that a closed hem that hangs under it does not lift it off bed and leaf.
/// Common practice; the model: src/fold/NOTES.md, "Packing".
namespace tinwright {

/// So many offcuts of the sheet are laid one over the other at most.
inline constexpr int kMostPackingStrips = 4;

/// How thick packing has to be for the part's hems, in offcuts of its own sheet: ascending, without those that would
/// take more of them than kMostPackingStrips. Empty for parts without hems.
[[nodiscard]] std::vector<double> packingHeights_mm(const Part& part);

/// Of how many offcuts packing consists.
[[nodiscard]] int packingStrips(double packing_mm, double thickness_mm);

}  // namespace tinwright
