// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "checks.h"
#include "leg.h"
#include "wording.h"

namespace tinwright::forming {

namespace {

// A stamping design guide: distance from the start of the bend in thicknesses, by the kind and the length of the edge beside it.
constexpr double kRoundFactor = 1.5;
struct EdgeFactor {
    double to_mm;
    double thicknesses;
};
constexpr EdgeFactor kEdgeFactors[] = {{25, 2}, {50, 2.5}, {1e9, 3}};
constexpr double kRounding_mm = 1e-6;

struct Nearness {
    double distance_mm = 0;  ///< from the start of the bend; under 0: it lies in the bend
    double wanted_mm = 0;
    Vec2 away = Vec2::Zero();  ///< on the blank, from the bend
};

double wanted_mm(const NamedCutOut& cut_out, double edge_mm, double thickness_mm) {
    if (cut_out.round) return kRoundFactor * thickness_mm;
    for (const EdgeFactor& factor : kEdgeFactors) {
        if (edge_mm <= factor.to_mm) return factor.thicknesses * thickness_mm;
    }
    return 0;
}

/// Both sides of every bend, made once: with many cut-outs they are the dear part.
using Legs = std::vector<std::array<Leg, 2>>;

Legs legsOf(const Part& part) {
    Legs legs;
    for (std::size_t i = 0; i < part.bends.size(); ++i) legs.push_back({legOf(part, idAt<BendId>(i), Side::kParent), legOf(part, idAt<BendId>(i), Side::kChild)});
    return legs;
}

Polygon movedBy(Polygon polygon, const Vec2& by) {
    for (Vec2& point : polygon) point += by;
    return polygon;
}

Box boxIn(const Leg& leg, const Polygon& on_blank) {
    Polygon seen;
    for (const Vec2& point : on_blank) seen.push_back(leg.fromBlank(point));
    return boxOf(seen);
}

/// The side on which the cut-out, moved, lies nearest to a bend; none when it lies beside it on neither.
std::optional<Nearness> nearness(const Part& part, const std::array<Leg, 2>& legs, std::size_t cut_out, const Vec2& by = Vec2::Zero()) {
    std::optional<Nearness> nearest;
    const Polygon outline = movedBy(part.cut_outs[cut_out].outline, by);
    for (const Leg& leg : legs) {
        for (const LegCutOut& of_leg : leg.cut_outs) {
            if (of_leg.index != cut_out) continue;
            const Box box = boxIn(leg, outline);
            if (box.max().x() <= leg.from_mm || box.min().x() >= leg.to_mm) continue;
            const Nearness here{box.min().y() - leg.strip_mm, wanted_mm(part.cut_outs[cut_out], box.max().x() - box.min().x(), part.thickness_mm), leg.y_axis};
            if (!nearest || here.distance_mm < nearest->distance_mm) nearest = here;
        }
    }
    return nearest;
}

bool isNear(const Nearness& nearness) { return nearness.distance_mm < nearness.wanted_mm - kRounding_mm; }

/// With the cut-out moved, no bend has it too near, and it keeps a thickness of sheet to the edge.
bool isClear(const Part& part, const Legs& legs, std::size_t cut_out, const Vec2& by) {
    for (const std::array<Leg, 2>& both : legs) {
        const auto there = nearness(part, both, cut_out, by);
        if (there && isNear(*there)) return false;
        for (const Leg& leg : both) {
            if (leg.panel != part.cut_outs[cut_out].panel) continue;
            if (boxIn(leg, movedBy(part.cut_outs[cut_out].outline, by)).max().y() > leg.depth_mm - part.thickness_mm) return false;
        }
    }
    return true;
}

void addRemedies(const Part& part, const Legs& legs, std::size_t cut_out, const Nearness& near, Finding& finding) {
    const double by_mm = near.wanted_mm - near.distance_mm;
    if (!part.cut_outs[cut_out].is_notch && isClear(part, legs, cut_out, by_mm * near.away)) {
        finding.remedies.push_back(fmt::format("move it {} mm away from the bend", roundedUp(by_mm)));
    }
    finding.remedies.push_back(part.cut_outs[cut_out].round ? "drill it after folding" : "cut it after folding");
    if (!part.cut_outs[cut_out].round && near.distance_mm < 0) finding.remedies.push_back("leave tabs across it on the bend line and cut them out after folding");
}

Finding findingOf(const Part& part, const Legs& legs, BendId bend, std::size_t cut_out, const Nearness& near) {
    const NamedCutOut& named = part.cut_outs[cut_out];
    const bool inside = near.distance_mm < -kRounding_mm;
    Finding finding = startFinding(inside ? "hole.in-bend" : "hole.near-bend", inside && named.round ? Gravity::kFault : Gravity::kWarning, named.name, {bend});
    const std::string& bend_name = part.bend(bend).name;
    if (inside) {
        finding.words = named.round ? fmt::format("{} lies in bend {}: it is pulled oval and may tear", named.name, bend_name)
                                    : fmt::format("{} runs across bend {}: its edges flare out there", named.name, bend_name);
    } else {
        finding.words = fmt::format("{} is {} mm from the start of bend {}, wanted {} mm: {}", named.name, millimetres(near.distance_mm), bend_name, roundedUp(near.wanted_mm),
                                    named.round ? "it is pulled oval" : "its edge is pulled out of line");
    }
    finding.figures = {{"distance_mm", near.distance_mm, near.wanted_mm}};
    addRemedies(part, legs, cut_out, near, finding);
    return finding;
}

}  // namespace

void addHoleDistances(const Part& part, std::vector<Finding>& findings) {
    if (part.cut_outs.empty()) return;
    const Legs legs = legsOf(part);
    for (std::size_t cut_out = 0; cut_out < part.cut_outs.size(); ++cut_out) {
        if (part.cut_outs[cut_out].is_notch) continue;  // a notch by a bend's end is its relief
        for (std::size_t i = 0; i < part.bends.size(); ++i) {
            const auto near = nearness(part, legs[i], cut_out);
            if (near && isNear(*near)) findings.push_back(findingOf(part, legs, idAt<BendId>(i), cut_out, *near));
        }
    }
}

}  // namespace tinwright::forming
