// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>

#include <tinwright/base/result.h>
#include <tinwright/brake/shop/material.h>

/// Reading materials files (format "tinwright-materials/1", src/io/SHOP_FORMAT.md). Every number names its source; an
/// entry holds limits of a standard or typical values, never both. Stresses are in MPa or ksi, as each says. All issues
/// come at once; safe on any bytes.
namespace tinwright {

/// Reads a materials file. Codes start with "file.", "json." or "materials.".
[[nodiscard]] Result<Materials> readMaterials(const std::string& path);

/// The same from memory; `file` names the text in issues.
[[nodiscard]] Result<Materials> readMaterialsText(std::string_view text, const std::string& file);

/// "materials.json" of the first known tooling folder that has one; an issue when there is none.
[[nodiscard]] Result<Materials> readShippedMaterials();

}  // namespace tinwright
