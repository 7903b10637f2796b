// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <map>
#include <vector>

#include <tinwright/sequence/states/oracle.h>

namespace tinwright::test {

/// An oracle whose answers are functions, which counts what it is asked. Without further script: every bend alone on
/// its line, one hold, always possible, 1000 ms and 1 piece a step, clearance 1 mm.
class ScriptedOracle : public FoldOracle {
public:
    explicit ScriptedOracle(std::size_t bends) : bends_(bends) {}

    std::function<std::vector<BendMask>(BendMask formed)> script_lines;  ///< empty: every bend alone
    std::function<StrokeAnswer(BendMask formed, const Stroke& stroke)> script_answer = [](BendMask, const Stroke&) {
        return StrokeAnswer::kPossible;
    };
    std::function<StepCost(BendMask formed, MachineState before, const CandidateStroke& candidate)> script_cost =
        [](BendMask, MachineState, const CandidateStroke&) {
            return StepCost{1000, 1, false, 1000, 1};
        };
    std::function<std::int64_t(std::size_t bend)> script_least_ms = [](std::size_t) { return 0; };
    std::function<Spoils(std::size_t bend)> script_least_spoils = [](std::size_t) { return Spoils{}; };
    std::function<BendMask(std::size_t bend)> script_may_share_stroke;  ///< empty: what the interface has by default
    std::function<ForbiddenStroke(BendMask formed, const Stroke& stroke)> script_why;  ///< empty: what the interface
                                                                                       ///< has by default
    std::function<std::uint32_t(std::size_t bend)> script_kind;  ///< empty: every bend of its own kind
    int holds = 1;
    std::int32_t least_pieces = 0;
    bool never_coincide = false;

    std::map<BendMask, int> asked;  ///< how often strokes() was asked, by state
    std::uint64_t costs_asked = 0;
    std::uint64_t lines_asked = 0;

    [[nodiscard]] std::size_t bendCount() const override { return bends_; }
    [[nodiscard]] const std::vector<CandidateStroke>& candidates(BendMask formed) override;
    [[nodiscard]] const CandidateStroke& answered(BendMask formed, std::size_t index) override {
        return candidates_.at(formed)[index];
    }
    [[nodiscard]] std::vector<BendMask> lines(BendMask formed) override {
        ++lines_asked;
        return script_lines ? script_lines(formed) : singles(formed);
    }
    [[nodiscard]] StepCost cost(BendMask formed, MachineState before, const CandidateStroke& candidate) override {
        return ++costs_asked, script_cost(formed, before, candidate);
    }
    [[nodiscard]] std::int64_t timeLowerBound_ms(BendId bend) const override { return script_least_ms(bend.index()); }
    using FoldOracle::spoilsLowerBound;
    [[nodiscard]] Spoils spoilsLowerBound(BendId bend) override { return script_least_spoils(bend.index()); }
    [[nodiscard]] std::int32_t piecesLowerBound(BendId) const override { return least_pieces; }
    [[nodiscard]] bool linesNeverCoincide() const override { return never_coincide; }
    [[nodiscard]] BendMask mayShareStroke(BendId bend) const override {
        return script_may_share_stroke ? script_may_share_stroke(bend.index()) : FoldOracle::mayShareStroke(bend);
    }

    [[nodiscard]] ForbiddenStroke why(BendMask formed, const Stroke& stroke) override {
        return script_why ? script_why(formed, stroke) : FoldOracle::why(formed, stroke);
    }
    [[nodiscard]] std::uint32_t kind(BendId bend) const override {
        return script_kind ? script_kind(bend.index()) : bend.value;
    }

    [[nodiscard]] BendMask all() const { return (BendMask{1} << bends_) - 1; }
    [[nodiscard]] std::vector<BendMask> singles(BendMask formed) const;

private:
    std::size_t bends_;
    std::map<BendMask, std::vector<CandidateStroke>> candidates_;
};

}  // namespace tinwright::test
