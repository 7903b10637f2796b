// SPDX-License-Identifier: GPL-3.0-or-later
// Strokes over the tolerance box: FoldEngine::holding, and what Demand::kHolds makes of a check.
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
        return impossible(ReasonCode::kNotHeld);
    const auto kept = scenes.scene(formed, stroke);
    const StrokeScene& scene = *kept;
    if (!tolerances.membersHold(scene)) return impossible(ReasonCode::kNotHeld);
    if (judged(scene, placedOf(nominal)).holds) return nominal;
    if (!pairs(scene).near) {
        if (const auto placed = placer.place(askDemanded(scene, Certainty::kWanted)).placed)
            return resultOf(*placed, false);
    }
    if (const auto placed = placer.place(askDemanded(scene, Certainty::kOuter)).placed) return resultOf(*placed, true);
    return impossible(ReasonCode::kNotHeld);
}

std::optional<Reason> FoldEngine::Impl::whyNotHeld(BendMask formed, const Stroke& stroke) {
    const StrokeResult nominal = checkPossible(formed, stroke);
    if (nominal.answer != StrokeAnswer::kPossible) return std::nullopt;
    const auto kept = scenes.scene(formed, stroke);
    Holding holding;
    holding.looked_at = tolerances_known;
    if (tolerances_known) holding = judged(*kept, placedOf(nominal));
    Reason reason = reasonFor(ReasonCode::kNotHeld, formed, stroke);
    reason.panel = holding.between[0];
    reason.body = holding.between[1];
    reason.depth_mm = holding.lacks_mm;
    reason.holding = std::move(holding);
    return reason;
}

Holding FoldEngine::holding(BendMask formed, const Stroke& stroke, const StrokeResult& result) {
    return describe(formed, stroke, result).over_tolerances;
}

}  // namespace tinwright
