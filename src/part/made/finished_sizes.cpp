// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/part/made/finished_sizes.h>

#include <algorithm>
#include <cmath>

#include <tinwright/geometry/polygons.h>
#include <tinwright/part/model/bend_frame.h>
#include <tinwright/part/model/pose.h>

namespace tinwright {

namespace {

constexpr double kChanged_mm = 0.005;

bool isSame(const FinishedSize& a, const FinishedSize& b) {
    return a.panel == b.panel && a.bend == b.bend && a.end.bend == b.end.bend && a.end.edge == b.end.edge;
}

bool isReverse(const FinishedSize& a, const FinishedSize& b) {
    return a.panel == b.panel && a.end.bend && b.end.bend && *a.end.bend == b.bend && *b.end.bend == a.bend;
}

/// Where a point of the blank on the outside face of the child comes, along `toward_child` of the parent.
double outAt_mm(const Part& part, BendId id, double at_mm, double inside_radius_mm) {
    const Bend bend = finished(part.bend(id));
    const double radius = inside_radius_mm >= 0 && !bend.hem ? inside_radius_mm : bend.inside_radius_mm;
    const Vec3 point = lifted(bend.origin + at_mm * bend.toward_child, bend.up ? 0 : part.thickness_mm);
    const Vec3 folded = parentFromChild(bend, part.thickness_mm, bend.angle, radius) * point;
    return folded.head<2>().dot(bend.toward_child);
}

}  // namespace

std::vector<FinishedSize> finishedSizes(const Part& part, double inside_radius_mm) {
    std::vector<FinishedSize> sizes;
    const BendMask all = allFormed(part);
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        const auto id = idAt<BendId>(i);
        for (const Side side : {Side::kChild, Side::kParent}) {
            const std::optional<LegEnd> end = legEnd(part, id, side, all);
            if (!end) continue;
            const FinishedSize size{panelAt(part.bend(id), side),
                                    id,
                                    side,
                                    *end,
                                    legSize_mm(part, id, *end, Face::kOutside, inside_radius_mm),
                                    legSize_mm(part, id, *end, Face::kInside, inside_radius_mm)};
            const bool is_known = std::any_of(sizes.begin(), sizes.end(),
                                              [&](const FinishedSize& other) { return isReverse(other, size); });
            if (!is_known) sizes.push_back(size);
        }
    }
    return sizes;
}

std::vector<SizeChange> sizeChanges(const Part& drawn, const Part& now, double inside_radius_mm) {
    std::vector<SizeChange> changes;
    const std::vector<FinishedSize> sizes_now = finishedSizes(now, inside_radius_mm);
    for (const FinishedSize& was : finishedSizes(drawn, inside_radius_mm)) {
        const auto is = std::find_if(sizes_now.begin(), sizes_now.end(),
                                     [&](const FinishedSize& size) { return isSame(size, was); });
        if (is == sizes_now.end()) continue;
        if (std::abs(is->outside_mm - was.outside_mm) >= kChanged_mm ||
            std::abs(is->inside_mm - was.inside_mm) >= kChanged_mm)
            changes.push_back({was, *is});
    }
    return changes;
}

std::optional<double> leansOut_mm(const Part& drawn, const Part& now, BendId bend, BendMask formed,
                                  double inside_radius_mm) {
    const std::optional<LegEnd> was = legEnd(drawn, bend, Side::kChild, formed);
    const std::optional<LegEnd> is = legEnd(now, bend, Side::kChild, formed);
    if (!was || !is) return std::nullopt;
    return outAt_mm(now, bend, is->at_mm, inside_radius_mm) - outAt_mm(drawn, bend, was->at_mm, inside_radius_mm);
}

}  // namespace tinwright
