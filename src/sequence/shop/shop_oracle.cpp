// SPDX-License-Identifier: GPL-3.0-or-later
#include "shop/shop_oracle.h"

#include <algorithm>

#include "shop/flange_kinds.h"
#include "shop/shop_rest_bound.h"

namespace tinwright {

ShopOracle::ShopOracle(const Part& part, const Shop& shop, const BrakeInSetup& brake, Demand demand,
                       const std::vector<double>& radii_mm, const Material* material)
    : part_(&part),
      times_(&shop.times),
      engine_(part, shop, brake, demand, radii_mm),
      answers_(engine_, states_),
      prices_(part, shop, brake, material, engine_, states_),
      forbidden_(part.bends.size()),
      kinds_(flangeKinds(part)) {
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        BendMask mask = 0;
        for (std::size_t k = 0; k < part.bends.size(); ++k) {
            if (engine_.mayShareStroke(idAt<BendId>(std::min(i, k)), idAt<BendId>(std::max(i, k))))
                mask |= bit(idAt<BendId>(k));
        }
        never_coincide_ = never_coincide_ && mask == bit(idAt<BendId>(i));
        may_share_stroke_.push_back(mask);
    }
}

const std::vector<CandidateStroke>& ShopOracle::candidates(BendMask formed) {
    const std::vector<CandidateStroke>& list = listed(formed);
    for (std::size_t i = 0; i < list.size(); ++i) static_cast<void>(answered(formed, i));
    return list;
}

ForbiddenStroke ShopOracle::why(BendMask formed, const Stroke& stroke) {
    if (const ForbiddenStroke* known = forbidden_.find(formed, stroke)) return *known;
    const ForbiddenStroke found = findWhy(formed, stroke);
    forbidden_.keep(found, stroke, allFormed(*part_));
    return found;
}

ForbiddenStroke ShopOracle::findWhy(BendMask formed, const Stroke& stroke) {
    if (auto apart = engine_.conflictSetOfLine(formed, stroke)) return *apart;
    const std::vector<CandidateStroke>& list = listed(formed);
    for (std::size_t i = 0; i < list.size(); ++i) {
        if (list[i] == stroke && answered(formed, i).answer == StrokeAnswer::kImpossible)
            return engine_.conflictSet(formed, stroke);
    }
    return FoldOracle::why(formed, stroke);  // undecided, or a stroke of a long line that is not tried
}

StepCost ShopOracle::cost(BendMask, MachineState before, const CandidateStroke& candidate) {
    return prices_.cost(before, answers_.of(candidate));
}

std::vector<StepCost> ShopOracle::costs(BendMask, MachineState before, const CandidateStroke& candidate,
                                        std::int64_t most_ms) {
    return prices_.costs(before, answers_.of(candidate), most_ms);
}

/// Measured on ladders, whose groups lie differently in nearly every state: records of groups are what takes the
/// memory.
std::uint64_t ShopOracle::heldBytes() const {
    constexpr std::uint64_t kBytesPerRecord = 3'500;
    constexpr std::uint64_t kBytesPerPair = 250;
    constexpr std::uint64_t kBytesPerStroke = 700;
    const FoldEngine::Work work = engine_.work();
    return work.records * kBytesPerRecord + work.pairs * kBytesPerPair +
           (answers_.count() + prices_.keptCount()) * kBytesPerStroke;
}

std::unique_ptr<RestBound> ShopOracle::restBound(const std::vector<StepFamily>& families, BendMask start) {
    return std::make_unique<ShopRestBound>(BoundQuestions{*part_, *times_, engine_, states_}, families, start);
}

FoldStep ShopOracle::describe(const CandidateStroke& candidate, MachineState before, MachineState after,
                              const std::vector<double>& formed_lines_mm) {
    AnsweredStroke& stroke = answers_.of(candidate);
    FoldStep step = engine_.describe(stroke.formed, stroke.stroke, prices_.made(stroke, after), formed_lines_mm);
    const Handling how = prices_.handling(before, stroke);
    step.care = prices_.troubleOf(stroke, after).care;
    step.turn_deg = how.turn_deg;
    step.flip = how.flip;
    return step;
}

}  // namespace tinwright
