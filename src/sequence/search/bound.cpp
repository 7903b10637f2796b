// SPDX-License-Identifier: GPL-3.0-or-later
#include "search/bound.h"

#include <algorithm>

#include <tinwright/base/contract.h>

#include "states/bits.h"

namespace tinwright::search {

namespace {

BendMask familyOf(BendMask seed, const CoFoldable& co_foldable) {
    BendMask family = seed;
    for (BendMask grown = 0; grown != family;) {
        grown = family;
        forEachBend(grown, [&](std::size_t b) { family |= co_foldable.with[b]; });
    }
    return family;
}

}  // namespace

SharedSum::SharedSum(std::vector<std::int64_t> weights, const CoFoldable& co_foldable) : weights_(std::move(weights)) {
    for (BendMask rest = co_foldable.free(); rest != 0; rest &= ~families_.back()) {
        families_.push_back(familyOf(rest & -rest, co_foldable));
    }
    shares_.resize(weights_.size(), 0);
    forEachBend(co_foldable.free(), [&](std::size_t b) {
        TINWRIGHT_REQUIRE(weights_[b] >= 0, "no step takes less than nothing");
        shares_[b] = weights_[b] / co_foldable.largest[b];
    });
}

std::int64_t SharedSum::of(BendMask unformed) const {
    std::int64_t sum = 0;
    for (const BendMask family : families_) {
        std::int64_t largest = 0;
        std::int64_t shares = 0;
        forEachBend(family & unformed, [&](std::size_t b) {
            largest = std::max(largest, weights_[b]);
            shares += shares_[b];
        });
        sum += std::max(largest, shares);
    }
    return sum;
}

std::int64_t SharedSum::ofStep(BendMask bends) const {
    std::int64_t largest = 0;
    forEachBend(bends, [&](std::size_t b) { largest = std::max(largest, weights_[b]); });
    return largest;
}

namespace {

std::vector<std::int64_t> leastTimes(const FoldOracle& oracle) {
    std::vector<std::int64_t> times;
    for (std::size_t b = 0; b < oracle.bendCount(); ++b) times.push_back(oracle.timeLowerBound_ms(idAt<BendId>(b)));
    return times;
}

std::vector<std::int64_t> piecesLowerBound(const FoldOracle& oracle) {
    std::vector<std::int64_t> pieces;
    for (std::size_t b = 0; b < oracle.bendCount(); ++b) pieces.push_back(oracle.piecesLowerBound(idAt<BendId>(b)));
    return pieces;
}

Remaining plus(Remaining quick, const RestLowerBound& rest) {
    return {quick.spoils, quick.time_ms + rest.time_ms, quick.pieces + rest.pieces, rest.time_ms < kNever_ms};
}

}  // namespace

Bounds::Bounds(FoldOracle& oracle, const CoFoldable& co_foldable)
    : oracle_(oracle),
      co_foldable_(co_foldable),
      time_ms_(leastTimes(oracle), co_foldable),
      pieces_(piecesLowerBound(oracle), co_foldable) {}

bool Bounds::sharpen() {
    if (rest_) return false;
    rest_ = oracle_.restBound(families(), co_foldable_.start);
    return rest_ != nullptr;
}

std::vector<StepFamily> Bounds::families() const {
    std::vector<StepFamily> families;
    for (const BendMask bends : time_ms_.families())
        families.push_back({bends, time_ms_.of(bends) == time_ms_.ofStep(bends)});
    return families;
}

Remaining Bounds::quick(BendMask formed) const {
    const BendMask unformed = co_foldable_.all & ~formed;
    return {quickSpoils(unformed), time_ms_.of(unformed), pieces_.of(unformed)};
}

Spoils Bounds::quickSpoils(BendMask unformed) const {
    Spoils spoils;
    forEachBend(unformed, [&](std::size_t b) { spoils += oracle_.spoilsLowerBound(idAt<BendId>(b)); });
    return spoils;
}

Remaining Bounds::of(BendMask formed, MachineState machine_state) const {
    return rest_ ? plus(quick(formed), rest_->least(formed, machine_state)) : quick(formed);
}

Remaining Bounds::by(BendMask formed, MachineState machine_state, const CandidateStroke& candidate) const {
    Remaining remaining = quick(formed | candidate.bends);
    remaining.spoils += oracle_.spoilsLowerBound(candidate);
    remaining.time_ms += time_ms_.ofStep(candidate.bends);
    remaining.pieces += pieces_.ofStep(candidate.bends);
    return rest_ ? plus(remaining, rest_->leastBy(formed, machine_state, candidate)) : remaining;
}

}  // namespace tinwright::search
