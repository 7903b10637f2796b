// SPDX-License-Identifier: GPL-3.0-or-later
// Strokes over the tolerance box: FoldEngine::holding, and what Demand::kHolds makes of a check.
#include <fmt/format.h>

#include "engine/fold_engine_impl.h"

namespace tinwright {

Holding FoldEngine::Impl::judged(const StrokeScene& scene, const Placed& placed) {
    RestShadows before = placer.atRest(scene, Phase::kBefore);
    RestShadows after = placer.atRest(scene, Phase::kAfter);
    return tolerances.judge(scene, placed, placer.wayOut(before, placed, false), placer.wayOut(after, placed, false));
}

// What does not go as drawn need not be asked over the tolerances; what is not proven to go as drawn cannot be shown to
// hold.
StrokeResult FoldEngine::Impl::checkHolding(BendMask formed, const Stroke& stroke) {
    const StrokeResult nominal = checkPossible(formed, stroke);
    if (nominal.answer == StrokeAnswer::kImpossible) return nominal;
    if (nominal.answer == StrokeAnswer::kUndecided || !table.machine().knowsTolerances() || !tolerances_known)
        return impossible("not-held");
    const auto kept = scenes.scene(formed, stroke);
    const StrokeScene& scene = *kept;
    if (!tolerances.membersHold(scene)) return impossible("not-held");
    if (judged(scene, placedOf(nominal)).holds) return nominal;
    if (!pairs(scene).near) {
        if (const auto placed = placer.place(askDemanded(scene, Certainty::kWanted)).placed)
            return resultOf(*placed, false);
    }
    if (const auto placed = placer.place(askDemanded(scene, Certainty::kOuter)).placed) return resultOf(*placed, true);
    return impossible("not-held");
}

std::optional<Reason> FoldEngine::Impl::whyNotHeld(BendMask formed, const Stroke& stroke) {
    const StrokeResult nominal = checkPossible(formed, stroke);
    if (nominal.answer != StrokeAnswer::kPossible) return std::nullopt;
    const auto kept = scenes.scene(formed, stroke);
    Holding holding;
    holding.looked_at = tolerances_known;
    if (tolerances_known) holding = judged(*kept, placedOf(nominal));
    const Part& part = table.bodies().part();
    const Bend& first = part.bend(stroke.first());
    Reason reason;
    reason.formed = formed;
    reason.bends = bendList(stroke.bends);
    reason.hold = stroke.hold;
    reason.code = "not-held";
    reason.panel = holding.between[0];
    reason.body = holding.between[1];
    reason.depth_mm = holding.lacks_mm;
    const std::string& held = part.panel(heldPanel(first, stroke.hold)).name;
    if (table.machine().brake()->isPress()) reason.side = held + " at the back";
    std::string names;
    for (const BendId bend : bendsIn(stroke.bends)) names += (names.empty() ? "" : " + ") + part.bend(bend).name;
    if (holding.looked_at) {
        reason.words = fmt::format(
            "{}, holding {}: goes as drawn, but is not shown to hold over the tolerances with any bars tried; with the "
            "first that go it {}",
            names, held, toText(holding));
    } else {
        reason.words = fmt::format(
            "{}, {}: goes as drawn; whether it holds over the tolerances is not worked out for press brakes and parts "
            "with hems",
            names, reason.side.empty() ? "holding " + held : reason.side);
    }
    return reason;
}

Holding FoldEngine::holding(BendMask formed, const Stroke& stroke, const StrokeResult& result) {
    return describe(formed, stroke, result).over_tolerances;
}

}  // namespace tinwright
