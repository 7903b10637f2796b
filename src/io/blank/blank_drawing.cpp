// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>

#include <tinwright/io/blank/blank_io.h>

#include <tinwright/geometry/cross.h>

#include "blank/blank_outline.h"

namespace tinwright {

namespace {

// Long enough to be seen and felt, short enough to vanish in the bend.
constexpr double kNick_mm = 2.0;
// No nick takes more of a short bend than this.
constexpr double kLargestShare = 0.2;
constexpr double kAtEdge_mm = 0.01;

void addCrossings(const Polygon& ring, const Vec2& origin, const Vec2& along, std::vector<double>& at) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Vec2& p = ring[i];
        const Vec2& q = ring[(i + 1) % ring.size()];
        const double dp = cross(along, p - origin), dq = cross(along, q - origin);
        if ((dp > 0) != (dq > 0)) at.push_back(along.dot(p + dp / (dp - dq) * (q - p) - origin));
    }
}

/// Where a line parallel to a bend has sheet, within the stretches of the bend.
std::vector<StripSpan> sheetOn(const Part& part, const Bend& bend, double toward_child_mm, std::vector<double>& edges) {
    const Vec2 origin = bend.origin + toward_child_mm * bend.toward_child;
    addCrossings(part.blank.outline, origin, bend.along, edges);
    for (const Polygon& hole : part.blank.holes) addCrossings(hole, origin, bend.along, edges);
    std::sort(edges.begin(), edges.end());
    std::vector<StripSpan> spans;
    for (std::size_t i = 0; i + 1 < edges.size(); i += 2) {
        for (const StripSpan& span : bend.spans) {
            const StripSpan common{std::max(edges[i], span.from_mm), std::min(edges[i + 1], span.to_mm)};
            if (common.length_mm() > kAtEdge_mm) spans.push_back(common);
        }
    }
    return spans;
}

// Only from an edge: a slit inside the sheet would be a notch where the bend pulls.
void addNicks(const Part& part, const MarkLine& mark, BlankDrawing& drawing) {
    const Bend& bend = part.bend(mark.bend);
    std::vector<double> edges;
    for (const StripSpan& span : sheetOn(part, bend, mark.toward_child_mm, edges)) {
        const auto isEdge = [&](double at) {
            return std::any_of(edges.begin(), edges.end(),
                               [&](double edge) { return std::abs(edge - at) < kAtEdge_mm; });
        };
        const Vec2 origin = bend.origin + mark.toward_child_mm * bend.toward_child;
        const double nick = std::min(kNick_mm, kLargestShare * span.length_mm());
        const auto add = [&](double from, double to) {
            if (isEdge(from))
                drawing.mark.push_back({origin + from * bend.along, origin + to * bend.along});
            else
                ++drawing.unmarked;
        };
        add(span.from_mm, span.from_mm + nick);
        add(span.to_mm, span.to_mm - nick);
    }
}

}  // namespace

std::vector<MarkLine> bendLineMarks(const Part& part) {
    std::vector<MarkLine> marks;
    for (std::size_t i = 0; i < part.bends.size(); ++i) marks.push_back({idAt<BendId>(i), 0.0});
    return marks;
}

BlankDrawing drawBlank(const Part& part, const BlankDrawingOptions& options) {
    BlankDrawing drawing;
    drawing.name = part.name;
    drawing.drill = options.drill;
    drawing.comments = options.comments;
    const Region& cut = options.cut ? *options.cut : part.blank;
    drawing.cut.push_back(drawnLoop(cut.outline));
    for (const Polygon& hole : cut.holes) drawing.cut.push_back(drawnLoop(hole));
    for (const MarkLine& mark : options.marks) addNicks(part, mark, drawing);
    for (std::size_t i = 0; options.bend_lines && i < part.bends.size(); ++i) {
        const Bend& bend = part.bends[i];
        std::vector<double> edges;
        for (const StripSpan& span : sheetOn(part, bend, 0, edges)) {
            (bend.up ? drawing.bend_up : drawing.bend_down)
                .push_back({bend.origin + span.from_mm * bend.along, bend.origin + span.to_mm * bend.along});
        }
    }
    return drawing;
}

}  // namespace tinwright
