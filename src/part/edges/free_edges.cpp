// SPDX-License-Identifier: GPL-3.0-or-later
#include "edges/free_edges.h"

#include <algorithm>
#include <cmath>

namespace tinwright {

namespace {

constexpr double kOnLine_mm = 2e-3;

}  // namespace

std::vector<Segment> freePieces(const Part& part, PanelId panel, const Segment& edge) {
    std::vector<StripSpan> taken;
    for (const Bend& bend : part.bends) {
        if (bend.parent != panel && bend.child != panel) continue;
        const Vec2 border = bend.origin + (bend.child == panel ? 0.5 : -0.5) * bend.allowance_mm * bend.toward_child;
        const auto off = [&](const Vec2& point) { return std::abs(bend.toward_child.dot(point - border)); };
        if (off(edge.from) > kOnLine_mm || off(edge.to) > kOnLine_mm) continue;
        for (const StripSpan& span : bend.spans) {
            const double a = edge.along().dot(bend.origin + span.from_mm * bend.along - edge.from);
            const double b = edge.along().dot(bend.origin + span.to_mm * bend.along - edge.from);
            taken.push_back({std::min(a, b), std::max(a, b)});
        }
    }
    taken.push_back({edge.length(), edge.length()});
    std::sort(taken.begin(), taken.end(), [](const StripSpan& a, const StripSpan& b) { return a.from_mm < b.from_mm; });
    std::vector<Segment> pieces;
    double at = 0;
    for (const StripSpan& span : taken) {
        const double end = std::min(span.from_mm, edge.length());
        if (end > at) pieces.push_back({edge.from + at * edge.along(), edge.from + end * edge.along()});
        at = std::max(at, span.to_mm);
    }
    return pieces;
}

}  // namespace tinwright
