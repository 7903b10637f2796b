// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/part/edges/leg_end.h>

#include <cmath>

#include <tinwright/part/model/bend_frame.h>

namespace tinwright {

namespace {

constexpr double kOnLeg_mm = 0.01;
constexpr double kLeastMeasured_mm = 5;
constexpr double kAlongLeg = 1e-6;

/// A leg, from the line of its bend out.
struct Leg {
    const Part& part;
    BendMask formed;
    Vec2 origin;
    Vec2 out;

    [[nodiscard]] double distance_mm(const Vec2& p) const { return out.dot(p - origin); }
};

std::optional<LegEnd> endAtEdge(const Leg& leg, PanelId panel) {
    std::optional<LegEnd> end;
    for (const NamedEdge& edge : leg.part.edges) {
        if (edge.panel != panel || (edge.to - edge.from).norm() < kLeastMeasured_mm) continue;
        const double at_mm = leg.distance_mm(edge.from);
        if (std::abs(at_mm - leg.distance_mm(edge.to)) > kOnLeg_mm) continue;
        if (!end || at_mm > end->at_mm) end = LegEnd{at_mm, std::nullopt, panel, edge.name};
    }
    return end;
}

std::optional<LegEnd> endOn(const Leg& leg, PanelId panel, BendId came_by) {
    for (std::size_t i = 0; i < leg.part.bends.size(); ++i) {
        const auto id = idAt<BendId>(i);
        const Bend& next = leg.part.bend(id);
        if (id == came_by || (next.parent != panel && next.child != panel)) continue;
        const Side to = next.parent == panel ? Side::kChild : Side::kParent;
        if (towards(next, to).dot(leg.out) < 1 - kAlongLeg) continue;
        if (!contains(leg.formed, id)) return endOn(leg, panelAt(next, to), id);
        return LegEnd{leg.distance_mm(next.origin) - 0.5 * next.allowance_mm, id, panelAt(next, to), {}};
    }
    return endAtEdge(leg, panel);
}

}  // namespace

std::optional<LegEnd> legEnd(const Part& part, BendId id, Side side, BendMask formed) {
    const Bend& bend = part.bend(id);
    std::optional<LegEnd> end = endOn({part, formed, bend.origin, towards(bend, side)}, panelAt(bend, side), id);
    if (end && end->at_mm <= 0.5 * bend.allowance_mm) return std::nullopt;
    return end;
}

double bendSetback_mm(const Bend& as_drawn, double thickness_mm, Face face, double inside_radius_mm) {
    const Bend bend = finished(as_drawn);
    const bool is_given = inside_radius_mm >= 0 && !bend.hem;
    return setback_mm(face, bend.angle, is_given ? inside_radius_mm : bend.inside_radius_mm, thickness_mm);
}

double legSize_mm(const Part& part, BendId bend, const LegEnd& end, Face face, double inside_radius_mm) {
    const auto setback = [&](BendId of) {
        return bendSetback_mm(part.bend(of), part.thickness_mm, face, inside_radius_mm);
    };
    return end.at_mm - 0.5 * part.bend(bend).allowance_mm + setback(bend) + (end.bend ? setback(*end.bend) : 0.0);
}

}  // namespace tinwright
