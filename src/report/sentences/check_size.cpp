// SPDX-License-Identifier: GPL-3.0-or-later
#include "sentences/check_size.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include <fmt/format.h>

#include <tinwright/brake/shop/tolerances.h>
#include <tinwright/part/allowance/allowance.h>

#include "words/words.h"

namespace tinwright::report {
namespace {

constexpr double kOnLeg_mm = 0.01;
constexpr double kLeastEdge_mm = 5;  // a shorter one is no place for a calliper
constexpr double kLegParallel = 1e-6;

struct Leg {
    const Part& part;
    const Bend& bend;
    BendMask formed;
    double radius_mm;
    Vec2 out;  ///< away from the bend

    [[nodiscard]] double distance(const Vec2& p) const { return out.dot(p - bend.origin); }
};

struct FarEnd {
    double at_mm = 0;    ///< from the bend line, in the blank
    double more_mm = 0;  ///< to the outside of what is folded there
    std::string what;
};

double setback(const Leg& leg, const Bend& bend) {
    return setback_mm(Face::kOutside, bend.angle, bend.hem ? 0.5 * bend.hem->gap_mm : leg.radius_mm,
                      leg.part.thickness_mm);
}

/// The far end of a panel: its edge, a formed bend, or, past a flat bend, the far end of the panel behind that.
std::optional<FarEnd> farEnd(const Leg& leg, PanelId panel, const Bend* came_by) {
    for (std::size_t i = 0; i < leg.part.bends.size(); ++i) {
        const Bend& next = leg.part.bends[i];
        if (&next == came_by || (next.parent != panel && next.child != panel)) continue;
        const Vec2 away = next.parent == panel ? next.toward_child : Vec2(-next.toward_child);
        if (away.dot(leg.out) < 1 - kLegParallel) continue;
        const PanelId beyond = next.parent == panel ? next.child : next.parent;
        if (!contains(leg.formed, idAt<BendId>(i))) return farEnd(leg, beyond, &next);
        return FarEnd{leg.distance(next.origin) - 0.5 * next.allowance_mm, setback(leg, next),
                      "the outside of " + leg.part.panel(beyond).name};
    }
    std::optional<FarEnd> end;
    for (const NamedEdge& edge : leg.part.edges) {
        if (edge.panel != panel || (edge.to - edge.from).norm() < kLeastEdge_mm) continue;
        if (std::abs(leg.distance(edge.from) - leg.distance(edge.to)) > kOnLeg_mm) continue;
        if (!end || leg.distance(edge.from) > end->at_mm) end = FarEnd{leg.distance(edge.from), 0, "edge " + edge.name};
    }
    return end;
}

std::string withTolerance(double size_mm, std::optional<double> tolerance_mm) {
    return tolerance_mm ? fmt::format("{} ±{} mm", millimetres(size_mm), millimetres(*tolerance_mm))
                        : millimetres(size_mm) + " mm";
}

}  // namespace

std::vector<CheckSize> checkSizes(const Part& part, BendId id, BendMask formed_after, double inside_radius_mm,
                                  std::optional<CutProcess> process) {
    const Bend& bend = part.bend(id);
    std::vector<CheckSize> sizes;
    for (const bool child : {true, false}) {
        const Leg leg{part, bend, formed_after, inside_radius_mm, child ? bend.toward_child : Vec2(-bend.toward_child)};
        const PanelId panel = child ? bend.child : bend.parent;
        const PanelId other = child ? bend.parent : bend.child;
        const std::optional<FarEnd> end = farEnd(leg, panel, &bend);
        if (!end || end->at_mm <= 0.5 * bend.allowance_mm) continue;
        const double size = end->at_mm - 0.5 * bend.allowance_mm + setback(leg, bend) + end->more_mm;
        const std::optional<double> tolerance = workingTolerance_mm(process, part.thickness_mm, size);
        sizes.push_back({panel, size, tolerance,
                         fmt::format("{}: {}, from the outside of {} to {}", part.panel(panel).name,
                                     withTolerance(size, tolerance), part.panel(other).name, end->what)});
    }
    return sizes;
}

}  // namespace tinwright::report
