// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/brake/leaf_brake.h>

namespace tinwright {

double Shop::overbendFor_deg(const std::string& material) const {
    const auto found = overbend_deg.find(material);
    return found == overbend_deg.end() ? default_overbend_deg : found->second;
}

}  // namespace tinwright
