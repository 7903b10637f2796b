// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <map>
#include <optional>
#include <utility>
#include <vector>

#include <tinwright/brake/plan/plan.h>

#include "contact/stroke_scene.h"
#include "exits/rest_shadows.h"
#include "hems/hem_sweep.h"
#include "hems/hem_tools.h"
#include "setup/placed.h"
#include "stations/along_machine.h"

namespace tinwright {

/// Closes hems after their first fold, with the pieces that made it (NOTES.md, "Hems").
class HemCloser {
public:
    HemCloser(ContactCache& table, SceneBuilder& scenes, const Shop& shop);

    [[nodiscard]] bool concerns(const StrokeScene& fold) const {
        return part().bend(fold.bends.front().bend).hem.has_value();
    }

    /// Why the brake cannot make one of the hems of these bends, whatever else is folded; none when nothing speaks
    /// against it.
    [[nodiscard]] std::optional<NoHem> whyNot(const std::vector<BendId>& bends) const;

    /// Where the part lies then; none when the pieces as placed do not close the hems, or it is not shown that they do.
    /// With Certainty::kInner it is none only when that is proven. Precondition: concerns(fold).
    [[nodiscard]] std::optional<HemClosing> close(const AlongMachine& along, const StrokeScene& fold,
                                                  const Placed& placed, Certainty certainty);

    /// Why close() with Certainty::kOuter gives none.
    [[nodiscard]] ClosingTrouble trouble(const StrokeScene& fold, const Placed& placed);

private:
    /// What is closed in one state, whatever stands.
    struct AtRest {
        StrokeScene scene;             // that holds the child
        std::vector<GroupUse> others;  // all but returns
        HemSize size;
        bool meets = false;  // a return something on its way, or perhaps
        bool surely_meets = false;
        std::array<BodyRef, 2> between;
    };
    [[nodiscard]] const AtRest& atRest(const StrokeScene& fold);
    void measure(AtRest& at_rest);
    void lookAtReturns(AtRest& at_rest);
    void lookAt(const StrokeBend& own, const GroupUse& use, AtRest& at_rest);
    [[nodiscard]] IntervalSet met(const AtRest& at_rest, const std::vector<ToolMove>& moves);
    [[nodiscard]] IntervalSet metByPieces(const AtRest& at_rest, const HemTools& tools, std::size_t family, bool up);
    [[nodiscard]] std::optional<Micron> place(const AlongMachine& along, const AtRest& at_rest, const Placed& placed,
                                              const HemTools& tools, bool up);
    [[nodiscard]] const Part& part() const { return table_.bodies().part(); }

    ContactCache& table_;
    SceneBuilder& scenes_;
    const Shop* shop_;
    GroupShadows groups_;
    std::map<std::pair<BendMask, BendMask>, AtRest> at_rest_;  // by state and bends
    std::map<BendId, HemSweep> sweeps_;
};

}  // namespace tinwright
