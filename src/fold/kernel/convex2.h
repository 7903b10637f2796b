// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <tinwright/geometry/planar.h>

namespace tinwright {

/// A convex region of the (y, z) plane as half-planes normal·p <= offset, with its corners.
struct ClipWindow {
    std::vector<Vec2> normals;
    std::vector<double> offsets;
    std::vector<Vec2> corners;
    std::vector<Vec2> ends;  ///< of the edges before they were moved out or in
};

/// A convex polygon in the (y, z) plane, kept as corners and half-planes, so that it can be grown by any margin without
/// being rebuilt. Sharp corners carry a half-plane that only touches them (a bevel): grown by m the polygon contains
/// every point within m of it, and at most a little more than m further at corners.
class Convex2 {
public:
    Convex2() = default;
    /// `corners` convex and counter-clockwise; edge i runs from corner i to i + 1 and is moved in by `inset[i]`
    /// (0 when `inset` is empty). What is left may be empty.
    explicit Convex2(const Polygon& corners, const std::vector<double>& inset = {});
    /// Of what hullOf() made.
    [[nodiscard]] static Convex2 ofHull(Polygon hull);

    [[nodiscard]] bool empty() const { return points_.empty(); }
    [[nodiscard]] const std::vector<Vec2>& points() const { return points_; }
    /// Half-planes: those of the edges (edge i starts at corner i), then bevels.
    [[nodiscard]] std::size_t size() const { return planes_.size(); }
    [[nodiscard]] const Vec2& normal(std::size_t i) const { return planes_[i].normal; }
    /// The polygon is where normal(i)·p <= offset(i) for all i.
    [[nodiscard]] double offset(std::size_t i) const { return planes_[i].offset; }
    /// The polygon grown by `margin_mm`, or shrunk when that is negative (what is left may be empty: no corners).
    [[nodiscard]] ClipWindow window(double margin_mm = 0) const;
    /// The same; a window that is filled again and again keeps its memory.
    void windowInto(ClipWindow& window, double margin_mm) const;

    [[nodiscard]] Convex2 moved(const Vec2& by) const;

private:
    struct HalfPlane {
        Vec2 normal;
        double offset;
    };
    void addPlanes();
    [[nodiscard]] bool isSharp(std::size_t edge) const;
    std::vector<Vec2> points_;
    std::vector<HalfPlane> planes_;
};

/// Convex hull, counter-clockwise, without straight corners. At least a segment's two points come back as given.
[[nodiscard]] Polygon hullOf(std::vector<Vec2> points);

/// Convex pieces of what is left of a simple profile when its outline is moved in by `inset_mm`, inner corners kept
/// square.
[[nodiscard]] std::vector<Convex2> profilePieces(const Polygon& profile, double inset_mm);

/// Distance of the origin from the polygon (0 inside) and of its furthest corner.
struct RadiusRange {
    double least_mm = 0;
    double most_mm = 0;
};
[[nodiscard]] RadiusRange radiusRange(const std::vector<Vec2>& corners, const Vec2& centre);

/// A convex polygon and itself moved by `by`, with all between.
[[nodiscard]] Convex2 sweptBy(const Polygon& polygon, const Vec2& by);

/// True when two convex polygons have no point in common but, at most, on their boundaries.
[[nodiscard]] bool apart(const Convex2& a, const Convex2& b, double margin_mm = 0);

}  // namespace tinwright
