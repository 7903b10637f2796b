// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/fold/fold_engine.h>

#include "bar_strings.h"
#include "placement.h"
#include "stroke_scene.h"
#include "touch_table.h"

namespace tinwright {

class FoldEngine::Impl {
public:
    Impl(const Part& part, const Shop& shop, const LeafBrake& brake)
        : table(part, shop, brake), scenes(table), strings(brake, shop.limits), placer(table, strings) {}

    /// Whether the moving side passes the held side.
    struct PairAnswer {
        bool hit = false;
        bool unclear = false;
        bool near = false;
    };
    [[nodiscard]] PairAnswer pairs(const StrokeScene& scene);
    /// False when a moving and a held group stay further apart than `margin_mm` whatever they do: by x, or by the rings about the
    /// swing's centre in which they stay.
    [[nodiscard]] bool couldMeet(const GroupUse& moving, const GroupUse& held, double margin_mm) const;
    /// Groups that the stroke's own strips join.
    [[nodiscard]] bool joined(const StrokeScene& scene, const GroupUse& moving, const GroupUse& held) const;
    [[nodiscard]] bool leafReachesAngle(const Stroke& stroke) const;
    [[nodiscard]] StrokeResult check(BendMask formed, const Stroke& stroke);
    /// Bends, none of the stroke's own, whose state settles how a group lies.
    [[nodiscard]] BendMask bendsOf(const StrokeScene& scene, const GroupUse& use) const;
    /// The scene with those groups alone that are settled by `known`.
    [[nodiscard]] StrokeScene settledBy(StrokeScene scene, BendMask known) const;
    [[nodiscard]] Placed placedOf(const StrokeResult& result) const;
    [[nodiscard]] std::string groupName(std::uint32_t record) const;

    TouchTable table;
    SceneBuilder scenes;
    BarStrings strings;
    Placer placer;
    std::uint64_t checks = 0;
};

}  // namespace tinwright
