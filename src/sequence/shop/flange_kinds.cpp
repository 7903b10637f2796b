// SPDX-License-Identifier: GPL-3.0-or-later
#include "shop/flange_kinds.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace tinwright {

namespace {

using Shape = std::vector<long long>;

long long hundredths(double mm) { return std::llround(mm * 100); }

/// Lengths along a bend and out from it; mirrored: seen from the other side.
class BendFrame {
public:
    BendFrame(const Bend& bend, bool mirrored) : bend_(bend), sign_(mirrored ? -1 : 1) {
        middle_ = 0.5 * (bend.spans.front().from_mm + bend.spans.back().to_mm);
    }
    [[nodiscard]] std::pair<long long, long long> of(const Vec2& point) const {
        const Vec2 from = point - bend_.origin;
        return {hundredths(sign_ * (from.dot(bend_.along) - middle_)), hundredths(from.dot(bend_.toward_child))};
    }

private:
    const Bend& bend_;
    double sign_;
    double middle_ = 0;
};

void append(Shape& shape, const BendFrame& frame, const Polygon& outline) {
    std::vector<std::pair<long long, long long>> corners;
    for (const Vec2& corner : outline) corners.push_back(frame.of(corner));
    std::sort(corners.begin(), corners.end());
    shape.push_back(static_cast<long long>(corners.size()));
    for (const auto& [x, y] : corners) shape.insert(shape.end(), {x, y});
}

/// What hangs on a bend, as numbers that are equal for equal flanges. `kinds` has those of the bends beyond it.
Shape shapeOf(const Part& part, std::size_t index, const std::vector<std::uint32_t>& kinds, bool mirrored) {
    const Bend& bend = part.bends[index];
    const BendFrame frame(bend, mirrored);
    Shape shape{hundredths(bend.angle.deg()),     bend.up ? 1 : 0,
                hundredths(bend.allowance_mm),    hundredths(bend.inside_radius_mm),
                hundredths(stripExtent_mm(bend)), static_cast<long long>(bend.spans.size())};
    const Panel& child = part.panel(bend.child);
    append(shape, frame, child.region.outline);
    std::vector<Shape> more;
    for (const Polygon& hole : child.region.holes) append(more.emplace_back(), frame, hole);
    for (std::size_t other = 0; other < part.bends.size(); ++other) {
        if (part.bends[other].parent != bend.child) continue;
        const auto [x, y] =
            frame.of(part.bends[other].origin +
                     0.5 * (part.bends[other].spans.front().from_mm + part.bends[other].spans.back().to_mm) *
                         part.bends[other].along);
        more.push_back({-1, x, y, static_cast<long long>(kinds[other])});
    }
    std::sort(more.begin(), more.end());
    for (const Shape& one : more) shape.insert(shape.end(), one.begin(), one.end());
    return shape;
}

}  // namespace

std::vector<std::uint32_t> flangeKinds(const Part& part) {
    std::vector<std::uint32_t> kinds(part.bends.size(), 0);
    std::map<Shape, std::uint32_t> known;
    for (std::size_t i = part.bends.size(); i-- > 0;) {  // parents come first, so what hangs on a bend is known by now
        const Shape shape = std::min(shapeOf(part, i, kinds, false), shapeOf(part, i, kinds, true));
        kinds[i] = known.try_emplace(shape, static_cast<std::uint32_t>(known.size())).first->second;
    }
    return kinds;
}

}  // namespace tinwright
