// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <string>
#include <vector>

#include <tinwright/base/result.h>
#include <tinwright/part/allowance/measured_bends.h>
#include <tinwright/part/model/part.h>

#include "options/choices.h"

namespace tinwright::app {

/// The part that was asked about: a recipe, or a blank in DXF with its bends file when the name ends in ".dxf".
/// Issue "part.kind" when options for drawings are given for a recipe.
/// `measured`: the shop's measured bends, when there is a shop.
[[nodiscard]] Result<Part> readPart(const PartChoice& choice,
                                    const std::shared_ptr<const MeasuredBends>& measured = nullptr);

/// The part of a recipe with this inside radius at every bend but hems. Precondition: it is no drawing, whose blank is
/// what it is.
[[nodiscard]] Result<Part> readPartWithRadius(const PartChoice& choice,
                                              const std::shared_ptr<const MeasuredBends>& measured,
                                              double inside_radius_mm);

/// Files that are read, which no output may replace.
[[nodiscard]] std::vector<std::string> inputFiles(const PartChoice& part, const ShopChoice& shop);

}  // namespace tinwright::app
