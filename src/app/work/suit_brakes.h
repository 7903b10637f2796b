// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <vector>

#include <tinwright/report/text/suit_text.h>

#include "files/inputs.h"
#include "options/choices.h"
#include "work/suit_subject.h"

namespace tinwright::app {

/// Suits the part to some brakes of the shop, one after the other.
[[nodiscard]] SuitReport suitBrakes(const EffortChoice& effort, const Inputs& inputs, const SuitSubject& subject,
                                    const std::vector<std::size_t>& brakes);

}  // namespace tinwright::app
