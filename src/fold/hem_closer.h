// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <tinwright/brake/plan.h>

#include "hem_sweep.h"
#include "hem_tools.h"
#include "lying_shadows.h"
#include "placed.h"
#include "stroke_scene.h"

namespace tinwright {

enum class Certainty : std::uint8_t;
class Placer;

/// Closes hems after their first fold, with the pieces that made it (NOTES.md, "Hems").
class HemCloser {
public:
    HemCloser(TouchTable& table, SceneBuilder& scenes, const Shop& shop);

    [[nodiscard]] bool concerns(const StrokeScene& fold) const {
        return part().bend(fold.bends.front().bend).hem.has_value();
    }

    /// Why the brake cannot make one of the hems of these bends, whatever else is folded; empty when nothing speaks
    /// against it.
    [[nodiscard]] std::string whyNot(const std::vector<BendId>& bends) const;

    /// Where the part lies then; none when the pieces as placed do not close the hems, or it is not shown that they do.
    /// With Certainty::kInner it is none only when that is proven. Precondition: concerns(fold).
    [[nodiscard]] std::optional<HemClosing> close(const Placer& placer, const StrokeScene& fold, const Placed& placed,
                                                  Certainty certainty);

    /// Why close() with Certainty::kOuter gives none, in words that go on from "the hem is not closed: ".
    [[nodiscard]] std::string trouble(const StrokeScene& fold, const Placed& placed);

private:
    /// What is closed in one state, whatever stands.
    struct Lying {
        StrokeScene scene;             // that holds the child
        std::vector<GroupUse> others;  // all but returns
        HemSize size;
        bool meets = false;  // a return something on its way, or perhaps
        bool surely_meets = false;
        std::string between[2];
    };
    [[nodiscard]] const Lying& lying(const StrokeScene& fold);
    void measure(Lying& lying);
    void lookAtReturns(Lying& lying);
    void lookAt(const StrokeBend& own, const GroupUse& use, Lying& lying);
    [[nodiscard]] IntervalSet met(const Lying& lying, const std::vector<ToolMove>& moves);
    [[nodiscard]] IntervalSet metByPieces(const Lying& lying, const HemTools& tools, std::size_t family, bool up);
    [[nodiscard]] std::optional<Micron> place(const Placer& placer, const Lying& lying, const Placed& placed,
                                              const HemTools& tools, bool up);
    [[nodiscard]] const Part& part() const { return table_.bodies().part(); }

    TouchTable& table_;
    SceneBuilder& scenes_;
    const Shop* shop_;
    GroupShadows groups_;
    std::map<std::pair<BendMask, BendMask>, Lying> lying_;  // by state and bends
    std::map<BendId, HemSweep> sweeps_;
};

}  // namespace tinwright
