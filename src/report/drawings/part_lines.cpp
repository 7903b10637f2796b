// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>

#include <tinwright/geometry/polygons.h>

#include "drawings/blank_marks.h"
#include "drawings/line_view.h"

namespace tinwright::report {
namespace {

constexpr double kOnStrip_mm = 0.02;

/// Adds a panel in its own frame (blank coordinates, `pose` to the scene).
class PanelLines {
public:
    PanelLines(const FoldScene& scene, const PartBody& body, PartLines& lines)
        : scene_(scene), body_(body), lines_(lines) {}

    void add() {
        const Region& region = scene_.part().panel(body_.panel).region;
        ring(region.outline, true);
        for (const Polygon& hole : region.holes) ring(hole, false);
        for (const Slab& slab : body_.slabs) {
            lines_.faces.push_back({slab.lower});
            lines_.faces.push_back({slab.upper});
        }
    }

private:
    /// Where a panel ends at a bend there is no cut edge.
    [[nodiscard]] bool onStrip(const Vec2& a, const Vec2& b) const {
        for (const Bend& bend : scene_.part().bends) {
            if (bend.parent != body_.panel && bend.child != body_.panel) continue;
            const auto near = [&](const Vec2& p) {
                return std::abs(std::abs((p - bend.origin).dot(bend.toward_child)) - 0.5 * bend.allowance_mm) <
                       kOnStrip_mm;
            };
            if (!near(a) || !near(b)) continue;
            const double middle = (0.5 * (a + b) - bend.origin).dot(bend.along);
            for (const StripSpan& span : bend.spans) {
                if (middle > span.from_mm && middle < span.to_mm) return true;
            }
        }
        return false;
    }

    void ring(const Polygon& points, bool outline) {
        const double t = scene_.thickness_mm();
        for (std::size_t i = 0; i < points.size(); ++i) {
            const Vec2& a = points[i];
            const Vec2& b = points[(i + 1) % points.size()];
            const bool strip = outline && onStrip(a, b);
            const int kind = strip ? kBendEdge : kPartEdge;
            const Vec3 a0 = body_.pose * lifted(a, 0);
            const Vec3 b0 = body_.pose * lifted(b, 0);
            const Vec3 a1 = body_.pose * lifted(a, t);
            const Vec3 b1 = body_.pose * lifted(b, t);
            lines_.edges.push_back({a0, b0, kind});
            lines_.edges.push_back({a1, b1, kind});
            if (!strip) lines_.faces.push_back({{a0, b0, b1, a1}});
        }
        for (const Vec2& corner : sharpCorners(points)) {
            lines_.edges.push_back({body_.pose * lifted(corner, 0), body_.pose * lifted(corner, t), kPartEdge});
        }
    }

    const FoldScene& scene_;
    const PartBody& body_;
    PartLines& lines_;
};

void addStrip(const PartBody& body, PartLines& lines) {
    const int kind = body.is_new ? kNewEdge : kPartEdge;
    for (const Slab& slab : body.slabs) {
        const std::size_t n = slab.lower.size();
        // Slices are wound outer start, outer end, inner end, inner start: the curved faces are rings' first and third
        // edges.
        for (const auto* ring : {&slab.lower, &slab.upper}) {
            lines.edges.push_back({(*ring)[0], (*ring)[1], kind});
            if (n == 4) lines.edges.push_back({(*ring)[2], (*ring)[3], kind});
            lines.faces.push_back({*ring});
        }
        lines.faces.push_back({{slab.lower[0], slab.lower[1], slab.upper[1], slab.upper[0]}});
        if (n == 4) lines.faces.push_back({{slab.lower[2], slab.lower[3], slab.upper[3], slab.upper[2]}});
    }
}

}  // namespace

PartLines partLines(const FoldScene& scene, const std::vector<PartBody>& bodies) {
    PartLines lines;
    for (const PartBody& body : bodies) {
        if (body.is_strip) {
            addStrip(body, lines);
        } else {
            PanelLines(scene, body, lines).add();
        }
    }
    return lines;
}

}  // namespace tinwright::report
