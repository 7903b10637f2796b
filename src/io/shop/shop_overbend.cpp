// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/io/json/json_reading.h>

#include "shop/shop_process.h"

namespace tinwright {

Overbend readOverbend(const JsonCursor& at) {
    constexpr Range kOverbend{0, 45};
    Overbend overbend;
    if (!at.object({"default_deg", "by_material_deg", "note"})) return overbend;
    overbend.default_deg = numberOr(at, "default_deg", kOverbend, overbend.default_deg, "degrees");
    static_cast<void>(textOr(at, "note", ""));
    const std::optional<JsonCursor> table = at.get("by_material_deg");
    if (!table) return overbend;
    if (!table->json().is_object()) {
        table->wrong("type", "an object of degrees by material id");
        return overbend;
    }
    for (const auto& [material, value] : table->members()) {
        if (const std::optional<double> deg = value.number(kOverbend, "degrees"))
            overbend.by_material_deg[material] = *deg;
    }
    return overbend;
}

}  // namespace tinwright
