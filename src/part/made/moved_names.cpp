// SPDX-License-Identifier: GPL-3.0-or-later
#include "made/moved_names.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "edges/free_edges.h"

namespace tinwright {

namespace {

constexpr double kSameEdge_mm = 2e-3;
constexpr double kFarAway_mm = 1e5;

double overlap_mm(const Segment& a, const Segment& b) {
    const Vec2 way = a.along();
    const double from = way.dot(b.from - a.from), to = way.dot(b.to - a.from);
    return std::min(a.length(), std::max(from, to)) - std::max(0.0, std::min(from, to));
}

bool onOneLine(const Segment& a, const Segment& b) {
    const Vec2 across = a.outward();
    return std::abs(across.dot(b.from - a.from)) < kSameEdge_mm && std::abs(across.dot(b.to - a.from)) < kSameEdge_mm;
}

/// What is free of the panel's border along the edge: of several pieces that with the most of the edge in it.
std::optional<Segment> freeNow(const Part& part, PanelId panel, const Segment& edge) {
    std::optional<Segment> best;
    double most_mm = kSameEdge_mm;
    const Polygon& ring = part.panel(panel).region.outline;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Segment border{ring[i], ring[(i + 1) % ring.size()]};
        if (border.length() < kSameEdge_mm || !onOneLine(border, edge)) continue;
        for (const Segment& piece : freePieces(part, panel, border)) {
            if (piece.length() < kSameEdge_mm || overlap_mm(piece, edge) <= most_mm) continue;
            most_mm = overlap_mm(piece, edge);
            best = piece;
        }
    }
    if (best && best->along().dot(edge.along()) < 0) std::swap(best->from, best->to);
    return best;
}

bool isNear(const Vec2& a, const Vec2& b) { return (a - b).norm() < kSameEdge_mm; }

/// By area, of what lies on the child's side of the bend line.
double childShare(const Bend& bend, const Polygon& outline) {
    const Vec2 a = bend.origin - kFarAway_mm * bend.along, b = bend.origin + kFarAway_mm * bend.along;
    Polygon beyond{a, b, b + kFarAway_mm * bend.toward_child, a + kFarAway_mm * bend.toward_child};
    if (signedArea_mm2(beyond) < 0) std::reverse(beyond.begin(), beyond.end());
    double area_of_it_mm2 = 0;
    for (const Region& piece : intersection({outline, {}}, beyond)) area_of_it_mm2 += area_mm2(piece);
    return area_of_it_mm2 / std::max(1e-9, std::abs(signedArea_mm2(outline)));
}

}  // namespace

void renewEdges(const Part& drawn, BendId id, Part& moved) {
    const Bend& bend = moved.bend(id);
    std::vector<NamedEdge> edges;
    for (NamedEdge edge : drawn.edges) {
        if (edge.panel == bend.parent || edge.panel == bend.child) {
            const std::optional<Segment> now = freeNow(moved, edge.panel, {edge.from, edge.to});
            if (!now) continue;
            // An end that nothing has changed stays what it was to the last digit.
            if (!isNear(now->from, edge.from)) edge.from = now->from;
            if (!isNear(now->to, edge.to)) edge.to = now->to;
        }
        edges.push_back(std::move(edge));
    }
    moved.edges = std::move(edges);
}

void renewCutOuts(const Part& drawn, BendId id, Part& moved) {
    const Bend& before = drawn.bend(id);
    const Bend& now = moved.bend(id);
    for (NamedCutOut& cut_out : moved.cut_outs) {
        if (cut_out.panel != now.parent && cut_out.panel != now.child) continue;
        const bool was_beyond = childShare(before, cut_out.outline) > 0.5;
        const bool is_beyond = childShare(now, cut_out.outline) > 0.5;
        if (was_beyond != is_beyond) cut_out.panel = is_beyond ? now.child : now.parent;
    }
}

}  // namespace tinwright
