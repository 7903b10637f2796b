// SPDX-License-Identifier: GPL-3.0-or-later
// Where the held panel gives land to be clamped.
#include <algorithm>
#include <limits>

#include "touch_table.h"

namespace tinwright {

const IntervalSet& TouchTable::land(BendId bend, int hold) {
    auto& slot = lands_[bend.index() * 2 + static_cast<std::size_t>(hold)];
    if (slot) return *slot;
    const Bend& line = bodies_.part().bend(bend);
    const Vec2 back = hold == 0 ? Vec2(-line.toward_child) : line.toward_child;
    const Vec2 start = line.origin + 0.5 * line.allowance_mm * back;
    const double depth = std::max(0.01, limits_->clamped_land_mm - bodies_.nose_radius_mm());
    const Rigid frame = foldFromBlank(line, hold, bodies_.part().thickness_mm, bodies_.nose_radius_mm());
    IntervalSet missing;
    IntervalSet spans;
    for (const StripSpan& span : line.spans) {
        const auto corner = [&](double along, double behind) -> Vec2 { return start + along * line.along + behind * back; };
        Polygon band{corner(span.from_mm, 0), corner(span.to_mm, 0), corner(span.to_mm, depth), corner(span.from_mm, depth)};
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
        std::vector<Polygon> sheet;
        const Panel& panel = bodies_.part().panel(heldPanel(line, hold));
        for (const Region& piece : difference(Region{band, {}}, convexPieces(panel.region))) {
            if (area_mm2(piece) < 1e-3) continue;
            const auto [from, to] = extent(piece.outline);
            missing.add(Interval{micronFloor(from), micronCeil(to)});
        }
    }
    spans.subtract(missing);
    slot = std::make_unique<IntervalSet>(std::move(spans));
    return *slot;
}

}  // namespace tinwright
