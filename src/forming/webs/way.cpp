// SPDX-License-Identifier: GPL-3.0-or-later
#include "webs/way.h"

#include <algorithm>

namespace tinwright::forming {

namespace {

int badnessOf(const std::optional<WebTrouble>& trouble) {
    return trouble ? 1 + static_cast<int>(trouble->severity) : 0;
}

Spoils spoilsOf(const std::optional<WebTrouble>& trouble) {
    if (!trouble || trouble->severity == Severity::kNote) return {};
    return trouble->severity == Severity::kFault ? Spoils{1, 0} : Spoils{0, 1};
}

}  // namespace

int Way::badness() const { return std::max(badnessOf(when_swung), badnessOf(when_held)); }

Way wayOf(const Part& part, const std::optional<Strength>& strength, const WebTools& tools, BendId bend, Side swung) {
    const double hardening = strength ? strength->hardening() : 1;
    const LegLoad load{tools.leaf_mm, hardening, part.thickness_mm};
    const HeldLoad clamp{part.bend(bend).inside_radius_mm, tools.land_mm, hardening, part.thickness_mm};
    Way way{.bend = bend,
            .side = swung,
            .swung = legOf(part, bend, swung),
            .held = legOf(part, bend, opposite(swung)),
            .when_swung = {},
            .when_held = {},
            .swing_again = {},
            .hold_again = {}};
    way.swing_again = [load, strength](const Leg& leg) { return swungTrouble(leg, load, strength); };
    way.hold_again = [clamp](const Leg& leg) { return heldTrouble(leg, clamp); };
    way.when_swung = way.swing_again(way.swung);
    way.when_held = way.hold_again(way.held);
    return way;
}

Spoils webSpoils(const Part& part, const Material* material, const WebTools& tools, BendId bend, Side swung) {
    const Way way = wayOf(part, strengthOf(material), tools, bend, swung);
    return spoilsOf(way.when_swung) + spoilsOf(way.when_held);
}

}  // namespace tinwright::forming
