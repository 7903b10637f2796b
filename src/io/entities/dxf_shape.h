// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <Eigen/Geometry>

#include <tinwright/geometry/planar.h>

namespace tinwright {

/// Where an entity stands and what it looks like.
struct DxfTag {
    std::string layer = "0";
    std::string line_type = "BYLAYER";
    std::size_t line = 0;  ///< of the file
};

/// A curve of a drawing in a form that any affine map keeps: lines, arcs of ellipses by a pair of conjugate radii,
/// rational B-splines.
struct DxfShape {
    enum class Kind { kLine, kArc, kSpline };
    Kind kind = Kind::kLine;
    DxfTag tag;
    /// kLine: from, to. kArc: centre c, radii a and b: c + a cos t + b sin t for t from `from_rad` to `to_rad` >
    /// `from_rad`. kSpline: control points.
    std::vector<Vec2> points;
    double from_rad = 0;
    double to_rad = 0;
    std::vector<double> weights;  ///< kSpline: one a point
    std::vector<double> knots;    ///< points + degree + 1, ascending
    int degree = 3;
};

/// The nearest point of the grid kDxfGrid_mm.
[[nodiscard]] Vec2 onDxfGrid(const Vec2& point);

[[nodiscard]] DxfShape mapped(DxfShape shape, const Eigen::Affine2d& map);

/// Points along the shape, its ends included; chords stay within kDxfChord_mm. Corners of a circle are as those of a
/// round cut-out of a recipe. A closed curve ends where it starts. Points lie on the grid kDxfGrid_mm.
[[nodiscard]] std::vector<Vec2> flattened(const DxfShape& shape);

/// An arc from one point to another by its bulge, the tangent of a quarter of its angle, positive counter-clockwise; a
/// line when the bulge is 0.
[[nodiscard]] DxfShape bulgeShape(const Vec2& from, const Vec2& to, double bulge, const DxfTag& tag);

/// Empty when a spline makes sense, else what is wrong.
[[nodiscard]] std::string splineComplaint(const DxfShape& shape);

/// Points of a spline as flattened() gives them, off the grid.
[[nodiscard]] std::vector<Vec2> splinePoints(const DxfShape& shape);

}  // namespace tinwright
