// SPDX-License-Identifier: GPL-3.0-or-later
#include "contact/clamped_widths.h"

#include <algorithm>
#include <limits>

#include <tinwright/part/model/bend_frame.h>

namespace tinwright {

namespace {

constexpr double kFurthest_mm = 500;

}  // namespace

const IntervalSet& ClampedWidths::of(BendId bend, Side hold) {
    auto& slot = known_[slotOf(bend, hold)];
    if (slot) return *slot;
    const FlatDepth depth = geometry_.machine().flatDepth(geometry_.motions(bend), geometry_.limits().clamped_land_mm);
    slot = std::make_unique<IntervalSet>(deepEnough(bend, hold, hold, depth.held_mm));
    if (depth.moving_mm) *slot = slot->intersect(deepEnough(bend, hold, opposite(hold), *depth.moving_mm));
    return *slot;
}

const std::optional<IntervalSet>& ClampedWidths::swung(BendId bend, Side hold) {
    auto& slot = swung_[slotOf(bend, hold)];
    if (slot) return *slot;
    slot = std::make_unique<std::optional<IntervalSet>>();
    const auto depth_mm = geometry_.machine().sideDepthToSwing_mm(geometry_.motions(bend), geometry_.limits());
    if (depth_mm) *slot = deepEnough(bend, hold, opposite(hold), *depth_mm);
    return *slot;
}

bool ClampedWidths::swings(BendId bend, Side hold, std::size_t face) {
    const Machine& machine = geometry_.machine();
    const std::size_t packing = machine.packingOf(face);
    if (packing == 0 && !machine.standsOff(geometry_.motions(bend), packing)) return true;
    const auto [entry, is_new] = swings_.try_emplace({slotOf(bend, hold), face}, true);
    if (is_new) {
        entry->second = machine.swingsWith(face, geometry_.motions(bend), swungDepth_mm(bend, hold, kFurthest_mm),
                                           geometry_.limits());
    }
    return entry->second;
}

Angle ClampedWidths::lead(BendId bend, Side hold, std::size_t face) const {
    const Machine& machine = geometry_.machine();
    if (!machine.standsOff(geometry_.motions(bend), machine.packingOf(face))) return {};
    return machine.lead(geometry_.motions(bend), face, swungDepth_mm(bend, hold, kFurthest_mm));
}

double ClampedWidths::swungDepth_mm(BendId bend, Side hold, double most_mm) const {
    constexpr double kToWithin_mm = 0.005;
    Micron all = 0;
    for (const StripSpan& span : geometry_.part().bend(bend).spans) all += micronFloor(span.length_mm());
    const auto isDeep = [&](double depth_mm) {
        return 2 * deepEnough(bend, hold, opposite(hold), depth_mm).length() >= all;
    };
    if (isDeep(most_mm)) return most_mm;
    double lo_mm = 0;
    double hi_mm = most_mm;
    while (hi_mm - lo_mm > kToWithin_mm) {
        const double middle_mm = 0.5 * (lo_mm + hi_mm);
        (isDeep(middle_mm) ? lo_mm : hi_mm) = middle_mm;
    }
    return lo_mm;
}

// Where the panel on one side of the bend is as deep as that behind the strip, along x of the
// bend's frame.
IntervalSet ClampedWidths::deepEnough(BendId bend, Side hold, Side side, double depth_mm) const {
    const Bend& line = geometry_.part().bend(bend);
    const Vec2 away = towards(line, side);
    const Vec2 start = line.origin + 0.5 * line.allowance_mm * away;
    const Rigid frame = geometry_.bendFrame(bend, hold);
    IntervalSet missing;
    IntervalSet spans;
    for (const StripSpan& span : line.spans) {
        const auto corner = [&](double along, double behind) -> Vec2 {
            return start + along * line.along + behind * away;
        };
        Polygon band{corner(span.from_mm, 0), corner(span.to_mm, 0), corner(span.to_mm, depth_mm),
                     corner(span.from_mm, depth_mm)};
        if (signedArea_mm2(band) < 0) std::reverse(band.begin(), band.end());
        const auto xOf = [&](const Vec2& p) { return (frame * Vec3(p.x(), p.y(), 0)).x(); };
        const auto extent = [&](const Polygon& polygon) {
            double lo = std::numeric_limits<double>::infinity();
            double hi = -lo;
            for (const Vec2& p : polygon) lo = std::min(lo, xOf(p)), hi = std::max(hi, xOf(p));
            return std::pair(lo, hi);
        };
        const auto [lo, hi] = extent(band);
        spans.add(Interval{micronCeil(lo), micronFloor(hi)});
        for (const Region& piece : outside(Region{band, {}}, geometry_.part().panel(panelAt(line, side)).region)) {
            if (area_mm2(piece) < 1e-3) continue;
            const auto [from, to] = extent(piece.outline);
            missing.add(Interval{micronFloor(from), micronCeil(to)});
        }
    }
    spans.subtract(missing);
    return spans;
}

}  // namespace tinwright
