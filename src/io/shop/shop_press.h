// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "shop/shop_draft.h"

/// What a press brake has and a leaf brake has not.
namespace tinwright {

/// Reads the fields that only a press brake has.
void takePressFields(const JsonCursor& object, ShopFiles& files, BrakeDraft& draft);

/// Checks that what is said of a press brake fits together, and makes press, bed and tools of `brake`.
void finishPress(const BrakeDraft& draft, Brake& brake);

}  // namespace tinwright
