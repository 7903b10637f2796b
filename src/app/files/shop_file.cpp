// SPDX-License-Identifier: GPL-3.0-or-later
#include "files/shop_file.h"

#include <tinwright/io/shop/materials_io.h>
#include <tinwright/io/shop/shop_io.h>

namespace tinwright::app {

// Without a materials file a name means only itself.
void nameMaterials(MeasuredBends& table) {
    const Result<Materials> materials = readShippedMaterials();
    if (!materials) return;
    for (const Material& material : materials.value().entries) {
        std::vector<std::string> names{material.id};
        names.insert(names.end(), material.aliases.begin(), material.aliases.end());
        table.same_material.push_back(std::move(names));
    }
}

Result<Shop> readShopFile(const std::string& path) {
    Result<Shop> shop = readShop(path);
    if (shop && !shop.value().measured_bends.bends.empty()) nameMaterials(shop.value().measured_bends);
    return shop;
}

}  // namespace tinwright::app
