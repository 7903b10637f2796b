// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "files/inputs.h"
#include "options/choices.h"

namespace tinwright::app {

/// Looks up what is settled in part and shop and adds it to the inputs' pins. A brake that is left without tools is no
/// longer asked about, and that is said among the warnings; none left is an issue. Codes: those of addOrderPins(),
/// "pin.tool", "pin.vee" (no brake asked about has it), "pin.none" (nothing is left to fold with).
[[nodiscard]] Issues pinInputs(const PinChoice& choice, Inputs& inputs);

}  // namespace tinwright::app
