// SPDX-License-Identifier: GPL-3.0-or-later
#include "measures/steps.h"

#include <algorithm>
#include <cmath>

#include <tinwright/part/allowance/allowance.h>

namespace tinwright::forming {

namespace {

bool overlap(const Leg& a, const Bend& b) {
    const Vec2 from = b.origin + b.spans.front().from_mm * b.along;
    const Vec2 to = b.origin + b.spans.back().to_mm * b.along;
    const double first = a.fromBlank(from).x();
    const double second = a.fromBlank(to).x();
    return std::min(first, second) < a.to_mm && std::max(first, second) > a.from_mm;
}

/// The panel between two bends, seen from the first; each pair once.
std::optional<Side> sharedSide(const Bend& a, const Bend& b, bool in_order) {
    if (a.child == b.parent) return Side::kChild;
    if (a.parent == b.parent && in_order) return Side::kParent;
    return std::nullopt;
}

}  // namespace

double outside_mm(const Part& part, const Bend& bend, const Leg& leg) {
    return leg.depth_mm - leg.strip_mm +
           setback_mm(Face::kOutside, bend.angle, bend.inside_radius_mm, part.thickness_mm);
}

std::optional<double> flatBetween_mm(const Part& part, BendId from, BendId to) {
    const Bend& a = part.bend(from);
    const Bend& b = part.bend(to);
    const std::optional<Side> side = sharedSide(a, b, from < to);
    if (!side || std::abs(a.along.x() * b.along.y() - a.along.y() * b.along.x()) > 1e-6) return std::nullopt;
    const Leg leg = legOf(part, from, *side);
    if (leg.fromBlank(b.origin).y() <= leg.strip_mm || !overlap(leg, b)) return std::nullopt;
    return leg.fromBlank(b.origin).y() - leg.strip_mm - 0.5 * b.allowance_mm;
}

}  // namespace tinwright::forming
