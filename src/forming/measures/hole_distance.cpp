// SPDX-License-Identifier: GPL-3.0-or-later
#include "measures/hole_distance.h"

#include <fmt/format.h>

#include <tinwright/geometry/polygons.h>

#include "rules/wording.h"

namespace tinwright::forming {

namespace {

constexpr double kDistanceRounding_mm = 1e-6;

Box boxIn(const Leg& leg, const Polygon& on_blank) {
    Polygon seen;
    for (const Vec2& point : on_blank) seen.push_back(leg.fromBlank(point));
    return boxOf(seen);
}

std::optional<Nearness> nearnessMoved(const Part& part, const std::array<Leg, 2>& legs, std::size_t cut_out,
                                      const WantedDistance& wanted, const Vec2& by) {
    std::optional<Nearness> nearest;
    const Polygon outline = shifted(part.cut_outs[cut_out].outline, by);
    for (const Leg& leg : legs) {
        for (const LegCutOut& of_leg : leg.cut_outs) {
            if (of_leg.index != cut_out) continue;
            const Box box = boxIn(leg, outline);
            if (box.max().x() <= leg.from_mm || box.min().x() >= leg.to_mm) continue;
            Nearness here;
            here.distance_mm = box.min().y() - leg.strip_mm;
            here.wanted_mm = wanted(part.cut_outs[cut_out], box.max().x() - box.min().x(), leg);
            here.box = box;
            here.away = leg.y_axis;
            if (!nearest || here.distance_mm < nearest->distance_mm) nearest = here;
        }
    }
    return nearest;
}

bool isClear(const Part& part, const Legs& legs, std::size_t cut_out, const WantedDistance& wanted, const Vec2& by) {
    for (const std::array<Leg, 2>& both : legs) {
        const auto there = nearnessMoved(part, both, cut_out, wanted, by);
        if (there && there->isNear()) return false;
        for (const Leg& leg : both) {
            if (leg.panel != part.cut_outs[cut_out].panel) continue;
            if (boxIn(leg, shifted(part.cut_outs[cut_out].outline, by)).max().y() > leg.depth_mm - part.thickness_mm)
                return false;
        }
    }
    return true;
}

}  // namespace

bool Nearness::isInBend() const { return distance_mm < -kDistanceRounding_mm; }
bool Nearness::isNear() const { return distance_mm < wanted_mm - kDistanceRounding_mm; }

Legs legsOf(const Part& part) {
    Legs legs;
    for (std::size_t i = 0; i < part.bends.size(); ++i)
        legs.push_back({legOf(part, idAt<BendId>(i), Side::kParent), legOf(part, idAt<BendId>(i), Side::kChild)});
    return legs;
}

std::optional<Nearness> nearness(const Part& part, const std::array<Leg, 2>& legs, std::size_t cut_out,
                                 const WantedDistance& wanted) {
    return nearnessMoved(part, legs, cut_out, wanted, Vec2::Zero());
}

std::optional<std::string> moveAway(const Part& part, const Legs& legs, std::size_t cut_out, const Nearness& near,
                                    const WantedDistance& wanted) {
    const double by_mm = near.wanted_mm - near.distance_mm;
    if (part.cut_outs[cut_out].is_notch || !isClear(part, legs, cut_out, wanted, by_mm * near.away))
        return std::nullopt;
    return fmt::format("move it {} mm away from the bend", roundedUp(by_mm));
}

}  // namespace tinwright::forming
