// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include <tinwright/brake/shop/material.h>
#include <tinwright/part/model/part.h>

namespace tinwright::app {

/// The part's material in the shipped materials file. What the metal does is a help, so a file that cannot be read only
/// leaves it out.
[[nodiscard]] std::optional<Material> materialOf(const Part& part);

}  // namespace tinwright::app
