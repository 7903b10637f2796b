// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/fold/engine/fold_engine.h>
#include <tinwright/sequence/states/oracle.h>

#include "shop/forbidden_strokes.h"
#include "shop/machine_states.h"
#include "shop/stroke_answers.h"
#include "shop/stroke_prices.h"

namespace tinwright {

/// Answers the search's questions about one part on one brake: possibility from the fold engine (StrokeAnswers), cost
/// from the shop's times (StrokePrices).
class ShopOracle final : public FoldOracle {
public:
    /// `radii_mm`: as FoldEngine; `material`: as partFindings().
    ShopOracle(const Part& part, const Shop& shop, const BrakeInSetup& brake, Demand demand = Demand::kPossible,
               const std::vector<double>& radii_mm = {}, const Material* material = nullptr);

    [[nodiscard]] std::size_t bendCount() const override { return part_->bends.size(); }
    [[nodiscard]] const std::vector<CandidateStroke>& candidates(BendMask formed) override;
    [[nodiscard]] const std::vector<CandidateStroke>& listed(BendMask formed) override {
        return answers_.listed(formed);
    }
    [[nodiscard]] const CandidateStroke& answered(BendMask formed, std::size_t index) override {
        return answers_.answered(formed, index);
    }
    [[nodiscard]] bool answersQuickly(BendMask formed, std::size_t index) override {
        return answers_.answersQuickly(formed, index);
    }
    [[nodiscard]] bool isAnswered(BendMask formed, std::size_t index) override {
        return answers_.isAnswered(formed, index);
    }
    [[nodiscard]] std::vector<CandidateStroke> strokes(BendMask formed) override { return answers_.strokes(formed); }
    [[nodiscard]] std::vector<BendMask> lines(BendMask formed) override { return engine_.lines(formed); }
    [[nodiscard]] StepCost cost(BendMask formed, MachineState before, const CandidateStroke& candidate) override;
    [[nodiscard]] std::vector<StepCost> costs(BendMask formed, MachineState before, const CandidateStroke& candidate,
                                              std::int64_t most_ms) override;
    bool share(const std::vector<MachineState>& after) override { return prices_.share(after); }
    [[nodiscard]] std::uint64_t heldBytes() const override;
    [[nodiscard]] std::uint32_t setUp(MachineState state) const override { return states_.setupIn(state); }
    [[nodiscard]] std::unique_ptr<RestBound> restBound(const std::vector<StepFamily>& families,
                                                       BendMask start) override;
    [[nodiscard]] std::int64_t timeLowerBound_ms(BendId) const override { return prices_.timeLowerBound_ms(); }
    [[nodiscard]] std::int32_t piecesLowerBound(BendId) const override { return 1; }
    [[nodiscard]] Spoils spoilsLowerBound(BendId bend) override { return prices_.spoilsLowerBound(bend); }
    [[nodiscard]] Spoils spoilsLowerBound(const Stroke& stroke) override { return prices_.spoilsLowerBound(stroke); }
    [[nodiscard]] bool linesNeverCoincide() const override { return never_coincide_; }
    [[nodiscard]] BendMask mayShareStroke(BendId bend) const override { return may_share_stroke_[bend.index()]; }
    [[nodiscard]] std::uint32_t kind(BendId bend) const override { return kinds_[bend.index()]; }
    [[nodiscard]] ForbiddenStroke why(BendMask formed, const Stroke& stroke) override;

    [[nodiscard]] FoldEngine& engine() { return engine_; }
    [[nodiscard]] StrokeAnswers& answers() { return answers_; }
    [[nodiscard]] StrokePrices& prices() { return prices_; }
    /// A step of a plan: a candidate made with what stands before and after it. `formed_lines_mm`: as FoldEngine.
    [[nodiscard]] FoldStep describe(const CandidateStroke& candidate, MachineState before, MachineState after,
                                    const std::vector<double>& formed_lines_mm);

private:
    [[nodiscard]] ForbiddenStroke findWhy(BendMask formed, const Stroke& stroke);

    const Part* part_;
    const Times* times_;
    FoldEngine engine_;
    MachineStates states_;
    StrokeAnswers answers_;
    StrokePrices prices_;
    ForbiddenStrokes forbidden_;
    bool never_coincide_ = true;
    std::vector<BendMask> may_share_stroke_;
    std::vector<std::uint32_t> kinds_;
};

}  // namespace tinwright
