// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/part/model/part.h>
#include <tinwright/sequence/remedies/remedies.h>

namespace tinwright {

/// A part on a brake in its set-up: what sentences about its folds name, and the limits that they quote. Refers to all
/// of it, which outlives it.
struct FoldContext {
    const Part& part;
    const Shop& shop;
    const BrakeInSetup& brake;
    const std::vector<Remedy>* remedies = nullptr;  ///< planned again; null: none
};

}  // namespace tinwright
