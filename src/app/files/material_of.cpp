// SPDX-License-Identifier: GPL-3.0-or-later
#include "files/material_of.h"

#include <tinwright/io/shop/materials_io.h>

namespace tinwright::app {

std::optional<Material> materialOf(const Part& part) {
    const Result<Materials> materials = readShippedMaterials();
    if (!materials) return {};
    const Material* material = materials.value().find(part.material);
    return material == nullptr ? std::nullopt : std::optional(*material);
}

}  // namespace tinwright::app
