// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <deque>
#include <memory>
#include <optional>
#include <unordered_map>
#include <vector>

#include <tinwright/brake/plan/plan_time.h>
#include <tinwright/fold/engine/fold_engine.h>
#include <tinwright/forming/checks/stroke_troubles.h>
#include <tinwright/sequence/states/oracle.h>

#include "shop/machine_states.h"

namespace tinwright {

/// What is worked out of a stroke with one set-up when it is first asked for (StrokePrices).
struct OfSetup {
    std::int64_t clearance_um = -1;  ///< -1 before
    std::optional<GaugeWork> gauge = std::nullopt;
    std::optional<StrokeTrouble> trouble = std::nullopt;
};

/// A stroke that was asked, with all that does not depend on what stands before it.
struct AnsweredStroke {
    BendMask formed = 0;
    Stroke stroke;
    std::uint32_t handle = 0;          ///< CandidateStroke::handle
    StrokeResult fresh;                ///< with a set-up of its own
    MachineStates::SetupId setup = 0;  ///< that
    OfSetup of = {};                   ///< of `fresh`
    /// Set-ups with tools of one section alone, but for that of `fresh`.
    std::optional<std::vector<MachineStates::SetupId>> by_section = std::nullopt;
    int larger_behind = -1;                 ///< StepCost::larger_behind; -1: not asked yet
    MachineStates::PoseId pose_before = 0;  ///< how the part lies; 0: not asked yet
    MachineStates::PoseId pose_after = 0;
};

/// The strokes of each state, asked of the fold engine when their turn comes, each once.
class StrokeAnswers {
public:
    StrokeAnswers(FoldEngine& engine, MachineStates& states) : engine_(engine), states_(states) {}

    [[nodiscard]] const std::vector<CandidateStroke>& listed(BendMask formed);
    [[nodiscard]] const CandidateStroke& answered(BendMask formed, std::size_t index);
    /// Of a stroke that need not be listed: of a long line not all are. Its bends can be pressed together.
    [[nodiscard]] CandidateStroke asked(BendMask formed, const Stroke& stroke);
    [[nodiscard]] bool answersQuickly(BendMask formed, std::size_t index);
    [[nodiscard]] bool isAnswered(BendMask formed, std::size_t index) const;
    [[nodiscard]] std::vector<CandidateStroke> strokes(BendMask formed);
    /// False when some line had so many bends that not all of its subsets were listed.
    [[nodiscard]] bool allListed() const { return all_listed_; }

    /// Of a candidate that is answered.
    [[nodiscard]] AnsweredStroke& of(const CandidateStroke& candidate) { return asked_[candidate.handle]; }
    [[nodiscard]] std::size_t count() const { return asked_.size(); }

private:
    // The handles of strokes that are not answered yet: never asked, or left open since the answer takes long.
    static constexpr std::uint32_t kUnasked = ~std::uint32_t{0};
    static constexpr std::uint32_t kTakesLong = kUnasked - 1;
    const CandidateStroke& keep(BendMask formed, CandidateStroke& candidate, StrokeResult result);

    FoldEngine& engine_;
    MachineStates& states_;
    bool all_listed_ = true;
    std::unordered_map<BendMask, std::unique_ptr<std::vector<CandidateStroke>>> lists_;  // looked up only, never walked
    std::deque<AnsweredStroke> asked_;                                                   // by handle
};

}  // namespace tinwright
