// SPDX-License-Identifier: GPL-3.0-or-later
#include "metal/strength.h"

#include <algorithm>

namespace tinwright::forming {

namespace {

double leastOf(const Property& property) { return property.least ? *property.least : *property.most; }
double mostOf(const Property& property) { return property.most ? *property.most : *property.least; }

}  // namespace

std::optional<Strength> strengthOf(const Material* material) {
    if (!material || !material->yield_mpa.known() || !material->tensile_mpa.known()) return std::nullopt;
    Strength strength;
    strength.yield_mpa = leastOf(material->yield_mpa);
    const double tensile_mpa = 0.5 * (leastOf(material->tensile_mpa) + mostOf(material->tensile_mpa));
    strength.flow_mpa = std::max(strength.yield_mpa, 0.5 * (strength.yield_mpa + tensile_mpa));
    strength.most_tensile_mpa = mostOf(material->tensile_mpa);
    strength.tensile_is_least = !material->tensile_mpa.most;
    if (material->youngs_modulus_gpa.known()) strength.modulus_mpa = 1000 * leastOf(material->youngs_modulus_gpa);
    return strength;
}

}  // namespace tinwright::forming
