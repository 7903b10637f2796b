// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <tinwright/geometry/planar.h>

#include "paper/drawing.h"
#include "paper/paper_view.h"
#include "scene/fold_scene.h"

namespace tinwright::report {

/// A direction of looking, as three unit vectors.
struct Sight {
    Vec3 right;
    Vec3 up;
    Vec3 toward;  ///< the viewer

    [[nodiscard]] Vec2 flat(const Vec3& p) const { return {right.dot(p), up.dot(p)}; }
    [[nodiscard]] double depth(const Vec3& p) const { return toward.dot(p); }
};

/// Straight down, with the back of the machine at the top.
[[nodiscard]] Sight fromAbove();
/// From the operator's side: `turn` to the right (negative: left) of straight ahead, `rise` above level.
[[nodiscard]] Sight fromFront(Angle turn, Angle rise);

struct Edge3 {
    Vec3 from;
    Vec3 to;
    int kind = 0;  ///< the caller's own
};

/// A flat convex face.
struct Face3 {
    std::vector<Vec3> ring;
};

/// Edges and faces of a part as it is drawn: outlines of panels on both faces of the sheet, sharp corners, ends of arcs
/// and, thin, where a panel ends and its bend begins.
struct PartLines {
    std::vector<Edge3> edges;
    std::vector<Face3> faces;
};
inline constexpr int kPartEdge = 0;
inline constexpr int kBendEdge = 1;  ///< between a panel and a bend: no crease, only a change of curvature
inline constexpr int kNewEdge = 2;   ///< of a strip of this stroke
[[nodiscard]] PartLines partLines(const FoldScene& scene, const std::vector<PartBody>& bodies);

struct FlatEdge {
    Vec2 from;
    Vec2 to;
    int kind = 0;
};

/// What of the edges can be seen. Exact up to a hair: each edge loses the stretches that lie behind a face, found by
/// clipping it to the face's outline and comparing depths, which are linear along both. No order of painting is needed,
/// so panels may interlock as they like.
[[nodiscard]] std::vector<FlatEdge> visibleEdges(const PartLines& lines, const Sight& sight);

/// Draws them, new ones heavy and those between panels and bends thin.
void drawEdges(Drawing& drawing, const std::vector<FlatEdge>& edges, const PaperView& view);

}  // namespace tinwright::report
