// SPDX-License-Identifier: GPL-3.0-or-later
#include "tolerances/inflated.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace tinwright {

namespace {

constexpr double kQuarter = 0.5 * std::numbers::pi;
constexpr double kSameDirection_rad = 1e-6;
constexpr double kRoundOff_mm = 1e-3;  // corners that turn by less are left out; rounding

// A corner of a convex polygon grown by a rectangle: which corner it was, and to which side it moved.
struct GrownCorner {
    std::size_t corner;
    double side_a;
    double side_b;
};

// The sum of a convex counter-clockwise polygon and a rectangle has each corner once for every quadrant of directions
// in which it is the furthest. Which ones depends on the directions of the edges alone, so that two rings of one prism
// grow alike.
std::vector<GrownCorner> grownCorners(const Polygon& polygon) {
    static constexpr double kSide[4][2] = {{1, 1}, {-1, 1}, {-1, -1}, {1, -1}};
    const std::size_t n = polygon.size();
    const auto normalOf = [&](std::size_t edge) {
        const Vec2 along = polygon[(edge + 1) % n] - polygon[edge];
        return std::atan2(-along.x(), along.y());
    };
    std::vector<GrownCorner> result;
    for (std::size_t i = 0; i < n; ++i) {
        const double from = normalOf((i + n - 1) % n);
        double to = normalOf(i);
        while (to < from - kSameDirection_rad) to += 4 * kQuarter;
        for (int quadrant = static_cast<int>(std::floor(from / kQuarter));
             quadrant * kQuarter < to - kSameDirection_rad; ++quadrant) {
            if ((quadrant + 1) * kQuarter <= from + kSameDirection_rad) continue;
            const auto& side = kSide[((quadrant % 4) + 4) % 4];
            result.push_back({i, side[0], side[1]});
        }
    }
    return result;
}

Polygon flatOf(const std::vector<Vec3>& ring, const Vec3& a, const Vec3& b) {
    Polygon flat;
    for (const Vec3& corner : ring) flat.emplace_back(a.dot(corner), b.dot(corner));
    return flat;
}

// Rings whose outline runs counter-clockwise seen along a × b.
PrismRings turnedRound(PrismRings prism, const Vec3& a, const Vec3& b) {
    if (signedArea_mm2(flatOf(prism.bottom, a, b)) >= 0) return prism;
    std::reverse(prism.bottom.begin(), prism.bottom.end());
    std::reverse(prism.top.begin(), prism.top.end());
    return prism;
}

// Bounds along the axes of a prism, in its frame and in the fold's.
class Bounds {
public:
    Bounds(const Rigid& pose, const Deviation& deviation, const Swelling& how)
        : pose_(pose), deviation_(deviation), how_(how), flat_(deviation.formedBends() == 0) {}

    [[nodiscard]] Vec3 turned(const Vec3& axis) const { return pose_.linear() * axis; }

    // Over points in the frame of the fold.
    [[nodiscard]] double over(const Vec3& axis, const std::vector<Vec3>& points, bool upper) const {
        const Vec3 direction = turned(axis);
        double most = 0;
        for (const Vec3& point : points) most = std::max(most, deviation_.along_mm(direction, point));
        return most + deviation_.ofThickness_mm(direction, upper, how_.from) + ofMotion(direction);
    }

    // What moves a face out besides the deviation; flat sheet is taken down by the stroke, never up.
    [[nodiscard]] double outOfSheet(const Vec3& outward, bool upper) const {
        const double down_mm = flat_ ? how_.motion_mm * std::max(0.0, -outward.z()) : 0.0;
        return deviation_.ofThickness_mm(outward, upper, how_.from) + ofMotion(outward) + down_mm;
    }

    [[nodiscard]] double ofMotion(const Vec3& direction) const {
        return flat_ ? how_.flat_motion_mm * std::abs(direction.y())
                     : how_.motion_mm * (std::abs(direction.y()) + std::abs(direction.z()));
    }
    [[nodiscard]] const Deviation& deviation() const { return deviation_; }

private:
    const Rigid& pose_;
    const Deviation& deviation_;
    const Swelling& how_;
    bool flat_;
};

// A face of flat sheet: how far it moves out, as an affine function of the nominal place.
struct FaceOut {
    FaceOut(const Bounds& bounds, const std::vector<Vec3>& corners, bool upper, double growth_mm)
        : out(upper ? 1.0 : -1.0),
          affine(bounds.deviation().affineAlong(bounds.turned(Vec3(0, 0, out)), corners)),
          more_mm(bounds.outOfSheet(bounds.turned(Vec3(0, 0, out)), upper) + bounds.deviation().slope() * growth_mm) {}
    [[nodiscard]] Vec3 moved(const Vec3& corner, const Rigid& pose) const {
        return corner + Vec3(0, 0, out * (affine.at(pose * corner) + more_mm));
    }
    double out;
    Deviation::Affine affine;
    double more_mm;
};

}  // namespace

std::vector<PrismRings> inflatedSheet(const std::vector<PrismRings>& prisms, const Polygon& outline, const Rigid& pose,
                                      const Deviation& deviation, const Swelling& how) {
    if (prisms.empty()) return {};
    const Bounds bounds(pose, deviation, how);
    const double outline_mm = kRoundOff_mm + (how.cut ? deviation.outline_mm() : 0.0);
    const Vec3 a(deviation.axis().x(), deviation.axis().y(), 0);
    const Vec3 b(-a.y(), a.x(), 0);
    std::vector<Vec3> lower, upper;
    for (const Vec2& corner : outline) {
        lower.push_back(pose * Vec3(corner.x(), corner.y(), prisms.front().bottom.front().z()));
        upper.push_back(pose * Vec3(corner.x(), corner.y(), prisms.front().top.front().z()));
    }
    const auto growth = [&](const Vec3& axis) -> Vec3 {
        return (outline_mm + std::max(bounds.over(axis, lower, false), bounds.over(axis, upper, true))) * axis;
    };
    const Vec3 by_a = growth(a);
    const Vec3 by_b = growth(b);
    const FaceOut below(bounds, lower, false, (by_a + by_b).norm());
    const FaceOut above(bounds, upper, true, (by_a + by_b).norm());
    std::vector<PrismRings> result;
    for (const PrismRings& given : prisms) {
        const PrismRings prism = turnedRound(given, a, b);
        PrismRings grown;
        for (const GrownCorner& corner : grownCorners(flatOf(prism.bottom, a, b))) {
            const Vec3 by = corner.side_a * by_a + corner.side_b * by_b;
            grown.bottom.push_back(below.moved(prism.bottom[corner.corner] + by, pose));
            grown.top.push_back(above.moved(prism.top[corner.corner] + by, pose));
        }
        result.push_back(std::move(grown));
    }
    return result;
}

std::vector<PrismRings> inflatedArc(const std::vector<PrismRings>& slices, const Bend& bend, const Rigid& pose,
                                    const Deviation& deviation, const Swelling& how) {
    const Bounds bounds(pose, deviation, how);
    const Vec3 a(bend.toward_child.x(), bend.toward_child.y(), 0);
    const Vec3 b = Vec3::UnitZ();
    const Vec3 along(bend.along.x(), bend.along.y(), 0);
    std::vector<PrismRings> result;
    const auto placed = [&](std::vector<Vec3> ring) {
        for (Vec3& corner : ring) corner = pose * corner;
        return ring;
    };
    for (const PrismRings& given : slices) {
        const PrismRings slice = turnedRound(given, a, b);
        const std::vector<GrownCorner> corners = grownCorners(flatOf(slice.bottom, a, b));
        const double by_along =
            (how.cut ? deviation.cutting_mm() : 0.0) + kRoundOff_mm +
            std::max(bounds.over(along, placed(slice.bottom), false), bounds.over(along, placed(slice.top), false));
        const double more = deviation.strip_mm() + kRoundOff_mm + deviation.slope() * by_along;
        const auto ringOf = [&](const std::vector<Vec3>& ring, double way) {
            const double by_a = more + bounds.over(a, placed(ring), false);
            const double by_b = more + bounds.over(b, placed(ring), false);
            std::vector<Vec3> moved;
            for (const GrownCorner& grown : corners) {
                moved.push_back(ring[grown.corner] + grown.side_a * by_a * a + grown.side_b * by_b * b +
                                way * by_along * along);
            }
            return moved;
        };
        result.push_back({ringOf(slice.bottom, -1), ringOf(slice.top, 1)});
    }
    return result;
}

}  // namespace tinwright
