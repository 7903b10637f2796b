// SPDX-License-Identifier: GPL-3.0-or-later
#include "shop/stroke_answers.h"

#include <utility>

namespace tinwright {

const std::vector<CandidateStroke>& StrokeAnswers::listed(BendMask formed) {
    auto& slot = lists_[formed];
    if (slot) return *slot;
    slot = std::make_unique<std::vector<CandidateStroke>>(strokes(formed));
    for (CandidateStroke& candidate : *slot) candidate.handle = kUnasked;
    return *slot;
}

const CandidateStroke& StrokeAnswers::answered(BendMask formed, std::size_t index) {
    CandidateStroke& candidate = lists_.at(formed)->at(index);
    if (candidate.handle < kTakesLong) return candidate;
    return keep(formed, candidate, engine_.check(formed, candidate));
}

CandidateStroke StrokeAnswers::asked(BendMask formed, const Stroke& stroke) {
    CandidateStroke candidate{stroke};
    return keep(formed, candidate, engine_.check(formed, stroke));
}

bool StrokeAnswers::answersQuickly(BendMask formed, std::size_t index) {
    CandidateStroke& candidate = lists_.at(formed)->at(index);
    if (candidate.handle != kUnasked) return candidate.handle != kTakesLong;
    if (auto result = engine_.checkQuickly(formed, candidate)) {
        keep(formed, candidate, std::move(*result));
        return true;
    }
    candidate.handle = kTakesLong;
    return false;
}

bool StrokeAnswers::isAnswered(BendMask formed, std::size_t index) const {
    return lists_.at(formed)->at(index).handle < kTakesLong;
}

const CandidateStroke& StrokeAnswers::keep(BendMask formed, CandidateStroke& candidate, StrokeResult result) {
    candidate.handle = static_cast<std::uint32_t>(asked_.size());
    candidate.answer = result.answer;
    const MachineStates::SetupId setup = states_.idOf(result.setup);
    asked_.push_back({formed, candidate, candidate.handle, std::move(result), setup});
    return candidate;
}

std::vector<CandidateStroke> StrokeAnswers::strokes(BendMask formed) {
    std::vector<CandidateStroke> list;
    bool all = true;
    for (const ListedStroke& listed : engine_.strokes(formed, all)) list.push_back({listed.stroke, listed.whole_line});
    all_listed_ = all_listed_ && all;
    return list;
}

}  // namespace tinwright
