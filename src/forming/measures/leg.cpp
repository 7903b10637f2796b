// SPDX-License-Identifier: GPL-3.0-or-later
#include "measures/leg.h"

#include <algorithm>

#include <tinwright/part/model/bend_frame.h>

namespace tinwright::forming {

Polygon inFrame(const Leg& leg, const Polygon& polygon) {
    Polygon turned;
    for (const Vec2& point : polygon) turned.push_back(leg.fromBlank(point));
    if (signedArea_mm2(turned) < 0) std::reverse(turned.begin(), turned.end());
    return turned;
}

namespace {

constexpr double kSameHole_mm = 1e-6;
constexpr double kShared_mm2 = 1e-3;  // less of a cut-out on a panel is rounding

Region inFrame(const Leg& leg, const Region& region) {
    Region turned{inFrame(leg, region.outline), {}};
    for (const Polygon& hole : region.holes) turned.holes.push_back(inFrame(leg, hole));
    return turned;
}

Polygon asPolygon(const Box& box) {
    return {box.min(), {box.max().x(), box.min().y()}, box.max(), {box.min().x(), box.max().y()}};
}

/// The cut-out filled up again; what of it lies past the panel's own extent is no sheet.
void fill(Leg& leg, std::vector<Box>& holes, const Polygon& cut_out) {
    const Box box = boxOf(cut_out);
    const auto hole =
        std::find_if(holes.begin(), holes.end(), [&](const Box& other) { return isSameBox(other, box, kSameHole_mm); });
    if (hole != holes.end()) {
        leg.solid.holes.erase(leg.solid.holes.begin() + (hole - holes.begin()));
        holes.erase(hole);
        return;
    }
    std::vector<Region> parts = intersection({cut_out, {}}, asPolygon(boxOf(leg.solid.outline)));
    parts.push_back(leg.solid);
    std::vector<Region> whole = unite(parts);
    const auto larger = [](const Region& a, const Region& b) { return area_mm2(a) < area_mm2(b); };
    if (whole.empty()) return;
    leg.solid = *std::max_element(whole.begin(), whole.end(), larger);
    holes.clear();
    for (const Polygon& left : leg.solid.holes) holes.push_back(boxOf(left));
}

double area_mm2(const std::vector<Region>& regions) {
    double area = 0;
    for (const Region& region : regions) area += tinwright::area_mm2(region);
    return area;
}

void addCutOuts(Leg& leg, const Part& part) {
    const Box extent = boxOf(leg.solid.outline);
    const Polygon window = asPolygon(extent);
    for (std::size_t i = 0; i < part.cut_outs.size(); ++i) {
        const Polygon outline = inFrame(leg, part.cut_outs[i].outline);
        const Box box = boxOf(outline);
        if (!extent.intersects(box)) continue;
        // Sheet that is there already is no cut-out of this panel: what is left of it in the panel's extent is.
        // An overlay is only asked where boxes do not settle it.
        if (!extent.contains(box) && area_mm2(intersection({outline, {}}, window)) <= kShared_mm2) continue;
        if (part.cut_outs[i].panel != leg.panel && box.max().y() <= leg.strip_mm) continue;
        leg.cut_outs.push_back({i, outline});
    }
    std::vector<Box> holes;
    for (const Polygon& hole : leg.solid.holes) holes.push_back(boxOf(hole));
    for (const LegCutOut& cut_out : leg.cut_outs) fill(leg, holes, cut_out.outline);
}

}  // namespace

Leg legFrame(const Part& part, BendId id, Side side) {
    const Bend& bend = part.bend(id);
    const double sign = side == Side::kChild ? 1 : -1;
    Leg leg;
    leg.panel = panelAt(bend, side);
    leg.strip_mm = 0.5 * bend.allowance_mm;
    leg.origin = bend.origin;
    leg.y_axis = sign * bend.toward_child;
    leg.x_axis = sign * bend.along;
    leg.bend_mm = stripLength_mm(bend);
    const double first = sign * bend.spans.front().from_mm;
    const double last = sign * bend.spans.back().to_mm;
    leg.from_mm = std::min(first, last);
    leg.to_mm = std::max(first, last);
    return leg;
}

Leg legOf(const Part& part, BendId id, Side side) {
    Leg leg = legFrame(part, id, side);
    leg.solid = inFrame(leg, part.panel(leg.panel).region);
    addCutOuts(leg, part);
    leg.depth_mm = boxOf(leg.solid.outline).max().y();
    return leg;
}

}  // namespace tinwright::forming
