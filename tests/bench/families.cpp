// SPDX-License-Identifier: GPL-3.0-or-later
#include "families.h"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <utility>
#include <vector>

namespace tinwright::bench {

namespace {

constexpr double kThickness_mm = 1.5;
constexpr double kRadius_mm = 1.0;
constexpr double kAllowance_mm = 2.6;

struct Edge {
    PanelId panel;
    Vec2 a;
    Vec2 b;
};

/// What is joined along an edge, whose panel lies to the left of a -> b.
struct Flange {
    std::string name;
    double from_mm = 0;  ///< left out at the edge's start and end
    double to_mm = 0;
    double height_mm = 0;
    double mitre_mm = 0;  ///< taken off each end of the far edge
    bool up = true;
};

Part sheet(const std::string& name, const std::string& base, Polygon outline) {
    Part part;
    part.name = name;
    part.material = "mild-steel";
    part.thickness_mm = kThickness_mm;
    part.panels.push_back({base, {std::move(outline), {}}});
    part.blank = part.panels[0].region;
    return part;
}

/// The flange's far edge.
Edge add(Part& part, const Edge& edge, const Flange& flange) {
    Bend bend;
    bend.name = flange.name;
    bend.parent = edge.panel;
    bend.child = idAt<PanelId>(part.panels.size());
    bend.along = (edge.b - edge.a).normalized();
    bend.toward_child = Vec2(bend.along.y(), -bend.along.x());
    bend.angle = Angle::degrees(90);
    bend.up = flange.up;
    bend.inside_radius_mm = kRadius_mm;
    bend.allowance_mm = kAllowance_mm;
    bend.origin = edge.a + 0.5 * kAllowance_mm * bend.toward_child;
    const double lo = flange.from_mm;
    const double hi = (edge.b - edge.a).norm() - flange.to_mm;
    bend.spans = {{lo, hi}};
    const auto at = [&](double along, double out) -> Vec2 {
        return bend.origin + along * bend.along + (0.5 * kAllowance_mm + out) * bend.toward_child;
    };
    const Polygon outline{at(lo, 0), at(lo + flange.mitre_mm, flange.height_mm),
                          at(hi - flange.mitre_mm, flange.height_mm), at(hi, 0)};
    part.panels.push_back({flange.name, {outline, {}}});
    part.bends.push_back(bend);
    return {bend.child, outline[1], outline[2]};
}

}  // namespace

Part boxWithLips(std::size_t bends) {
    const std::size_t walls = bends / 2;
    const double gap_mm = 10;
    const double pitch_mm = 70;
    // Sides take the walls by turns, long sides first.
    std::array<std::size_t, 4> on_side{};
    for (std::size_t i = 0; i < walls; ++i) ++on_side[std::array<std::size_t, 4>{0, 2, 1, 3}[i % 4]];
    const double width_mm = std::max(150.0, pitch_mm * static_cast<double>(on_side[0]));
    const double depth_mm = std::max(150.0, pitch_mm * static_cast<double>(on_side[1]));
    const Polygon floor{Vec2(0, 0), Vec2(width_mm, 0), Vec2(width_mm, depth_mm), Vec2(0, depth_mm)};
    Part part = sheet("box", "floor", floor);
    std::vector<std::pair<std::string, Edge>> tops;
    for (std::size_t side = 0; side < 4; ++side) {
        const Edge edge{idAt<PanelId>(0), floor[side], floor[(side + 1) % 4]};
        const double length_mm = (edge.b - edge.a).norm();
        const double share_mm = length_mm / static_cast<double>(on_side[side]);
        for (std::size_t i = 0; i < on_side[side]; ++i) {
            const double from_mm = share_mm * static_cast<double>(i);
            const std::string name = std::to_string(side + 1) + "_" + std::to_string(i + 1);
            tops.emplace_back(name, add(part, edge,
                                        {"wall_" + name, from_mm + gap_mm / 2,
                                         length_mm - from_mm - share_mm + gap_mm / 2, 60, 0, true}));
        }
    }
    for (const auto& [name, top] : tops) add(part, top, {"lip_" + name, 3, 3, 12, 8, true});
    return part;
}

Part ladder(std::size_t bends) {
    const double width_mm = 120;
    const double step_mm = 70;
    Part part = sheet("ladder", "step_0", {Vec2(0, 0), Vec2(width_mm, 0), Vec2(width_mm, step_mm), Vec2(0, step_mm)});
    Edge edge{idAt<PanelId>(0), part.panels[0].region.outline[0], part.panels[0].region.outline[1]};
    for (std::size_t i = 0; i < bends; ++i)
        edge = add(part, edge, {"step_" + std::to_string(i + 1), 0, 0, step_mm, 0, i % 2 == 0});
    return part;
}

Part comb(std::size_t bends) {
    const std::size_t a_side = bends / 2;
    const double pitch_mm = 50;
    const double length_mm = pitch_mm * static_cast<double>(a_side);
    const double depth_mm = 120;
    Part part = sheet("comb", "strip", {Vec2(0, 0), Vec2(length_mm, 0), Vec2(length_mm, depth_mm), Vec2(0, depth_mm)});
    for (std::size_t i = 0; i < bends; ++i) {
        const double at = pitch_mm * static_cast<double>(i % a_side);
        const bool front = i < a_side;
        const Edge edge = front ? Edge{idAt<PanelId>(0), Vec2(at, 0), Vec2(at + pitch_mm, 0)}
                                : Edge{idAt<PanelId>(0), Vec2(at + pitch_mm, depth_mm), Vec2(at, depth_mm)};
        add(part, edge, {(front ? "front_" : "back_") + std::to_string(i % a_side + 1), 6, 6, 30, 0, true});
    }
    return part;
}

Part familyPart(const std::string& family, std::size_t bends) {
    if (family == "box") return boxWithLips(bends);
    if (family == "ladder") return ladder(bends);
    if (family == "comb") return comb(bends);
    std::abort();
}

}  // namespace tinwright::bench
