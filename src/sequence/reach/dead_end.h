// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "states/state_table.h"

namespace tinwright::search {

/// Of the states reached from the start by possible folds that have none left, the one with the most bends
/// formed, then the smallest mask. States that the budget does not allow to open are passed over, and so may be those
/// that are reached only by folds which take long to answer for.
[[nodiscard]] BendMask deepestDeadEnd(StateTable& table);

}  // namespace tinwright::search
