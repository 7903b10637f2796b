// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <optional>
#include <unordered_map>
#include <vector>

#include <tinwright/sequence/states/oracle.h>

namespace tinwright::search {

/// The strokes of states, asked once for many oracles.
class StrokeLists {
public:
    explicit StrokeLists(FoldOracle& oracle) : oracle_(oracle) {}
    [[nodiscard]] const std::vector<CandidateStroke>& of(BendMask formed);
    [[nodiscard]] FoldOracle& oracle() { return oracle_; }

private:
    FoldOracle& oracle_;
    std::unordered_map<BendMask, std::unique_ptr<std::vector<CandidateStroke>>> lists_;  // looked up only, never walked
};

/// A part on which nothing is forbidden but certain strokes. Costs are not told.
class RelaxedOracle : public FoldOracle {
public:
    RelaxedOracle(StrokeLists& strokes, std::vector<ForbiddenStroke> forbidden_strokes)
        : strokes_(strokes), forbidden_(std::move(forbidden_strokes)) {}

    [[nodiscard]] std::size_t bendCount() const override { return strokes_.oracle().bendCount(); }
    [[nodiscard]] const std::vector<CandidateStroke>& candidates(BendMask formed) override;
    [[nodiscard]] std::vector<BendMask> lines(BendMask formed) override { return strokes_.oracle().lines(formed); }
    [[nodiscard]] StepCost cost(BendMask, MachineState, const CandidateStroke&) override { return {}; }
    [[nodiscard]] std::int64_t timeLowerBound_ms(BendId) const override { return 0; }
    [[nodiscard]] bool linesNeverCoincide() const override { return strokes_.oracle().linesNeverCoincide(); }
    [[nodiscard]] BendMask mayShareStroke(BendId bend) const override { return strokes_.oracle().mayShareStroke(bend); }
    [[nodiscard]] ForbiddenStroke why(BendMask formed, const Stroke& stroke) override;

private:
    [[nodiscard]] const ForbiddenStroke* forbids(BendMask formed, const Stroke& stroke) const;
    [[nodiscard]] std::optional<ForbiddenStroke> heldNeitherWay(BendMask formed, const Stroke& stroke) const;

    StrokeLists& strokes_;
    std::vector<ForbiddenStroke> forbidden_;
    std::unordered_map<BendMask, std::unique_ptr<std::vector<CandidateStroke>>> candidates_;  // looked up only, never
                                                                                              // walked
};

/// The real part, but `late` is not folded before `early` is.
class LateOracle : public FoldOracle {
public:
    LateOracle(FoldOracle& real, BendId late, BendId early) : real_(real), late_(late), early_(early) {}

    [[nodiscard]] std::size_t bendCount() const override { return real_.bendCount(); }
    [[nodiscard]] const std::vector<CandidateStroke>& candidates(BendMask formed) override;
    [[nodiscard]] const std::vector<CandidateStroke>& listed(BendMask formed) override;
    [[nodiscard]] const CandidateStroke& answered(BendMask formed, std::size_t index) override;
    [[nodiscard]] std::vector<BendMask> lines(BendMask formed) override { return real_.lines(formed); }
    [[nodiscard]] StepCost cost(BendMask, MachineState, const CandidateStroke&) override { return {}; }
    [[nodiscard]] std::int64_t timeLowerBound_ms(BendId) const override { return 0; }
    [[nodiscard]] bool linesNeverCoincide() const override { return real_.linesNeverCoincide(); }
    [[nodiscard]] BendMask mayShareStroke(BendId bend) const override { return real_.mayShareStroke(bend); }
    [[nodiscard]] ForbiddenStroke why(BendMask formed, const Stroke& stroke) override;
    /// The wish itself, as it comes back from `why`.
    [[nodiscard]] bool isWish(const ForbiddenStroke& forbidden) const {
        return contains(forbidden.bends, late_) && !forbidden.any_company && forbidden.formed == 0 &&
               forbidden.mask == (bit(early_) & ~forbidden.bends);
    }

private:
    [[nodiscard]] bool tooEarly(BendMask formed, BendMask bends) const {
        return contains(bends, late_) && !contains(formed, early_);
    }

    FoldOracle& real_;
    BendId late_;
    BendId early_;
    std::unordered_map<BendMask, std::unique_ptr<std::vector<CandidateStroke>>> candidates_;  // looked up only, never
                                                                                              // walked
};

}  // namespace tinwright::search
