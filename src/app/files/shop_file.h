// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include <tinwright/base/result.h>
#include <tinwright/brake/machines/shop.h>

namespace tinwright::app {

/// A shop file; its measured bends know which names of the shipped materials mean the same.
[[nodiscard]] Result<Shop> readShopFile(const std::string& path);

/// The same for a table of its own.
void nameMaterials(MeasuredBends& table);

}  // namespace tinwright::app
