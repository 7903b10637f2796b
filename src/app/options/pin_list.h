// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/base/result.h>
#include <tinwright/part/model/part.h>
#include <tinwright/sequence/plan/pins.h>

#include "options/choices.h"

namespace tinwright::app {

/// What of holds and order is settled, looked up in the part, added to what `pins` has. Issues: those of order_list.h,
/// and "pin.against" where one contradicts another, so that no order can keep both.
[[nodiscard]] Issues addOrderPins(const PinChoice& choice, const Part& part, BendMask formed, Pins& pins);

}  // namespace tinwright::app
