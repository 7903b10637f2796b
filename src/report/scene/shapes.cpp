// SPDX-License-Identifier: GPL-3.0-or-later
#include "scene/shapes.h"

#include <tinwright/geometry/polygons.h>

#include "scene/machine_bodies.h"

namespace tinwright::report {
namespace {

/// What of a section lies between two heights, as convex pieces.
std::vector<Polygon> piecesBetween(const Polygon& profile, double least_mm, double most_mm) {
    constexpr double kAll_mm = 1e5;
    std::vector<Polygon> pieces;
    for (const Region& region : intersection({profile, {}}, {Vec2(-kAll_mm, least_mm), Vec2(kAll_mm, least_mm),
                                                             Vec2(kAll_mm, most_mm), Vec2(-kAll_mm, most_mm)})) {
        const std::vector<Polygon> convex = convexPieces(region);
        pieces.insert(pieces.end(), convex.begin(), convex.end());
    }
    return pieces;
}

}  // namespace

Slab extruded(const Polygon& section, double from_mm, double to_mm) {
    Slab slab;
    for (const Vec2& p : section) {
        slab.lower.emplace_back(from_mm, p.x(), p.y());
        slab.upper.emplace_back(to_mm, p.x(), p.y());
    }
    return slab;
}

std::vector<Slab> extruded(const std::vector<Polygon>& sections, const Vec2& by, double from_mm, double to_mm) {
    std::vector<Slab> slabs;
    for (Polygon section : sections) {
        for (Vec2& point : section) point += by;
        slabs.push_back(extruded(section, from_mm, to_mm));
    }
    return slabs;
}

PartShapes::PartShapes(const PartOnBrake& folded) : on_brake(folded), part(folded.part()) {
    for (const Panel& panel : part.panels)
        panel_pieces.push_back(panel.region.outline.empty() ? std::vector<Polygon>{} : convexPieces(panel.region));
}

ToolShapes::ToolShapes(const BrakeInSetup& machine) : brake(machine) {
    const Polygon* before = nullptr;  // most bars of a brake share one section
    for (std::size_t i = 0; i < brake->toolCount(); ++i) {
        const Polygon& profile = brake->tool(idAt<ToolId>(i)).profile;
        const bool as_before = before != nullptr && profile == *before;
        before = &profile;
        bar_pieces.push_back(as_before         ? bar_pieces.back()
                             : profile.empty() ? std::vector<Polygon>{}
                                               : convexPieces({profile, {}}));
    }
    for (const BodySection& body : bodiesFor(*brake).sections(*brake)) {
        if (!body.section.empty()) bodies_[body.body] = convexPieces({body.section, {}});
    }
    constexpr double kFar_mm = 1e5;
    for (std::size_t i = 0; i < brake->toolCount(); ++i) {
        const Punch* punch = brake->punch(idAt<ToolId>(i));
        if (punch == nullptr || !punch->horn || punch->profile.empty()) continue;
        horned_[i] = {piecesBetween(punch->profile, -kFar_mm, punch->horn->height_mm),
                      piecesBetween(punch->profile, punch->horn->height_mm, kFar_mm)};
    }
}

const std::vector<Polygon>& ToolShapes::bodyPieces(BodyRef::Kind body) const {
    static const std::vector<Polygon> kNone;
    const auto pieces = bodies_.find(body);
    return pieces == bodies_.end() ? kNone : pieces->second;
}

std::vector<Slab> ToolShapes::piece(ToolId bar, const Vec2& by, double from_mm, double to_mm) const {
    const auto cut = horned_.find(bar.index());
    if (cut == horned_.end()) return extruded(bar_pieces[bar.index()], by, from_mm, to_mm);
    const Horn& horn = *brake->punch(bar)->horn;
    std::vector<Slab> slabs = extruded(cut->second.horn, by, from_mm, to_mm);
    const std::vector<Slab> body = extruded(cut->second.over_horn, by, from_mm + (horn.at_left ? horn.reach_mm : 0),
                                            to_mm - (horn.at_left ? 0 : horn.reach_mm));
    slabs.insert(slabs.end(), body.begin(), body.end());
    return slabs;
}

}  // namespace tinwright::report
