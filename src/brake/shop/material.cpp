// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/brake/shop/material.h>

#include <algorithm>

namespace tinwright {

const Material* Materials::find(std::string_view id) const {
    for (const Material& entry : entries) {
        if (entry.id == id) return &entry;
        if (std::find(entry.aliases.begin(), entry.aliases.end(), id) != entry.aliases.end()) return &entry;
    }
    return nullptr;
}

std::vector<std::string> Materials::ids() const {
    std::vector<std::string> all;
    for (const Material& entry : entries) {
        all.push_back(entry.id);
        all.insert(all.end(), entry.aliases.begin(), entry.aliases.end());
    }
    return all;
}

}  // namespace tinwright
