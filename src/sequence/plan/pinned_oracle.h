// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <optional>
#include <unordered_map>
#include <vector>

#include <tinwright/fold/engine/fold_engine.h>
#include <tinwright/sequence/plan/pins.h>
#include <tinwright/sequence/states/oracle.h>

namespace tinwright {

/// A part whose orders are pinned: strokes that break a pin are not listed, all else is as another oracle says. What is
/// a lower bound with all strokes is one without some of them.
///
/// A pin forbids a stroke as geometry does, by the state of a few bends (`why`); the two are told apart by who is
/// asked.
class PinnedOracle final : public FoldOracle {
public:
    /// `engine` knows how the bends of a stroke are held; it is one of those that `real` asks.
    PinnedOracle(FoldOracle& real, FoldEngine& engine, const Pins& pins) : real_(real), engine_(engine), pins_(pins) {}

    /// Precondition: the bends of the stroke lie on one line in the state.
    [[nodiscard]] bool allows(BendMask formed, const Stroke& stroke) { return !pinOn(formed, stroke); }

    [[nodiscard]] std::size_t bendCount() const override { return real_.bendCount(); }
    [[nodiscard]] const std::vector<CandidateStroke>& candidates(BendMask formed) override;
    [[nodiscard]] const std::vector<CandidateStroke>& listed(BendMask formed) override { return list(formed).strokes; }
    [[nodiscard]] const CandidateStroke& answered(BendMask formed, std::size_t index) override;
    [[nodiscard]] bool answersQuickly(BendMask formed, std::size_t index) override {
        return real_.answersQuickly(formed, list(formed).places[index]);
    }
    [[nodiscard]] bool isAnswered(BendMask formed, std::size_t index) override {
        return real_.isAnswered(formed, list(formed).places[index]);
    }
    [[nodiscard]] std::vector<CandidateStroke> strokes(BendMask formed) override;
    [[nodiscard]] std::vector<BendMask> lines(BendMask formed) override { return real_.lines(formed); }
    [[nodiscard]] StepCost cost(BendMask formed, MachineState before, const CandidateStroke& candidate) override {
        return real_.cost(formed, before, candidate);
    }
    [[nodiscard]] std::vector<StepCost> costs(BendMask formed, MachineState before, const CandidateStroke& candidate,
                                              std::int64_t most_ms) override {
        return real_.costs(formed, before, candidate, most_ms);
    }
    bool share(const std::vector<MachineState>& after) override { return real_.share(after); }
    [[nodiscard]] std::uint32_t setUp(MachineState machine_state) const override { return real_.setUp(machine_state); }
    [[nodiscard]] std::uint64_t heldBytes() const override { return real_.heldBytes(); }
    [[nodiscard]] std::unique_ptr<RestBound> restBound(const std::vector<StepFamily>& families,
                                                       BendMask start) override {
        return real_.restBound(families, start);
    }
    [[nodiscard]] std::int64_t timeLowerBound_ms(BendId bend) const override { return real_.timeLowerBound_ms(bend); }
    [[nodiscard]] std::int32_t piecesLowerBound(BendId bend) const override { return real_.piecesLowerBound(bend); }
    [[nodiscard]] Spoils spoilsLowerBound(BendId bend) override { return real_.spoilsLowerBound(bend); }
    [[nodiscard]] Spoils spoilsLowerBound(const Stroke& stroke) override { return real_.spoilsLowerBound(stroke); }
    [[nodiscard]] bool linesNeverCoincide() const override { return real_.linesNeverCoincide(); }
    [[nodiscard]] BendMask mayShareStroke(BendId bend) const override { return real_.mayShareStroke(bend); }
    [[nodiscard]] std::uint32_t kind(BendId bend) const override { return real_.kind(bend); }
    [[nodiscard]] ForbiddenStroke why(BendMask formed, const Stroke& stroke) override;

private:
    struct List {
        std::vector<CandidateStroke> strokes;
        std::vector<std::size_t> places;  // of each in the list of the other oracle
    };
    [[nodiscard]] List& list(BendMask formed);
    /// The pin that a stroke breaks, as what it forbids.
    [[nodiscard]] std::optional<ForbiddenStroke> pinOn(BendMask formed, const Stroke& stroke);
    [[nodiscard]] std::optional<ForbiddenStroke> pinOnOrder(BendMask formed, const Stroke& stroke) const;
    [[nodiscard]] std::optional<ForbiddenStroke> pinOnFirstHold(const Stroke& stroke) const;
    [[nodiscard]] std::optional<ForbiddenStroke> pinOnOtherHolds(BendMask formed, const Stroke& stroke);

    FoldOracle& real_;
    FoldEngine& engine_;
    const Pins& pins_;
    std::unordered_map<BendMask, std::unique_ptr<List>> lists_;  // looked up only, never walked
};

}  // namespace tinwright
