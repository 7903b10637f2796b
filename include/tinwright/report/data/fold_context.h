// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/part/model/part.h>

namespace tinwright {

/// A part on a brake in its set-up: what sentences about its folds name, and the limits that they quote. Refers to all
/// three, which outlive it.
struct FoldContext {
    const Part& part;
    const Shop& shop;
    const BrakeInSetup& brake;
};

}  // namespace tinwright
